"""Lengths that were moved to the marks of the maker's ruler, and fixed ones that were not: told, so that nobody is
surprised. Like moves of like parts are told once."""

from collections.abc import Iterator

from pastedown.diagnostic import Diagnostic, note, warning
from pastedown.fit.alike import the_same_goes_for
from pastedown.geometry.model import Model, Move
from pastedown.geometry.move_reason import why_moved
from pastedown.quantity.write import write


def look(model: Model) -> Iterator[Diagnostic]:
    """A note for each length that was moved, and for each fixed one that should have been. Where what was written would
    not have done either, the mark is another size than the maker had in mind: that is a warning."""
    alike: dict[tuple[object, ...], list[Move]] = {}
    for move in model.moves:
        alike.setdefault((move.component, move.name, move.written, move.mark), []).append(move)
    for move, *others in alike.values():
        tell = warning if move.as_written else note
        yield tell(
            "moved-to-mark",
            move.span,
            f"{move.path} goes from {write(move.written, model.ruler)} to {write(move.mark, model.ruler)}, a mark of "
            f"your ruler.{the_same_goes_for([other.path for other in others])}",
            reason=why_moved(move, model.ruler),
            way_out=f"Write {write(move.mark, model.ruler)}, if that is meant." if move.as_written else "",
        )
    for kept in model.kept_off_marks:
        yield note(
            "fixed-off-marks",
            kept.span,
            f"{kept.path} is fixed at {write(kept.value, model.ruler)}, where your ruler has no mark; "
            f"the nearest is {write(kept.nearest, model.ruler)}.",
            reason="What is fixed is never moved.",
        )
