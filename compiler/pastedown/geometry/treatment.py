"""What may be done to the edges, corners and inside of a piece: `mitre(...)`, `round(...)`, `window(...)` and the
rest."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pastedown.design.brackets import TREATMENTS, word_of
from pastedown.diagnostic import error
from pastedown.geometry.evaluate import length, work_of
from pastedown.geometry.fault import Fault
from pastedown.geometry.layer import Scope
from pastedown.geometry.value import Treatment
from pastedown.geometry.work import WORK_OF_A_CUT
from pastedown.tree.expression import Call

if TYPE_CHECKING:
    from pastedown.geometry.value import Value


def treatment(call: Call, scope: Scope) -> Value:
    """The value of a treatment's call. Every length has to be more than nought, distances nought or more."""
    from pastedown.geometry.functions import values_in_brackets

    work_of(scope).spend(call.span, WORK_OF_A_CUT)
    name = call.called.head
    kind = TREATMENTS[name]
    words = dict(kind.words)
    lengths = []
    said = []
    for label, expression in sorted(values_in_brackets(call).items()):
        if label in words:
            said.append((label, word_of(expression)))
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
    return Treatment(name, tuple(lengths), tuple(said))
