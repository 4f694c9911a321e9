"""Reads what a maker says was really done: "strip.crest[2] at 4 1/2 in", "printed at 97 %"."""

from __future__ import annotations

import re

from attrs import frozen

from pastedown.diagnostic import Diagnostic, error
from pastedown.diagnostic.visible_text import visible
from pastedown.quantity.dimension import LENGTH, NUMBER
from pastedown.quantity.literal import LiteralError, read_quantity
from pastedown.quantity.quantity import NO_LENGTH, Quantity
from pastedown.slip.ways import WAYS

MOST_SLIPS = 50
_LONGEST = 300
_NAME = r"[a-z][a-z0-9_]*(?:\[[0-9]{1,6}\])?"
# Makers write "the long strip" for long.strip; these words stand between a name and what is said of it.
_SAID = r"(?:at|is|by|off|reads|printed|folded|from|too|height|width)"
_PATH = rf"(?:the )?(?P<path>{_NAME}(?:(?:\.| (?!{_SAID}\b)){_NAME})*)"
_SCORE = rf"score (?P<number>[0-9]{{1,4}}) of {_PATH}"
_EDGE = r"(?:the )?(?P<edge>[a-z][a-z0-9_]*(?: [a-z]+)?)"
_COUNTED = _EDGE.replace("edge", "counted")
_FROM_ITS_END = (rf"score (?P<number>[0-9]{{1,4}}) from {_COUNTED} of {_PATH}", rf"{_SCORE} from {_COUNTED}")
_SIDE = rf"{_PATH} (?P<side>height|width)"
_FORMS = (
    ("printed", rf"(?:{_PATH} )?printed at (?P<amount>.+)"),
    *(("folded", rf"{thing} (?:was )?folded the (?:wrong|other) way") for thing in (_SCORE, _PATH)),
    *(
        (kind, f"{thing} {words}")
        for thing in (*_FROM_ITS_END, _SCORE, _SIDE, _PATH)
        for kind, words in (
            ("by", r"(?:(?:is|at) )?(?P<amount>.+?) too (?:far )?(?P<way>[a-z]+)"),
            ("by", r"(?:is )?(?P<off>off )?by (?P<minus>-?) ?(?P<amount>.+)"),
            ("at", rf"(?:at|is) (?P<amount>[^a-z].*?) from {_EDGE}"),
            ("at", r"(?:at|is|reads) (?P<amount>.+)"),
        )
    ),
    ("at", rf"{_SIDE} (?P<amount>[^a-z].*)"),
)
_COMPILED = tuple((kind, re.compile(form)) for kind, form in _FORMS)
_FORMS_IN_WORDS = (
    'Write "strip.crest[2] at 4 1/2 in", "score 5 of the strip at 4 1/2 in", "score 5 of the strip at 4 1/2 in from '
    'head", "score 5 of the strip 1/8 in too far", "strip by 1/16 in" for all its folds, "strip.crest[2] folded the '
    'wrong way", "strip height 6 5/8 in", "strip.read_width reads 7 1/8 in", "printed at 97 %" or "sheet printed at '
    '97 %".'
)


@frozen
class Slip:
    """`kind` is "at" (it lies there, or is so long), "by" (it lies so much further from the run's first edge, or is so
    much longer), "printed" (at a scale; `path` "" means everything) or "folded" (the wrong way). With a `number` it is
    the score of that number on the chart of a piece; None without. `way` is what was said behind "too", such as "high",
    and "" where nothing was; `guessed` says that "off" was all that was said of the direction. `edge` is the edge it
    was measured from and `counted` the one its number was counted from, "" for that of the score chart."""

    words: str
    kind: str
    path: str
    amount: Quantity
    number: int | None = None
    way: str = ""
    guessed: bool = False
    edge: str = ""
    counted: str = ""


def read_slip(text: str) -> Slip | Diagnostic:
    """A slip, or what is wrong with the words."""
    words = " ".join(text.split())
    if len(words) > _LONGEST:
        return _unreadable(words[:40] + "...", "These words are too long.")
    for kind, form in _COMPILED:
        match = form.fullmatch(words)
        if match is not None:
            return _with_amount(words, kind, match)
    return _unreadable(words, "It does not say what was really done.")


def _with_amount(words: str, kind: str, match: re.Match[str]) -> Slip | Diagnostic:
    groups = match.groupdict()
    path = groups["path"].replace(" ", ".") if groups["path"] else ""
    number = int(groups["number"]) if groups.get("number") else None
    if kind == "folded":
        return Slip(words, kind, path, NO_LENGTH, number)
    try:
        amount = read_quantity(match["amount"])
    except LiteralError as fault:
        return _unreadable(words, fault.reason)
    wanted, named = (NUMBER, "a percentage") if kind == "printed" else (LENGTH, "a length with its unit")
    if amount.dimension != wanted:
        return _unreadable(words, f"{match['amount']} is not {named}.")
    way = groups.get("way") or ""
    if amount.value <= 0 and (kind != "by" or way):
        return _unreadable(words, "It has to be more than nought.")
    if way and way not in WAYS:
        return _unreadable(words, f"Too {way} is no way for it to be off.")
    if groups.get("minus"):
        amount = -amount
    side = f".{groups['side']}" if groups.get("side") else ""
    guessed = bool(groups.get("off")) and not groups.get("minus")
    counted = (groups.get("counted") or "").replace(" ", "_")
    edge = (groups.get("edge") or "").replace(" ", "_") or counted
    return Slip(words, kind, path + side, amount, number, way, guessed, edge, counted)


def _unreadable(words: str, why: str) -> Diagnostic:
    return error("slip-unreadable", None, f'"{visible(words)}" could not be read. {why}', way_out=_FORMS_IN_WORDS)
