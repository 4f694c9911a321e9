"""The sums of the maker's own file that something of a design hangs on: lengths that are worked out from others there,
and that could be made longer or shorter as a whole."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from attrs import field, frozen

from pastedown.geometry.evaluate import evaluate, single
from pastedown.geometry.fault import Fault, Spoilt
from pastedown.geometry.follow import each_of, follow
from pastedown.geometry.from_design import instances
from pastedown.geometry.instance import Instance
from pastedown.geometry.lay_piece import AXES
from pastedown.geometry.layer import Scope
from pastedown.geometry.make_piece import PieceMaker
from pastedown.geometry.natural_order import without_indexes
from pastedown.geometry.origin import owned, said_of
from pastedown.geometry.paths import literals_in, paths_in
from pastedown.geometry.said_of_part import Declared
from pastedown.quantity.dimension import LENGTH
from pastedown.quantity.quantity import Quantity
from pastedown.tree.expression import Arithmetic, Call, Dot, Expression, Index, Path, Rounded
from pastedown.tree.statement import Piece, Require, Statement

# Of more facts than this nothing is looked at any more.
MOST_LOOKED_AT = 400
Words = tuple[Expression | Statement, Scope]


@frozen(eq=False)
class Sum:
    """A length of the maker's own file that is worked out from others: what states it, and the fact that it is, by its
    path without numbers."""

    expression: Expression
    path: str


def sums_behind(root: Instance, requirements: Iterable[str], pieces: Iterable[str]) -> tuple[Sum, ...]:
    """The sums that requirements or pieces hang on, both by path, as they stand in the file."""
    search = _searched(root, requirements, pieces)
    return tuple(sorted(search.found.values(), key=lambda each: each.expression.span.start))


def literals_behind(root: Instance, requirements: Iterable[str], pieces: Iterable[str]) -> frozenset[int]:
    """The numbers that requirements or pieces hang on, both by path, by the identity of their nodes."""
    return frozenset(_searched(root, requirements, pieces).literals)


def _searched(root: Instance, requirements: Iterable[str], pieces: Iterable[str]) -> _Search:
    search = _Search(root)
    for words in _of_requirements(root, frozenset(requirements)):
        search.look(*words)
    for piece in _pieces(root, frozenset(pieces)):
        search.of_piece(piece)
    return search


def _of_requirements(root: Instance, wanted: frozenset[str]) -> Iterator[Words]:
    for instance in instances(root) if wanted else ():
        for name in instance.names():
            for index, entry, scope in requirements_of(instance, name):
                if instance.path_of(name, index) in wanted and isinstance(entry.statement, Require):
                    yield entry.statement.condition, scope


def requirements_of(instance: Instance, name: str) -> list[Declared]:
    """What a part requires by this name, as it is declared; nothing where that has a fault of its own."""
    try:
        return instance.declared_each(name) if instance.kind_of(name) is Require else []
    except (Fault, Spoilt):
        return []


def _pieces(root: Instance, wanted: frozenset[str]) -> Iterator[PieceMaker]:
    for instance in instances(root) if wanted else ():
        for name in instance.names():
            if instance.kind_of(name) is not Piece:
                continue
            try:
                found = () if instance.is_removed(name) else each_of(instance.lookup(name, instance.span))
            except (Fault, Spoilt):
                continue
            yield from (each for each in found if isinstance(each, PieceMaker) and each.path in wanted)


@frozen(eq=False)
class _Search:
    root: Instance
    found: dict[int, Sum] = field(factory=dict)
    literals: set[int] = field(factory=set)
    seen: set[object] = field(factory=set)

    def look(self, words: Expression | Statement, scope: Scope) -> None:
        self.literals.update(map(id, literals_in(words)))
        for path in paths_in(words):
            try:
                self._follow(path, scope)
            except (Fault, Spoilt):
                continue

    def _follow(self, path: Path, scope: Scope) -> None:
        fact = owned(path, scope)
        if fact is not None:
            self._of_fact(*fact)
            return
        for depth in range(len(path.trailers) + 1):
            if depth and not isinstance(path.trailers[depth - 1], Dot | Index):
                return
            some = Path(path.head, path.trailers[:depth], span=path.span, head_span=path.head_span)
            part = owned(some, scope)
            if part is not None:
                self._of_fact(*part)
            piece = next(iter(each_of(follow(some, scope))), None)
            if isinstance(piece, PieceMaker):
                self.of_piece(piece)
                return

    def of_piece(self, piece: PieceMaker) -> None:
        """What the sides of a piece hang on."""
        if piece.path in self.seen or len(self.seen) >= MOST_LOOKED_AT:
            return
        self.seen.add(piece.path)
        for axis in AXES:
            side = piece.setting(axis)
            if side is not None:
                self._note(*side, f"{piece.path}.{axis}")
            words = side or piece.run_statement(axis)
            if words is not None:
                self.look(*words)

    def _of_fact(self, owner: Instance, name: str) -> None:
        if (owner, name) in self.seen or len(self.seen) >= MOST_LOOKED_AT:
            return
        self.seen.add((owner, name))
        for expression, scope in said_of(owner, name):
            self._note(expression, scope, owner.path_of(name, None))
            self.look(expression, scope)

    def _note(self, expression: Expression, scope: Scope, path: str) -> None:
        if expression.span.source is self.root.work.own and _is_sum(expression, scope):
            self.found[id(expression)] = Sum(expression, without_indexes(path))


def _is_sum(expression: Expression, scope: Scope) -> bool:
    if not isinstance(expression, Arithmetic | Rounded | Call | Path) or not any(paths_in(expression)):
        return False
    try:
        value = single(evaluate(expression, scope), expression.span)
    except (Fault, Spoilt):
        return False
    return isinstance(value, Quantity) and value.dimension == LENGTH
