"""What an output says when it needs a library that is not installed."""


class MissingLibrary(Exception):
    """An output cannot be made here. The text says which one, what to install, and what serves instead."""
