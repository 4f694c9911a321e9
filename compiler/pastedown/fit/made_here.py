"""Points a fault of a library's line to the line of the maker's own file that makes the part, with the values given
there that it hangs on: those are what the maker can change."""

from pastedown.diagnostic import Label
from pastedown.geometry.making import Given, Making
from pastedown.quantity.ruler import Ruler
from pastedown.quantity.write import write

# So many values are named at most.
MOST_GIVEN = 8


def made_here(ruler: Ruler, *makings: Making | None) -> tuple[Label, ...]:
    """A label for what several sides or sums hang on, one a place; none for what the maker's own file says itself."""
    given: dict[Making, dict[Given, None]] = {}
    for making in filter(None, makings):
        bare = Making(making.path, span=making.span)
        given.setdefault(bare, {}).update(dict.fromkeys(making.given))
    return tuple(
        Label(making.span, _words(making.path, [*values], ruler), own=True) for making, values in given.items()
    )


def _stated(given: Given) -> str:
    return f" ({given.stated}, line {given.line})" if given.stated else ""


def _words(path: str, given: list[Given], ruler: Ruler) -> str:
    shown = given[:MOST_GIVEN]
    told = [f"{each.name} {write(each.value, ruler)}{_stated(each)}" for each in shown if not each.left]
    left = [f"{each.name} left at {write(each.value, ruler)}" for each in shown if each.left]
    words = f"{path} is made here" if path else "made here"
    values = ", ".join([*told, *left])
    return f"{words}: {values}" if values else words
