"""Judges a requirement: both sides worked out, the verdict, the reason and the ways out with their numbers."""

from __future__ import annotations

from typing import TYPE_CHECKING

from attrs import evolve

from pastedown.design.stock import Stock
from pastedown.diagnostic import error
from pastedown.geometry import model
from pastedown.geometry.describe import describe
from pastedown.geometry.evaluate import evaluate, single, text_value
from pastedown.geometry.fault import Fault
from pastedown.geometry.find_making import making_of
from pastedown.geometry.layer import Entry, Scope
from pastedown.geometry.meant import meant
from pastedown.geometry.natural_order import natural_key
from pastedown.geometry.operators import compare, compared_with
from pastedown.geometry.value import TextValue, Word
from pastedown.quantity.quantity import Quantity
from pastedown.quantity.spread import Spread, spread_of
from pastedown.source import Span
from pastedown.tree.expression import Comparison, Expression, ListOf
from pastedown.tree.statement import Require

if TYPE_CHECKING:
    from pastedown.geometry.instance import Instance
    from pastedown.geometry.value import Value


def settle_requirement(instance: Instance, name: str) -> list[model.Requirement]:
    """The requirements that a name of a part declares (several inside `each`), judged. A requirement may be taken
    away by nobody; what is only preferred may be set to nothing."""
    found: list[model.Requirement] = []
    setting = instance.setting(name)
    for index, entry, scope in instance.declared_each(name):
        requirement = entry.statement
        assert isinstance(requirement, Require)
        if setting is not None:
            if requirement.strict:
                raise Fault(
                    error(
                        "fixed-value",
                        setting.span,
                        f"{instance.path_of(name, None)} is a requirement and may not be set anew.",
                        reason="A requirement guards the album; only what is preferred may be set to nothing.",
                        way_out="Leave it out here.",
                    )
                )
            return []
        if not requirement.strict and instance.work.may_be_meant(name):
            return []  # the word that is not understood may have been the one that takes the preference away
        with instance.work.telling():
            path = instance.path_of(name, index)
            with instance.work.working_out(requirement_key(path), path, requirement.condition.span):
                judged = _judge(instance, path, requirement, entry, scope)
                judged = evolve(judged, stacks=_stacks(instance, requirement_key(path)))
                why = meant(instance, name, requirement, scope)
                found.append(evolve(judged, strict=False, meant=why) if why and not judged.holds else judged)
    return found


def _stacks(instance: Instance, key: object) -> tuple[model.Stack, ...]:
    work = instance.work
    found = [work.stacks[number] for number in work.stacked.get(key, ()) if number in work.stacks]
    return tuple(sorted(found, key=lambda stack: (natural_key(stack.path), stack.words)))


def requirement_key(path: str) -> object:
    """The key under which the run knows a requirement."""
    return "requirement", path


def _judge(instance: Instance, path: str, requirement: Require, entry: Entry, scope: Scope) -> model.Requirement:
    condition = requirement.condition
    if isinstance(condition, Comparison):
        left = single(evaluate(condition.left, scope), condition.left.span)
        right = compared_with(left, condition.right, scope)
        holds = compare(condition, scope)
        operator, words = condition.operator, (condition.left.span.text, condition.right.span.text)
    else:
        left, right = single(evaluate(condition, scope), condition.span), True
        if not isinstance(left, bool):
            raise Fault(
                error(
                    "not-a-condition",
                    condition.span,
                    f"A requirement is or is not met, and this is {describe(left)}.",
                    way_out="Compare two things, as in margin >= 1/2 in.",
                )
            )
        holds, operator, words = left, "is", (condition.span.text, "yes")
    margin = _margin(instance, operator, left, right, condition.span)
    is_told = not holds or (margin is not None and margin.order < 1)
    return model.Requirement(
        path=path,
        part=instance.path,
        operator=operator,
        left=_plain(left),
        right=_plain(right),
        left_words=words[0],
        right_words=words[1],
        holds=holds,
        strict=requirement.strict,
        because=text_value(requirement.because, scope).pieces,
        ways_out=_ways_out(requirement, scope),
        span=condition.span,
        made=making_of(instance, condition.span, (condition, scope)) if is_told else None,
        margin=margin,
    )


def _margin(instance: Instance, operator: str, left: Value, right: Value, span: Span) -> Spread | None:
    """By how much the requirement holds, where it compares what is made by hand."""
    if not isinstance(left, Quantity) or not isinstance(right, Quantity) or operator == "is":
        return None
    margin = left - right if operator in (">", ">=") else right - left
    if margin.errors is None:
        return None
    instance.work.spend(span, margin.errors.size())
    return spread_of(margin)


def _ways_out(requirement: Require, scope: Scope) -> tuple[model.WorkedText, ...]:
    found: list[model.WorkedText] = []
    for setting in requirement.settings:
        if setting.label == "may_be_meant":
            continue
        if setting.label != "way_out":
            raise Fault(
                error(
                    "unknown-setting",
                    setting.label_span,
                    f"A requirement has no {setting.label}.",
                    way_out="It takes way_out: a text, or a list of texts; and may_be_meant: yes.",
                )
            )
        wanted: tuple[Expression, ...] = setting.value.items if isinstance(setting.value, ListOf) else (setting.value,)
        for one in wanted:
            value = evaluate(one, scope)
            if not isinstance(value, TextValue):
                raise Fault(
                    error(
                        "wrong-kind",
                        one.span,
                        f"A way out is a text, and this is {describe(value)}.",
                        way_out='Write it in quotes: "...".',
                    )
                )
            found.append(value.pieces)
    return tuple(found)


def _plain(value: object) -> Quantity | str | bool:
    match value:
        case Quantity() | bool() | str():
            return value
        case Word(text=text):
            return text
        case TextValue(pieces=pieces):
            return "".join(str(piece) for piece in pieces if isinstance(piece, str))
        case Stock(name=name):
            return name
        case _:
            return describe(value)
