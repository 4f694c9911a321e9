"""Moves what a part takes to the marks of the maker's ruler.

Only what a component takes with a mark (`length(mark: down)`) is moved, where it is taken; late binding then works out
again all that hangs on it. Scores are never rounded one by one: panels that have to match would differ by up to a mark.
Nothing is moved that is on a mark already, that is `fixed`, or that was measured on what is bought; nor anything in an
album that does not say what its maker's ruler is.

Which way, first choice first:

- down: to the mark below, and only then to the one below that;
- up: to the mark above, and only then to the one above that;
- nearest: to the nearer mark, and only then to the one on the other side; half way, the mark above comes first.

A mark outside the bounds of what is taken is no choice, nor is nought for a length above nought.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from attrs import define, field, frozen

from pastedown.design.stock import Stock
from pastedown.diagnostic import Label, error
from pastedown.geometry.evaluate import quantity
from pastedown.geometry.fault import Fault, Spoilt
from pastedown.geometry.model import KeptOffMarks, Move
from pastedown.geometry.ruler import ruler_of, states_ruler
from pastedown.quantity.dimension import LENGTH
from pastedown.quantity.quantity import Length, Quantity
from pastedown.quantity.rounding import is_on_mark, round_to
from pastedown.quantity.write import write
from pastedown.tree.expression import Dot, Expression, Literal, Path
from pastedown.tree.statement import Takes

if TYPE_CHECKING:
    from pastedown.geometry.instance import Instance
    from pastedown.geometry.layer import Entry, Scope
    from pastedown.geometry.value import Value


@frozen
class Variable:
    """One length that is to be moved: like parts with like values are moved alike. `choices` are the marks it may be
    moved to, first choice first."""

    component: str
    name: str
    written: Length
    choices: tuple[Length, ...]

    def away(self, choice: int) -> Length:
        """How far a choice lies from what was written."""
        by = self.choices[choice] - self.written
        return by if by.value >= 0 else -by


@define
class Marks:
    """What is moved in one run of working out. `chosen` has the numbers of choices other than the first."""

    moving: bool = True
    chosen: dict[Variable, int] = field(factory=dict)
    # The variables met, each with the path of the part where it was met first.
    variables: dict[Variable, str] = field(factory=dict)
    moves: dict[str, Move] = field(factory=dict)
    kept: dict[str, KeptOffMarks] = field(factory=dict)


def moved_to_mark(instance: Instance, takes: Takes, scope: Scope, setting: Entry, value: Value) -> Value:
    """The value a part goes on with. `scope` is where `takes` stands, `setting` what set the value. Raises Fault where
    the bounds leave no mark to move it to."""
    way = mark_of(takes)
    work, marks = instance.work, instance.work.marks
    if way is None or not marks.moving or not isinstance(value, Quantity) or value.dimension != LENGTH:
        return value
    if (work.root or instance, "ruler") in work.busy:
        return value  # the ruler itself hangs on it
    if not states_ruler(instance):
        return value
    ruler = ruler_of(instance)
    if is_on_mark(value, ruler.marks):
        return value
    path = instance.path_of(takes.name, None)
    expression = setting.value
    span = expression.span if expression is not None else setting.span
    if setting.fixed:
        marks.kept[path] = KeptOffMarks(path, value, round_to(value, "nearest", ruler.marks), span)
        return value
    if expression is None or is_measured(expression, setting.scope):
        return value
    choices = _within(instance, takes, scope, value, _choices(value, way, ruler.marks))
    if not choices:
        raise Fault(
            error(
                "no-mark-within-bounds",
                span,
                f"{path} is {write(value, ruler)}, and its bounds leave no mark of your ruler to move it to.",
                reason=f"Your ruler has a mark every {write(ruler.marks, ruler)}.",
                way_out="Give a length that lies on a mark, or name a finer ruler.",
                labels=(Label(takes.name_span, "its bounds"),),
            )
        )
    variable = Variable(instance.component.name, takes.name, value, choices)
    marks.variables.setdefault(variable, path)
    choice = marks.chosen.get(variable, 0)
    work.hangs_on({variable})
    marks.moves[path] = Move(
        path, instance.path, instance.component.name, takes.name, way, value, choices[choice], choice > 0, span
    )
    return choices[choice]


def mark_of(takes: Takes) -> str | None:
    """Which way what is taken goes to a mark: "down", "up", "nearest", or None where it stays as it is."""
    found = (each.value for each in takes.type.settings if each.label == "mark")
    word = next((value.head for value in found if isinstance(value, Path)), None)
    return word if word in ("down", "up", "nearest") else None


def is_measured(expression: Expression, scope: Scope) -> bool:
    """Whether words stand for a measure of something bought, by whatever facts in between: a caliper, a roll's width,
    the side of a print. Calipers written in points are measured as well."""
    if isinstance(expression, Literal):
        return expression.span.text.endswith("pt")
    if not isinstance(expression, Path):
        return False
    if expression.trailers:
        return isinstance(expression.trailers[-1], Dot) and _is_of_something_bought(expression, scope)
    source = source_of(expression, scope)
    return source is not None and is_measured(*source)


def source_of(expression: Path, scope: Scope) -> tuple[Expression, Scope] | None:
    """The words behind a plain name, where it is a fact of the part or of the file; None otherwise."""
    if expression.trailers or expression.head in scope.locals or scope.part is None:
        return None
    part, name = scope.part, expression.head
    if part.has(name):
        setting = part.setting(name)
        if setting is not None and setting.value is not None:
            return setting.value, setting.scope
        if part.kind_of(name) is Takes:
            _, entry, inner = part.declared(name)[0]
            takes = entry.statement
            if isinstance(takes, Takes) and takes.default is not None:
                return takes.default, inner
    return None


def _is_of_something_bought(path: Path, scope: Scope) -> bool:
    from pastedown.geometry.evaluate import single
    from pastedown.geometry.follow import follow

    owner = Path(path.head, path.trailers[:-1], path.span, path.head_span)
    try:
        return isinstance(single(follow(owner, scope), owner.span), Stock)
    except (Fault, Spoilt):
        return False


def _choices(value: Length, way: str, mark: Length) -> list[Length]:
    below, above = round_to(value, "down", mark), round_to(value, "up", mark)
    match way:
        case "down":
            return [below, below - mark]
        case "up":
            return [above, above + mark]
        case _:
            return [above, below] if above - value <= value - below else [below, above]


def _within(instance: Instance, takes: Takes, scope: Scope, value: Length, found: list[Length]) -> tuple[Length, ...]:
    """The marks that the bounds allow, and never nought for a length above nought."""
    if value.value > 0:
        found = [mark for mark in found if mark.value > 0]
    if takes.least is None or takes.most is None:
        return tuple(found)
    least, most = quantity(takes.least, scope), quantity(takes.most, scope)
    return tuple(mark for mark in found if least <= mark <= most)
