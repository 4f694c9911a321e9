"""What a fault costs at the table, where it is not found before.

Common practice, no source: an album that does not close or go together is built again; a part that does not fit is made
again; a sheet is cut in vain. What is said of words, and what is no error, costs nothing yet.
"""

# The costliest first. Of a requirement of a recipe nothing more is known: it spoils a part.
ALBUM = frozenset({"runs-through", "too-tight", "close-misses", "close-looks-away", "join-misses", "two-heaps"})
PART = frozenset({"requirement-fails", "no-system-of-marks", "joined-to-nothing"})
SHEET = frozenset({"sheet-too-small", "against-grain", "nothing-within-raw-edges", "other-size-is-other-stock"})


def place_by_cost(id: str) -> int:
    """Where errors of this id stand among others, the costliest first; those that cost nothing yet stand last."""
    return next((place for place, ids in enumerate((ALBUM, PART, SHEET)) if id in ids), 3)
