"""The order of paths: names by alphabet, indexes by number, so that page[2] comes before page[10]."""

import re

_PARTS = re.compile(r"\d+|\D+")


def natural(path: str) -> tuple[tuple[int, int, str], ...]:
    """A key that sorts paths."""
    return tuple((0, int(part), "") if part.isdigit() else (1, 0, part) for part in _PARTS.findall(path))
