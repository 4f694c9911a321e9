"""What a maker is warned of, once, at the first step that needs it.

General safety practice, from memory; the wording is this project's own. Each of them defers to the tool's
instructions, to the label, or to local rules.
"""

from collections.abc import Iterable

from pastedown.design.stock import Stock
from pastedown.plan.plan import PlanText
from pastedown.plan.task import Task

_BLADE = (
    "Cut away from your hand along a metal rule with a guard, with a fresh blade, "
    "and cap the knife whenever you lay it down."
)
_TRIMMER = (
    "Only one person works a guillotine or trimmer, with both hands clear of the blade; latch it when you stop. "
    "The tool's own instructions and your local rules come first."
)
OF_CUTTING = (_BLADE, _TRIMMER)
_GLUE = (
    "Read the label of the glue and follow it and your local rules. "
    "If it holds solvent, air the room and keep flames away."
)
_MAGNET = (
    "Keep loose magnets and other small parts away from children: swallowed magnets pull together inside the body and "
    "injure. Your local rules come first."
)

_ARROW = (
    "Draw an arrow along the grain on every sheet before you cut it, and on what is left over: no side of a sheet "
    "that is square, or has been cut, shows which way its grain runs."
)

_OF_KINDS = {"glue": _GLUE, "magnet": _MAGNET}


def usual_cautions(task: Task) -> tuple[PlanText, ...]:
    """The general cautions for this work, then those of what it uses: each stock's own or, without one, that of its
    kind. Who lays out steps shows each of them once."""
    tool = OF_CUTTING if task.kind == "cut" else ()
    arrow = (_ARROW,) if task.kind == "cut" and any(stock.grain == "marked" for stock in task.stocks) else ()
    return tuple((text,) for text in dict.fromkeys((*tool, *arrow, *_of_stocks(task.stocks))))


def of_cutting_sheets(marked: bool, own: Iterable[str]) -> tuple[str, ...]:
    """What is warned of where whole sheets are cut: `marked` says that the grain of some is to be marked, `own` are the
    cautions of the stocks."""
    return tuple(dict.fromkeys((*OF_CUTTING, *((_ARROW,) if marked else ()), *own)))


def caution_of_kind(kind: str) -> str:
    """The usual caution for a kind of stock; empty where there is none."""
    return _OF_KINDS.get(kind, "")


def _of_stocks(stocks: Iterable[Stock]) -> Iterable[str]:
    for stock in stocks:
        caution = stock.caution or _OF_KINDS.get(stock.kind)
        if caution:
            yield caution
