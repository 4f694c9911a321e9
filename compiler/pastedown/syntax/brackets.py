"""Takes tokens, gives them with every bracket paired and none too deep, and tells of each bracket that was not paired.

Where a closing one is missing, an empty one is put in where it was most likely meant to stand, and the statement that
it belongs to is spoiled. One too many is left out.
"""

from collections import Counter
from collections.abc import Sequence

from attrs import define, field

from pastedown.diagnostic import Label, error
from pastedown.syntax.expected_words import found_words
from pastedown.syntax.faults import Faults
from pastedown.syntax.limits import MOST_NESTED
from pastedown.syntax.statement_heads import (
    OF_A_FILE,
    STATEMENT_WORDS,
    WITH_BRACES,
    begins_line,
    is_keyword_head,
    sets_a_path,
    type_at,
)
from pastedown.syntax.token import Token

CLOSING = {"LPAR": "RPAR", "LSQB": "RSQB", "LBRACE": "RBRACE"}
OPENING = {closing: opening for opening, closing in CLOSING.items()}
_SIGNS = {"LPAR": "(", "RPAR": ")", "LSQB": "[", "RSQB": "]", "LBRACE": "{", "RBRACE": "}"}


def pair_brackets(tokens: Sequence[Token], faults: Faults) -> list[Token]:
    """The tokens with balanced brackets."""
    return _Pairing(tokens, faults, Counter(token.type for token in tokens)).pair()


@define
class _Pairing:
    """`opened` holds the brackets open so far with the columns of their `lines`, `paired` the tokens kept so far.

    `awaited` is the word of a statement that needs braces and has not opened any yet.
    """

    tokens: Sequence[Token]
    faults: Faults
    numbers: Counter[str]
    opened: list[Token] = field(factory=list)
    paired: list[Token] = field(factory=list)
    lines: dict[int, int] = field(factory=dict)
    awaited: Token | None = None

    def pair(self) -> list[Token]:
        first_on_line = 0
        for at, token in enumerate(self.tokens):
            if begins_line(self.tokens, at):
                first_on_line = at
            if token.type in CLOSING:
                self.lines[id(token)] = self._column(self.tokens[first_on_line])
                self._open(at, token)
            elif token.type in OPENING:
                self._close(at, token)
            else:
                self._statement(at, token)
                self.paired.append(token)
        while self.opened:
            self._missing(None, self._last_word())
        return self.paired

    def _last_word(self) -> Token | None:
        return next((token for token in reversed(self.tokens) if token.text), None)

    def _open(self, at: int, token: Token) -> None:
        self._push(token)
        if token.type == "LBRACE" and type_at(self.tokens, at - 1) == "LBRACE" and self._balance("LBRACE") > 0:
            # Typed twice: nothing begins with a brace.
            self._missing(None)
            self.paired.pop()
        else:
            self.paired.append(token)
        self.awaited = None if token.type == "LBRACE" else self.awaited

    def _push(self, opening: Token) -> None:
        """One more is open. What was open too deep by then, in a file of brackets that fit nowhere, is closed first."""
        if len(self.opened) == MOST_NESTED:
            self._missing(opening)
        self.opened.append(opening)

    # ------------------------------------------------------------ a statement where a bracket is open

    def _statement(self, at: int, token: Token) -> None:
        """No statement stands in parentheses or square brackets, some stand in no braces, some need their own."""
        if token.type not in STATEMENT_WORDS | {"NAME"} or not self._begins_statement(at):
            return
        if self.awaited is not None and self._balance("LBRACE") < 0:
            self._missing_opening(self.awaited, token)
        self.awaited = token if token.type in WITH_BRACES else None
        while self.opened and self.opened[-1].type != "LBRACE":
            self._missing(token)
        if token.type in OF_A_FILE and self._balance("LBRACE") > 0:
            while self.opened:
                self._missing(token)

    def _begins_statement(self, at: int) -> bool:
        if self.tokens[at].type == "NAME":
            return sets_a_path(self.tokens, at)
        return is_keyword_head(self.tokens, at)

    # ------------------------------------------------------------ a closing bracket

    def _close(self, at: int, token: Token) -> None:
        wanted = OPENING[token.type]
        if token.type == "RBRACE":
            closes = self._close_brace(at, token)
        elif self.opened and self.opened[-1].type == wanted:
            closes = True
        else:
            closes = self._close_other(token, wanted)
        if token.type == "RBRACE":
            self.awaited = None
        if closes:
            self.opened.pop()
            self.paired.append(token)

    def _close_brace(self, at: int, token: Token) -> bool:
        """Whether this brace closes the last one opened, once what is open inside has been closed."""
        if not any(opened.type == "LBRACE" for opened in self.opened) or self._is_extra(at, token):
            self._stray(token)
            return False
        while self.opened[-1].type != "LBRACE":
            self._missing(token)
        while self._belongs_further_out(at, token):
            self._missing(token)
        return True

    def _is_extra(self, at: int, token: Token) -> bool:
        """With a closing brace too many in the file, the first that stands further in than what it would close."""
        if self._balance("LBRACE") >= 0 or not begins_line(self.tokens, at):
            return False
        return self._column(token) > self.lines[id(self._last_brace())]

    def _belongs_further_out(self, at: int, token: Token) -> bool:
        """With a closing brace too few, whether this one stands below the line of a brace opened before the last."""
        if self._balance("LBRACE") <= 0 or not begins_line(self.tokens, at):
            return False
        column = self._column(token)
        outer = [opened for opened in self.opened[:-1] if opened.type == "LBRACE"]
        return column < self.lines[id(self.opened[-1])] and any(self.lines[id(opened)] == column for opened in outer)

    def _close_other(self, token: Token, wanted: str) -> bool:
        """Whether `token` still closes something, once the difference has been told."""
        inside = []
        for opened in reversed(self.opened):
            if opened.type == wanted:
                break
            inside.append(opened)
        else:
            return self._mismatched_or_stray(token)
        if any(opened.type == "LBRACE" for opened in inside) and len(inside) > 1:
            return self._mismatched_or_stray(token)
        for _ in inside:
            self._missing(token)
        return True

    def _mismatched_or_stray(self, token: Token) -> bool:
        if not self.opened or self.opened[-1].type == "LBRACE" or self._is_surplus(token):
            self._stray(token)
            return False
        self._mismatched(self.opened[-1], token)
        self._put_in_closing(self.opened.pop(), token)
        return False

    def _is_surplus(self, token: Token) -> bool:
        """Whether the file has too many of these, and none too few of what would close the last one opened."""
        top = self.opened[-1].type
        return self._balance(OPENING[token.type]) < 0 and self._balance(top) <= 0

    def _balance(self, opening: str) -> int:
        """How many of these brackets the file opens more than it closes."""
        return self.numbers[opening] - self.numbers[CLOSING[opening]]

    # ------------------------------------------------------------ telling

    def _missing(self, before: Token | None, last: Token | None = None) -> None:
        """Close the last one opened. It was to be closed `before` this, or behind the `last` word of the file."""
        opened = self.opened.pop()
        sign = _SIGNS[CLOSING[opened.type]]
        labels = [Label(before.span, f"`{sign}` is missing before this")] if before and before.text else []
        if last is not None and last is not opened:
            labels.append(Label(last.span, f"the file ends here, and `{sign}` is still missing"))
        self.faults.tell(
            error(
                "missing-closing",
                opened.span,
                f"The `{opened.text}` opened here is never closed.",
                reason="What follows would belong to it.",
                way_out=f"Put `{sign}` where it ends.",
                labels=labels,
            )
        )
        self._put_in_closing(opened, before)
        self.numbers[opened.type] -= 1

    def _missing_opening(self, statement: Token, before: Token) -> None:
        last = self.paired[-1]
        self.faults.tell(
            error(
                "unexpected-word",
                last.span,
                f"After {found_words(last)} something is missing: `{{`.",
                reason=f"What belongs to `{statement.text}` stands in braces.",
                way_out="Put `{` before the first statement inside.",
                labels=[Label(before.span, "this seems to be the first")],
            )
        )
        opening = Token("LBRACE", "", last.source, last.end, last.end)
        opening.doubtful = True
        self.numbers["LBRACE"] += 1
        self.lines[id(opening)] = self._column(statement)
        self._push(opening)
        self.paired.append(opening)

    def _put_in_closing(self, opened: Token, before: Token | None) -> None:
        at = before.start if before else len(opened.source.text)
        closing = Token(CLOSING[opened.type], "", opened.source, at, at)
        closing.spoiled = True
        self.paired.append(closing)

    def _stray(self, token: Token) -> None:
        self.numbers[token.type] -= 1
        if self.paired:
            self.paired[-1].doubtful = True
        self.faults.tell(
            error(
                "stray-closing",
                token.span,
                f"This `{token.text}` closes nothing.",
                reason="It is not guessed what was meant to be inside.",
                way_out=f"Delete it, or put `{_SIGNS[OPENING[token.type]]}` where it should have been opened.",
            )
        )

    def _mismatched(self, opened: Token, token: Token) -> None:
        sign = _SIGNS[CLOSING[opened.type]]
        self.faults.tell(
            error(
                "mismatched-closing",
                token.span,
                f"This `{token.text}` closes what was opened with `{opened.text}`.",
                reason="One of the two is a slip, and which one decides what belongs together.",
                way_out=f"Write `{sign}` here, or `{_SIGNS[OPENING[token.type]]}` where it was opened.",
                labels=[Label(opened.span, "opened here")],
            )
        )

    # ------------------------------------------------------------ where things stand on their lines

    def _last_brace(self) -> Token:
        return next(opened for opened in reversed(self.opened) if opened.type == "LBRACE")

    def _column(self, token: Token) -> int:
        return token.source.line_and_column(token.start)[1]
