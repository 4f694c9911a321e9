"""Slips of a sign: a colon for an equals sign and the reverse, a comma too many, a name left out before or after one.

Each function tells of a place, or gives None if it is no such slip.
"""

from pastedown.diagnostic import Diagnostic, error
from pastedown.syntax.expected_words import found_words
from pastedown.syntax.read_names import is_plain
from pastedown.syntax.shortened import shortened
from pastedown.syntax.statement_heads import STATEMENT_WORDS, WITH_LABEL, begins_line, type_at
from pastedown.syntax.stop import UNREAD, Stop

# Their names stand alone or before `=`: no colon follows.
NAME_FOLLOWS = frozenset({"USE", "COMPONENT", "ALBUM", "VARIANT", "PART", "PIECE", "POSE", "EACH", "FIXED"})
# These join the name of a statement to the rest of it.
JOINING = frozenset({"FROM", "OF"})


def name_left_out(stop: Stop) -> Diagnostic | None:
    """`part = leaf()`, `use from sheets`, `piece from card`, `= 3 in`."""
    token, before = stop.token, stop.before
    if token is None or token.type in ("NAME", "LABEL"):
        return None
    if token.type == "EQUAL" and stop.kind(-1) != "EQUAL" and (before is None or begins_line(stop.tokens, stop.at)):
        return stop.unexpected("Before this `=` a name is missing.", "Write `name = ...`, with a name of your own.")
    if before is not None and before.type in WITH_LABEL and "LABEL" in stop.expected:
        way_out = f"Write `{before.text} name: {shortened(token.text)} ...`, with a name of your own."
        sentence = f"After `{before.text}` a name with a colon is missing."
        return error("unexpected-word", before.span, sentence, reason=UNREAD, way_out=way_out)
    if before is None or "NAME" not in stop.expected or stop.kind(1) == token.type:
        return None
    if before.type not in NAME_FOLLOWS and not (before.type == "COMMA" and token.type == "FROM"):
        return None
    if token.text in stop.language.keywords and token.type not in JOINING:
        return None
    if token.type == "TEXT" and is_plain(token.text[1:-1]):
        return stop.unexpected("A name stands without quotes.", f"Write `{before.text} {shortened(token.text[1:-1])}`.")
    way_out = f"Write `{before.text} name {shortened(token.text)} ...`, with a name of your own."
    if token.type == "EQUAL":
        way_out += f" `{before.text}` is a word of the language and cannot be one."
    elif before.type == "COMMA":
        way_out = "Write one more name after it, or delete the comma."
    elif before.type == "USE":
        way_out = "Write what is used from there: `use name from ...`, and several with commas between."
    sentence = f"After {found_words(before)} a name is missing."
    return error("unexpected-word", before.span, sentence, reason=UNREAD, way_out=way_out)


def colon_for_equals(stop: Stop) -> Diagnostic | None:
    """`height: 7 in` where a statement begins, `piece leaf: ...`."""
    token, before = stop.token, stop.before
    if token is None or token.type != "LABEL" or {"LABEL", "COMMA"} & stop.expected:
        return None
    word = shortened(token.text[:-1].rstrip())
    if before is not None and before.type in NAME_FOLLOWS:
        return stop.unexpected(f"A name after `{before.text}` has no colon.", f"Write `{before.text} {word}`.")
    if before is not None and before.type in STATEMENT_WORDS:
        return None
    if stop.language.types.get(word) in WITH_LABEL:
        way_out = f"Write a name of your own between the two: `{word} name: ...`."
        return stop.unexpected(f"Between `{word}` and its colon a name is missing.", way_out)
    if word in stop.language.keywords:
        return stop.unexpected(f"After `{word}` stands no colon.", f"Write `{word}` alone, and then a name.")
    return stop.unexpected(
        f"`{word}:` begins no statement.", f"A fact is written with an equals sign: `{word} = {_value_after(stop)}`."
    )


def _value_after(stop: Stop) -> str:
    """The next word, if it is the whole value."""
    at = stop.at + 1
    alone = at + 1 >= len(stop.tokens) or begins_line(stop.tokens, at + 1)
    if alone and type_at(stop.tokens, at) in ("QUANTITY", "NAME", "TEXT"):
        return shortened(stop.tokens[at].text)
    return "..."


def equals_for_colon(stop: Stop) -> Diagnostic | None:
    """`f(height = 3 in)`, `piece leaf from card, height = 3 in`, and a fact after the last comma of a statement."""
    token, before = stop.token, stop.before
    if before is None or token is None:
        return None
    if token.type == "EQUAL" and stop.kind(-2) in ("LPAR", "COMMA") and before.type == "NAME":
        return stop.unexpected("A setting is written with a colon.", _colon_in_place(before.text))
    if "LABEL" not in stop.expected or token.type != "NAME" or stop.kind(1) != "EQUAL" or before.type != "COMMA":
        return None
    if not begins_line(stop.tokens, stop.at):
        return stop.unexpected("A setting is written with a colon.", _colon_in_place(token.text))
    return error(
        "unexpected-word",
        before.span,
        f"After this comma a setting is expected, and `{shortened(token.text)} = ...` is a fact.",
        reason=UNREAD,
        way_out=f"Delete the comma, or write `{shortened(token.text)}: ...` if that is a setting.",
    )


def _colon_in_place(name: str) -> str:
    return f"Write `{shortened(name)}: ...` in place of `=`."


def comma_too_many(stop: Stop) -> Diagnostic | None:
    """`x = 1 in,` and `card,, height: 5 in`."""
    if stop.kind() != "COMMA" or stop.before is None:
        return None
    if stop.kind(-1) == "COMMA":
        return stop.unexpected("Here is a comma too many.", "Delete it.")
    if "$END" in stop.expected and "COMMA" not in stop.expected:
        return stop.unexpected("A comma stands only between names, values and settings.", "Delete it.")
    if {"TO", "RSQB"} <= stop.expected and stop.kind(1) == "QUANTITY":
        return stop.unexpected(
            "Square brackets behind a name pick one of several by its number.",
            "Write parentheses in their place for the values of a function, as in `max(1 in, 2 in)`.",
        )
    return None


def colon_apart(stop: Stop) -> Diagnostic | None:
    """`caliper # how thick` and on the next line `: 10 pt`: blanks alone would not part the two."""
    if stop.kind() != "COLON" or stop.kind(-1) != "NAME" or stop.before is None:
        return None
    name = shortened(stop.before.text)
    return stop.unexpected(f"A comment parts `{name}` from its colon.", f"Write `{name}:`, and the comment behind.")
