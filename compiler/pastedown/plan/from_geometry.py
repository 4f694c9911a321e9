"""The plan of a design.

Takes the worked-out model, gives all that a maker is told, before any file format, and what is wrong with the order of
work. Afterwards every piece stands in one entry of the cut list, and each step comes after all that it needs.
"""

from attrs import evolve

from pastedown.design.stock import Stock
from pastedown.diagnostic import Diagnostic
from pastedown.geometry.model import Join, Model, Side
from pastedown.geometry.natural_order import natural_key
from pastedown.plan.assembly_tasks import crease_tasks, join_tasks, step_tasks
from pastedown.plan.bonded_zones import Bonds
from pastedown.plan.build_steps import build_steps
from pastedown.plan.bulk import bulk
from pastedown.plan.cut_pieces import cut_pieces
from pastedown.plan.headings import parted_heading, scored_apart, under_headings
from pastedown.plan.join_words import sorted_alignments
from pastedown.plan.loose_tasks import loose_tasks
from pastedown.plan.lying import told_across
from pastedown.plan.margins import margins
from pastedown.plan.materials import materials
from pastedown.plan.meant_so import with_what_is_meant
from pastedown.plan.moved_lengths import changed_lengths, moved_lengths
from pastedown.plan.optional_pieces import optional_pieces
from pastedown.plan.order import in_order_of_work
from pastedown.plan.piece_tasks import piece_tasks
from pastedown.plan.plan import Bond, Fact, PartOfAlbum, Plan, Verdict
from pastedown.plan.settle_space import settle_space
from pastedown.plan.stock_names import name_stocks


def plan_from(model: Model) -> tuple[Plan, tuple[Diagnostic, ...]]:
    """The plan, and an error for each ring in the order of work. Never raises for a fault of the maker's."""
    stock_names, bonds = name_stocks(model), Bonds(model)
    pieces = {piece.path: piece for piece in model.pieces}
    cut = cut_pieces(model.pieces, stock_names)
    optional = optional_pieces(model)
    cut = tuple(evolve(piece, optional=all(path in optional for path in piece.paths)) for piece in cut)
    bought = materials(model, stock_names, bonds)
    cut = told_across(cut, bought)
    tasks = [*piece_tasks(pieces, cut, scored_apart(model.steps)), *join_tasks(model, cut, stock_names, bonds)]
    tasks += [*crease_tasks(model, cut), *step_tasks(model), *loose_tasks(model, cut)]
    tasks, doubtful = under_headings(model.steps, tasks)
    batches, faults = in_order_of_work(model, tasks)
    faults = (*doubtful, *faults) or parted_heading(model, tasks, batches)
    plan = Plan(
        name=model.name,
        title=model.title,
        doc=model.doc,
        ruler=model.ruler,
        parts=_parts(model),
        pieces=cut,
        steps=with_what_is_meant(build_steps(batches, cut, pieces), model),
        materials=bought,
        bonds=_bonds(model, stock_names),
        facts=_facts(model),
        verdicts=_verdicts(model),
        moved=moved_lengths(model),
        changed=changed_lengths(model),
        margins=margins(model),
        bulk=bulk(model, stock_names),
        space=settle_space(model, cut),
    )
    return plan, faults


def _parts(model: Model) -> tuple[PartOfAlbum, ...]:
    parts = sorted(model.parts, key=lambda part: natural_key(part.path))
    return tuple(PartOfAlbum(part.path, part.component, part.doc) for part in parts)


def _bonds(model: Model, stock_names: dict[Stock, str]) -> tuple[Bond, ...]:
    joins = sorted(model.joins, key=lambda join: natural_key(join.path))
    return tuple(_bond(join, stock_names[join.by] if join.by is not None else "") for join in joins)


def _bond(join: Join, stock: str) -> Bond:
    return Bond(
        path=join.path,
        kind="close" if join.closes else "join",
        what=_faces(join.what),
        to=_faces(join.to),
        alignments=tuple((line.what, line.to, line.inside) for line in sorted_alignments(join)),
        adhesive=join.adhesive,
        stock=stock,
        moving=join.moving,
    )


def _faces(side: Side) -> str:
    """The faces by their paths from the top of the design, which mean the same wherever they are read."""
    return ", ".join(".".join(name for name in face if name) for face in side.faces)


def _facts(model: Model) -> tuple[Fact, ...]:
    measured = sorted(model.measurements, key=lambda measurement: natural_key(measurement.path))
    return tuple(Fact(each.path, each.value, each.origin, each.doc) for each in measured)


def _verdicts(model: Model) -> tuple[Verdict, ...]:
    judged = sorted(model.requirements, key=lambda requirement: natural_key(requirement.path))
    return tuple(
        Verdict(each.path, each.left, each.operator, each.right, each.holds, each.because, each.meant)
        for each in judged
    )
