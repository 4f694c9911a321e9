"""Reads what a maker says was really done: "strip.crest[2] at 4 1/2 in", "printed at 97 %"."""

from __future__ import annotations

import re

from attrs import frozen

from pastedown.diagnostic import Diagnostic, error
from pastedown.diagnostic.visible_text import visible
from pastedown.quantity.dimension import LENGTH, NUMBER
from pastedown.quantity.literal import LiteralError, read_quantity
from pastedown.quantity.quantity import Quantity

MOST_SLIPS = 50
_LONGEST = 300
_NAME = r"[a-z][a-z0-9_]*(?:\[[0-9]{1,6}\])?"
_PATH = rf"(?:the )?(?P<path>{_NAME}(?:\.{_NAME})*)"
_SCORE = rf"score (?P<number>[0-9]{{1,4}}) of {_PATH}"
_FORMS = (
    ("printed", re.compile(rf"(?:{_PATH} )?printed at (?P<amount>.+)")),
    ("at", re.compile(rf"{_SCORE} (?:at|is) (?P<amount>.+)")),
    ("by", re.compile(rf"{_SCORE} by (?P<minus>-?) ?(?P<amount>.+)")),
    ("at", re.compile(rf"{_PATH} (?P<side>height|width) (?:at |is )?(?P<amount>[^a-z].*)")),
    ("at", re.compile(rf"{_PATH} (?:at|is|reads) (?P<amount>.+)")),
    ("by", re.compile(rf"{_PATH} by (?P<minus>-?) ?(?P<amount>.+)")),
)
_FORMS_IN_WORDS = (
    'Write "strip.crest[2] at 4 1/2 in", "score 5 of the strip at 4 1/2 in", "strip by 1/16 in" for all its folds, '
    '"strip height 6 5/8 in", "strip.read_width reads 7 1/8 in", "printed at 97 %" or "leaf printed at 97 %".'
)


@frozen
class Slip:
    """`kind` is "at" (it lies there, or is so long), "by" (it lies so much further from the run's first edge) or
    "printed" (at a scale; `path` "" means everything). With a `number` it is the score of that number on the chart of a
    piece; None without."""

    words: str
    kind: str
    path: str
    amount: Quantity
    number: int | None = None


def read_slip(text: str) -> Slip | Diagnostic:
    """A slip, or what is wrong with the words."""
    words = " ".join(text.split())
    if len(words) > _LONGEST:
        return _unreadable(words[:40] + "...", "These words are too long.")
    for kind, form in _FORMS:
        match = form.fullmatch(words)
        if match is not None:
            return _with_amount(words, kind, match)
    return _unreadable(words, "It does not say what was really done.")


def _with_amount(words: str, kind: str, match: re.Match[str]) -> Slip | Diagnostic:
    try:
        amount = read_quantity(match["amount"])
    except LiteralError as fault:
        return _unreadable(words, fault.reason)
    wanted, named = (NUMBER, "a percentage") if kind == "printed" else (LENGTH, "a length with its unit")
    if amount.dimension != wanted:
        return _unreadable(words, f"{match['amount']} is not {named}.")
    if amount.value <= 0 and kind != "by":
        return _unreadable(words, "It has to be more than nought.")
    groups = match.groupdict()
    if groups.get("minus"):
        amount = -amount
    side = f".{groups['side']}" if groups.get("side") else ""
    number = int(groups["number"]) if groups.get("number") else None
    return Slip(words, kind, (groups["path"] or "") + side, amount, number)


def _unreadable(words: str, why: str) -> Diagnostic:
    return error("slip-unreadable", None, f'"{visible(words)}" could not be read. {why}', way_out=_FORMS_IN_WORDS)
