"""Slips that have a sentence of their own. Each function tells of a place, or gives None if it is no such slip."""

from collections.abc import Callable

from pastedown.diagnostic import Diagnostic, Label, error
from pastedown.diagnostic.nearest_name import nearest_name
from pastedown.syntax.expected_words import VALUE, found_words
from pastedown.syntax.read_names import reserved_word
from pastedown.syntax.read_numbers import decimal_comma
from pastedown.syntax.shortened import shortened
from pastedown.syntax.spelling import misspelt
from pastedown.syntax.statement_heads import STATEMENT_WORDS, TITLED, begins_line, may_follow_a_statement, type_at
from pastedown.syntax.stop import UNREAD, Stop
from pastedown.syntax.token import Token


def _decimal_comma(stop: Stop) -> Diagnostic | None:
    token, before = stop.token, stop.before
    if token is None or before is None or token.type != "COMMA" or stop.kind(1) != "QUANTITY":
        return None
    after = stop.tokens[stop.at + 1]
    if before.type != "QUANTITY" or before.end != token.start or token.end != after.start:
        return None
    if not before.text.isdigit() or not after.text[:1].isdigit():
        return None
    whole = Token("QUANTITY", f"{shortened(before.text)},{after.text}", token.source, before.start, after.end)
    return decimal_comma(whole, whole.text)


def _value_left_out(stop: Stop) -> Diagnostic | None:
    """`width =` and on the next line `joint = 1/8 in`: it stops only at the second equals sign."""
    if stop.kind() != "EQUAL" or stop.kind(-1) != "NAME" or not begins_line(stop.tokens, stop.at - 1):
        return None
    if stop.at < 2 or may_follow_a_statement(stop.tokens, stop.at - 1):
        return None
    last, following = stop.tokens[stop.at - 2 : stop.at]
    return error(
        "unexpected-word",
        last.span,
        f"After {found_words(last)} something is missing.",
        reason=UNREAD,
        way_out="Finish this statement before the next one begins.",
        labels=[Label(following.span, "the next statement seems to begin here")],
    )


def _equals_in_setting(stop: Stop) -> Diagnostic | None:
    """`f(height = 3 in)`."""
    before = stop.before
    if stop.kind() != "EQUAL" or before is None or stop.kind(-2) not in ("LPAR", "COMMA"):
        return None
    way_out = f"Write `{shortened(before.text)}: ...` in place of `=`."
    return stop.unexpected("A setting is written with a colon.", way_out)


def _equals_to_compare(stop: Stop) -> Diagnostic | None:
    if stop.kind() != "EQUAL" or not (stop.kind(-1) == "EQUAL" or "IS" in stop.expected):
        return None
    way_out = "To ask whether two values are equal write `is`."
    return stop.unexpected("An equals sign sets a value; it does not compare.", way_out)


def _after_rounding(stop: Stop) -> Diagnostic | None:
    """`x rounded down to 1/8 in + y`."""
    if stop.kind() not in ("PLUS_MINUS", "TIMES_OVER") or "ROUNDED" not in _types_before(stop):
        return None
    return stop.unexpected(
        "What is rounded is the whole sum before `rounded`; nothing can be added after it.",
        "Put the rounding in parentheses, as in `(width rounded down to 1/8 in) + 1 in`.",
    )


def _second_comparison(stop: Stop) -> Diagnostic | None:
    """`a < b < c`."""
    compares = ("COMPARE", "IS")
    if stop.kind() not in compares or not any(kind in compares for kind in _types_before(stop)):
        return None
    return stop.unexpected("Only two values are compared at a time.", "Write a statement for each comparison.")


def _types_before(stop: Stop) -> list[str]:
    """The word classes of the statement as far as it was read, back to a sign that separates values."""
    types: list[str] = []
    for token in reversed(stop.tokens[: stop.at]):
        if token.type in ("EQUAL", "COMMA", "LABEL", "LBRACE", "RBRACE"):
            break
        types.append(token.type)
    return types


def _list_without_commas(stop: Stop) -> Diagnostic | None:
    token, before = stop.token, stop.before
    if token is None or before is None or not {"COMMA", "RSQB"} <= stop.expected or token.type not in VALUE | {"TEXT"}:
        return None
    return error(
        "list-without-commas",
        before.span.to(token.span),
        f"Between {found_words(before)} and {found_words(token)} a comma is missing.",
        reason="Only commas say where one item of a list ends: `5 1/2 in` is one length and not two.",
        way_out=f"Write `{shortened(before.text)}, {shortened(token.text)}`.",
    )


def _comma_missing(stop: Stop) -> Diagnostic | None:
    token, before = stop.token, stop.before
    if token is None or before is None or "COMMA" not in stop.expected:
        return None
    if token.type != "LABEL" and not ({"RPAR"} <= stop.expected and token.type in VALUE | {"TEXT"}):
        return None
    way_out = f"Write `{shortened(before.text)}, {shortened(token.text)}`."
    return stop.unexpected(f"Before {found_words(token)} a comma is missing.", way_out)


def _colon_missing(stop: Stop) -> Diagnostic | None:
    """`panel flap seam`, `takes paper stock`, `panel flap[k] seam`."""
    before, word = stop.before, type_at(stop.tokens, stop.at - 2)
    if before is None:
        return None
    if "LABEL" in stop.expected and stop.kind() == "NAME" and before.type in STATEMENT_WORDS | {"COMMA"}:
        return _without_colon(stop, stop.tokens[stop.at].text)
    if before.type == "RSQB" and "COLON" in stop.expected:
        return _without_colon(stop, "]")
    if before.type == "NAME" and word in TITLED and stop.expected == {"LSQB"}:
        return _without_colon(stop, before.text)
    return None


def _without_colon(stop: Stop, name: str) -> Diagnostic:
    name = shortened(name)
    return stop.unexpected(f"After `{name}` a colon is missing.", f"Write `{name}:` and then what it is.")


def _word_of_the_language(stop: Stop) -> Diagnostic | None:
    token = stop.token
    if token is None or token.text not in stop.language.keywords or "NAME" not in stop.expected:
        return None
    if token.type in STATEMENT_WORDS and stop.kind(1) in ("NAME", "LABEL"):
        return None
    return reserved_word(token.span, token.text)


def _misspelt_here(stop: Stop) -> Diagnostic | None:
    """A name where one of a few words is expected, and it is nearly that."""
    token = stop.token
    if token is None or token.type != "NAME" or ("NAME" in stop.expected and stop.expected >= VALUE):
        return None
    spelling = stop.language.spelling
    words = [spelling[kind] for kind in stop.expected if spelling.get(kind) in stop.language.keywords]
    meant = nearest_name(token.text, sorted(words))
    return misspelt(token, [meant]) if meant else None


def _misspelt_before(stop: Stop) -> Diagnostic | None:
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


def _name_alone(stop: Stop, name: Token) -> Diagnostic:
    sentence = f"`{shortened(name.text)}` begins no statement, and nothing is said about it."
    if stop.kind() == "LPAR":
        way_out = f"Give it a name: `name = {shortened(name.text)}(...)`."
        return error("unexpected-word", name.span, sentence, reason=UNREAD, way_out=way_out)
    if stop.at > 1 and type_at(stop.tokens, stop.at - 2) == "QUANTITY":
        number = found_words(stop.tokens[stop.at - 2])
        sentence = f"{found_words(name)} after {number} is neither a unit nor a fact."
        way_out = f"Write a unit such as `in` or `mm`, or `{shortened(name.text)} = ...` for a fact."
        return error("unexpected-word", name.span, sentence, reason=UNREAD, way_out=way_out)
    way_out = f"Write `{shortened(name.text)} = ...` for a fact, or quotes round what is only to be read."
    return error("unexpected-word", name.span, sentence, reason=UNREAD, way_out=way_out)


# In the order in which they are tried.
USUAL_SLIPS: tuple[Callable[[Stop], Diagnostic | None], ...] = (
    _decimal_comma,
    _value_left_out,
    _equals_in_setting,
    _equals_to_compare,
    _after_rounding,
    _second_comparison,
    _list_without_commas,
    _colon_missing,
    _comma_missing,
    _word_of_the_language,
    _misspelt_here,
    _misspelt_before,
)
