"""Takes a place where the grammar could not go on. Gives what to tell the maker about it.

The usual slips have a sentence of their own, tried in order; the rest are told what was expected and what was found.
"""

from collections.abc import Callable, Sequence

from attrs import frozen

from pastedown.diagnostic import Diagnostic, Label, error
from pastedown.diagnostic.nearest_name import nearest_name
from pastedown.source import Span
from pastedown.syntax.expected_words import VALUE, expected_words, found_words
from pastedown.syntax.language import Language, Unexpected
from pastedown.syntax.read_names import reserved_word
from pastedown.syntax.read_numbers import decimal_comma
from pastedown.syntax.spelling import misspelt
from pastedown.syntax.statement_heads import STATEMENT_WORDS, may_follow_a_statement, type_at
from pastedown.syntax.token import Token

_UNREAD = "This statement cannot be used until it can be read; the others are checked all the same."


@frozen
class _Stop:
    """The token at `at` of a piece of the file, which may be one past its last, is none of those expected."""

    tokens: Sequence[Token]
    at: int
    expected: frozenset[str]
    language: Language

    @property
    def token(self) -> Token | None:
        return self.tokens[self.at] if self.at < len(self.tokens) else None

    @property
    def before(self) -> Token | None:
        return self.tokens[self.at - 1] if self.at > 0 else None

    def kind(self, offset: int = 0) -> str:
        return type_at(self.tokens, self.at + offset)


def explain(tokens: Sequence[Token], stop: Unexpected, language: Language) -> Diagnostic:
    """What is wrong with a piece of a file, given where reading it stopped."""
    place = _Stop(tokens, stop.at, stop.expected, language)
    for slip in _USUAL_SLIPS:
        found = slip(place)
        if found is not None:
            return found
    return _anything_else(place)


def bad_slot(tokens: Sequence[Token], stop: Unexpected, language: Language, slot: Span) -> Diagnostic:
    """What is wrong with the slot of a text; `slot` has its braces."""
    found = explain(tokens, stop, language)
    return error(
        "bad-slot",
        found.span or slot,
        f"The slot `{_short(slot.text)}` cannot be read: {_in_a_sentence(found.sentence)}",
        reason="What stands between braces in a text is worked out and put in its place: one measure, one name or one sum.",
        way_out=found.way_out or "Write one name or one sum, or double the braces if they are to be printed.",
        labels=found.labels,
    )


# -------------------------------------------------------------------- the usual slips


def _decimal_comma(stop: _Stop) -> Diagnostic | None:
    token, before = stop.token, stop.before
    if token is None or before is None or token.type != "COMMA" or stop.kind(1) != "QUANTITY":
        return None
    after = stop.tokens[stop.at + 1]
    if before.type != "QUANTITY" or before.end != token.start or token.end != after.start:
        return None
    if not before.text.isdigit() or not after.text[:1].isdigit():
        return None
    whole = Token("QUANTITY", f"{before.text},{after.text}", token.source, before.start, after.end)
    return decimal_comma(whole, whole.text)


def _point_after_name(stop: _Stop) -> Diagnostic | None:
    token, before = stop.token, stop.before
    if token is None or before is None or not token.text.startswith(".") or before.end != token.start:
        return None
    index = token.text[1:]
    return _unexpected(
        stop, f"`{_short(before.text + token.text)}` is no name.", f"To pick one of several write `{before.text}[{index}]`."
    )


def _equals_to_compare(stop: _Stop) -> Diagnostic | None:
    if stop.kind() != "EQUAL":
        return None
    if stop.kind(-1) == "EQUAL" or "IS" in stop.expected:
        return _unexpected(
            stop, "An equals sign sets a value; it does not compare.", "To ask whether two values are equal write `is`."
        )
    before = stop.before
    if before is not None and before.type == "NAME" and "RPAR" in stop.expected:
        return _unexpected(
            stop, "A setting in parentheses is written with a colon.", f"Write `{before.text}: ...` in place of `=`."
        )
    return None


def _list_without_commas(stop: _Stop) -> Diagnostic | None:
    token, before = stop.token, stop.before
    if token is None or before is None or not {"COMMA", "RSQB"} <= stop.expected or token.type not in VALUE | {"TEXT"}:
        return None
    return error(
        "list-without-commas",
        before.span.to(token.span),
        f"Between {found_words(before)} and {found_words(token)} a comma is missing.",
        reason="Only commas say where one item of a list ends: `5 1/2 in` is one length and not two.",
        way_out=f"Write `{_short(before.text)}, {_short(token.text)}`.",
    )


def _comma_missing(stop: _Stop) -> Diagnostic | None:
    token, before = stop.token, stop.before
    if token is None or before is None or "COMMA" not in stop.expected:
        return None
    if token.type != "LABEL" and not ({"RPAR"} <= stop.expected and token.type in VALUE | {"TEXT"}):
        return None
    return _unexpected(
        stop, f"Before {found_words(token)} a comma is missing.", f"Write `{_short(before.text)}, {_short(token.text)}`."
    )


def _colon_missing(stop: _Stop) -> Diagnostic | None:
    """`panel flap seam`, `takes paper stock`."""
    before = stop.before
    if "LABEL" in stop.expected and stop.kind() == "NAME" and stop.kind(-1) in STATEMENT_WORDS | {"COMMA"}:
        name = stop.tokens[stop.at].text
        return _unexpected(stop, f"After `{name}` a colon is missing.", f"Write `{name}:` and then its value.")
    if "COLON" in stop.expected and before is not None and before.type == "RSQB":
        return _unexpected(stop, "After this name a colon is missing.", "Write a colon after the closing `]`.")
    if "LSQB" in stop.expected and "EQUAL" not in stop.expected and stop.kind(-2) in STATEMENT_WORDS and before:
        if before.type == "NAME" and "DOTTED" not in stop.expected and "FROM" not in stop.expected:
            return _unexpected(stop, f"After `{before.text}` a colon is missing.", f"Write `{before.text}:` and then its value.")
    return None


def _word_of_the_language(stop: _Stop) -> Diagnostic | None:
    token = stop.token
    if token is None or token.text not in stop.language.keywords or "NAME" not in stop.expected:
        return None
    if token.type in STATEMENT_WORDS and stop.kind(1) in ("NAME", "LABEL"):
        return None
    return reserved_word(token.span, token.text)


def _misspelt_here(stop: _Stop) -> Diagnostic | None:
    """A name where one of a few words is expected, and it is nearly that."""
    token = stop.token
    if token is None or token.type != "NAME" or "NAME" in stop.expected and VALUE <= stop.expected:
        return None
    spelling = stop.language.spelling
    words = [spelling[kind] for kind in stop.expected if spelling.get(kind) in stop.language.keywords]
    meant = nearest_name(token.text, sorted(words))
    return misspelt(token, [meant]) if meant else None


def _misspelt_before(stop: _Stop) -> Diagnostic | None:
    """`strip form paper`: read as the beginning of a new statement, and it stops one word later."""
    before = stop.before
    if before is None or before.type != "NAME" or "EQUAL" not in stop.expected or stop.kind() == "EQUAL":
        return None
    if not may_follow_a_statement(stop.tokens, stop.at - 1):
        return None
    meant = nearest_name(before.text, sorted(stop.language.keywords))
    if meant:
        return misspelt(before, [meant])
    return _name_alone(stop, before)


def _name_alone(stop: _Stop, name: Token) -> Diagnostic:
    sentence = f"`{name.text}` begins no statement, and nothing is said about it."
    if stop.kind() == "LPAR":
        return error(
            "unexpected-word", name.span, sentence, reason=_UNREAD, way_out=f"Give it a name: `name = {name.text}(...)`."
        )
    if stop.at > 1 and type_at(stop.tokens, stop.at - 2) == "QUANTITY":
        sentence = f"`{name.text}` after `{_short(stop.tokens[stop.at - 2].text)}` is neither a unit nor a fact."
    way_out = f"Write `{name.text} = ...` for a fact, or quotes round what is only to be read."
    return error("unexpected-word", name.span, sentence, reason=_UNREAD, way_out=way_out)


_USUAL_SLIPS: tuple[Callable[[_Stop], Diagnostic | None], ...] = (
    _decimal_comma,
    _point_after_name,
    _equals_to_compare,
    _list_without_commas,
    _colon_missing,
    _comma_missing,
    _word_of_the_language,
    _misspelt_here,
    _misspelt_before,
)


# -------------------------------------------------------------------- everything else


def _anything_else(stop: _Stop) -> Diagnostic:
    wanted = expected_words(stop.expected, stop.language.spelling)
    token, before = stop.token, stop.before
    if token is None and before is not None:
        return error(
            "unexpected-word",
            before.span,
            f"After {found_words(before)} something is missing" + (f": {wanted}." if wanted else "."),
            reason=_UNREAD,
            way_out=f"Write {wanted} after it." if wanted else "Finish the statement.",
        )
    if token is None or before is None:
        return _unexpected(stop, "No statement begins so.", _HOW_STATEMENTS_BEGIN)
    if not wanted:
        return _unexpected(stop, f"{_capital(found_words(token))} cannot follow {found_words(before)}.", _HOW_STATEMENTS_BEGIN)
    return _unexpected(
        stop,
        f"After {found_words(before)} stands {found_words(token)}, where {wanted} was expected.",
        f"Write {wanted} after {found_words(before)}.",
    )


_HOW_STATEMENTS_BEGIN = (
    "A statement begins with `name =` or with a word such as `part`, `piece` or `join`; sums are joined by `+ - * /`."
)


def _unexpected(stop: _Stop, sentence: str, way_out: str) -> Diagnostic:
    token = stop.token or stop.before
    span = token.span if token else None
    return error("unexpected-word", span, sentence, reason=_UNREAD, way_out=way_out)


def _short(text: str) -> str:
    single = " ".join(text.split())
    return single if len(single) <= 40 else f"{single[:40]}..."


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]


def _in_a_sentence(sentence: str) -> str:
    return sentence[:1].lower() + sentence[1:]
