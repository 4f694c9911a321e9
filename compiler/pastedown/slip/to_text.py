"""Writes a report on slips as text for a terminal."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator

from pastedown.quantity.quantity import Quantity
from pastedown.quantity.ruler import Ruler
from pastedown.quantity.write import write
from pastedown.slip.repair import percent
from pastedown.slip.report import Changed, Done, Fit, SlipReport

# So many changed lengths are written out.
MOST_CHANGES = 30
_WIDTH = 96
_HAS_TO_BE = {
    ">=": "has to be at least", "<=": "has to be at most", ">": "has to be more than", "<": "has to be less than",
    "is": "has to be",
}  # fmt: skip


def slip_text(report: SlipReport) -> str:
    """What was done, what changes, which fits hold and which do not, and what to do, in this order."""
    lines: list[str] = []
    for done in report.done:
        lines += _wrapped(_done(done, report.ruler), "")
    lines += _section("What changes", _changes(report))
    lines += _section("Panels that are stuck together and no longer match", _pairs(report))
    lines += _section("What no longer holds", [*_broken(report), *(fault.sentence for fault in report.faults)])
    lines += _section("What is liked less", _disliked(report))
    lines += _section("What was printed fits", _scales(report))
    lines += ["", _still(report)]
    lines += _section("What to do, cheapest first", [_words(each.words, report.ruler) for each in report.repairs])
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
    shown = [_change(each, report.ruler) for each in report.changes[:MOST_CHANGES]]
    more = len(report.changes) - MOST_CHANGES
    return [*shown, f"and {more} lengths more"] if more > 0 else shown


def _change(changed: Changed, ruler: Ruler) -> str:
    what = {"panel": "panel ", "fold": "fold ", "reading": "reading at ", "side": "", "fact": ""}[changed.what]
    return f"{what}{changed.path}: {write(changed.designed, ruler)} becomes {write(changed.now, ruler)}"


def _pairs(report: SlipReport) -> list[str]:
    ruler = report.ruler
    return [
        f"{pair.join}: {pair.one} is {write(pair.one_size, ruler)} and {pair.other} {write(pair.other_size, ruler)} on "
        f"{pair.piece}, a step of {write(pair.step, ruler)}."
        for pair in report.pairs
    ]


def _broken(report: SlipReport) -> list[str]:
    return [_fit(fit, report.ruler) for fit in report.broken]


def _disliked(report: SlipReport) -> list[str]:
    return [_fit(fit, report.ruler) for fit in report.fits if not fit.strict and fit.held and not fit.holds]


def _fit(fit: Fit, ruler: Ruler) -> str:
    left, right = fit.words
    wanted = _HAS_TO_BE[fit.operator]
    now = f"{left} is {_value(fit.now[0], ruler)} and {wanted} {_value(fit.now[1], ruler)}"
    before = f"as designed {_value(fit.designed[0], ruler)} and {_value(fit.designed[1], ruler)}"
    because = "".join(each if isinstance(each, str) else write(each, ruler) for each in fit.reason)
    return f"{fit.path}: {now} ({before}), because {because}." if right else f"{fit.path}: {because}."


def _value(value: Quantity | str | bool, ruler: Ruler) -> str:
    if isinstance(value, Quantity):
        return write(value, ruler)
    return value if isinstance(value, str) else "yes" if value else "no"


def _scales(report: SlipReport) -> list[str]:
    """At which scales the fits that hang on what was printed hold."""

    def told() -> Iterator[str]:
        for fit in report.fits:
            kind = "" if fit.strict else " (liked)"
            if fit.holds_from is not None:
                yield f"{fit.path}{kind}: at {percent(fit.holds_from)} and more"
            elif fit.holds_to is not None:
                yield f"{fit.path}{kind}: at {percent(fit.holds_to)} and less"

    return list(told())


def _still(report: SlipReport) -> str:
    strict = [fit for fit in report.fits if fit.strict and fit.held]
    hold = sum(1 for fit in strict if fit.holds)
    if not strict:
        return "The design states no requirement that could fail."
    return f"{hold} of {len(strict)} requirements still hold."


def _words(words: tuple[str | Quantity, ...], ruler: Ruler) -> str:
    return "".join(each if isinstance(each, str) else write(each, ruler) for each in words)
