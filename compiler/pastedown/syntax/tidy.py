"""Takes a file, gives it in the usual layout: a line a statement, two blanks for each open brace, numbers in one form.

Afterwards the file means what it meant and has every comment that it had, and to tidy it again changes nothing.
"""

from collections.abc import Iterator, Sequence

from attrs import define, field, frozen

from pastedown.diagnostic import Diagnostic
from pastedown.source import SourceText
from pastedown.syntax.language import COMMENT, language
from pastedown.syntax.limits import MOST_LETTERS, too_long_layout
from pastedown.syntax.parse import parse
from pastedown.syntax.statement_heads import MAY_END, STATEMENT_WORDS
from pastedown.syntax.tidy_words import pieces_of_text, tidy_word
from pastedown.syntax.token import Token

MOST_COLUMNS = 120
INDENT = "  "
# What goes on on the next line stands further in than a statement in braces would.
CONTINUED = 2

_NOTHING_BEFORE = frozenset({"COMMA", "RPAR", "RSQB", "DOTTED", "COLON"})
_NOTHING_AFTER = frozenset({"LPAR", "LSQB"})
_INDEXED_OR_CALLED = frozenset({"NAME", "DOTTED", "RSQB"})
_SET_APART = frozenset({"COMPONENT", "ALBUM", "VARIANT"})
# A text goes to a line of its own after its equals sign, and its words are parted, only where nothing else helps.
_BEFORE_A_TEXT = 1_000
_WITHIN_A_TEXT = 2_000


@frozen
class Tidied:
    """The text of a file in its usual layout. With `errors` it is the text as it was, and these say why."""

    text: str
    errors: tuple[Diagnostic, ...] = ()


def tidy(source: SourceText, grammar: str) -> Tidied:
    """A file in its usual layout, or as it is where it cannot be read without an error.

    Raises ValueError if the result would not be the same recipe: a fault of this module, after which nothing may be
    written.
    """
    result = parse(source, grammar)
    if any(told.is_error for told in result.diagnostics):
        return Tidied(source.text, result.diagnostics)
    layout = _Layout(source.text)
    for token in language(grammar).all_tokens(source):
        layout.comment(token) if token.type == COMMENT else layout.word(token)
    layout.end_line()
    text = "".join(f"{line}\n" for line in layout.lines)
    if len(text) > MOST_LETTERS:
        return Tidied(source.text, (too_long_layout(source, len(text)),))
    if parse(SourceText(source.name, text), grammar).statements != result.statements:
        raise ValueError("the usual layout of this file would be another recipe")
    return Tidied(text)


@frozen
class _Group:
    """Words that stay on one line. The line may be broken before them; the lower the `level`, the rather."""

    level: int
    words: str


@define
class _Layout:
    """The lines so far, and the line being written as `groups` of words between which it may be broken.

    `before` is the type of the last token that was no comment, `end` where the last token of any kind ended.
    """

    text: str
    lines: list[str] = field(factory=list)
    groups: list[_Group] = field(factory=list)
    depth: int = 0
    line_depth: int = 0
    opened: list[str] = field(factory=list)
    before: str = ""
    before_is_sign: bool = False
    just_opened: bool = False
    end: int = 0

    def word(self, token: Token) -> None:
        kind = token.type
        if kind == "RBRACE":
            self.depth -= 1
            if self.before != "LBRACE" or not self.groups:
                self.end_line()
        elif self._begins_statement(kind):
            self.end_line()
            self._blank_line(token, set_apart=kind in _SET_APART and self.depth == 0)
        self._add(token)
        if kind == "LBRACE":
            self.depth += 1
        self._step_into(kind)
        self.before_is_sign = kind == "PLUS_MINUS" and (self.before not in MAY_END or self.before == "LBRACE")
        self.before, self.end, self.just_opened = kind, token.end, kind == "LBRACE"

    def comment(self, token: Token) -> None:
        """A comment stays on its line, or on a line of its own; what it stood in goes on below it."""
        words = token.text.rstrip()
        self.end_line()
        if self.lines and self._line_ends_before(token) == 0:
            self.lines[-1] += f"  {words}"
        else:
            self._blank_line(token)
            self.lines.append(INDENT * self.depth + words)
            self.just_opened = False
        self.end = token.end

    def end_line(self) -> None:
        """Writes out the line, broken where it is too long."""
        if self.groups:
            self.lines.append(self._filled(self.groups, INDENT * self.line_depth))
        self.groups = []

    def _filled(self, groups: Sequence[_Group], line: str) -> str:
        """Writes out what is full of `line` and the groups, and gives the rest, which is never empty."""
        continued = INDENT * (self.line_depth + CONTINUED)
        level = min((group.level for group in groups[1:]), default=0)
        for chunk in _chunks(groups, level):
            words = " ".join(group.words for group in chunk)
            begun = bool(line.strip())
            if len(line) + begun + len(words) <= MOST_COLUMNS:
                line += f" {words}" if begun else words
                continue
            if begun:
                self.lines.append(line)
                line = continued
            if len(chunk) == 1 or len(line) + len(words) <= MOST_COLUMNS:
                line += words
            else:
                line = self._filled(chunk, line)
        return line

    def _begins_statement(self, kind: str) -> bool:
        if self.opened and self.opened[-1] != "LBRACE":
            return False
        return kind in STATEMENT_WORDS or (kind == "NAME" and (self.before in MAY_END or not self.before))

    def _blank_line(self, token: Token, *, set_apart: bool = False) -> None:
        """Empty lines between statements become one; there is none at the beginning of what stands in braces."""
        if not self.lines or self.just_opened:
            return
        after_comment = self.lines[-1].lstrip().startswith("#")
        if self._line_ends_before(token) > 1 or (set_apart and not after_comment):
            self.lines.append("")

    def _line_ends_before(self, token: Token) -> int:
        """How many lines end between this token and the one before, or the comment before."""
        between = self.text[self.end : token.start]
        return between.replace("\r\n", "\n").replace("\r", "\n").count("\n")

    def _add(self, token: Token) -> None:
        words = pieces_of_text(token) if token.type == "TEXT" else (tidy_word(token),)
        if not self.groups:
            goes_on = token.type != "RBRACE" and not self._begins_statement(token.type)
            self.line_depth = self.depth + (CONTINUED if goes_on else 0)
            self.groups = [_Group(0, words[0])]
        elif self._is_apart(token.type) and self._may_break(token.type):
            self.groups.append(_Group(self._level(), words[0]))
        else:
            last = self.groups[-1]
            blank = " " if self._is_apart(token.type) else ""
            self.groups[-1] = _Group(last.level, f"{last.words}{blank}{words[0]}")
        self.groups += [_Group(_WITHIN_A_TEXT, word) for word in words[1:]]

    def _is_apart(self, kind: str) -> bool:
        """Whether a blank stands before this token."""
        if kind in _NOTHING_BEFORE or self.before in _NOTHING_AFTER or self.before_is_sign:
            return False
        if kind in ("LPAR", "LSQB"):
            return self.before not in _INDEXED_OR_CALLED
        return not (kind == "RBRACE" and self.before == "LBRACE")

    def _may_break(self, kind: str) -> bool:
        if kind == "TEXT":
            return self.before in MAY_END or self.before in ("COMMA", "EQUAL")
        return self.before == "COMMA" or kind == "BECAUSE"

    def _level(self) -> int:
        return _BEFORE_A_TEXT if self.before == "EQUAL" else sum(kind != "LBRACE" for kind in self.opened)

    def _step_into(self, kind: str) -> None:
        if kind in ("LPAR", "LSQB", "LBRACE"):
            self.opened.append(kind)
        elif kind in ("RPAR", "RSQB", "RBRACE"):
            self.opened.pop()


def _chunks(groups: Sequence[_Group], level: int) -> Iterator[Sequence[_Group]]:
    """The groups, divided where the line may be broken at this level."""
    start = 0
    for at in range(1, len(groups)):
        if groups[at].level <= level:
            yield groups[start:at]
            start = at
    yield groups[start:]
