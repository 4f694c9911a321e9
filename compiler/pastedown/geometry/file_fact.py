"""Facts stated outside every album and component: a house style, a stock, a named sheet."""

from __future__ import annotations

from typing import TYPE_CHECKING

from attrs import evolve

from pastedown.design.body import Body
from pastedown.design.recipe import ComponentOf, File
from pastedown.design.stock import Stock
from pastedown.geometry.evaluate import evaluate
from pastedown.geometry.fault import Fault, Spoilt
from pastedown.geometry.layer import Description, Scope
from pastedown.geometry.stock_value import stock_with_body
from pastedown.geometry.work import Work
from pastedown.tree.statement import Amend, Fact

if TYPE_CHECKING:
    from pastedown.geometry.instance import Instance
    from pastedown.geometry.value import Value


def work_out_file_fact(work: Work, file: File, name: str, fact: Fact, part: Instance) -> Value:
    """The value of a file's fact, worked out once in a run. Raises Spoilt when it failed."""
    key = (id(file), name)
    if key in work.file_facts:
        known = work.file_facts[key]
        if known is None:
            raise Spoilt
        return known  # type: ignore[return-value]
    with work.working_out(key, name, fact.path.span):
        try:
            value = _evaluate(work, file, name, fact, part)
        except Fault as fault:
            work.file_facts[key] = None
            work.tell(fault.diagnostic)
            raise Spoilt from None
        except Spoilt:
            work.file_facts[key] = None
            raise
    work.file_facts[key] = value
    return value


def _evaluate(work: Work, file: File, name: str, fact: Fact, part: Instance) -> Value:
    from pastedown.geometry.instance import Instance

    nobody = ComponentOf(file.name, None, Body({}, ()), (), file, False, fact.span)
    outside = Instance(work, Description(nobody, ()), None, "", None, fact.span)
    scope = Scope(outside, file, {}, outside)
    value = evaluate(fact.value, scope)
    if isinstance(value, Stock):
        for placed in file.body.by_name[name]:
            if isinstance(placed.statement, Amend):
                value = stock_with_body(value, placed.statement.body, scope)
        if not value.name:
            value = evolve(value, name=name.replace("_", " "))
    return value
