"""Every cut and every score falls on a mark of the maker's ruler.

What does not is told with the nearest mark and with the fact that had better be rounded: rounding the lines themselves
would make panels differ that have to match.
"""

from collections.abc import Iterator

from pastedown.diagnostic import Diagnostic, warning
from pastedown.fit.alike import the_same_goes_for
from pastedown.geometry.model import Model
from pastedown.geometry.piece import FlatPiece, OffMark
from pastedown.quantity.ruler import Ruler
from pastedown.quantity.write import write
from pastedown.source import Span

# Words longer than this are not written out again.
_LONGEST_WORDS = 60


def look(model: Model) -> Iterator[Diagnostic]:
    """A warning for each fact that puts cuts or scores between marks; a single one where the album names no ruler. What
    is fixed there on purpose has been told."""
    if not model.ruler_stated:
        yield from _no_ruler(model)
        return
    fixed = {kept.span for kept in model.kept_off_marks}
    alike: dict[tuple[Span, object], list[tuple[FlatPiece, OffMark]]] = {}
    for piece in model.pieces:
        for off in piece.off_marks:
            if off.span not in fixed:
                alike.setdefault((off.span, off.size), []).append((piece, off))
    for (piece, off), *others in alike.values():
        yield warning(
            "off-marks",
            off.span,
            _sentence(piece, off, model.ruler) + the_same_goes_for([other.path for other, _ in others]),
            reason=f"Your ruler has a mark every {write(model.ruler.marks, model.ruler)}, and what lies between two is "
            "guessed at.",
            way_out=_way_out(off, model.ruler),
        )


def _no_ruler(model: Model) -> Iterator[Diagnostic]:
    off_marks = [(piece, off) for piece in model.pieces for off in piece.off_marks]
    if not off_marks:
        return
    piece, off = off_marks[0]
    whole = all(each.at.millimetres.denominator == 1 for _, each in off_marks)
    yield warning(
        "ruler-not-stated",
        off.span,
        f"The album names no ruler, and on one with a mark every {write(model.ruler.marks, model.ruler)} the "
        f"{off.what} of {piece.path} lies between two marks.",
        reason="Without knowing your ruler, nobody can tell you lengths that you can measure.",
        way_out=f"State it in the braces of the album: ruler = {'millimetres to 1' if whole else 'inches to 1/32'}.",
    )


def _sentence(piece: FlatPiece, off: OffMark, ruler: Ruler) -> str:
    at, nearest = write(off.at, ruler), write(off.nearest, ruler)
    if not off.edge:
        return f"The {off.what} of {piece.path} is {at}, between two marks; the nearest is {nearest}."
    more = f" So do {off.count - 1} more." if off.count > 2 else " So does one more." if off.count == 2 else ""
    lies = f"The {off.what} of {piece.path} lies {at} from {off.edge}"
    return f"{lies}, between two marks; the nearest is {nearest}.{more}"


def _way_out(off: OffMark, ruler: Ruler) -> str:
    if off.size is None:
        return f"Round the lengths of {off.fact} to marks."
    size = write(off.size, ruler)
    if off.words == size or len(off.words) > _LONGEST_WORDS:
        return f"Round {off.fact}, which is {size}, to a mark."
    return f"Round {off.fact}, which is {size}: {off.words} rounded nearest to ruler.marks."
