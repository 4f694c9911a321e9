"""Characters outside texts and comments that begin no word, number or mark."""

from pastedown.diagnostic import Diagnostic, error
from pastedown.source import Span
from pastedown.syntax.hidden_characters import visible

# Left out without a loss: the statement around it can still be read.
WITHOUT_MEANING = frozenset(";\\\ufeff\u200b\u200c\u200d\u2060\u00ad")

_WAYS_OUT = {
    ";": "Leave it out: nothing stands between two statements.",
    "'": "Put texts between double quotes, and write `ft` for feet.",
    "\u2018": 'Put texts between double quotes: `"..."`.',
    "\u2019": "Put texts between double quotes, and write `ft` for feet.",
    "\u201e": 'Put texts between double quotes: `"..."`.',
    "\u00ab": 'Put texts between double quotes: `"..."`.',
    "\u00bb": 'Put texts between double quotes: `"..."`.',
    "\u201d": "Put an opening quote before the text, or a number before the inch mark.",
    "\u2033": "Put a number directly before the inch mark, or write `in`.",
    "\u2013": "For a minus type the hyphen of the keyboard, with a blank on both sides.",
    "\u2014": "For a minus type the hyphen of the keyboard, with a blank on both sides.",
    "\u00d7": "Write `*` to multiply, and a number before and after the sign in the size of a sheet.",
    "\u00f7": "Write `/` to divide.",
    "?": "Write the measure itself, or the sum of which it follows.",
    "!": "State what must hold; to state the opposite, turn the comparison round.",
    "&": "Write two statements, one for each condition.",
    "|": "Write `choose(condition, yes: ..., no: ...)`.",
    "%": "Put a number before it.",
    "\u00b0": "Put a number before it, or write `deg`.",
    "\u20ac": "Write amounts of money with the code of the currency, such as `12.50 EUR`.",
    "$": "Write amounts of money with the code of the currency, such as `12.50 USD`.",
    "\u00a3": "Write amounts of money with the code of the currency, such as `12.50 GBP`.",
    ".": "Put a name directly after the dot, or a digit on both sides of a decimal point.",
}


def unknown_character(span: Span) -> Diagnostic:
    character = span.text
    shown = character if character.isprintable() else visible(character)
    return error(
        "unknown-character",
        span,
        f"The character `{shown}` has no meaning here.",
        reason="It is part of no word, number or mark of the language. In texts and comments it may stand.",
        way_out=_WAYS_OUT.get(character, "Delete it, or put it into a text in quotes."),
    )


def full_stop_after_unit(span: Span) -> Diagnostic:
    return error(
        "unknown-character",
        span,
        "A full stop stands behind a unit.",
        reason="Units are no abbreviations here; a dot leads from a thing to what belongs to it.",
        way_out="Leave it out.",
    )
