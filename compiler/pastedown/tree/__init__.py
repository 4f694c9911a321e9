"""The shape of a recipe: expressions and statements as frozen values. Knows nothing of the parser nor of what names
mean."""
