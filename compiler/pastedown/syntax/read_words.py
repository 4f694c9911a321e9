"""Takes the tokens of a file. Gives each number, text and name its value, and tells of every word written wrongly.

Afterwards a token that could not be read is spoiled, and a word whose meaning is plain in spite of its mistake has been
put right, so that the mistake is told once and the statement around it is still checked.
"""

from collections.abc import Sequence

from attrs import define, field

from pastedown.diagnostic import Diagnostic, error
from pastedown.diagnostic.nearest_name import nearest_name
from pastedown.quantity.literal import UNIT_NAMES
from pastedown.quantity.quantity import number
from pastedown.source import Span
from pastedown.syntax.explain import bad_slot
from pastedown.syntax.faults import Faults
from pastedown.syntax.hidden_characters import is_hidden
from pastedown.syntax.language import Language, Unexpected
from pastedown.syntax.mixed_up_signs import JOINING, NAME_FOLLOWS
from pastedown.syntax.quotes import end_of_bare_text, part_from_full_stop
from pastedown.syntax.read_names import (
    in_for_from,
    is_plain,
    lone_unit,
    name_is_unit,
    odd_name,
    reserved_word,
    text_without_quotes,
    unit_for_marks,
)
from pastedown.syntax.read_numbers import (
    currency_in_other_letters,
    point_after_name,
    range_with_points,
    read_number,
    sides_run_together,
)
from pastedown.syntax.read_texts import read_text
from pastedown.syntax.statement_heads import (
    DECLARING,
    STATEMENT_WORDS,
    after_path,
    begins_line,
    is_keyword_head,
    may_follow_a_statement,
    type_at,
)
from pastedown.syntax.token import UNKNOWN, Token, Value
from pastedown.syntax.unknown_characters import WITHOUT_MEANING, full_stop_after_unit, unknown_character
from pastedown.tree.expression import Expression, Literal, Text

_UNITS = frozenset(UNIT_NAMES)
# After these a value is wanted, or a name.
_VALUE_FOLLOWS = frozenset(
    {"EQUAL", "LPAR", "LSQB", "COMMA", "PLUS_MINUS", "TIMES_OVER", "COMPARE", "LABEL", "COLON", "IS"}
)
_NAMES = frozenset({"NAME", "LABEL"})


def read_words(tokens: Sequence[Token], language: Language, faults: Faults) -> list[Token]:
    """The tokens with their values. Some are left out (`;`), or stand for what was meant (`Panel` for `panel`)."""
    reader = _Reader(language, faults, list(tokens))
    return reader.read()


@define
class _Reader:
    """Goes through the tokens of one file, or of one slot, once."""

    language: Language
    faults: Faults
    tokens: list[Token]
    plain_names: set[str] = field(factory=set)
    in_takes: bool = False

    def read(self) -> list[Token]:
        left_out: set[int] = set()
        for at, token in enumerate(self.tokens):
            if at in left_out or (token.spoiled and token.type == "QUANTITY"):
                continue
            end = end_of_bare_text(self.tokens, at)
            if end:
                self._bare_text(token, self.tokens[end - 1])
                left_out.update(range(at + 1, end))
                continue
            kind = token.type
            if kind == "NAME":
                self._name(at, token, token.text)
            elif kind == "DOTTED" and _touches_number(self.tokens, at):
                # A full stop behind a unit, at the end of a line.
                self.faults.tell(full_stop_after_unit(Span(token.source, token.start, token.start + 1)), ".")
                part_from_full_stop(token)
                self._name(at, token, token.text)
            elif kind == "DOTTED":
                self._name(at, token, token.text[1:].lstrip())
            elif kind == "LABEL":
                self._name(at, token, token.text[:-1].rstrip())
            elif kind == "QUANTITY":
                if self._currency(at, token):
                    left_out.add(at + 1)
                    continue
                self._number(at, token)
            elif kind == "TEXT":
                self._text(at, token)
            elif kind == UNKNOWN:
                if self._unknown(at, token):
                    left_out.add(at)
            elif token.text in self.language.keywords:
                self._keyword(at, token)
            elif kind == "EQUAL":
                self.in_takes = False
        return self._split_units(left_out)

    def _bare_text(self, token: Token, last: Token) -> None:
        """From here on the token stands for all the words up to the last."""
        self.faults.tell(text_without_quotes(token.span.to(last.span)))
        token.type, token.end, token.text = "TEXT", last.end, token.source.text[token.start : last.end]
        token.spoiled, token.value = True, _stand_in(token)

    # ------------------------------------------------------------ names and words of the language

    def _name(self, at: int, token: Token, name: str) -> None:
        token.value = name
        if token.type == "NAME" and type_at(self.tokens, at + 1) == "LABEL" and nearest_name(name, ["takes"]):
            self.in_takes = True
        if name in self.plain_names:
            return
        if not is_plain(name):
            self._odd_name(at, token, name)
        elif name in _UNITS:
            self._unit_as_name(at, token, name)
        elif name in self.language.keywords:
            self._keyword_as_name(at, token, name)
        else:
            self.plain_names.add(name)

    def _odd_name(self, at: int, token: Token, name: str) -> None:
        meant = name.lower()
        keyword = token.type == "NAME" and self.language.types.get(meant)
        meant_name, diagnostic = odd_name(token, name)
        self.faults.tell(diagnostic, name)
        token.value = meant_name
        if keyword and type_at(self.tokens, at + 1) not in ("EQUAL", "DOTTED", "LSQB"):
            token.type, token.text = keyword, meant
        else:
            self.faults.broken_words.add(meant_name)

    def _unit_as_name(self, at: int, token: Token, name: str) -> None:
        before, after = type_at(self.tokens, at - 1), type_at(self.tokens, at + 1)
        if before in DECLARING or (token.type == "NAME" and after in ("EQUAL", "LSQB")):
            self.faults.tell(name_is_unit(token.word_span, name), name)
            self.faults.broken_words.add(name)
        elif token.type == "NAME":
            told = self._sides_before(at) or lone_unit(token.span, name)
            if before == "EQUAL" and self.tokens[at - 2].text in ("ruler", "show"):
                told = unit_for_marks(token.span, name, self.tokens[at - 2].text)
            if name == "in" and type_at(self.tokens, at - 2) == "EACH":
                told = in_for_from(token.span)
            self._spoil(token, told)

    def _sides_before(self, at: int) -> Diagnostic | None:
        """What to say of `12 in x12 in`, with its last word at `at`."""
        if type_at(self.tokens, at - 1) != "NAME" or type_at(self.tokens, at - 2) != "QUANTITY":
            return None
        return sides_run_together(self.tokens[at - 2], self.tokens[at - 1])

    def _keyword_as_name(self, at: int, token: Token, name: str) -> None:
        """A word of the language with a colon: right as a label, wrong as the name of what is declared."""
        if token.type == "LABEL" and type_at(self.tokens, at - 1) in DECLARING:
            self.faults.tell(reserved_word(token.word_span, name), name)
            self.faults.broken_words.add(name)

    def _keyword(self, at: int, token: Token) -> None:
        if token.type in STATEMENT_WORDS:
            self.in_takes = token.type == "TAKES"
        declared, used = self._is_declared(at, token), self._is_used(at, token)
        if declared or used:
            self.faults.tell(reserved_word(token.span, token.text), token.text)
            self.faults.broken_words.add(token.text)
            token.type, token.value, token.spoiled, token.doubtful = "NAME", token.text, used, True

    def _is_declared(self, at: int, token: Token) -> bool:
        """Whether a word of the language stands where only a name is declared or set."""
        before, after = type_at(self.tokens, at - 1), type_at(self.tokens, at + 1)
        if token.type in DECLARING and after in ("DOTTED", "LSQB"):
            after = type_at(self.tokens, after_path(self.tokens, at))
            return after in ("EQUAL", "WITH", "COLON") or not may_follow_a_statement(self.tokens, at)
        if before in NAME_FOLLOWS:
            return after == token.type if token.type in JOINING else after not in _NAMES
        if token.type in ("PART", "FIXED"):
            # With a name left out, as in `part = leaf()`.
            return False
        apart = before not in ("NAME", "DOTTED") or begins_line(self.tokens, at)
        return after == "EQUAL" and apart and may_follow_a_statement(self.tokens, at)

    def _is_used(self, at: int, token: Token) -> bool:
        """Whether a word that begins statements stands where a value is wanted."""
        wanted = type_at(self.tokens, at - 1) in _VALUE_FOLLOWS
        return wanted and token.type in STATEMENT_WORDS and not is_keyword_head(self.tokens, at)

    # ------------------------------------------------------------ numbers and texts

    def _number(self, at: int, token: Token) -> None:
        if self._ends_in_a_name(at, token):
            return
        before = self.tokens[at - 1] if at else None
        if before and token.text.startswith(".") and before.end == token.start and before.type in ("NAME", "DOTTED"):
            told = point_after_name(token, before.text + token.text, f"{before.text}[{token.text[1:]}]")
            self._set_value(token, None, (told,))
            return
        if token.text[-1] in "xX" and type_at(self.tokens, at + 1) == "QUANTITY":
            sides = sides_run_together(token, self.tokens[at + 1])
            if sides is not None:
                self._spoil(token, sides)
                return
        self._set_value(token, *read_number(token))

    def _currency(self, at: int, token: Token) -> bool:
        """Whether the word behind a number is one for money; with it the two are one amount."""
        if type_at(self.tokens, at + 1) != "NAME" or type_at(self.tokens, at + 2) == "EQUAL":
            return False
        word = self.tokens[at + 1]
        told = None if begins_line(self.tokens, at + 1) else currency_in_other_letters(token, word)
        if told is None:
            return False
        self._spoil(token, told)
        token.value = _stand_in(token)
        return True

    def _ends_in_a_name(self, at: int, token: Token) -> bool:
        """Whether what was taken for a unit is the name of the next fact: `pages = 2` and below it `g = 1 in`."""
        if type_at(self.tokens, at + 1) != "EQUAL":
            return False
        amount, blank, name = _last_word(token.text)
        if begins_line(self.tokens, at + 1) and "\n" not in blank:
            # A name is missing before the equals sign.
            return False
        return name in _UNITS and ("\n" in blank or (blank != "" and not self.in_takes)) and amount != ""

    def _text(self, at: int, token: Token) -> None:
        if token.spoiled:
            token.value = _stand_in(token)
            return
        if type_at(self.tokens, at - 1) == "FROM" and ("{" in token.text or "}" in token.text):
            self._set_value(token, None, (_braces_in_file_name(token),))
            return
        self._set_value(token, *read_text(token, self._slot))

    def _set_value(self, token: Token, value: Value | None, told: tuple[Diagnostic, ...]) -> None:
        token.spoiled = token.spoiled or value is None
        token.value = _stand_in(token) if value is None else value
        for diagnostic in told:
            self.faults.tell(diagnostic)

    def _slot(self, start: int, end: int) -> Expression | None:
        """The expression in a slot of a text; its words are read by themselves."""
        source = self.tokens[0].source
        tokens = read_words(list(self.language.tokens(source, start, end)), self.language, self.faults)
        if any(token.spoiled for token in tokens):
            return None
        try:
            return self.language.slot(tokens)
        except Unexpected as stop:
            if not self.faults.full:
                self.faults.tell(bad_slot(tokens, stop, self.language, Span(source, start - 1, end + 1)))
            return None

    # ------------------------------------------------------------ what has no place

    def _unknown(self, at: int, token: Token) -> bool:
        """Tells of a character without meaning; whether it can be left out."""
        if token.text == "." and _is_range(self.tokens, at):
            rest = self.tokens[at + 1]
            self.faults.tell(range_with_points(token.span.to(rest.span)))
            token.spoiled = rest.spoiled = True
            return False
        hidden = is_hidden(token.text)
        if not hidden:
            if token.text == "." and _touches_number(self.tokens, at):
                self.faults.tell(full_stop_after_unit(token.span), token.text)
                return True
            self.faults.tell(unknown_character(token.span), token.text)
        token.spoiled = not hidden and token.text not in WITHOUT_MEANING
        return not token.spoiled

    def _spoil(self, token: Token, diagnostic: Diagnostic) -> None:
        self.faults.tell(diagnostic)
        token.spoiled = True

    def _split_units(self, left_out: set[int]) -> list[Token]:
        """The tokens without those left out, and with `2 g` before an equals sign as the two tokens that it is."""
        kept: list[Token] = []
        for at, token in enumerate(self.tokens):
            if at in left_out:
                continue
            if token.type != "QUANTITY" or token.value is not None or token.spoiled:
                kept.append(token)
                continue
            kept += self._number_and_name(token)
        return kept

    def _number_and_name(self, token: Token) -> list[Token]:
        amount, blank, name = _last_word(token.text)
        middle = token.start + len(amount)
        first = Token("QUANTITY", amount, token.source, token.start, middle)
        second = Token("NAME", name, token.source, middle + len(blank), token.end)
        second.value = name
        self._set_value(first, *read_number(first))
        self.faults.tell(name_is_unit(second.span, name), name)
        self.faults.broken_words.add(name)
        return [first, second]


def _last_word(text: str) -> tuple[str, str, str]:
    """A quantity as its number, the blank after it and its unit."""
    name = text.split()[-1]
    before = text[: len(text) - len(name)]
    amount = before.rstrip()
    return amount, before[len(amount) :], name


def _stand_in(token: Token) -> Value:
    """With a value of some kind it can be seen whether the file around a spoiled token is well formed."""
    return Text((), token.span) if token.type == "TEXT" else Literal(number(0), token.span)


def _braces_in_file_name(token: Token) -> Diagnostic:
    return error(
        "bad-slot",
        token.span,
        "The name of a file cannot have braces in it.",
        reason="Which files belong to a recipe must be known before anything is worked out.",
        way_out='Write the name as it is, as in `from "house.album"`.',
    )


def _touches_number(tokens: Sequence[Token], at: int) -> bool:
    return type_at(tokens, at - 1) == "QUANTITY" and tokens[at - 1].end == tokens[at].start


def _is_range(tokens: Sequence[Token], at: int) -> bool:
    """Whether two points stand between numbers, of which the second is read with the number."""
    if type_at(tokens, at + 1) != "QUANTITY":
        return False
    return tokens[at + 1].text.startswith(".") and tokens[at + 1].start == tokens[at].end
