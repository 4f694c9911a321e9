"""Finds where in the maker's own file something was made, and which of the values given there it hangs on.

A fault of a library's line is mended in the file of whoever uses the library; there it is seen from the innermost part
that this file makes.
"""

from __future__ import annotations

from attrs import frozen

from pastedown.geometry.fault import Fault, Spoilt
from pastedown.geometry.follow import follow
from pastedown.geometry.instance import Instance
from pastedown.geometry.layer import Scope
from pastedown.geometry.make_piece import PieceMaker
from pastedown.geometry.making import Given, Making
from pastedown.geometry.natural_order import without_indexes
from pastedown.geometry.origin import origin_of, said_of
from pastedown.geometry.paths import paths_in
from pastedown.quantity.quantity import Quantity
from pastedown.source import Span
from pastedown.tree.expression import Dot, Expression, Literal, Path
from pastedown.tree.statement import Statement, Takes

# A sum that hangs on more facts than this is no longer told by its values.
MOST_LOOKED_AT = 200

Words = tuple[Expression | Statement, Scope]


def making_of(instance: Instance, told_at: Span, words: Words | None) -> Making | None:
    """Where a thing of `instance` was made that is told of at `told_at`, and what `words` hang on there. None where
    that is in the maker's own file already."""
    part = instance.made_by_hand()
    if part is None or told_at.source is part.span.source:
        return None
    found: dict[str, Given] = {}
    if words is not None:
        _Search(part, found, set()).look(*words)
    return Making(part.path, tuple(found.values()), span=part.span)


def making_of_side(piece: PieceMaker, axis: str) -> Making | None:
    """The same for one side of a piece, "height" or "width"."""
    return making_of(piece.instance, piece.statement.family.span, piece.setting(axis) or piece.run_statement(axis))


@frozen
class _Search:
    part: Instance
    found: dict[str, Given]
    seen: set[tuple[Instance, str]]

    def look(self, words: Expression | Statement, scope: Scope) -> None:
        for path in paths_in(words):
            try:
                self._follow(path, scope)
            except (Fault, Spoilt):
                continue

    def _follow(self, path: Path, scope: Scope) -> None:
        owner, name = _owned(path, scope)
        if owner is None or not owner.is_within(self.part):
            return
        setting = owner.setting(name)
        given = setting is not None and setting.value is not None and setting.value.span.source is self.part.span.source
        if given or (owner is self.part and _is_left_alone(owner, name)):
            self._note(owner, path, scope, not given)
            return
        if (owner, name) in self.seen or len(self.seen) >= MOST_LOOKED_AT:
            return
        self.seen.add((owner, name))
        for expression, where in said_of(owner, name):
            self.look(expression, where)

    def _note(self, owner: Instance, path: Path, scope: Scope, left: bool) -> None:
        inside = owner.path.removeprefix(self.part.path).strip(".")
        words = f"{inside}.{_written(path)}" if inside else _written(path)
        value = follow(path, scope)
        if isinstance(value, Quantity) and words not in self.found:
            self.found[words] = Given(words, value, left, *self._stated(owner, path))

    def _stated(self, owner: Instance, path: Path) -> tuple[str, int]:
        """Which fact of the maker's own file it is, where that is another one, and in which line."""
        last = path.trailers[-1] if path.trailers else None
        origin = origin_of(owner, last.name if isinstance(last, Dot) else path.head) if owner is self.part else None
        if origin is None or origin.hops == 0 or origin.expression.span.source is not self.part.span.source:
            return "", 0
        return without_indexes(origin.path), origin.expression.span.line


def _written(path: Path) -> str:
    return "".join(path.span.text.split()).removeprefix("its.")


def _is_left_alone(owner: Instance, name: str) -> bool:
    """Whether a value is as the component has it, and not worked out from others."""
    if owner.kind_of(name) is not Takes or owner.setting(name) is not None:
        return False
    return all(isinstance(said, Literal) for said, _ in said_of(owner, name))


def _owned(path: Path, scope: Scope) -> tuple[Instance | None, str]:
    """The part that the first name of a path belongs to, and that name."""
    if path.head in scope.locals:
        return None, path.head
    if path.head == "its":
        first = path.trailers[0] if path.trailers else None
        known = isinstance(scope.its, Instance) and isinstance(first, Dot)
        return (scope.its, first.name) if known else (None, "its")  # type: ignore[return-value, union-attr]
    return scope.part, path.head
