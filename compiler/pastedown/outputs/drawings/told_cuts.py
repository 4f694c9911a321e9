"""Below a drawing: what is cut out of the piece, with sizes and places, in words."""

from collections.abc import Iterator, Sequence

from attrs import frozen

from pastedown.outputs.in_words import sentence
from pastedown.outputs.template.drawing import Words
from pastedown.outputs.template.wrap import lines_of

_SIZE = 2.5
_ROW = 3.5
_ABOVE = 1.5
# More would not fit on the page below the drawing.
_MOST = 6


@frozen
class ToldCuts:
    """The rows, each cut beginning one."""

    rows: tuple[str, ...]

    @property
    def height(self) -> float:
        return _ABOVE + _ROW * len(self.rows) if self.rows else 0.0

    def drawn(self, left: float, top: float) -> Iterator[Words]:
        """The rows with their upper left corner there."""
        for number, row in enumerate(self.rows):
            yield Words(row, left, top + _ABOVE + (number + 0.75) * _ROW, _SIZE)


def told_cuts(cuts: Sequence[str], room: float) -> ToldCuts:
    """The cuts in rows no wider than the room; of too many, where they stand."""
    if len(cuts) > _MOST:
        cuts = (f"{len(cuts)} cuts: their sizes and places stand in the cut list",)
    return ToldCuts(tuple(row for cut in cuts for row in lines_of(sentence(cut), _SIZE, room)))
