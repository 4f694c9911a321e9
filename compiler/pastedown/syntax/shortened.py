"""Words of a recipe as they are quoted in a sentence."""

LONGEST = 40


def shortened(text: str) -> str:
    """A text on one line, and cut where nobody would read on."""
    single = " ".join(text[: 4 * LONGEST].split())
    return single if len(single) <= LONGEST and len(text) <= 4 * LONGEST else f"{single[:LONGEST]}..."
