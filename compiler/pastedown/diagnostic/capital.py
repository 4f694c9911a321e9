"""The beginning of a sentence."""


def capital(words: str) -> str:
    """The words with a capital at their beginning and everything else as it was ("an amount of EUR")."""
    return words[:1].upper() + words[1:]
