"""What a way out of a requirement would set, found from its words alone.

A way out has a number worked out from all that the requirement compares but one thing: that one is what it speaks of.
"make the strip {tube - stand - slide} high" of "strip <= tube - stand - slide" speaks of the strip. Where it is one
thing a mark more or less, as in "{strip - ruler.marks}", that is it. From there names are followed to the number or the
sum of the maker's own file that states it; where that moves what it is measured against as well, a sum on the way there
is another choice.
"""

from __future__ import annotations

from contextlib import suppress

from attrs import field, frozen

from pastedown.geometry.evaluate import evaluate, quantity, single, truth
from pastedown.geometry.fault import Fault, Spoilt
from pastedown.geometry.functions import values_in_brackets
from pastedown.geometry.instance import Instance
from pastedown.geometry.layer import Scope
from pastedown.geometry.natural_order import without_indexes
from pastedown.geometry.origin import owned, said_of
from pastedown.geometry.paths import paths_in
from pastedown.geometry.ruler import ruler_of
from pastedown.mend.bought import measure_of, stated_measure
from pastedown.mend.numbers import Number
from pastedown.quantity.dimension import LENGTH, NUMBER
from pastedown.quantity.quantity import NO_LENGTH, Quantity
from pastedown.quantity.rounding import round_to
from pastedown.tree.expression import Arithmetic, Call, Dot, Expression, ListOf, Literal, Path, Rounded, Text
from pastedown.tree.statement import Require, Takes

# Of more facts than this a requirement is no longer asked.
MOST_LOOKED_AT = 100
MOST_STEPS = 20
# So many choices of what a way out sets are tried.
MOST_SUBJECTS = 3

Fact = tuple[Instance, str]


@frozen(eq=False)
class Subject:
    """What a way out would have the maker write: `number` set to `value`."""

    number: Number
    value: Quantity


def subjects(part: Instance, requirement: Require, scope: Scope) -> tuple[tuple[Subject, ...], ...]:
    """What each way out of a requirement of `part` may set, in their order; nothing where that cannot be said."""
    setting = next((each for each in requirement.settings if each.label == "way_out"), None)
    if setting is None:
        return ()
    texts = setting.value.items if isinstance(setting.value, ListOf) else (setting.value,)
    compared = _Facts(part)
    compared.look(requirement.condition, scope)
    return tuple(_subject(part, text, scope, compared) for text in texts)


def _subject(part: Instance, text: Expression, scope: Scope, compared: _Facts) -> tuple[Subject, ...]:
    found: list[Subject] = []
    with suppress(Fault, Spoilt):
        text = _chosen(text, scope)
    for slot in text.pieces if isinstance(text, Text) else ():
        if isinstance(slot, str):
            continue
        with suppress(Fault, Spoilt):
            found += _of_slot(part, slot, scope, compared)
    return tuple(found)


def _chosen(text: Expression, scope: Scope) -> Expression:
    """Which of two texts a way out is, where that is chosen."""
    if not isinstance(text, Call) or text.called.head != "choose":
        return text
    arguments = values_in_brackets(text)
    return arguments["yes" if truth(arguments["when"], scope) else "no"]


def _of_slot(part: Instance, slot: Expression, scope: Scope, compared: _Facts) -> tuple[Subject, ...]:
    used = _Facts(part)
    used.look(slot, scope)
    value = single(evaluate(slot, scope), slot.span)
    if not isinstance(value, Quantity):
        return ()
    left = [fact for fact in compared.found if fact not in used.found and _is_like(fact, value)]
    if used.found and len(left) != 1 and _is_a_mark_off(slot):
        left = [fact for fact in used.found if fact in compared.found and _is_like(fact, value)]
    return tuple(_stated(*left[0], value.exact)) if len(left) == 1 else ()


def _asked_of_stock(path: Path) -> str:
    """A stock that is asked for one of its measures: the fact that holds it, and which measure."""
    last = path.trailers[0]
    return f"{path.head}.{last.name}" if len(path.trailers) == 1 and isinstance(last, Dot) else path.head


def _is_a_mark_off(slot: Expression) -> bool:
    said = slot.value if isinstance(slot, Rounded) else slot
    return isinstance(said, Arithmetic) and isinstance(said.right, Path) and said.right.head == "ruler"


def _is_like(fact: Fact, value: Quantity) -> bool:
    own, name = fact
    other = measure_of(own, name) if "." in name else single(own.lookup(name, own.span), own.span)
    return isinstance(other, Quantity) and other.dimension == value.dimension


@frozen(eq=False)
class _Facts:
    """What words of a part hang on, down to what the part takes and to the numbers that it states itself."""

    part: Instance
    found: dict[Fact, None] = field(factory=dict)
    seen: set[Fact] = field(factory=set)

    def look(self, words: Expression, scope: Scope) -> None:
        for path in paths_in(words):
            try:
                fact = owned(path, scope)
                said = list(said_of(*fact)) if fact is not None else []
            except (Fault, Spoilt):
                continue
            if fact is None and path.trailers and scope.part is self.part and self.part.has(path.head):
                fact = self.part, _asked_of_stock(path)
            if fact is None or fact in self.seen or len(self.seen) >= MOST_LOOKED_AT:
                continue
            self.seen.add(fact)
            inner = fact[0] is self.part and "." not in fact[1] and fact[0].kind_of(fact[1]) is not Takes
            if inner and said and not isinstance(said[0][0], Literal):
                self.look(*said[0])
            else:
                self.found[fact] = None


def _stated(owner: Instance, name: str, value: Quantity) -> list[Subject]:
    """The number or the sums of the own file by which a fact comes to be `value`: what states it in the end first, then
    what stands on the way there."""
    found: list[Subject] = []
    with suppress(Fault, Spoilt):
        if "." in name:
            return _of_stock(owner, name, value)
        _follow_back(owner, name, value, found)
    return [*reversed(found)][:MOST_SUBJECTS]


def _of_stock(owner: Instance, name: str, value: Quantity) -> list[Subject]:
    """The number that states what a stock measures. Thickness is not measured with a ruler."""
    stated = stated_measure(owner, name)
    if stated is None:
        return []
    called, number = stated
    wanted = value if name.endswith(".caliper") else _on_mark(number, value, owner)
    return [Subject(Number(number, called, number.value, is_bought=True), wanted)] if _can_be(number, wanted) else []


def _follow_back(owner: Instance, name: str, value: Quantity, found: list[Subject]) -> None:
    said = list(said_of(owner, name))
    for _ in range(MOST_STEPS):
        if len(said) != 1:
            return
        expression, scope = said[0]
        called = without_indexes(owner.path_of(name, None))
        if expression.span.source is owner.work.own:
            if isinstance(expression, Literal):
                value = _on_mark(expression, value, owner)
                if _can_be(expression, value):
                    found.append(Subject(Number(expression, called, expression.value), value))
                return
            if value.dimension == LENGTH:
                found.append(_more(expression, called, value - quantity(expression, scope), owner))
        value, expression = _first_of(expression, scope, value)
        after = owned(expression, scope) if isinstance(expression, Path) else None
        if after is None:
            return
        owner, name = after
        said = list(said_of(owner, name))


def _more(expression: Expression, called: str, more: Quantity, owner: Instance) -> Subject:
    """So much more or less in a sum, to the next mark."""
    on_mark = _away(more.exact, owner)
    return Subject(Number(expression, called, NO_LENGTH), on_mark)


def _on_mark(number: Literal, value: Quantity, owner: Instance) -> Quantity:
    """A length that is to stand for another one, on a mark of the ruler that lies no nearer to what was written."""
    if value.dimension != LENGTH or number.value.dimension != LENGTH:
        return value
    return round_to(value.exact, "up" if value.value > number.value.value else "down", ruler_of(owner).marks)


def _away(more: Quantity, owner: Instance) -> Quantity:
    return round_to(more, "up" if more.value > 0 else "down", ruler_of(owner).marks)


def _first_of(expression: Expression, scope: Scope, value: Quantity) -> tuple[Quantity, Expression]:
    """What a sum begins with, and what that has to be for the sum to be `value`."""
    match expression:
        case Arithmetic(operator="+", left=left, right=right):
            return _first_of(left, scope, (value - quantity(right, scope)).exact)
        case Arithmetic(operator="-", left=left, right=right):
            return _first_of(left, scope, (value + quantity(right, scope)).exact)
        case Rounded(value=inner):
            return _first_of(inner, scope, value)
        case _:
            return value, expression


def _can_be(number: Literal, value: Quantity) -> bool:
    counted = value.dimension != NUMBER or value.value.denominator == 1
    return number.value.dimension == value.dimension and value.value > 0 and counted
