"""The booklet: all that a person holds while building, as one file to read on a screen and as one to print."""
