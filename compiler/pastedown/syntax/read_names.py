"""Takes a word as written. Gives the name it stands for, and what is wrong with it."""

import re

from pastedown.diagnostic import Diagnostic, error
from pastedown.quantity.unit import METRIC_UNITS
from pastedown.source import Span
from pastedown.syntax.shortened import shortened
from pastedown.syntax.token import Token

_PLAIN = re.compile(r"[a-z][a-z0-9_]*")
_FOREIGN = re.compile(r"[^A-Za-z0-9_-]")

_UNIT_WORDS = {
    "in": ("inches", "inner"),
    "ft": ("feet", "foot_edge"),
    "yd": ("yards", "yardage"),
    "pt": ("points of thickness", "thickness"),
    "mm": ("millimetres", "middle"),
    "cm": ("centimetres", "centre"),
    "m": ("metres", "margin"),
    "g": ("grams", "gap"),
    "kg": ("kilograms", "weight"),
    "gsm": ("grams for each square metre", "grammage"),
    "deg": ("degrees", "turn"),
    "lb": ("pounds", "weight"),
    "t": ("kept free", "thickness"),
}


def is_plain(name: str) -> bool:
    return _PLAIN.fullmatch(name) is not None


def odd_name(token: Token, name: str) -> tuple[str, Diagnostic]:
    """A name that is not plain as it should have been written, and what to say about it."""
    foreign = _FOREIGN.search(name)
    if foreign:
        at = token.word_span.start + foreign.start()
        return name.lower(), _foreign_letter(Span(token.source, at, at + 1), foreign[0])
    if "-" in name:
        return name.lower().replace("-", "_"), _hyphenated(token.word_span, name)
    if name.startswith("_"):
        return name.lower(), _underscore(token.word_span, name)
    return name.lower(), _capital(token.word_span, name)


def _hyphenated(span: Span, name: str) -> Diagnostic:
    name = shortened(name)
    apart = " - ".join(name.lower().split("-"))
    return error(
        "hyphenated-name",
        span,
        f"`{name}` has a hyphen in it.",
        reason="It could be one name, or one measure less another, and the two give different sizes.",
        way_out=f"Write `{name.lower().replace('-', '_')}` for one name, `{apart}` for a subtraction.",
    )


def _capital(span: Span, name: str) -> Diagnostic:
    name = shortened(name)
    return error(
        "capital-in-name",
        span,
        f"`{name}` has a capital letter.",
        reason="Names are read aloud and copied by hand: two that differ only in a capital would be taken for one.",
        way_out=f"Write `{name.lower()}`, here and wherever it stands.",
    )


def _underscore(span: Span, name: str) -> Diagnostic:
    name = shortened(name)
    return error(
        "unknown-character",
        span,
        f"`{name}` begins with an underscore.",
        reason="A name begins with a letter.",
        way_out=f"Write `{name.lower().strip('_') or 'name'}`.",
    )


def _foreign_letter(span: Span, letter: str) -> Diagnostic:
    return error(
        "unknown-character",
        span,
        f"A name cannot have the letter `{letter}`.",
        reason="Names have the letters a to z, digits and underscores, so that everybody can type them.",
        way_out=f"Spell the name without `{letter}`. Texts in quotes may have any letter.",
    )


def name_is_unit(span: Span, name: str) -> Diagnostic:
    """What to say about a unit that is declared as a name."""
    meaning, instead = _UNIT_WORDS[name]
    return error(
        "name-is-unit",
        span,
        f"`{name}` is {meaning} and cannot be a name.",
        reason=f"A number before it, even at the end of the line above, would be read with `{name}` as its unit.",
        way_out=f"Call it something longer, such as `{instead}`.",
    )


def lone_unit(span: Span, name: str) -> Diagnostic:
    """What to say about a unit that follows no number."""
    return error(
        "unexpected-word",
        span,
        f"`{name}` is a unit, and here it follows no number.",
        reason="A unit belongs to the one number before it, not to a sum or to a name.",
        way_out=f"Write the unit with each number, as in `2 {name} + 3 {name}`.",
    )


def unit_for_marks(span: Span, name: str, fact: str) -> Diagnostic:
    """What to say about `ruler = mm` and `show = mm`."""
    metric = name in METRIC_UNITS
    wanted = "which marks your ruler has" if fact == "ruler" else "in which measures lengths are shown"
    ruler, show = ("millimetres to 1", "metric") if metric else ("inches to 1/16", "inches")
    return error(
        "unexpected-word",
        span,
        f"`{name}` is a unit, and {fact} says {wanted}.",
        reason="Lengths are rounded to the marks of the ruler on the table, and may be shown otherwise besides.",
        way_out=f"Write `{fact} = {ruler if fact == 'ruler' else show}`.",
    )


def in_for_from(span: Span) -> Diagnostic:
    """What to say about `each k in 1 to 3`."""
    return error(
        "unexpected-word",
        span,
        "`in` is a unit, and what is counted begins with `from`.",
        reason="A repetition says its first and its last number.",
        way_out="Write `each k from 1 to 3`.",
    )


def text_without_quotes(span: Span) -> Diagnostic:
    """What to say about words where a text is wanted."""
    return error(
        "unexpected-word",
        span,
        f"The words `{shortened(span.text)}` stand without {'' if span.text[0].isalnum() else 'double '}quotes.",
        reason="Outside quotes every word is a word of the language or a name.",
        way_out='Put them between double quotes: `"..."`.',
    )


def reserved_word(span: Span, word: str) -> Diagnostic:
    """What to say about a word of the language that is used as a name."""
    way_out = f"Choose another name, such as `{word}_1` or a word that says more."
    if word == "if":
        way_out = "To choose between two values write `choose(condition, yes: ..., no: ...)`."
    return error(
        "reserved-word",
        span,
        f"`{word}` is a word of the language and cannot be a name here.",
        reason="Statements begin with such words or are joined by them. After a dot and before a colon they may stand.",
        way_out=way_out,
    )
