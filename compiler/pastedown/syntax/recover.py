"""Takes the tokens of a file that cannot be read as a whole. Gives those of the statements that can, and tells of each
that cannot why not: one message a mistake, every mistake in one run.

The file is cut where statements begin, and so is what stands in their braces. Each piece is tried with its braces
emptied, so a mistake in the braces of a component costs one statement and not the component.
"""

from collections.abc import Sequence

from attrs import define, frozen

from pastedown.syntax.brackets import CLOSING, pair_brackets
from pastedown.syntax.explain import explain
from pastedown.syntax.faults import Faults
from pastedown.syntax.language import Language, Unexpected
from pastedown.syntax.spelling import mend_spelling
from pastedown.syntax.statement_heads import is_head
from pastedown.syntax.token import Token


def readable_statements(tokens: Sequence[Token], language: Language, faults: Faults) -> list[Token]:
    """The tokens of all statements that can be read."""
    paired = pair_brackets(tokens, faults)
    mend_spelling(paired, language, faults)
    return _Recovery(paired, _partners(paired), language, faults).statements(0, len(paired))[0]


@frozen
class _Piece:
    """A piece of the file with its braces emptied, and the inside of each pair of braces as a range of tokens.

    `places` says for each pair how many of `tokens` stand before its inside.
    """

    tokens: list[Token]
    insides: list[tuple[int, int]]
    places: list[int]


@define
class _Recovery:
    tokens: list[Token]
    partners: dict[int, int]
    language: Language
    faults: Faults

    def statements(self, start: int, end: int) -> tuple[list[Token], frozenset[str]]:
        """What can be read of the tokens from `start` up to `end`, which stand outside all braces or fill a pair; and
        the first word classes of the statements among them that cannot."""
        kept: list[Token] = []
        lost: set[str] = set()
        for first, last in self._cuts(start, end):
            statement, without = self._statement(self._piece(first, last))
            kept += statement
            lost |= without
        return kept, frozenset(lost)

    def _statement(self, piece: _Piece) -> tuple[list[Token], frozenset[str]]:
        readable = self._is_readable(piece)
        read = [self.statements(start, end) for start, end in piece.insides]
        insides = [tokens for tokens, _ in read]
        lost = frozenset().union(*(without for _, without in read))
        head = piece.tokens[0].type
        # A run that lacks a panel would be another strip, and a piece that lacks a run has another size.
        if not readable or (head == "RUN" and lost) or (head == "PIECE" and "RUN" in lost):
            self._drop([piece.tokens, *insides])
            return [], frozenset({head})
        whole: list[Token] = []
        done = 0
        for place, inside in zip(piece.places, insides, strict=True):
            whole += piece.tokens[done:place] + inside
            done = place
        return whole + piece.tokens[done:], lost if head in ("EACH", "IF") else frozenset()

    def _is_readable(self, piece: _Piece) -> bool:
        if any(token.spoiled for token in piece.tokens):
            return False
        try:
            self.language.file(piece.tokens)
        except Unexpected as stop:
            if not self.faults.full and not any(token.doubtful for token in piece.tokens):
                self.faults.tell(explain(piece.tokens, stop, self.language))
            return False
        return True

    def _drop(self, ranges: list[list[Token]]) -> None:
        """Later stages must not complain of what is missing because of this."""
        words = (token.value for tokens in ranges for token in tokens)
        self.faults.broken_words.update(word for word in words if isinstance(word, str))

    # ------------------------------------------------------------ cutting

    def _cuts(self, start: int, end: int) -> list[tuple[int, int]]:
        """The ranges from one beginning of a statement to the next, outside all brackets."""
        heads = [start]
        at = start
        while at < end:
            if at > start and is_head(self.tokens, at):
                heads.append(at)
            at = self.partners.get(at, at) + 1
        return [(first, last) for first, last in zip(heads, [*heads[1:], end], strict=True) if first < last]

    def _piece(self, start: int, end: int) -> _Piece:
        tokens: list[Token] = []
        insides: list[tuple[int, int]] = []
        places: list[int] = []
        at = start
        while at < end:
            tokens.append(self.tokens[at])
            if self.tokens[at].type == "LBRACE":
                closing = self.partners[at]
                insides.append((at + 1, closing))
                places.append(len(tokens))
                at = closing
            else:
                at += 1
        return _Piece(tokens, insides, places)


def _partners(tokens: Sequence[Token]) -> dict[int, int]:
    """The place of the closing bracket for the place of each opening one."""
    opened: list[int] = []
    partners: dict[int, int] = {}
    for at, token in enumerate(tokens):
        if token.type in CLOSING:
            opened.append(at)
        elif token.type in CLOSING.values():
            partners[opened.pop()] = at
    return partners
