"""A part being made: its facts are found in the outermost layer that sets them and worked out once, when first asked
for."""

from __future__ import annotations

from typing import TYPE_CHECKING

from attrs import evolve

from pastedown.design.recipe import ComponentOf
from pastedown.design.stock import Stock
from pastedown.diagnostic import Diagnostic, Label, error
from pastedown.diagnostic.nearest_name import meant_or_one_of, nearest_name
from pastedown.geometry.fault import Fault, Spoilt
from pastedown.geometry.layer import Description, Entry, Layer, LayerPlan, Scope, bind, description_of
from pastedown.geometry.said_of_part import SaidOfPart
from pastedown.geometry.value import FamilyValue, MakeableValue, Nothing, Reference
from pastedown.geometry.work import (
    DEEPEST_PARTS,
    WORK_OF_A_FACT,
    WORK_OF_A_LAYER,
    WORK_OF_A_PART,
    Work,
)
from pastedown.source import Span
from pastedown.tree.expression import Argument
from pastedown.tree.statement import Fold, Join, Part, Piece, Place, Pose, Require, Step, Takes

if TYPE_CHECKING:
    from pastedown.geometry.value import Value

_REFERENCES = {Join: "join", Place: "place", Pose: "pose", Fold: "crease", Step: "step"}


class Instance(SaidOfPart):
    """One part. `path` is "" for the album itself."""

    def __init__(
        self, work: Work, description: Description, parent: Instance | None, name: str, index: int | None, span: Span
    ) -> None:
        super().__init__()
        self.work = work
        self.component: ComponentOf = description.component
        self.parent = parent
        self.name = name
        self.index = index
        self.span = span
        self.path = parent.path_of(name, index) if parent is not None else ""
        self.depth: int = parent.depth + 1 if parent is not None else 0
        self.known: dict[str, Value | None] = {}
        self._refuse_nesting(description)
        handed_on = parent.layers_below(name, index, self) if parent is not None else []
        work.spend(span, WORK_OF_A_PART + WORK_OF_A_LAYER * (len(handed_on) + len(description.layers)))
        self.layers: list[Layer] = [*handed_on, *(bind(plan, self) for plan in description.layers)]

    def _refuse_nesting(self, description: Description) -> None:
        self.work.count_thing(self.span)
        above = self.parent
        while above is not None:
            if above.component is description.component and above.span == self.span:
                raise Fault(
                    error(
                        "component-in-itself",
                        self.span,
                        f"{self.component.name} would be made inside itself without end.",
                        way_out="Make it beside the other one instead.",
                    )
                )
            above = above.parent
        if self.depth > DEEPEST_PARTS:
            raise Fault(
                error(
                    "parts-too-deep",
                    self.span,
                    f"Parts stand in parts more than {DEEPEST_PARTS} deep here.",
                    way_out="Make some of them beside one another instead.",
                )
            )

    def made_by_hand(self) -> Instance | None:
        """The innermost part, from this one outwards, that the maker's own file makes; None where nobody knows which
        file that is."""
        part: Instance | None = self
        while part is not None and part.span.source is not self.work.own:
            part = part.parent
        return part

    def is_within(self, other: Instance) -> bool:
        """Whether this part is the other one, or made inside it."""
        part: Instance | None = self
        while part is not None and part is not other:
            part = part.parent
        return part is not None

    def lookup(self, name: str, span: Span) -> Value:
        """The value of a name of this part. Raises Fault when there is none, Spoilt when it failed before."""
        if name in self.known:
            known = self.known[name]
            if known is None:
                raise Spoilt
            if (self, name) in self.work.measured:
                self.work.measure(self._where(name) or span)
            if (self, name) in self.work.moved:
                self.work.hangs_on(self.work.moved[self, name])
            self.work.hangs_on_stacks(self.work.stacked.get((self, name), ()))
            return known
        if (deciding := self._deciding(name)) is not None:
            raise self.work.ring((deciding, name), self.path_of(name, None), span)
        self.work.spend(span, WORK_OF_A_FACT)
        with self.work.working_out((self, name), self.path_of(name, None), self._where(name) or span):
            try:
                value = self._work_out(name, span)
            except Fault as fault:
                if fault.diagnostic.span is not span or self._where(name) is not None:
                    self.known[name] = None
                self.work.tell(fault.diagnostic)
                raise Spoilt from None
            except Spoilt:
                self.known[name] = None
                raise
        self.known[name] = value
        return value

    def _work_out(self, name: str, span: Span) -> Value:
        actual = self.work.actual.facts.get(self.path_of(name, None))
        if actual is not None:
            return actual
        kind = self.kind_of(name)
        if self._is_spoilt(name):
            raise Spoilt
        if kind is None:
            setting = self.setting(name)
            if setting is None:
                if name in self.work.broken_words:
                    raise Spoilt
                raise Fault(self.unknown(name, span))
            return self._amended_fact(name, setting, None)
        if kind is Takes:
            return self._taken(name)
        if self.is_removed(name):
            raise Fault(
                error(
                    "nothing-there",
                    span,
                    f"{self.path_of(name, None)} was taken away: it is set to nothing.",
                    way_out="Take this away too, or leave the other one in.",
                )
            )
        if kind is Require:
            raise Fault(
                error(
                    "wrong-kind",
                    span,
                    f"{name} is a requirement: it has no value.",
                    way_out="Name the measures that it compares.",
                )
            )
        if kind not in (Part, Piece, *_REFERENCES):
            raise Spoilt  # a component within braces: that it is out of place has been told
        declared = self.declared(name)
        values: list[tuple[int | None, Value]]
        if kind is Part:
            values = [(index, self._make_part(name, index, entry, scope)) for index, entry, scope in declared]
        elif kind is Piece:
            from pastedown.geometry.make_piece import PieceMaker

            values = [(index, PieceMaker(self, name, index, entry, scope)) for index, entry, scope in declared]
        else:
            values = [(index, Reference(_REFERENCES[kind], self, name, index)) for index, _, _ in declared]
        if len(values) == 1 and values[0][0] is None:
            return values[0][1]
        return FamilyValue(self.path_of(name, None), tuple((index or 0, value) for index, value in values))

    def unknown(self, name: str, span: Span) -> Diagnostic:
        """The diagnostic for a name that this part does not have."""
        owner = self.path or self.component.name
        if self.would_know(name):
            return not_made(name, span)
        return error(
            "no-such-member", span, f"{owner} has no {name}.", way_out=meant_or_one_of(name, self.names(), "It has")
        )

    def _taken(self, name: str) -> Value:
        from pastedown.geometry.marks import moved_to_mark
        from pastedown.geometry.take import check_taken

        _, entry, scope = self.declared(name)[0]
        takes = entry.statement
        assert isinstance(takes, Takes)
        setting = self.setting(name)
        if setting is None and self._is_meant_by_something_unknown(name, every=takes.default is None):
            raise Spoilt
        if setting is None and takes.default is None and self.parent is None:
            raise Spoilt  # an album is made as it stands: that its value is missing has been told where it is taken
        if setting is None and takes.default is None:
            raise Fault(
                error(
                    "missing-argument",
                    self.span,
                    f"{self.component.name} needs {name}, and nothing says what it is.",
                    labels=(Label(takes.name_span, "taken here"),),
                    way_out=f"Add {name}: ... where the part is made.",
                )
            )
        if setting is None:
            setting = evolve(entry, statement=_default_of(takes), span=takes.name_span)
        value = self._amended_fact(name, setting, takes)
        value = check_taken(self, takes, scope, setting, value)
        return moved_to_mark(self, takes, scope, setting, value)

    def _is_meant_by_something_unknown(self, name: str, every: bool = False) -> bool:
        """Whether a name is set that is not there, and was most likely to be `name`: that has been told. With `every`
        unknown name counts, however far it is from `name`."""
        own = set(self.layers[-1].names())
        unknown = [
            other
            for layer in self.layers[:-1]
            for other in layer.names()
            if other not in own
            and not self._makes_known(other)
            and any(len(entry.path) == 1 and entry.is_setting for entry in layer.entries(other))
        ]
        return any(every or nearest_name(other, own) == name for other in unknown)

    def _amended_fact(self, name: str, setting: Entry, takes: Takes | None) -> Value:
        """A fact's value, with whatever outer layers say of its insides (`kraft.sheet = ...`)."""
        from pastedown.geometry.evaluate import evaluate, evaluate_taken
        from pastedown.geometry.stock_value import amend_stock

        expression = setting.value
        assert expression is not None
        value = (
            evaluate(expression, setting.scope) if takes is None else evaluate_taken(expression, setting.scope, takes)
        )
        if isinstance(value, Stock) and not value.name:
            value = evolve(value, name=name.replace("_", " "))
        if not isinstance(value, Stock | Description | MakeableValue):
            return value
        inner: list[tuple[Entry, ...]] = []
        for layer in self.layers:
            entries = layer.entries(name)
            inner.append(tuple(entry for entry in entries if len(entry.path) > 1))
            if setting in entries:
                break
        for entries_of_layer in reversed(inner):
            for entry in sorted(entries_of_layer, key=lambda entry: entry.exactness):
                if isinstance(value, Stock):
                    value = amend_stock(value, entry)
            if entries_of_layer and not isinstance(value, Stock):
                described = description_of(value.makeable) if isinstance(value, MakeableValue) else value
                value = described.with_layer(LayerPlan(None, (), None, setting.scope.file, entries_of_layer, name))
        return value

    def _make_part(self, name: str, index: int | None, entry: Entry, scope: Scope) -> Instance:
        from pastedown.geometry.evaluate import evaluate

        statement = entry.statement
        assert isinstance(statement, Part)
        replaced = self.setting(name, index)
        expression, where = (statement.value, scope)
        if replaced is not None and replaced.value is not None:
            expression, where = replaced.value, evolve(replaced.scope, locals={**scope.locals, **replaced.scope.locals})
        value = evaluate(expression, where)
        if isinstance(value, MakeableValue):
            value = description_of(value.makeable)
        if not isinstance(value, Description):
            from pastedown.geometry.describe import describe

            raise Fault(
                error(
                    "wrong-kind",
                    expression.span,
                    f"A part is made from a component, and this is {describe(value)}.",
                    way_out="Name a component here, as in folder(...).",
                )
            )
        return Instance(self.work, value, self, name, index, statement.family.span)

    def fact_or_none(self, name: str) -> Value | None:
        """The value of a name if this part has it, for names with a meaning of their own (`title`). Raises Spoilt when
        it failed."""
        try:
            if self.kind_of(name) is None and self.setting(name) is None:
                return None
            value = self.lookup(name, self.span)
        except Fault as fault:
            self.work.tell(fault.diagnostic)
            raise Spoilt from None
        return None if isinstance(value, Nothing) else value


def not_made(name: str, span: Span) -> Diagnostic:
    """The diagnostic for a name that stands in an `each` or an `if` that does not come about."""
    return error(
        "nothing-there",
        span,
        f"There is no {name} here: the each or the if that it stands in makes none.",
        way_out="Put this into the same each or if, or see to it that one is made.",
    )


def _default_of(takes: Takes) -> Argument:
    assert takes.default is not None
    return Argument(takes.name, takes.default, takes.name_span, takes.name_span)
