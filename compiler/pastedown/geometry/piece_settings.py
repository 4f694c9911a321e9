"""What is said of a piece: its settings, the names of its edges, its stock, and the statements in its braces."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from pastedown.design.body import Guard
from pastedown.design.piece_names import wrong_edge_name
from pastedown.design.stock import Stock
from pastedown.diagnostic import error
from pastedown.diagnostic.nearest_name import did_you_mean
from pastedown.geometry.describe import describe
from pastedown.geometry.evaluate import evaluate, single
from pastedown.geometry.fault import Fault
from pastedown.geometry.layer import Entry, Layer, Scope, expand, set_twice
from pastedown.geometry.work import WORK_OF_A_PIECE, WORK_OF_AN_ENTRY
from pastedown.tree.expression import Call, Expression, Path
from pastedown.tree.statement import Fact, Statement
from pastedown.tree.statement import Piece as PieceStatement

if TYPE_CHECKING:
    from pastedown.geometry.instance import Instance


class PieceSettings:
    """What the braces, the settings and the layers of one piece say of it."""

    def __init__(self, instance: Instance, name: str, index: int | None, entry: Entry, scope: Scope) -> None:
        assert isinstance(entry.statement, PieceStatement)
        self.instance = instance
        self.name = name
        self.statement = entry.statement
        self.scope = scope
        self.path = instance.path_of(name, index)
        self.amendments: list[Layer] = instance.layers_below(name, index, instance)
        self._statements: tuple[tuple[Statement, Scope], ...] | None = None
        self._facts: dict[str, list[tuple[Fact, Scope]]] | None = None
        instance.work.count_thing(entry.span)
        instance.work.spend(entry.span, WORK_OF_A_PIECE)

    def setting(self, label: str) -> tuple[Expression, Scope] | None:
        """What the outermost layer, or the piece itself, says of one of its settings."""
        return next(self._said(label), None)

    def cut(self, name: str) -> tuple[Expression, Scope] | None:
        """What is cut into an edge, into a corner or inside; None where `name` was only given to an edge."""
        said = self._said(name)
        return next((each for each in said if name not in ("left", "right") or _is_of_a_cut(each[0])), None)

    def _said(self, label: str) -> Iterator[tuple[Expression, Scope]]:
        for layer in self.amendments:
            entry = layer.set_to(label)
            if entry is not None and entry.value is not None:
                yield entry.value, entry.scope
        for setting in self.statement.settings:
            if setting.label == label:
                yield setting.value, self.scope
        own = self.facts.get(label, ())
        if len(own) > 1:
            raise set_twice(label, own[0][0].path.span, own[1][0].path.span)
        for fact, scope in own:
            yield fact.value, scope

    @property
    def facts(self) -> dict[str, list[tuple[Fact, Scope]]]:
        """The facts in its braces by name: what is cut into it."""
        if self._facts is None:
            self._facts = {}
            for statement, scope in self.statements():
                if isinstance(statement, Fact) and not statement.path.trailers:
                    self._facts.setdefault(statement.path.head, []).append((statement, scope))
        return self._facts

    def word(self, label: str, allowed: tuple[str, ...], default: str) -> str:
        """A setting that is one of a few words."""
        setting = self.setting(label)
        if setting is None:
            return default
        expression = setting[0]
        word = expression.head if isinstance(expression, Path) and not expression.trailers else ""
        if word not in allowed:
            raise Fault(
                error(
                    "unknown-choice",
                    expression.span,
                    f"{label} is one of {', '.join(allowed)}.",
                    way_out=did_you_mean(word, allowed) or f"Write one of them, such as {allowed[0]}.",
                )
            )
        return word

    def edge_name(self, side: str) -> str:
        """What the maker calls the left or the right edge."""
        expression = next((said for said, _ in self._said(side) if not _is_of_a_cut(said)), None)
        if expression is None:
            return side
        fault = wrong_edge_name(side, expression)
        if fault is not None:
            raise Fault(fault)
        assert isinstance(expression, Path)
        return expression.head

    def side_edges(self) -> tuple[str, str]:
        """What the maker calls the two edges beside head and tail."""
        return self.edge_name("left"), self.edge_name("right")

    def stock(self) -> Stock:
        """The stock it is cut from."""
        setting = self.setting("stock")
        expression, scope = setting if setting is not None else (self.statement.stock, self.scope)
        value = single(evaluate(expression, scope), expression.span)
        if not isinstance(value, Stock):
            raise Fault(
                error(
                    "wrong-kind",
                    expression.span,
                    f"A piece is cut from a stock, and this is {describe(value)}.",
                    way_out="Name a stock, such as the kraft of kraft = stock(kind: card, sheet: 12 in x 12 in).",
                )
            )
        return value

    def statements(self) -> tuple[tuple[Statement, Scope], ...]:
        """The statements in its braces, `each` written out and `if` decided."""
        if self._statements is None:
            self._statements = tuple(written_out(self.statement.body, self.scope))
            self.instance.work.spend(self.statement.span, WORK_OF_AN_ENTRY * len(self._statements))
        return self._statements


def _is_of_a_cut(expression: Expression) -> bool:
    """Whether words about an edge say what is cut into it; else they are its name."""
    return isinstance(expression, Call) or (isinstance(expression, Path) and expression.head == "nothing")


def written_out(body: tuple[Statement, ...], scope: Scope) -> Iterator[tuple[Statement, Scope]]:
    for statement in body:
        if isinstance(statement, Guard):
            for inner in expand((statement,), scope):
                yield from written_out(statement.body, inner)
        else:
            yield statement, scope
