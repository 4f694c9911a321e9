"""How sheets are cut into pieces: names, words and drawings."""
