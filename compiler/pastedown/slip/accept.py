"""Looks whether what a print or a cut came out as can be accepted: where all that is lost falls short of limits that
parts state by themselves and let a design set otherwise, such as the least border in sight.

A limit is what a component takes with a default of its own that hangs on nothing but the marks of the ruler, within
bounds of its own; what pieces are cut to, and what is a measure of another part, is none.
"""

from __future__ import annotations

from pastedown.geometry.evaluate import quantity
from pastedown.geometry.fault import Fault, Spoilt
from pastedown.geometry.from_design import instances
from pastedown.geometry.instance import Instance
from pastedown.geometry.paths import paths_in
from pastedown.quantity.dimension import LENGTH
from pastedown.quantity.quantity import Length, Quantity
from pastedown.slip.bench import Bench, length_of
from pastedown.slip.compare import Compared
from pastedown.slip.paths import together
from pastedown.slip.report import Fit, Repair, Words
from pastedown.slip.tried import ACCEPTED, Tried
from pastedown.slip.workshop import Workshop
from pastedown.tree.expression import Expression
from pastedown.tree.statement import Takes


def accepted(workshop: Workshop, bench: Bench, found: Compared) -> Tried | None:
    """What lies there with the limits that it misses set to what it is; None where something else is lost, too, or by
    more than a limit may be set to."""
    lost = [fit for fit in found.fits if fit.strict and fit.held and not fit.holds]
    if not lost or len(lost) < len(found.wrong):
        return None
    parts = {part.path: part for part in instances(bench.root)}
    after = bench.again()
    told: dict[str, list[tuple[Fit, Takes]]] = {}
    for fit in lost:
        part = parts.get(fit.path.rpartition(".")[0])
        limit = None if part is None else _limit(part, fit, bench)
        value = fit.now[0]
        if part is None or limit is None or not isinstance(value, Quantity) or not _may_be(part, limit, fit, value):
            return None
        path = part.path_of(limit.name, None)
        before = after.numbers.get(path)
        if before is None or (value < before) == (fit.operator == ">="):
            after.numbers[path] = value
        told.setdefault(path, []).append((fit, limit))
    if not workshop.mends(after):
        return None
    words: list[str | Quantity] = []
    for path, fits in told.items():
        part = parts[path.rpartition(".")[0]]
        words += [*([" "] if words else []), *_words(part, after.numbers[path], fits)]
    return Tried(Repair(tuple(words), True, order=ACCEPTED), bench, after)


def _words(part: Instance, value: Length, fits: list[tuple[Fit, Takes]]) -> Words:
    fit, limit = fits[0]
    says = "" if limit.doc is None else "".join(each for each in limit.doc.pieces if isinstance(each, str))
    doc = f" ({says})" if says else ""
    lost = together(f"{_owner(each.path)}{each.words[0]}" for each, _ in fits)
    designed, end = fit.designed[1], _bound(part, limit, fit)
    assert isinstance(designed, Quantity) and end is not None
    least = "no less than" if fit.operator == ">=" else "no more than"
    may_be = f"{part.path_of(limit.name, None)}{doc} may be set to {least} "
    return "Accept ", value, " instead of ", designed, f" for {lost}: {may_be}", end, "."


def _owner(path: str) -> str:
    part, dot, _ = path.rpartition(".")
    return f"{part}{dot}"


def _limit(part: Instance, fit: Fit, bench: Bench) -> Takes | None:
    """The limit that a requirement compares with by its plain name, as it is taken."""
    name = fit.words[1]
    if fit.operator not in (">=", "<=") or not name.isidentifier() or part.kind_of(name) is not Takes:
        return None
    _, entry, _ = part.declared(name)[0]
    takes = entry.statement
    if not isinstance(takes, Takes) or takes.default is None or _hangs_on_something(takes.default):
        return None
    return None if any(fact.path == part.path_of(name, None) for fact in bench.facts) else takes


def _hangs_on_something(default: Expression) -> bool:
    return any(path.head != "ruler" for path in paths_in(default))


def _may_be(part: Instance, limit: Takes, fit: Fit, value: Length) -> bool:
    """Whether a limit may be set to a length, by the bounds of its component."""
    if value.dimension != LENGTH or length_of(part, limit.name) is None:
        return False
    end = _bound(part, limit, fit)
    return end is not None and (end <= value if fit.operator == ">=" else value <= end)


def _bound(part: Instance, limit: Takes, fit: Fit) -> Length | None:
    """The least that a limit may be set to, or the most where less than it is asked for."""
    bound = limit.least if fit.operator == ">=" else limit.most
    _, _, scope = part.declared(limit.name)[0]
    try:
        return None if bound is None else quantity(bound, scope)
    except (Fault, Spoilt):
        return None
