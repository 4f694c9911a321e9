"""A source text, and spans that say which words of it something stems from."""

from bisect import bisect_right
from functools import cached_property
from itertools import accumulate

from attrs import field, frozen


@frozen(eq=False)
class SourceText:
    """One file of recipe text.

    `name` is what a maker would call the file ("lantern.album"), never a path of the machine. Two texts are equal
    only if they are the same object: spans compare by offsets within one text.
    """

    name: str
    text: str = field(repr=False)

    @cached_property
    def _line_starts(self) -> list[int]:
        """The offset of each line. Found when first asked for: most texts have nothing to be told of."""
        lines = self.text.split("\n")
        return [0, *accumulate(len(line) + 1 for line in lines[:-1])]

    def line_and_column(self, offset: int) -> tuple[int, int]:
        """Line and column of a character offset, both counted from 1."""
        line = bisect_right(self._line_starts, offset)
        return line, offset - self._line_starts[line - 1] + 1

    def line(self, number: int) -> str:
        """The text of line `number` (from 1), without its line end."""
        start = self._line_starts[number - 1]
        end = self._line_starts[number] if number < len(self._line_starts) else len(self.text)
        return self.text[start:end].rstrip("\r\n")


@frozen
class Span:
    """The words from character `start` up to, not including, `end` of a source text."""

    source: SourceText
    start: int
    end: int

    @property
    def text(self) -> str:
        return self.source.text[self.start : self.end]

    @property
    def line(self) -> int:
        return self.source.line_and_column(self.start)[0]

    @property
    def column(self) -> int:
        return self.source.line_and_column(self.start)[1]

    def to(self, other: "Span") -> "Span":
        """The span from the start of this one to the end of `other`."""
        return Span(self.source, self.start, other.end)
