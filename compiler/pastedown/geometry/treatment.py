"""What may be done to the edges, corners and inside of a piece: `mitre(...)`, `round(...)`, `window(...)` and the
rest."""

from __future__ import annotations

from typing import TYPE_CHECKING

from attrs import frozen

from pastedown.diagnostic import error
from pastedown.diagnostic.nearest_name import did_you_mean
from pastedown.geometry.evaluate import length
from pastedown.geometry.fault import Fault
from pastedown.geometry.layer import Scope
from pastedown.geometry.value import Treatment
from pastedown.tree.expression import Call, Path

if TYPE_CHECKING:
    from pastedown.geometry.value import Value


@frozen
class TreatmentKind:
    """Where a treatment goes ("corner", "edge" or "inside"), what it needs, what it may have, and its words."""

    where: str
    needs: tuple[str, ...]
    may_have: tuple[str, ...] = ()
    words: tuple[tuple[str, tuple[str, ...]], ...] = ()


# `first` of each is the one length that may go without its name.
TREATMENTS: dict[str, TreatmentKind] = {
    "mitre": TreatmentKind("corner", ("size",), ("along_height",)),
    "round": TreatmentKind("corner", ("radius",)),
    "notch": TreatmentKind("edge", ("width", "depth"), ("at",)),
    "thumb_notch": TreatmentKind("edge", ("width",), ("depth", "at")),
    "taper": TreatmentKind("edge", ("by",)),
    "window": TreatmentKind("inside", ("height", "width"), ("from_left", "from_tail", "radius")),
    "slit": TreatmentKind("inside", ("length",), ("from_left", "from_tail"), (("along", ("height", "width")),)),
}


def treatment(call: Call, scope: Scope) -> Value:
    """The value of a treatment's call. Every length has to be more than nought, distances nought or more."""
    from pastedown.geometry.functions import labelled_arguments

    name = call.called.head
    kind = TREATMENTS[name]
    words = dict(kind.words)
    arguments = labelled_arguments(call, (*kind.needs, *kind.may_have, *words), first=kind.needs[0])
    lengths = []
    said = []
    for label, expression in sorted(arguments.items()):
        if label in words:
            word = expression.head if isinstance(expression, Path) and not expression.trailers else ""
            if word not in words[label]:
                raise Fault(
                    error(
                        "unknown-choice",
                        expression.span,
                        f"{label} is one of {', '.join(words[label])}.",
                        way_out=did_you_mean(word, words[label]) or f"Write one of them, such as {words[label][0]}.",
                    )
                )
            said.append((label, word))
            continue
        value = length(expression, scope).exact
        if value.value < 0 or (value.value == 0 and label in kind.needs):
            raise Fault(
                error(
                    "out-of-range",
                    expression.span,
                    f"The {label.replace('_', ' ')} of a {name.replace('_', ' ')} has to be more than nought.",
                    way_out="Make it longer, or leave the cut out.",
                )
            )
        lengths.append((label, value))
    missing = [label for label in (*kind.needs, *words) if label not in arguments]
    if missing:
        raise Fault(
            error(
                "missing-argument",
                call.span,
                f"A {name.replace('_', ' ')} needs its {missing[0]}.",
                way_out=f"Add {missing[0]}: ... in the brackets.",
            )
        )
    return Treatment(name, tuple(lengths), tuple(said))
