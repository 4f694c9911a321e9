"""Joins, closes, creases in place and the maker's own steps, told one by one."""

from collections.abc import Hashable, Mapping

from pastedown.design.stock import Stock
from pastedown.fit.bearing import Bearing, bearings
from pastedown.geometry.model import Crease, Join, Model, Side, Step, WorkedText
from pastedown.geometry.natural_order import without_indexes
from pastedown.geometry.piece import FlatPiece
from pastedown.plan.bonded_zones import Bonds
from pastedown.plan.join_words import crease_text, join_text, sorted_alignments
from pastedown.plan.materials import is_bought_whole
from pastedown.plan.names import plain_name
from pastedown.plan.plan import CutPiece, PlanText, Reading
from pastedown.plan.strip_words import strips_text
from pastedown.plan.task import Origin, Task
from pastedown.plan.words import last_name, of_family, read_inside_out, spoken, within


def join_tasks(
    model: Model, cut: tuple[CutPiece, ...], stock_names: dict[Stock, str], bonds: Bonds
) -> list[Task]:
    """A task for each join and close."""
    pieces = {piece.path: piece for piece in model.pieces}
    places = _places(cut)
    handles = [_handles(_paths(join.what, join.to), places, cut) for join in model.joins]
    tapes = [_tape(join, stock_names, bonds) for join in model.joins]
    return [
        _join_task(join, pieces, owned, stock_names, tape)
        for join, owned, tape in zip(model.joins, handles, tapes, strict=True)
    ]


def crease_tasks(model: Model, cut: tuple[CutPiece, ...]) -> list[Task]:
    """A task for each fold made in place."""
    places = _places(cut)
    pieces = {piece.path: piece for piece in model.pieces}
    return [
        _crease_task(crease, _handles(paths, places, cut), plain_name([pieces[paths[0]]]))
        for crease in model.creases
        for paths in [_paths(crease.on)]
    ]


def step_tasks(model: Model) -> list[Task]:
    """A task for each step the maker wrote: a check where something is to be read, otherwise plain work. What is bought
    whole is taken up by a step that is to come after it: nothing else is done to it before."""
    bought = {piece.path: piece.stock for piece in model.pieces if is_bought_whole(piece.stock)}
    borne = bearings(model, model.steps)
    return [_step_task(step, bears, bought) for step, bears in zip(model.steps, borne, strict=True)]


def _tape(join: Join, stock_names: dict[Stock, str], bonds: Bonds) -> PlanText:
    if join.by is None or join.adhesive == "itself":
        return ()
    return strips_text(join.by, stock_names[join.by], bonds.zones(join))


def _join_task(
    join: Join, pieces: dict[str, FlatPiece], handles: tuple[str, ...], stock_names: dict[Stock, str], tape: PlanText
) -> Task:
    named = {pieces[path].stock for path in _paths(join.what, join.to)}
    bought = sorted((stock for stock in named if is_bought_whole(stock)), key=lambda stock: stock_names[stock])
    return Task(
        kind="close" if join.closes else "join",
        origin=_origin(join),
        text=join_text(join, stock_names[join.by] if join.by is not None else "", pieces),
        like=(_name_of_kind(join), _likeness(join)),
        pieces=handles,
        stocks=(*bought, join.by) if join.by is not None else tuple(bought),
        tips=_told(join.tip),
        cautions=_told(join.caution),
        title=_title(join, pieces),
        fuller=_fuller_title(join, pieces),
        prepared=tape,
    )


def _title(join: Join, pieces: dict[str, FlatPiece]) -> str:
    """What is joined to what, by the names of the first pieces on each side or, where pieces of one part are joined at
    once, of that part."""
    what, to = (_name_of_side(side, join.part, pieces) for side in (join.what, join.to))
    if join.adhesive == "nothing":
        return f"Lay {what} into {to}"
    if not join.closes:
        return f"Join {what} to {to}"
    both = what if what == to else f"{what} and {to}"
    return f"Stick {both} together" if _sticks(join) else f"Close {both}"


def _sticks(join: Join) -> bool:
    return join.adhesive == "itself" or (join.by is not None and join.by.is_adhesive)


def _name_of_side(side: Side, part: str, pieces: dict[str, FlatPiece]) -> str:
    paths = list(dict.fromkeys(_paths(side)))
    parts = {pieces[path].part for path in paths}
    if len(paths) > 1 and len(parts) == 1 and parts.isdisjoint(("", part)):
        return spoken(without_indexes(last_name(parts.pop())))
    return plain_name([pieces[paths[0]]])


def _fuller_title(join: Join, pieces: dict[str, FlatPiece]) -> str:
    """The title with the panel that is closed; "" where that is no more than the title says."""
    path, panel, _ = join.what.faces[0]
    other = join.to.faces[0][0]
    if not (join.closes and panel) or path == other or len(join.what.faces) > 1:
        return ""
    what, to = (plain_name([pieces[each]]) for each in (path, other))
    return f"Stick {spoken(without_indexes(panel))} of {what} to {to}"


def _likeness(join: Join) -> Hashable:
    """What two joins share when they are the same work on other numbers."""
    alignments = frozenset(
        (_family(line.what, join.part), _family(line.to, join.part), line.inside) for line in sorted_alignments(join)
    )
    sides = (_side(join.what, join.part), _side(join.to, join.part))
    held = (join.by, join.adhesive, join.moving)
    return sides, alignments, held, (join.doc, join.tip, join.caution)


def _crease_task(crease: Crease, handles: tuple[str, ...], name: str) -> Task:
    likeness = (_side(crease.on, crease.part), _family(crease.over, crease.part), crease.tip, crease.caution)
    return Task(
        kind="crease",
        origin=_origin(crease),
        text=crease_text(crease),
        like=(_name_of_kind(crease), likeness),
        pieces=handles,
        tips=_told(crease.tip),
        cautions=_told(crease.caution),
        title=f"Crease {name}",
        fuller=f"Crease {name} over {read_inside_out(of_family(within(crease.over, crease.part)))}",
    )


def _step_task(step: Step, bears: Bearing, bought: Mapping[str, Stock]) -> Task:
    reading = None
    if step.reads is not None:
        limits = step.least, step.most, step.give, bears.least, bears.most
        reading = Reading(step.reads, *limits, below=bears.below, above=bears.above, all_holds=step.all_holds)
    taken_up = (bought.get(f"{step.part}.{path}" if step.part else path, bought.get(path)) for path in step.after)
    return Task(
        kind="check" if reading else "do",
        origin=_origin(step),
        text=step.text,
        like=(_name_of_kind(step), step.text, reading, step.tip, step.caution, _family(step.shown, step.part)),
        reading=reading,
        shown=step.shown,
        stocks=tuple(dict.fromkeys(stock for stock in taken_up if stock is not None)),
        tips=_told(step.tip),
        cautions=_told(step.caution),
    )


def _origin(thing: Join | Crease | Step) -> Origin:
    return Origin(thing.path, thing.part, thing.component, thing.name)


def _name_of_kind(thing: Join | Crease | Step) -> Hashable:
    return thing.component, without_indexes(thing.name)


def _side(side: Side, part: str) -> Hashable:
    return tuple((_family(path, part), without_indexes(panel), face) for path, panel, face in side.faces)


def _family(path: str, part: str) -> str:
    return without_indexes(within(path, part))


def _paths(*sides: Side) -> list[str]:
    return [path for side in sides for path, _, _ in side.faces]


def _places(cut: tuple[CutPiece, ...]) -> dict[str, int]:
    return {path: place for place, group in enumerate(cut) for path in group.paths}


def _handles(paths: list[str], places: dict[str, int], cut: tuple[CutPiece, ...]) -> tuple[str, ...]:
    """The handles of the cut pieces, in the order of the cut list."""
    return tuple(cut[place].id for place in sorted({places[path] for path in paths}))


def _told(text: WorkedText) -> tuple[WorkedText, ...]:
    return (text,) if text else ()
