"""Tells a mend as text for a terminal."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable

from pastedown.diagnostic import Diagnostic
from pastedown.fit.margins import how_sure
from pastedown.geometry.model import Requirement
from pastedown.mend.edit import Edit
from pastedown.mend.report import MendReport
from pastedown.quantity.quantity import Quantity
from pastedown.quantity.ruler import Ruler
from pastedown.quantity.write import write

_WIDTH = 96
_MOST_FAULTS = 12
# So many ways out of a warning are told; a check tells all.
_MOST_CURES = 2
_ONLY_ASKS_LESS = (
    "That lowers a limit of yours, and nothing is made otherwise for it: do it only if so little is what you want. "
    "Nothing else was found."
)


def mend_text(report: MendReport) -> str:
    """What is wrong, what to change, and what holds then."""
    if not report.faults:
        return "\n".join([f"{report.name} goes together as it is. There is nothing to mend.", *_warnings(report)])
    lines = ["What is wrong:", *_listed([each.sentence for each in report.faults])]
    if not report.edits:
        lines += ["", *textwrap.wrap(_nothing_found(report), _WIDTH)]
        if report.bought:
            lines += ["", "With something else to buy everything passes:", *_listed(map(_edit, report.bought))]
        lines += _warnings(report)
        return "\n".join(lines)
    several = "numbers" if len(report.edits) > 1 else "number"
    lines += ["", f"What mends it, with {len(report.edits)} {several} set anew:", *_listed(map(_edit, report.edits))]
    if report.safer is not None:
        edit, least = report.safer
        told = f"{edit.called} = {edit.said_after}: {how_sure(least, report.ruler)}"
        lines += ["", "One mark further is safer:", *_listed([told])]
    if report.others:
        lines += ["", "This passes as well, if you like it better:", *_listed(map(_edit, report.others))]
    held = [_holds(each, report.ruler) for each in report.mended]
    if held:
        lines += ["", "What failed holds then:", *_listed(held)]
    disliked = [_holds(each, report.ruler) for each in report.disliked]
    if disliked:
        lines += ["", "What is liked less then:", *_listed(disliked)]
    near = [how_sure(each, report.ruler) for each in report.nearest]
    if near:
        lines += ["", "Nearest to failing then, by the errors of the hand:", *_listed(near)]
    lines += _warnings(report)
    return "\n".join(lines)


def _warnings(report: MendReport) -> list[str]:
    """What is only warned of, which is for the maker to weigh, and what cures each."""
    if not report.warnings:
        return []
    several = "warnings are" if len(report.warnings) > 1 else "warning is"
    told = [f"{each.sentence} {_cures(each)}".rstrip() for each in report.warnings]
    return ["", f"{len(report.warnings)} {several} left for you to weigh:", *_listed(told)]


def _cures(warning: Diagnostic) -> str:
    first, *others = warning.way_out.split("\n")[:_MOST_CURES]
    return " ".join([f"Try: {first}" if first else "", *(f"Or: {each}" for each in others)]).strip()


def _listed(entries: Iterable[str]) -> list[str]:
    told = list(entries)
    more = [f"{len(told) - _MOST_FAULTS} more"] if len(told) > _MOST_FAULTS else []
    wrapped = [
        textwrap.wrap(each, _WIDTH, initial_indent="  ", subsequent_indent="    ")
        for each in [*told[:_MOST_FAULTS], *more]
    ]
    return [line for lines in wrapped for line in lines]


def _edit(edit: Edit) -> str:
    told = f"line {edit.line}: {edit.called} from {edit.said_before} to {edit.said_after}"
    return f"{told}. {_ONLY_ASKS_LESS}" if edit.lowers_limit else told


def _nothing_found(report: MendReport) -> str:
    if report.root is not None:
        return f"No number is to blame. Try: {'. Or: '.join(report.root.way_out.splitlines())}."
    return (
        "Nothing was found that mends it: up to three numbers of the file were set anew together, sums that the faults "
        f"hang on{_named(report.sums)} were made longer and shorter, and the design was worked out {report.tried} "
        "times. "
        "What was bought, what is required and the library were left as they are. "
        "See the ways out in the messages of a check."
    )


def _named(sums: tuple[str, ...]) -> str:
    shown = [*sums[:_MOST_FAULTS], *([f"{len(sums) - _MOST_FAULTS} more"] if len(sums) > _MOST_FAULTS else [])]
    return f" ({', '.join(shown)})" if shown else ""


def _holds(each: Requirement, ruler: Ruler) -> str:
    words = {">=": "at least", "<=": "at most", ">": "more than", "<": "less than", "is": "just"}
    wanted = f"{words[each.operator]} {_value(each.right, ruler)}"
    verb = "has to be" if each.strict else "had better be"
    return f"{each.path}: {each.left_words} is {_value(each.left, ruler)}, and {verb} {wanted}"


def _value(value: Quantity | str | bool, ruler: Ruler) -> str:
    if isinstance(value, Quantity):
        return write(value, ruler)
    return value if isinstance(value, str) else "yes" if value else "no"
