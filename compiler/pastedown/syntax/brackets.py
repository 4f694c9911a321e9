"""Takes tokens, gives them with every bracket paired, and tells of each bracket that was not.

Where a closing one is missing, an empty one is put in where it was most likely meant to stand; one too many is left out.
Both spoil the statement that they belong to, and only that.
"""

from collections import Counter
from collections.abc import Sequence

from attrs import define, field

from pastedown.diagnostic import Label, error
from pastedown.source import Span
from pastedown.syntax.faults import Faults
from pastedown.syntax.statement_heads import OF_A_FILE, begins_line, is_keyword_head, may_follow_a_statement, type_at
from pastedown.syntax.token import Token

CLOSING = {"LPAR": "RPAR", "LSQB": "RSQB", "LBRACE": "RBRACE"}
OPENING = {closing: opening for opening, closing in CLOSING.items()}
_SIGNS = {"LPAR": "(", "RPAR": ")", "LSQB": "[", "RSQB": "]", "LBRACE": "{", "RBRACE": "}"}


def pair_brackets(tokens: Sequence[Token], faults: Faults) -> list[Token]:
    """The tokens with balanced brackets."""
    return _Pairing(tokens, faults, Counter(token.type for token in tokens)).pair()


@define
class _Pairing:
    """`opened` holds the brackets open so far, `paired` the tokens kept so far."""

    tokens: Sequence[Token]
    faults: Faults
    numbers: Counter[str]
    opened: list[Token] = field(factory=list)
    paired: list[Token] = field(factory=list)
    lines: dict[int, int] = field(factory=dict)

    def pair(self) -> list[Token]:
        first_on_line = 0
        for at, token in enumerate(self.tokens):
            if begins_line(self.tokens, at):
                first_on_line = at
            if token.type in CLOSING:
                self.lines[id(token)] = self._column(self.tokens[first_on_line])
                self.opened.append(token)
                self.paired.append(token)
            elif token.type in OPENING:
                self._close(at, token)
            else:
                if self.opened:
                    self._statement_inside(at, token)
                self.paired.append(token)
        while self.opened:
            self._missing(None)
        return self.paired

    # ------------------------------------------------------------ a statement where a bracket is open

    def _statement_inside(self, at: int, token: Token) -> None:
        """No statement stands in parentheses or square brackets, and some stand in no braces at all."""
        top = self.opened[-1].type
        if top == "LBRACE" and token.type not in OF_A_FILE:
            return
        if not self._begins_statement(at):
            return
        while self.opened and self.opened[-1].type != "LBRACE":
            self._missing(token)
        if token.type in OF_A_FILE and self.numbers["LBRACE"] > self.numbers["RBRACE"]:
            while self.opened:
                self._missing(token)

    def _begins_statement(self, at: int) -> bool:
        if self.tokens[at].type == "NAME":
            return type_at(self.tokens, at + 1) == "EQUAL" and may_follow_a_statement(self.tokens, at)
        return is_keyword_head(self.tokens, at)

    # ------------------------------------------------------------ a closing bracket

    def _close(self, at: int, token: Token) -> None:
        wanted = OPENING[token.type]
        if token.type == "RBRACE":
            if not self._close_brace(at, token):
                return
        elif not self.opened or self.opened[-1].type != wanted:
            if not self._close_other(token, wanted):
                return
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
        if self.numbers["RBRACE"] <= self.numbers["LBRACE"] or not begins_line(self.tokens, at):
            return False
        return self._column(token) > self.lines[id(self._last_brace())]

    def _belongs_further_out(self, at: int, token: Token) -> bool:
        """With a closing brace too few, whether this one stands below the line of a brace opened before the last."""
        if self.numbers["LBRACE"] <= self.numbers["RBRACE"] or not begins_line(self.tokens, at):
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
        if not self.opened or self.opened[-1].type == "LBRACE":
            self._stray(token)
            return False
        self._mismatched(self.opened[-1], token)
        self._put_in_closing(self.opened.pop(), token)
        return False

    # ------------------------------------------------------------ telling

    def _missing(self, before: Token | None) -> None:
        opened = self.opened.pop()
        sign = _SIGNS[CLOSING[opened.type]]
        labels = [Label(before.span, f"`{sign}` is missing before this")] if before and before.text else []
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

    def _put_in_closing(self, opened: Token, before: Token | None) -> None:
        at = before.start if before else len(opened.source.text)
        closing = Token(CLOSING[opened.type], "", opened.source, at, at)
        closing.spoiled = True
        self.paired.append(closing)

    def _stray(self, token: Token) -> None:
        self.numbers[token.type] -= 1
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
