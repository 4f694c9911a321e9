"""Takes a linked recipe and one of its designs; gives the model with everything worked out. Afterwards every length
is exact, every piece has an outline, and every fault of the maker's has been told once."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import Protocol, TypeVar

from attrs import define, evolve, field, frozen

from pastedown.design.recipe import Makeable, Recipe, VariantOf
from pastedown.design.stock import Stock
from pastedown.diagnostic import Diagnostic, warning
from pastedown.geometry import model
from pastedown.geometry.actual import AS_DESIGNED, Actual
from pastedown.geometry.asked_for import AskedFor
from pastedown.geometry.carrying import is_added
from pastedown.geometry.evaluate import text_value
from pastedown.geometry.fault import Fault, Spoilt
from pastedown.geometry.follow import each_of
from pastedown.geometry.hand import read_hand
from pastedown.geometry.idle_settings import tell_idle_settings
from pastedown.geometry.instance import Instance
from pastedown.geometry.layer import Scope, description_of
from pastedown.geometry.make_crease import make_crease
from pastedown.geometry.make_join import JoinMaker
from pastedown.geometry.make_piece import PieceMaker
from pastedown.geometry.make_step import make_step
from pastedown.geometry.marks import Marks, Variable
from pastedown.geometry.measurements import measurements_of
from pastedown.geometry.natural_order import natural_key
from pastedown.geometry.piece import FlatPiece
from pastedown.geometry.pin import Pin, pin
from pastedown.geometry.place import faces_of
from pastedown.geometry.pose import MADE_UP, Angles, read_pose
from pastedown.geometry.ruler import ruler_of, states_ruler
from pastedown.geometry.said_by_others import without_what_others_say
from pastedown.geometry.settle_piece import settle_piece
from pastedown.geometry.settle_requirement import settle_requirement
from pastedown.geometry.value import Reference, TextValue
from pastedown.geometry.work import Work
from pastedown.quantity.write import write
from pastedown.source import Span
from pastedown.tree.expression import Expression
from pastedown.tree.statement import Fold, Join, Part, Piece, Place, Pose, Require, Step


class HasPath(Protocol):
    """Anything that is told apart by its path."""

    @property
    def path(self) -> str: ...


WithPath = TypeVar("WithPath", bound=HasPath)

# What to read in the place of words of a recipe, by the identity of their node.
Instead = Mapping[int, Expression]


@frozen(eq=False)
class WorkedOut:
    """The model, and the part it was read off, which `why` asks for derivations. Both are None where not even the
    album could be begun. `spent` are the steps of work that went into it and into the designs before it; at the limit
    it is `broken_off`."""

    model: model.Model | None
    root: Instance | None
    diagnostics: tuple[Diagnostic, ...]
    spent: int
    broken_off: bool = False


def work_out(
    recipe: Recipe,
    design: Makeable,
    told: tuple[Diagnostic, ...] = (),
    spent: int = 0,
    *,
    on_marks: bool = True,
    chosen: Mapping[Variable, int] | None = None,
    actual: Actual = AS_DESIGNED,
    pins: tuple[Pin, ...] = (),
    instead: Instead | None = None,
    turned: frozenset[Span] = frozenset(),
    only: Iterable[str] | None = None,
) -> WorkedOut:
    """Work out one design. Nothing is said again about words that `told` speaks of already. `spent` are the steps of
    work that went into other designs of the recipe: the limit is on all of them together. With `on_marks`, what parts
    take goes to the marks of the ruler; `chosen` has the choices that are not the first ones. `actual` is what was
    really done, `pins` are numbers to be set from outside, and `instead` is what to read in the place of words of the
    recipe, by the identity of their node; `turned` are words to be read as their opposite, mountain for valley and face
    for back. `only` are requirements and steps by their paths without the number at their
    end, where nothing else is asked: the model has these alone then, and what they hang on is all that is worked out.
    """
    work = Work(
        marks=Marks(on_marks, dict(chosen or {})),
        actual=actual,
        instead=instead or {},
        turned=turned,
        makeables=recipe.components,
        broken_words=recipe.broken_words,
        unbalanced=recipe.unbalanced,
        spent=spent,
        own=recipe.file.source,
    )
    work.heed(told, recipe.unsaid)
    root: Instance | None = None
    made: model.Model | None = None
    with work.telling():
        root = Instance(work, description_of(design), None, "", None, design.span)
        work.root = root
        pin(root, pins)
    if root is not None:
        ruler_of(root)  # before anything else, for messages are written with it
        work.hand = read_hand(root)
        made = _model(root, design, recipe.read_whole, only)
    return WorkedOut(made, root, tuple(work.diagnostics), work.spent, work.is_used_up)


def instances(root: Instance, asked_for: AskedFor | None = None) -> Iterator[Instance]:
    """Every part of a design, the album first, then by path. Parts that failed are left out, and those that nothing is
    asked of where only something is asked for."""
    yield root
    if root.work.is_used_up:
        return
    for name in root.names() if asked_for is None else asked_for.parts_in(root.path):
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
                yield from instances(child, asked_for)


@define
class _Gathered:
    """What has been settled so far, in no order yet."""

    parts: list[model.Part] = field(factory=list)
    pieces: list[FlatPiece] = field(factory=list)
    joins: list[model.Join] = field(factory=list)
    creases: list[model.Crease] = field(factory=list)
    steps: list[model.Step] = field(factory=list)
    requirements: list[model.Requirement] = field(factory=list)
    added: set[str] = field(factory=set)
    measurements: list[model.Measurement] = field(factory=list)
    made_up: list[tuple[str, Angles]] = field(factory=list)
    poses: list[model.Pose] = field(factory=list)
    some_join_failed: bool = False
    some_pose_failed: bool = False


def _model(root: Instance, design: Makeable, read_whole: bool, only: Iterable[str] | None) -> model.Model:
    gathered = _Gathered()
    asked_for = None if only is None else AskedFor(only)
    for instance in instances(root, asked_for):
        if not root.work.is_used_up:
            _gather(instance, gathered, asked_for)
    if only is None:
        tell_idle_settings(root)
        _tell_unused(root.work)
    return model.Model(
        name=design.name,
        title=_title(root, design),
        doc=_doc(root),
        ruler=ruler_of(root),
        parts=_by_path(_in_own_words(gathered.parts, design)),
        stocks=_stocks(gathered),
        pieces=_by_path(gathered.pieces),
        joins=_by_path(gathered.joins),
        creases=_by_path(gathered.creases),
        steps=_by_path(gathered.steps),
        requirements=_by_path(without_what_others_say(gathered.requirements)),
        measurements=_by_path(gathered.measurements),
        moves=_by_path(list(root.work.marks.moves.values())),
        kept_off_marks=_by_path(list(root.work.marks.kept.values())),
        ruler_stated=states_ruler(root),
        some_join_failed=gathered.some_join_failed,
        some_pose_failed=gathered.some_pose_failed,
        read_whole=read_whole,
        made_up=_made_up(gathered.made_up),
        poses=_by_path(gathered.poses),
        stacks=tuple(sorted(root.work.stacks.values(), key=lambda stack: (natural_key(stack.path), stack.words))),
        added=frozenset(gathered.added),
    )


def _in_own_words(parts: list[model.Part], design: Makeable) -> list[model.Part]:
    """A variant is introduced by its own text, if it has one: what its base says need not hold for it."""
    own = _plain(design.doc)
    return [evolve(part, doc=own) if own and not part.path else part for part in parts]


def _made_up(poses: list[tuple[str, Angles]]) -> dict[tuple[str, str], str]:
    """The angles of all parts together; what a part says of the parts in it goes before what they say themselves."""
    angles: dict[tuple[str, str], str] = {}
    for _, pose in sorted(poses, key=lambda each: -len(each[0].split(".")) if each[0] else 0):
        angles.update(pose.by_fold)
    return angles


def _by_path(found: list[WithPath]) -> tuple[WithPath, ...]:
    return tuple(sorted(found, key=lambda each: natural_key(each.path)))


def _gather(instance: Instance, gathered: _Gathered, asked_for: AskedFor | None) -> None:
    instance.work.gathering = instance
    gathered.parts.append(model.Part(instance.path, instance.component.name, _plain(instance.component.doc)))
    names = instance.names() if asked_for is None else asked_for.names_in(instance.path)
    for kind, name in _named(instance, names):
        if instance.work.is_used_up:
            return
        if asked_for is not None and kind not in (Require, Step):
            continue
        with instance.work.telling():
            if kind is Require:
                gathered.requirements.extend(settle_requirement(instance, name))
            elif not instance.is_removed(name):
                _settle(instance, kind, name, gathered)
    if asked_for is None:
        gathered.measurements.extend(measurements_of(instance))


def _tell_unused(work: Work) -> None:
    for key, path, span in work.described:
        if key not in work.asked:
            work.tell(
                warning(
                    "unused-description",
                    span,
                    f"{path} describes something that is never made.",
                    reason="Only a part is cut and built; a description alone makes nothing.",
                    way_out="Make it: part x = " + path.rpartition(".")[2] + "(...). Or leave it out.",
                )
            )


def _named(instance: Instance, names: Iterable[str]) -> list[tuple[type, str]]:
    return [(kind, name) for name in names if (kind := instance.kind_of(name)) is not None]


def _settle(instance: Instance, kind: type, name: str, gathered: _Gathered) -> None:
    """Work out everything that one name of a part declares, each member of a family by itself."""
    if kind is Piece:
        for value in each_of(instance.lookup(name, instance.span)):
            with instance.work.telling():
                if isinstance(value, PieceMaker):
                    gathered.pieces.append(settle_piece(value))
                    gathered.added |= {value.path} if is_added(value) else set()
    elif kind is Place or kind is Pose:
        for reference in each_of(instance.lookup(name, instance.span)):
            with instance.work.telling():
                if isinstance(reference, Reference):
                    faces_of(reference) if kind is Place else _settle_pose(instance, reference, gathered)
    elif kind is Join:
        _settle_joins(instance, name, gathered)
    elif kind is Fold or kind is Step:
        for index, entry, scope in instance.declared(name):
            with instance.work.telling():
                if kind is Fold:
                    gathered.creases.append(make_crease(instance, name, index, entry, scope))
                else:
                    gathered.steps.append(make_step(instance, name, index, entry, scope))


def _settle_pose(instance: Instance, reference: Reference, gathered: _Gathered) -> None:
    if reference.path != instance.path_of(MADE_UP, None):
        said = read_pose(reference)
        span = instance.declaration(reference)[0].span
        gathered.poses.append(model.Pose(reference.path, instance.path, said.by_fold, said.laid_flat, span))
        return
    # Until it has been read it counts as failed, for a fault leaves by the way it came.
    gathered.some_pose_failed, failed = True, gathered.some_pose_failed
    gathered.made_up.append((instance.path, read_pose(reference)))
    gathered.some_pose_failed = failed


def _settle_joins(instance: Instance, name: str, gathered: _Gathered) -> None:
    before = len(gathered.joins)
    declared = instance.declared(name)
    for index, entry, scope in declared:
        with instance.work.telling():
            gathered.joins.append(JoinMaker(instance, name, index, entry, scope).make())
    gathered.some_join_failed |= len(gathered.joins) - before < len(declared)


def _plain(text: object) -> str:
    """A component's own text without its slots filled: it belongs to the component, not to one part."""
    pieces = getattr(text, "pieces", ())
    return "".join(piece for piece in pieces if isinstance(piece, str))


def _title(root: Instance, design: Makeable) -> str:
    """The title, and behind one that a variant has from its base the variant's own text or name: what is printed for
    the two has to be told apart on the table."""
    try:
        stated = root.fact_or_none("title")
    except Spoilt:
        stated = None
    own = _own_words(root, design) or design.name.replace("_", " ").capitalize()
    if not isinstance(stated, TextValue):
        return own
    title = _written(stated, root)
    inherited = isinstance(design, VariantOf) and "title" not in design.body.by_name
    return f"{title} ({own.rstrip('.')})" if inherited else title


def _own_words(root: Instance, design: Makeable) -> str:
    """The text behind the design's name, "" without one."""
    if design.doc is None:
        return ""
    try:
        said = text_value(design.doc, Scope(root, design.file, {}, root))
    except (Fault, Spoilt):
        return ""
    return _written(said, root) if isinstance(said, TextValue) else ""


def _written(text: TextValue, root: Instance) -> str:
    ruler = ruler_of(root)
    return "".join(piece if isinstance(piece, str) else write(piece, ruler) for piece in text.pieces)


def _doc(root: Instance) -> model.WorkedText:
    try:
        stated = root.fact_or_none("about")
    except Spoilt:
        return ()
    return stated.pieces if isinstance(stated, TextValue) else ()


def _stocks(gathered: _Gathered) -> tuple[Stock, ...]:
    used = {piece.stock for piece in gathered.pieces} | {join.by for join in gathered.joins if join.by is not None}
    return tuple(sorted(used, key=lambda stock: (stock.name, repr(stock))))
