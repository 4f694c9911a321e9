"""From which side a line is scored.

A score is a groove on the side it is pressed into and a ridge on the other. Paper folds towards the ridge, so that it
lies inside the fold and the outside is stretched least. Source, Holmen paper academy, and a note on scoring by a maker
of printing machines. A mountain has its face outside, so it is scored from the face; a valley from the back.
"""

_SIDES = {"mountain": "face", "valley": "back"}


def scored_from(kind: str) -> str:
    """ "face" or "back" for a fold of this kind; "" for a line that is not scored."""
    return _SIDES.get(kind, "")
