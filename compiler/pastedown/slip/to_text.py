"""Writes a report on slips as text for a terminal."""

from __future__ import annotations

import textwrap
from collections.abc import Hashable, Iterable
from fractions import Fraction
from itertools import groupby

from pastedown.geometry.natural_order import without_indexes
from pastedown.quantity.quantity import Quantity
from pastedown.quantity.ruler import Ruler
from pastedown.quantity.write import write
from pastedown.slip.paths import together
from pastedown.slip.percent import percent
from pastedown.slip.report import Changed, Done, Fit, ReadNow, Repair, SlipReport, Words

# More changed lengths than this are summed up, unless all are asked for: so many of the largest are told, and so many
# requirements that still hold, and what checks find.
MOST_CHANGES = 12
MOST_LARGEST = 4
MOST_HELD = 8
MOST_FAULTS = 4
# So many readings are told with a repair.
MOST_READINGS = 3
_WIDTH = 96
_HAS_TO_BE = {
    ">=": "has to be at least", "<=": "has to be at most", ">": "has to be more than", "<": "has to be less than",
    "is": "has to be",
}  # fmt: skip


def slip_text(report: SlipReport, *, everything: bool = False) -> str:
    """What was done, whether all holds, what does not, what to do, and then what changes and what it touches, in this
    order. What is alike in all members of a family is told once. A long list of changes is summed up, unless
    `everything` is asked for."""
    lines: list[str] = []
    for _, alike in groupby(report.done, key=lambda done: done.words):
        lines += [line for words in _all_done(list(alike), report.ruler) for line in _wrapped(words, "")]
    lines += ["", _still(report)]
    faults = [fault.sentence for fault in report.faults]
    faults = faults if everything else _cut_short(faults, MOST_FAULTS, "faults")
    lines += _section("What no longer holds", [*_fits(report.broken, report.ruler), *faults])
    lines += _section("Panels that are stuck together and no longer match", _pairs(report))
    lines += _section("What is liked less", _fits(_disliked(report), report.ruler))
    lines += _section("What to do, cheapest first", [_repair(each, report) for each in report.repairs])
    lines += _section("What the steps read with what was done", _readings(report))
    lines += _section("At which scales of the print it holds", _scales(report))
    measured = _lengths(report) if everything else _measured(report)
    changes, touched = _told_changes(measured, report.ruler), _touched(report)
    is_whole = everything or len(changes) <= MOST_CHANGES
    is_cut_short = len(measured) < len(_lengths(report)) or len(touched) > MOST_HELD or len(report.faults) > MOST_FAULTS
    is_long = not everything and (is_cut_short or not is_whole)
    lines += _section("What changes", changes if is_whole else _summed_up(report))
    held = touched if everything else _cut_short(touched, MOST_HELD, "requirements")
    lines += _section("What it touches and still holds", held)
    if is_long:
        lines += ["", "With --all everything that changes is told."]
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
        key = without_indexes(path), kind, after
        groups.setdefault(key, []).append(path)
        words[key] = after
    return [f"{together(paths)}{words[key]}" for key, paths in groups.items()]


def _all_done(alike: list[Done], ruler: Ruler) -> list[str]:
    """What was done by one slip: where it moved all folds of a piece by as much, that is told once."""
    first = alike[0]
    if len(alike) < 3 or first.done is None or first.designed is None or not first.edge:
        return [_done(done, ruler) for done in alike]
    by = first.done - first.designed
    others = [each for each in alike if each.done is None or each.designed is None or each.done - each.designed != by]
    if others:
        return [_done(done, ruler) for done in alike]
    size = write(by if by.value >= 0 else -by, ruler)
    way = "far from" if by.value > 0 else "near to"
    return [f"{together(each.path for each in alike)} lie {size} too {way} {first.edge}, each of {len(alike)}."]


def _done(done: Done, ruler: Ruler) -> str:
    if done.scale is not None:
        bought = f"; nor is what is as wide as it was bought: {together(done.as_bought)}" if done.as_bought else ""
        printed = f"{done.path or 'Everything'} was printed at {percent(done.scale)}."
        return f"{printed} How thick it is was not printed{bought}."
    if done.done is None:
        return f"Folded the wrong way: {done.path}."
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
    guess = f" If it is too near instead, write by -{write(by, ruler)}." if done.guessed else ""
    return f"{done.path} is {write(done.done, ruler)}{where}; {designed}, so it is {off}.{guess}"


def _told_changes(changes: Iterable[Changed], ruler: Ruler) -> list[str]:
    return _alike((_path(each), each.what, _change(each, ruler)) for each in changes)


def _summed_up(report: SlipReport) -> list[str]:
    """How many lengths changed, those that what no longer holds speaks of, and the largest of what is measured."""
    changes = _lengths(report)
    pieces = {each.path.rpartition(".")[0] for each in changes}
    first = f"{len(changes)} lengths of {len(pieces)} things are others than designed."
    spoken_of = _spoken_of(report.broken)
    chosen = [each for each in changes if each.path in spoken_of]
    others = [each for each in _measured(report) if each not in chosen]
    others.sort(key=lambda each: (-abs((each.now - each.designed).value), each.path))
    told = _told_changes(chosen, report.ruler)
    largest = _told_changes(others, report.ruler)[:MOST_LARGEST]
    return [first, *told, *([f"The largest are: {largest[0]}", *largest[1:]] if largest else [])]


def _spoken_of(fits: Iterable[Fit]) -> set[str]:
    """The paths of what requirements compare by its name."""
    return {f"{_part(fit.path)}{word}" for fit in fits for words in fit.words
            for word in words.replace("(", " ").replace(")", " ").replace(",", " ").split()}  # fmt: skip


def _lengths(report: SlipReport) -> list[Changed]:
    """What changed, but for the readings, which are told by themselves."""
    return [each for each in report.changes if each.what != "reading"]


def _measured(report: SlipReport) -> list[Changed]:
    """What changed of what lies there and of what has to fit. What is only added up, such as how much tape it takes, is
    a length that nobody measures."""
    spoken_of = _spoken_of(report.fits)
    return [each for each in _lengths(report) if each.what != "fact" or each.path in spoken_of]


def _part(path: str) -> str:
    part, dot, _ = path.rpartition(".")
    return f"{part}{dot}"


def _path(changed: Changed) -> str:
    what = {"panel": "panel ", "fold": "fold ", "side": "", "fact": ""}[changed.what]
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
    return words if fit.strict else words.replace("has to be", "had better be")


def _fit(fit: Fit, ruler: Ruler) -> str:
    left, right = fit.words
    now = f"{left} is {_value(fit.now[0], ruler)} and {_has_to_be(fit)} {_value(fit.now[1], ruler)}"
    before = f"as designed {_value(fit.designed[0], ruler)} and {_value(fit.designed[1], ruler)}"
    because = _words(fit.reason, ruler)
    return f"{now} ({before}), because {because}." if right else f"{because}."


def _touched(report: SlipReport) -> list[str]:
    """What is other than designed and still holds, with its number and its limit; but for what holds by a limit that
    has moved with it."""
    other = [fit for fit in report.fits if fit.holds and fit.now != fit.designed and not _has_moved_along(fit)]
    fits = [fit for fit in other if fit.words[1]]
    return _alike((fit.path, fit.operator, f": {_held(fit, report.ruler)}") for fit in fits)


def _has_moved_along(fit: Fit) -> bool:
    return fit.now[0] == fit.now[1] and fit.now[1] != fit.designed[1]


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
    if not report.wrong_way:
        return _how_many_hold(report)
    back = f"Fold {'them' if len(report.wrong_way) > 1 else 'it'} back first: as it lies, it does not go together."
    if report.holds_when_folded_back:
        return f"{back} Then all that held as designed does."
    return f"{back} Even then not all holds: {_how_many_hold(report)}"


def _how_many_hold(report: SlipReport) -> str:
    strict = [fit for fit in report.fits if fit.strict and fit.held]
    hold = sum(1 for fit in strict if fit.holds)
    if not strict:
        return "The design states no requirement that could fail."
    verdict = f"{hold} of {len(strict)} requirements still hold"
    unlike = "" if not report.pairs else ", and what is stuck together does not match any more"
    more = "" if not report.faults else ", and checks find more"
    return f"{verdict}{unlike}{more if not unlike else ''}."


def _repair(repair: Repair, report: SlipReport) -> str:
    words = _words(repair.words, report.ruler)
    if not repair.mends or report.holds:
        return words
    pieces = len(repair.cut_again)
    again = "Nothing" if not pieces else "1 piece" if pieces == 1 else f"{pieces} pieces"
    return " ".join([words, f"({again} to cut again.)", *_reads_then(repair, report.ruler)])


def _reads_then(repair: Repair, ruler: Ruler) -> list[str]:
    """What the ruler reads otherwise than a step allows even with a repair."""
    told = (
        (each.path, None, f" then reads {write(each.now, ruler)}, not {write(each.designed, ruler)}")
        for each in repair.readings
    )
    words = _alike(told)
    if not words:
        return []
    more = len(words) - MOST_READINGS
    named = [*words[:MOST_READINGS], *([f"so with {more} more"] if more > 0 else [])]
    return [f"{'; '.join(named)}: go by that."]


def _readings(report: SlipReport) -> list[str]:
    """What the ruler will read otherwise than the steps say, and what to make of it."""
    ruler = report.ruler
    told = _alike(
        (each.path, each.past is None, f": {_reading(each, report.holds, ruler)}") for each in report.readings
    )
    past = any(each.is_another for each in report.readings)
    first = "Mend first what no longer holds; before that, pull and trim nothing for these readings."
    return [*told, *([first] if past and not report.holds else [])]


def _reading(read: ReadNow, holds: bool, ruler: Ruler) -> str:
    by = read.now - read.designed
    off = f"{write(by if by.value >= 0 else -by, ruler)} {'more' if by.value > 0 else 'less'}"
    words = f"the ruler {'read' if read.told else 'will read'} {write(read.now, ruler)}, {off} than its step says"
    words += f" ({write(read.designed, ruler)})"
    words += f", and past its limit of {write(read.past, ruler)}." if read.past is not None else "."
    if not holds:
        return words
    if not read.is_another:
        return f"{words} That does no harm: it is within the limits of that step."
    if read.told and read.past is not None:
        return f"{words} All that has to fit with it still does, yet put it right while that costs nothing."
    return f"{words} No harm, for all that has to fit with it still does: go by the new number{_band(read, ruler)}."


def _band(read: ReadNow, ruler: Ruler) -> str:
    """Between which limits the step would have it with what was done."""
    least, most = read.least_now, read.most_now
    if least is not None and most is not None:
        return f", from {write(least, ruler)} to {write(most, ruler)}"
    if least is not None:
        return f", not less than {write(least, ruler)}"
    return f", not more than {write(most, ruler)}" if most is not None else ""


def _words(words: Words, ruler: Ruler) -> str:
    return "".join(each if isinstance(each, str) else write(each, ruler) for each in words)
