"""Facts stated outside every album and component: a house style, a stock, a named sheet."""

from __future__ import annotations

from typing import TYPE_CHECKING

from attrs import evolve

from pastedown.design.body import Body
from pastedown.design.recipe import ComponentOf, File
from pastedown.design.stock import Stock
from pastedown.geometry.evaluate import evaluate
from pastedown.geometry.layer import Description, Scope
from pastedown.geometry.work import Work
from pastedown.tree.statement import Fact

if TYPE_CHECKING:
    from pastedown.geometry.value import Value


def work_out_file_fact(work: Work, file: File, name: str, fact: Fact) -> Value:
    """The value of a file's fact, worked out once in a run. Raises Spoilt when it failed."""
    return work.once((file, name), name, fact.path.span, lambda: _evaluate(work, file, name, fact))


def _evaluate(work: Work, file: File, name: str, fact: Fact) -> Value:
    from pastedown.geometry.instance import Instance

    nobody = ComponentOf(file.name, None, Body({}, ()), (), file, False, fact.span)
    outside = Instance(work, Description(nobody, ()), None, "", None, fact.span)
    scope = Scope(outside, file, {}, outside)
    value = evaluate(fact.value, scope)
    if isinstance(value, Stock) and not value.name:
        return evolve(value, name=name.replace("_", " "))
    return value
