"""Takes the tokens of a file. Gives each number, text and name its value, and tells of every word that is written wrongly.

Afterwards a token that could not be read is spoiled, and a word whose meaning is plain in spite of its mistake has been
put right, so that the mistake is told once and the statement around it is still checked.
"""

from collections.abc import Sequence

from attrs import define, field

from pastedown.diagnostic import Diagnostic, error
from pastedown.quantity.literal import UNIT_NAMES
from pastedown.source import Span
from pastedown.syntax.explain import bad_slot
from pastedown.syntax.faults import Faults
from pastedown.syntax.hidden_characters import is_hidden
from pastedown.syntax.language import Language, Unexpected
from pastedown.syntax.read_names import is_plain, lone_unit, name_is_unit, odd_name, reserved_word
from pastedown.syntax.read_numbers import read_number
from pastedown.syntax.read_texts import read_text
from pastedown.syntax.statement_heads import DECLARING, STATEMENT_WORDS, is_keyword_head, type_at
from pastedown.syntax.token import UNKNOWN, Token
from pastedown.syntax.unknown_characters import WITHOUT_MEANING, unknown_character
from pastedown.tree.expression import Expression

_UNITS = frozenset(UNIT_NAMES)
# After these a value is wanted, or a name.
_VALUE_FOLLOWS = frozenset(
    {"EQUAL", "LPAR", "LSQB", "COMMA", "PLUS_MINUS", "TIMES_OVER", "COMPARE", "LABEL", "COLON", "IS"}
)
_NAME_FOLLOWS = frozenset({"USE", "COMPONENT", "ALBUM", "VARIANT", "PART", "PIECE", "POSE", "EACH", "FIXED"})


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
            kind = token.type
            if kind == "NAME":
                self._name(at, token, token.text)
            elif kind == "DOTTED":
                self._name(at, token, token.text[1:].lstrip())
            elif kind == "LABEL":
                self._name(at, token, token.text[:-1].rstrip())
            elif kind == "QUANTITY":
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

    # ------------------------------------------------------------ names and words of the language

    def _name(self, at: int, token: Token, name: str) -> None:
        token.value = name
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
            self._spoil(token, lone_unit(token.span, name))

    def _keyword_as_name(self, at: int, token: Token, name: str) -> None:
        """A word of the language with a colon: right as a label, wrong as the name of what is declared."""
        if token.type == "LABEL" and type_at(self.tokens, at - 1) in DECLARING:
            self.faults.tell(reserved_word(token.word_span, name), name)
            self.faults.broken_words.add(name)

    def _keyword(self, at: int, token: Token) -> None:
        if token.type in STATEMENT_WORDS:
            self.in_takes = token.type == "TAKES"
        if self._stands_for_a_name(at, token):
            self.faults.tell(reserved_word(token.span, token.text), token.text)
            self.faults.broken_words.add(token.text)
            token.type, token.value = "NAME", token.text

    def _stands_for_a_name(self, at: int, token: Token) -> bool:
        before, after = type_at(self.tokens, at - 1), type_at(self.tokens, at + 1)
        statement_word = token.type in STATEMENT_WORDS
        if after == "EQUAL" or after == "DOTTED" or (after == "LSQB" and statement_word and token.type != "IF"):
            return True
        if before in _NAME_FOLLOWS:
            return True
        return before in _VALUE_FOLLOWS and not is_keyword_head(self.tokens, at) and statement_word

    # ------------------------------------------------------------ numbers and texts

    def _number(self, at: int, token: Token) -> None:
        if self._ends_in_a_name(at, token):
            return
        value, diagnostics = read_number(token)
        token.value = value
        for diagnostic in diagnostics:
            self.faults.tell(diagnostic)
        token.spoiled = value is None

    def _ends_in_a_name(self, at: int, token: Token) -> bool:
        """Whether what was taken for a unit is the name of the next fact: `pages = 2` and below it `g = 1 in`."""
        if type_at(self.tokens, at + 1) != "EQUAL":
            return False
        number, blank, name = _last_word(token.text)
        return name in _UNITS and ("\n" in blank or (blank != "" and not self.in_takes)) and number != ""

    def _text(self, at: int, token: Token) -> None:
        if type_at(self.tokens, at - 1) == "FROM" and ("{" in token.text or "}" in token.text):
            self._spoil(token, _braces_in_file_name(token))
            return
        token.value, diagnostics = read_text(token, self._slot)
        token.spoiled = token.value is None
        for diagnostic in diagnostics:
            self.faults.tell(diagnostic)

    def _slot(self, start: int, end: int) -> Expression | None:
        """The expression in a slot of a text. Its words are read by themselves; their mistakes are told with the file's."""
        source = self.tokens[0].source
        tokens = read_words(list(self.language.tokens(source, start, end)), self.language, self.faults)
        if any(token.spoiled for token in tokens):
            return None
        try:
            return self.language.slot(tokens)
        except Unexpected as stop:
            self.faults.tell(bad_slot(tokens, stop, self.language, Span(source, start - 1, end + 1)))
            return None

    # ------------------------------------------------------------ what has no place

    def _unknown(self, at: int, token: Token) -> bool:
        """Tells of a character without meaning; whether it can be left out."""
        hidden = is_hidden(token.text)
        if not hidden:
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
        number, blank, name = _last_word(token.text)
        middle = token.start + len(number)
        first = Token("QUANTITY", number, token.source, token.start, middle)
        second = Token("NAME", name, token.source, middle + len(blank), token.end)
        second.value = name
        first.value, diagnostics = read_number(first)
        first.spoiled = first.value is None
        for diagnostic in diagnostics:
            self.faults.tell(diagnostic)
        self.faults.tell(name_is_unit(second.span, name), name)
        self.faults.broken_words.add(name)
        return [first, second]


def _last_word(text: str) -> tuple[str, str, str]:
    """A quantity as its number, the blank after it and its unit."""
    name = text.split()[-1]
    number = text[: len(text) - len(name)]
    return number.rstrip(), number[len(number.rstrip()) :], name


def _braces_in_file_name(token: Token) -> Diagnostic:
    return error(
        "bad-slot",
        token.span,
        "The name of a file cannot have braces in it.",
        reason="Which files belong to a recipe must be known before anything is worked out.",
        way_out='Write the name as it is, as in `from "house.album"`.',
    )
