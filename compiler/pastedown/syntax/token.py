"""One word, number, text or sign of a recipe."""

from typing import ClassVar

from pastedown.source import SourceText, Span
from pastedown.tree.expression import Literal, SheetSize, Text

# What a number, a text or a name means, once it has been read. A name is its bare word, without dot or colon.
Value = Literal | SheetSize | Text | str

# The word class of a text whose closing quote is missing: no form of the grammar has it.
UNCLOSED = "UNCLOSED"
# The word class of a character that begins no word: no form of the grammar has it.
UNKNOWN = "UNKNOWN"


class Token:
    """`type` is the name of its word class in the grammar, `text` its letters in `source` from `start` up to `end`.

    `value` stands in numbers, texts and names once they have been read. `spoiled` is one of which a mistake has been
    told already: the statement that it belongs to cannot be used. Where one is `doubtful`, a mistake has been put right
    by guessing: if its statement cannot be read all the same, that is the same mistake. Mutable: there are very many.
    """

    __slots__ = ("doubtful", "end", "source", "spoiled", "start", "text", "type", "value")

    # The parser of lark asks the last token for these; spans are made from `start` and `end` instead.
    line: ClassVar[int] = 0
    column: ClassVar[int] = 0
    end_line: ClassVar[int] = 0
    end_column: ClassVar[int] = 0
    start_pos: ClassVar[int] = 0
    end_pos: ClassVar[int] = 0

    def __init__(self, type: str, text: str, source: SourceText, start: int, end: int) -> None:
        self.type = type
        self.text = text
        self.source = source
        self.start = start
        self.end = end
        self.value: Value | None = None
        self.spoiled = False
        self.doubtful = False

    @property
    def span(self) -> Span:
        return Span(self.source, self.start, self.end)

    @property
    def word_span(self) -> Span:
        """The span without the dot before a name and the colon after it."""
        if self.type == "LABEL":
            return Span(self.source, self.start, self.start + len(self.text[:-1].rstrip()))
        if self.type == "DOTTED":
            return Span(self.source, self.end - len(self.text[1:].lstrip()), self.end)
        return self.span

    def __repr__(self) -> str:
        return f"{self.type}({self.text!r})"
