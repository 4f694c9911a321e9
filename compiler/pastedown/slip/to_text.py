"""Writes a report on slips as text for a terminal."""

from __future__ import annotations

import textwrap
from collections.abc import Hashable, Iterable
from fractions import Fraction

from pastedown.quantity.quantity import Quantity
from pastedown.quantity.ruler import Ruler
from pastedown.quantity.write import write
from pastedown.slip.paths import together, without_numbers
from pastedown.slip.percent import percent
from pastedown.slip.report import Changed, Done, Fit, Repair, SlipReport, Words

# So many changed lengths are written out, and of so many requirements how they hold.
MOST_CHANGES = 30
MOST_HELD = 30
_WIDTH = 96
_HAS_TO_BE = {
    ">=": "has to be at least", "<=": "has to be at most", ">": "has to be more than", "<": "has to be less than",
    "is": "has to be",
}  # fmt: skip


def slip_text(report: SlipReport) -> str:
    """What was done, what changes, which fits hold and which do not, and what to do, in this order. What is alike in
    all members of a family is told once."""
    lines: list[str] = []
    for done in report.done:
        lines += _wrapped(_done(done, report.ruler), "")
    lines += _section("What changes", _cut_short(_changes(report), MOST_CHANGES, "lengths"))
    lines += _section("Panels that are stuck together and no longer match", _pairs(report))
    faults = [fault.sentence for fault in report.faults]
    lines += _section("What no longer holds", [*_fits(report.broken, report.ruler), *faults])
    lines += _section("What is liked less", _fits(_disliked(report), report.ruler))
    lines += _section("What it touches and still holds", _cut_short(_touched(report), MOST_HELD, "requirements"))
    lines += _section("At which scales of the print it holds", _scales(report))
    lines += ["", _still(report)]
    lines += _section("What to do, cheapest first", [_repair(each, report) for each in report.repairs])
    return "\n".join(lines)


def _section(title: str, entries: list[str]) -> list[str]:
    if not entries:
        return []
    return ["", f"{title}:", *(line for entry in entries for line in _wrapped(entry, "  "))]


def _wrapped(text: str, indent: str) -> list[str]:
    return textwrap.wrap(
        text, _WIDTH, initial_indent=indent, subsequent_indent=f"{indent}  ", break_on_hyphens=False,
        break_long_words=False,
    )  # fmt: skip


def _cut_short(entries: list[str], most: int, what: str) -> list[str]:
    more = len(entries) - most
    return [*entries[:most], f"and {more} {what} more"] if more > 0 else entries


def _alike(told: Iterable[tuple[str, Hashable, str]]) -> list[str]:
    """Words behind the paths they are about: those of members of one family with the same words behind all of them."""
    groups: dict[Hashable, list[str]] = {}
    words: dict[Hashable, str] = {}
    for path, kind, after in told:
        key = without_numbers(path), kind, after
        groups.setdefault(key, []).append(path)
        words[key] = after
    return [f"{together(paths)}{words[key]}" for key, paths in groups.items()]


def _done(done: Done, ruler: Ruler) -> str:
    if done.scale is not None:
        return f"{done.path or 'Everything'} was printed at {percent(done.scale)}."
    if done.done is None:
        return done.words
    where = f" from {done.edge}" if done.edge else ""
    if done.designed is None:
        return f"{done.path} is {write(done.done, ruler)}{where}."
    by = done.done - done.designed
    off = f"{write(by if by.value >= 0 else -by, ruler)} too {'far' if by.value > 0 else 'near'}"
    if not done.edge:
        off = f"{write(by if by.value >= 0 else -by, ruler)} too {'large' if by.value > 0 else 'small'}"
    designed = f"designed {write(done.designed, ruler)}"
    if by.value == 0:
        return f"{done.path} is {write(done.done, ruler)}{where}, as designed."
    return f"{done.path} is {write(done.done, ruler)}{where}; {designed}, so it is {off}."


def _changes(report: SlipReport) -> list[str]:
    told = ((_path(each), each.what, _change(each, report.ruler)) for each in report.changes)
    return _alike(told)


def _path(changed: Changed) -> str:
    what = {"panel": "panel ", "fold": "fold ", "reading": "reading at ", "side": "", "fact": ""}[changed.what]
    return f"{what}{changed.path}"


def _change(changed: Changed, ruler: Ruler) -> str:
    return f": {write(changed.designed, ruler)} becomes {write(changed.now, ruler)}"


def _pairs(report: SlipReport) -> list[str]:
    ruler = report.ruler
    return [
        f"{pair.join}: {pair.one} is {write(pair.one_size, ruler)} and {pair.other} {write(pair.other_size, ruler)} on "
        f"{pair.piece}, a step of {write(pair.step, ruler)}."
        for pair in report.pairs
    ]


def _disliked(report: SlipReport) -> list[Fit]:
    return [fit for fit in report.fits if not fit.strict and fit.held and not fit.holds]


def _fits(fits: Iterable[Fit], ruler: Ruler) -> list[str]:
    return _alike((fit.path, fit.operator, f": {_fit(fit, ruler)}") for fit in fits)


def _has_to_be(fit: Fit) -> str:
    words = _HAS_TO_BE[fit.operator]
    return words if fit.strict or fit.is_reading else words.replace("has to be", "had better be")


def _fit(fit: Fit, ruler: Ruler) -> str:
    left, right = fit.words
    now = f"{left} is {_value(fit.now[0], ruler)} and {_has_to_be(fit)} {_value(fit.now[1], ruler)}"
    before = f"as designed {_value(fit.designed[0], ruler)} and {_value(fit.designed[1], ruler)}"
    because = _words(fit.reason, ruler)
    return f"{now} ({before}), because {because}." if right else f"{because}."


def _touched(report: SlipReport) -> list[str]:
    """What is other than designed and still holds, with its number and its limit."""
    other = [fit for fit in report.fits if fit.holds and fit.now != fit.designed]
    fits = [fit for fit in other if fit.words[1] and not fit.is_reading]
    return _alike((fit.path, fit.operator, f": {_held(fit, report.ruler)}") for fit in fits)


def _held(fit: Fit, ruler: Ruler) -> str:
    was, now = _value(fit.designed[0], ruler), _value(fit.now[0], ruler)
    before = f", designed {was}," if was != now else ""
    return f"{fit.words[0]} is {now}{before} and {_has_to_be(fit)} {_value(fit.now[1], ruler)}"


def _value(value: Quantity | str | bool, ruler: Ruler) -> str:
    if isinstance(value, Quantity):
        return write(value, ruler)
    return value if isinstance(value, str) else "yes" if value else "no"


def _scales(report: SlipReport) -> list[str]:
    """At which scales the fits that hang on what was printed hold, those that break first before the others."""
    told: list[tuple[Fraction, str, str, str]] = []
    for fit in report.fits:
        kind = "" if fit.strict else " (liked)"
        if fit.holds_from is not None:
            told.append((1 - fit.holds_from, fit.path, kind, f"{kind}: at {percent(fit.holds_from)} and more"))
        elif fit.holds_to is not None:
            told.append((fit.holds_to - 1, fit.path, kind, f"{kind}: at {percent(fit.holds_to)} and less"))
    told.sort(key=lambda each: each[0])
    return _alike((path, kind, words) for _, path, kind, words in told)


def _still(report: SlipReport) -> str:
    strict = [fit for fit in report.fits if fit.strict and fit.held]
    hold = sum(1 for fit in strict if fit.holds)
    if not strict:
        return "The design states no requirement that could fail."
    return f"{hold} of {len(strict)} requirements still hold."


def _repair(repair: Repair, report: SlipReport) -> str:
    words = _words(repair.words, report.ruler)
    if not repair.mends or report.holds:
        return words
    pieces = len(repair.cut_again)
    return f"{words} ({'1 piece' if pieces == 1 else f'{pieces} pieces'} to cut again.)" if pieces else (
        f"{words} (Nothing to cut again.)"
    )  # fmt: skip


def _words(words: Words, ruler: Ruler) -> str:
    return "".join(each if isinstance(each, str) else write(each, ruler) for each in words)
