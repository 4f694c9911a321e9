"""Slips that have a sentence of their own. Each function tells of a place, or gives None if it is no such slip."""

import re
from collections.abc import Callable

from pastedown.diagnostic import Diagnostic, Label, error
from pastedown.diagnostic.nearest_name import nearest_name
from pastedown.quantity.literal import UNIT_NAMES
from pastedown.syntax.expected_words import VALUE, found_words
from pastedown.syntax.mixed_up_signs import (
    colon_apart,
    colon_for_equals,
    comma_too_many,
    equals_for_colon,
    name_left_out,
)
from pastedown.syntax.read_names import reserved_word
from pastedown.syntax.read_numbers import decimal_comma, with_nearest_unit
from pastedown.syntax.shortened import shortened
from pastedown.syntax.spelling import misspelt
from pastedown.syntax.statement_heads import STATEMENT_WORDS, TITLED, begins_line, may_follow_a_statement, type_at
from pastedown.syntax.stop import UNREAD, Stop
from pastedown.syntax.token import Token

_NEXT_FACT = re.compile(r"[ \t]+([a-z][a-z0-9_]*)[ \t]*=")


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


def _equals_to_compare(stop: Stop) -> Diagnostic | None:
    if stop.kind() != "EQUAL" or not (stop.kind(-1) == "EQUAL" or "IS" in stop.expected):
        return None
    way_out = "To ask whether two values are equal write `is`."
    if stop.kind(1) == "COMPARE":
        way_out = f"Write `{stop.tokens[stop.at + 1].text}=`."
        return stop.unexpected("The equals sign of a comparison stands last.", way_out)
    if stop.kind(-1) == "EQUAL":
        way_out = "To set a value write one of them; to ask whether two are equal write `is`."
    return stop.unexpected("An equals sign sets a value; it does not compare.", way_out)


def _comment_sign(stop: Stop) -> Diagnostic | None:
    """`x = 1 in // why`."""
    token, before = stop.token, stop.before
    if token is None or before is None or not token.text == before.text == "/" or token.start != before.end:
        return None
    return error(
        "unexpected-word",
        before.span.to(token.span),
        "Two strokes begin no comment.",
        reason=UNREAD,
        way_out="A comment begins with `#` and ends with its line.",
    )


def _way_of_rounding_left_out(stop: Stop) -> Diagnostic | None:
    """`x rounded to 1/8 in`."""
    if stop.kind() != "TO" or stop.kind(-1) != "ROUNDED":
        return None
    way_out = "Write `rounded down to`, `rounded up to` or `rounded nearest to`."
    return stop.unexpected("After `rounded` it is missing which way.", way_out)


def _rounded_misspelt(stop: Stop) -> Diagnostic | None:
    """`(x roundde up to 1/8 in)`."""
    token = stop.token
    if token is None or token.type != "NAME" or stop.kind(1) != "NAME":
        return None
    if stop.tokens[stop.at + 1].text not in ("up", "down", "nearest") or not nearest_name(token.text, ["rounded"]):
        return None
    return misspelt(token, ["rounded"])


def _unit_misspelt(stop: Stop) -> Diagnostic | None:
    """`8 inchs`: the word after the number is where reading stops, or the last one before."""
    for at in (stop.at, stop.at - 1):
        if type_at(stop.tokens, at) != "NAME" or type_at(stop.tokens, at - 1) != "QUANTITY":
            continue
        number, word = stop.tokens[at - 1 : at + 1]
        if number.text[-1].isalpha() or begins_line(stop.tokens, at) or type_at(stop.tokens, at + 1) == "EQUAL":
            continue
        way_out = with_nearest_unit(number.text, word.text)
        if way_out:
            sentence = f"`{shortened(word.text)}` is not a unit."
            return error("unknown-unit", word.span, sentence, reason=UNREAD, way_out=way_out)
    return None


def _sides_without_x(stop: Stop) -> Diagnostic | None:
    """`12 in by 12 in`, `12 inx 12 in`."""
    token, before = stop.token, stop.before
    if token is None or before is None or stop.kind(1) != "QUANTITY" or before.type != "QUANTITY":
        return None
    if token.text != "by" and (token.text[-1] != "x" or token.text[:-1] not in UNIT_NAMES):
        return None
    first = before.text if token.text == "by" else f"{before.text} {token.text[:-1]}"
    way_out = f"Write `{shortened(first)} x {shortened(stop.tokens[stop.at + 1].text)}`."
    return stop.unexpected("Between the two sides of a size stands `x`.", way_out)


def _sign_missing(stop: Stop) -> Diagnostic | None:
    """`x = 1 in 2 in`."""
    token, before = stop.token, stop.before
    if token is None or before is None or token.type != "QUANTITY" or "PLUS_MINUS" not in stop.expected:
        return None
    if "$END" not in stop.expected:
        return None
    return stop.unexpected(
        f"Between {found_words(before)} and {found_words(token)} a sign is missing.",
        "Write `+`, `-`, `*` or `/` between them; what comes next in a list stands in square brackets, behind a comma.",
    )


def _after_rounding(stop: Stop) -> Diagnostic | None:
    """`x rounded down to 1/8 in + y`."""
    if stop.kind() not in ("PLUS_MINUS", "TIMES_OVER") or "ROUNDED" not in _types_before(stop):
        return None
    return stop.unexpected(
        "What is rounded is the whole sum before `rounded`; nothing can be added after it.",
        "Put the rounding in parentheses, as in `(width rounded down to 1/8 in) + 1 in`.",
    )


def _and_or(stop: Stop) -> Diagnostic | None:
    """`require roomy: x > 1 in and x < 2 in`."""
    token = stop.token
    if token is None or token.text not in ("and", "or") or stop.at == 0:
        return None
    way_out = "Write a statement for each condition, or one `if` inside the other."
    if token.text == "or":
        way_out = "Write `choose(condition, yes: ..., no: ...)`, or two statements with an `if` each."
    return stop.unexpected(f"Conditions are not joined by `{token.text}`.", way_out)


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
        if stop.kind() == "DOTTED":
            title = stop.tokens[stop.at - 2].text
            path = shortened(before.text + stop.tokens[stop.at].text)
            sentence = f"After `{title}` a name with a colon is missing."
            return stop.unexpected(sentence, f"Write `{title} name: {path} ...`.")
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
    return error(
        "unexpected-word",
        name.span,
        f"`{shortened(name.text)}` begins no statement, and nothing is said about it.",
        reason=UNREAD,
        way_out=_one_name_of_two(name) or _instead_of_a_lone_name(stop, shortened(name.text)),
    )


def _one_name_of_two(name: Token) -> str:
    """What to write for `page width = 5 in`; empty where no fact follows on the line."""
    fact = _NEXT_FACT.match(name.source.text, name.end)
    if fact is None:
        return ""
    return f"Delete it, or write `{shortened(f'{name.text}_{fact[1]}')} = ...` if the two are one name."


def _instead_of_a_lone_name(stop: Stop, name: str) -> str:
    if name in ("else", "otherwise"):
        return "Write a second `if` with the other condition, or `choose(condition, yes: ..., no: ...)` for a value."
    if name in ("import", "include"):
        return "To use what another file offers write `use name from file`."
    if stop.kind() == "QUANTITY" and not begins_line(stop.tokens, stop.at):
        return f"Write `{name} = {shortened(stop.tokens[stop.at].text)}`."
    if stop.kind() == "LPAR":
        return f"Give it a name: `name = {name}(...)`."
    if stop.kind() == "LBRACE":
        return f"To change {name} write `{name} with {{`; what is new begins with a word such as `component`."
    if stop.kind() == "TEXT" and stop.kind(1) == "LBRACE":
        return f"Write what it is before it: `component {name}` or `album {name}`."
    return f"Delete it, write `{name} = ...` for a fact, or put quotes round what is only to be read."


# In the order in which they are tried.
USUAL_SLIPS: tuple[Callable[[Stop], Diagnostic | None], ...] = (
    _decimal_comma,
    _value_left_out,
    name_left_out,
    equals_for_colon,
    colon_for_equals,
    colon_apart,
    comma_too_many,
    _comment_sign,
    _equals_to_compare,
    _after_rounding,
    _and_or,
    _second_comparison,
    _way_of_rounding_left_out,
    _rounded_misspelt,
    _sides_without_x,
    _unit_misspelt,
    _list_without_commas,
    _sign_missing,
    _colon_missing,
    _comma_missing,
    _word_of_the_language,
    _misspelt_here,
    _misspelt_before,
)
