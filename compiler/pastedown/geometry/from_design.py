"""Takes a linked recipe and one of its designs; gives the model with everything worked out. Afterwards every length is exact,
every piece has an outline, and every fault of the maker's has been told once."""

from __future__ import annotations

from collections.abc import Iterator

from attrs import frozen

from pastedown.design.recipe import Makeable, Recipe
from pastedown.design.stock import Stock
from pastedown.diagnostic import Diagnostic
from pastedown.geometry import model
from pastedown.geometry.evaluate import text_value
from pastedown.geometry.fault import Fault, Spoilt
from pastedown.geometry.follow import each_of
from pastedown.geometry.instance import Instance
from pastedown.geometry.layer import Scope, description_of
from pastedown.geometry.make_crease import make_crease
from pastedown.geometry.make_join import JoinMaker
from pastedown.geometry.make_piece import PieceMaker
from pastedown.geometry.make_step import make_step
from pastedown.geometry.measurements import measurements_of
from pastedown.geometry.natural_order import natural
from pastedown.geometry.piece import FlatPiece
from pastedown.geometry.place import faces_of
from pastedown.geometry.pose import read_pose
from pastedown.geometry.ruler import ruler_of
from pastedown.geometry.settle_piece import settle_piece
from pastedown.geometry.settle_requirement import settle_requirement
from pastedown.geometry.value import FamilyValue, Reference, TextValue
from pastedown.geometry.work import Work
from pastedown.tree.statement import Fold, Join, Part, Piece, Place, Pose, Require, Step


@frozen(eq=False)
class WorkedOut:
    """The model, and the part it was read off, which `why` asks for derivations. Both are None where not even the album could
    be begun."""

    model: model.Model | None
    root: Instance | None
    diagnostics: tuple[Diagnostic, ...]


def work_out(recipe: Recipe, design: Makeable, told: tuple[Diagnostic, ...] = ()) -> WorkedOut:
    """Work out one design. Nothing is said again about words that `told` speaks of already."""
    work = Work(makeables=dict(recipe.components))
    for diagnostic in told:
        if diagnostic.span is not None:
            work.told.add((diagnostic.span.source.name, diagnostic.span.start, diagnostic.span.end))
    root: Instance | None = None
    made: model.Model | None = None
    with work.telling():
        root = Instance(work, description_of(design), None, "", None, design.span)
        work.root = root
    if root is not None:
        made = _model(root, design, recipe)
    return WorkedOut(made, root, tuple(work.diagnostics))


def instances(root: Instance) -> Iterator[Instance]:
    """Every part of a design, the album first, then by path. Parts that failed are left out."""
    yield root
    for name in root.names():
        if root.kind_of(name) is not Part:
            continue
        try:
            if root.is_removed(name):
                continue
            value = root.lookup(name, root.span)
        except Fault as fault:
            root.work.tell(fault.diagnostic)
            continue
        except Spoilt:
            continue
        for child in each_of(value):
            if isinstance(child, Instance):
                yield from instances(child)


def _model(root: Instance, design: Makeable, recipe: Recipe) -> model.Model:
    parts: list[model.Part] = []
    pieces: list[FlatPiece] = []
    joins: list[model.Join] = []
    creases: list[model.Crease] = []
    steps: list[model.Step] = []
    requirements: list[model.Requirement] = []
    measurements: list[model.Measurement] = []
    for instance in instances(root):
        parts.append(model.Part(instance.path, instance.component.name, _plain(instance.component.doc)))
        for kind, name in _named(instance):
            with root.work.telling():
                if kind is Require:
                    requirements.extend(settle_requirement(instance, name))
                elif not instance.is_removed(name):
                    _settle(instance, kind, name, pieces, joins, creases, steps)
        measurements.extend(measurements_of(instance))
    ruler = ruler_of(root)
    return model.Model(
        name=design.name, title=_title(root, design), doc=_doc(root), ruler=ruler,
        parts=tuple(sorted(parts, key=lambda part: natural(part.path))),
        stocks=_stocks(pieces, joins),
        pieces=tuple(sorted(pieces, key=lambda piece: natural(piece.path))),
        joins=tuple(sorted(joins, key=lambda join: natural(join.path))),
        creases=tuple(sorted(creases, key=lambda crease: natural(crease.path))),
        steps=tuple(sorted(steps, key=lambda step: natural(step.path))),
        requirements=tuple(sorted(requirements, key=lambda requirement: natural(requirement.path))),
        measurements=tuple(sorted(measurements, key=lambda measurement: natural(measurement.path))),
    )


def _named(instance: Instance) -> list[tuple[type, str]]:
    return [(kind, name) for name in instance.names() if (kind := instance.kind_of(name)) is not None]


def _settle(
    instance: Instance, kind: type, name: str, pieces: list[FlatPiece], joins: list[model.Join],
    creases: list[model.Crease], steps: list[model.Step],
) -> None:
    """Work out everything that one name of a part declares, each member of a family by itself."""
    telling = instance.work.telling
    if kind is Piece:
        for value in each_of(instance.lookup(name, instance.span)):
            with telling():
                if isinstance(value, PieceMaker):
                    pieces.append(settle_piece(value))
        return
    if kind in (Place, Pose):
        value = instance.lookup(name, instance.span)
        for reference in value.items if isinstance(value, FamilyValue) else ((None, value),):
            with telling():
                if isinstance(reference[1], Reference):
                    faces_of(reference[1]) if kind is Place else read_pose(reference[1])
        return
    if kind not in (Join, Fold, Step):
        return
    for index, entry, scope in instance.declared(name):
        with telling():
            if kind is Join:
                joins.append(JoinMaker(instance, name, index, entry, scope).make())
            elif kind is Fold:
                creases.append(make_crease(instance, name, index, entry, scope))
            else:
                steps.append(make_step(instance, name, index, entry, scope))


def _plain(text: object) -> str:
    """A component's own text without its slots filled: it belongs to the component, not to one part."""
    pieces = getattr(text, "pieces", ())
    return "".join(piece for piece in pieces if isinstance(piece, str))


def _title(root: Instance, design: Makeable) -> str:
    from pastedown.quantity.write import write

    try:
        stated = root.fact_or_none("title")
    except Spoilt:
        stated = None
    if stated is None and design.doc is not None:
        try:
            stated = text_value(design.doc, Scope(root, design.file, {}, root))
        except (Fault, Spoilt):
            stated = None
    if isinstance(stated, TextValue):
        ruler = ruler_of(root)
        return "".join(piece if isinstance(piece, str) else write(piece, ruler) for piece in stated.pieces)
    return design.name.replace("_", " ").capitalize()


def _doc(root: Instance) -> model.WorkedText:
    try:
        stated = root.fact_or_none("about")
    except Spoilt:
        return ()
    return stated.pieces if isinstance(stated, TextValue) else ()


def _stocks(pieces: list[FlatPiece], joins: list[model.Join]) -> tuple[Stock, ...]:
    used = {piece.stock for piece in pieces} | {join.by for join in joins if join.by is not None}
    return tuple(sorted(used, key=lambda stock: (stock.name, repr(stock))))
