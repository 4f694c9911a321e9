"""What a recipe means: files linked, names found, dimensions checked. Nothing is worked out here."""
