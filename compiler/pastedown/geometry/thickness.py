"""`thickness(sheet, pose: closed)` and its kin: how thick things are together where they lie on one another.

`thickness` is the thickest place, `steepest` how steeply a stiff leaf rises that turns at a line and leans on what
stands higher than the room there is, and `wedge` tells such a slope as an angle, in words: an angle that is no whole
number of degrees is never exact, so nothing can be compared with it.
"""

from __future__ import annotations

from fractions import Fraction
from math import atan, degrees

from attrs import frozen

from pastedown.design.brackets import word_of
from pastedown.diagnostic import error
from pastedown.geometry import model
from pastedown.geometry.evaluate import evaluate, length, quantity, work_of
from pastedown.geometry.fault import Fault
from pastedown.geometry.follow import each_of, line_at
from pastedown.geometry.layer import Scope
from pastedown.geometry.layer_stack import LayerStack, Rectangle, how_many_cells, stack_of
from pastedown.geometry.lying_there import Lying, Named, lying_there
from pastedown.geometry.make_join import line_of
from pastedown.geometry.pose import FLAT, pose_at, read_pose
from pastedown.geometry.value import TextValue
from pastedown.geometry.work import WORK_OF_A_FOLDED_PANEL
from pastedown.quantity.decimals import rounded_decimal
from pastedown.quantity.quantity import Length, Quantity, mm, number
from pastedown.tree.expression import Call, Expression, Path

BLANK = "blank"
# What a cell costs in steps of work: all the more, the more layers may lie in it.
WORK_OF_A_CELL = 4
_LAYERS_IN_A_STEP = 16


@frozen(eq=False)
class Asked:
    """What stands in the brackets: the things named, the pose, the state and the places."""

    things: tuple[Expression, ...]
    pose: Path | None
    blank: bool
    over: Expression | None


def thickness(call: Call, scope: Scope) -> Length:
    """`thickness(sheet)`: the thickest place of what is named, with all that lies on it. `thickness(lid.back, to:
    base.back)`: that of all that lies between two sides when the design is shut."""
    stack, count, moving = _asked_for(call, scope)
    if stack.zones or "to" not in _values(call):
        _note(call, scope, stack, count, moving)
    return mm(stack.highest)


def stack_asked_for(call: Call, scope: Scope) -> LayerStack:
    """The stack whose thickest place a call of `thickness` tells."""
    return _asked_for(call, scope)[0]


def _asked_for(call: Call, scope: Scope) -> tuple[LayerStack, int, frozenset[str]]:
    """The stack, how many like things there are in it, and the pieces of what moves between two sides."""
    values = _values(call)
    if "to" not in values:
        count = len(each_of(evaluate(values["0"], scope)))
        return measured(call, scope)[1], count, frozenset()
    if "1" in values or "over" in values:
        extra = values.get("1", values.get("over"))
        assert extra is not None
        raise Fault(
            error(
                "wrong-kind",
                extra.span,
                "What lies between two sides is told of these two alone.",
                way_out="Write thickness(lid.back, to: base.back).",
            )
        )
    from pastedown.geometry.between_sides import between_sides

    work = work_of(scope)
    work.measure(call.span)
    found = between_sides((values["0"], values["to"]), pose_named(values.get("pose"), scope), scope, call.span)
    if found is None:
        return LayerStack((), ()), 1, frozenset()
    work.spend(call.span, found.cells() * (WORK_OF_A_CELL + len(found.layers) // _LAYERS_IN_A_STEP))
    return found.stack(blank=_is_blank(values)), max(len(found.moving), 1), found.of_what_moves()


def _values(call: Call) -> dict[str, Expression]:
    from pastedown.geometry.functions import values_in_brackets

    return values_in_brackets(call)


def _path_of(values: dict[str, Expression], label: str) -> Path | None:
    value = values.get(label)
    return value if isinstance(value, Path) else None


def _is_blank(values: dict[str, Expression]) -> bool:
    return "state" in values and word_of(values["state"]) == BLANK


def _note(call: Call, scope: Scope, stack: LayerStack, count: int, moving: frozenset[str]) -> None:
    """Keep a stack that was asked for, by the fact or the requirement that asks for it, for the ledger."""
    work = work_of(scope)
    path = next((link.words for link in reversed(work.chain)), "")
    number = (path, call.span.source.name, call.span.start)
    work.stacks[number] = model.Stack(path, call.span.text, count, _is_blank(_values(call)), stack, moving)
    work.hangs_on_stacks((number,))


def steepest(call: Call, scope: Scope) -> Quantity:
    """`steepest(sheet, above: room, from: sheet.left)`: how steeply a stiff leaf rises that turns at a
    line and leans on what is thicker than `above`."""
    values = _values(call)
    line = values["from"]
    if not isinstance(line, Path):
        raise Fault(error("wrong-kind", line.span, "A line belongs here: an edge or a fold of a piece.",
                          way_out="Name an edge or a fold, as in sheet.left."))  # fmt: skip
    value = line_at(line, scope)
    lying, stack = measured(call, scope, (value.piece.path,))
    at = lying.at(line_of(value))
    if at is None:
        raise Fault(error("not-one-stack", line.span, f"{value.words} has no place in this stack.",
                          reason="A distance is measured from a line that lies in the plane of the stack.",
                          way_out="Name a line of something that lies there."))  # fmt: skip
    return number(stack.steepest(length(values["above"], scope).value, *at))


def wedge(call: Call, scope: Scope) -> TextValue:
    """`wedge(gape)`: the angle between two leaves that part by this slope, told in degrees. Twice the angle whose
    tangent is half the slope. It is told and never compared, for it is not exact."""
    (argument,) = _values(call).values()
    slope = quantity(argument, scope).value
    return TextValue((f"{in_degrees(slope)} degrees",))


def in_degrees(slope: Fraction) -> str:
    """The angle between two leaves that part by a slope, to a hundredth of a degree."""
    angle = Fraction(round(degrees(2 * atan(float(min(slope, Fraction(10**9)) / 2))) * 100), 100)
    return rounded_decimal(angle, 2)


def measured(call: Call, scope: Scope, also: tuple[str, ...] = ()) -> tuple[Lying, LayerStack]:
    """The stack that a call asks for, worked out once for the same words in the same place."""
    work = work_of(scope)
    work.measure(call.span)
    values = _values(call)
    things = tuple(value for label, value in values.items() if label.isdigit())
    asked = Asked(things, _path_of(values, "pose"), _is_blank(values), values.get("over"))
    return _measure(asked, call, scope, also)


def _measure(asked: Asked, call: Call, scope: Scope, also: tuple[str, ...]) -> tuple[Lying, LayerStack]:
    work, named = work_of(scope), Named()
    for thing in asked.things:
        for value in each_of(evaluate(thing, scope)):
            named.take(value, thing.span, blank=asked.blank)
    if named.first is None:
        sentence = "There is nothing here whose thickness could be told."
        raise Fault(error("empty-family", call.span, sentence, way_out="See to it that there is one at least."))
    pose = pose_named(asked.pose, scope)
    key = (
        "stack", tuple(sorted(named.whole)), tuple(sorted(named.panels)), tuple(sorted(named.sides)),
        named.first.path, pose.path if pose is not None else "", asked.blank, also,
    )  # fmt: skip
    lying = work.once(
        key, call.span.text, call.span, lambda: lying_there(named, pose, work, call.span, blank=asked.blank, also=also)
    )
    over = _over(asked, named, lying, scope)
    layers = len(lying.layers)
    of_a_cell = WORK_OF_A_CELL + layers // _LAYERS_IN_A_STEP
    work.spend(call.span, how_many_cells(lying.layers) * of_a_cell + WORK_OF_A_FOLDED_PANEL * layers)
    return lying, stack_of(lying.layers, over)


def _over(asked: Asked, named: Named, lying: Lying, scope: Scope) -> tuple[Rectangle, ...] | None:
    """The places asked for: those that `over` says, else the sides that were named alone, else all."""
    if asked.over is not None:
        places = Named()
        for value in each_of(evaluate(asked.over, scope)):
            places.take(value, asked.over.span, blank=False)
        found = lying.places_of(sorted(places.sides))
        if not found:
            raise Fault(error("not-one-stack", asked.over.span, f"{asked.over.span.text} has no place in this stack.",
                              reason="The place over which it is measured has to lie in the plane of the stack.",
                              way_out="Name a place on something that lies there."))  # fmt: skip
        return found
    if any(side == "" for _, _, side in named.sides):
        return None
    return lying.places_of(sorted(named.sides))


def pose_named(path: Expression | None, scope: Scope) -> model.Pose | None:
    """The pose that stands behind `pose:` in brackets; None where none does."""
    if not isinstance(path, Path):
        return None
    if path.head == FLAT and not path.trailers:
        return model.Pose(FLAT, "", {}, frozenset({""}), path.span)
    reference = pose_at(path, scope)
    said = read_pose(reference)
    return model.Pose(reference.path, reference.instance.path, said.by_fold, said.laid_flat, path.span)


