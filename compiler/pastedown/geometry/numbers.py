"""The numbers that a design is cut and scored to: what may be set to move a line, and which lines it moves."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from attrs import evolve, frozen

from pastedown.geometry.evaluate import quantity
from pastedown.geometry.fault import Fault, Spoilt
from pastedown.geometry.follow import each_of
from pastedown.geometry.from_design import instances
from pastedown.geometry.hand import cut_name, hand_of, score_name
from pastedown.geometry.instance import Instance
from pastedown.geometry.lay_piece import AXES
from pastedown.geometry.layer import Scope
from pastedown.geometry.make_piece import PieceMaker
from pastedown.geometry.natural_order import without_indexes
from pastedown.geometry.ruler import ruler_of
from pastedown.quantity.quantity import Length
from pastedown.tree.expression import Expression, Path, Rounded
from pastedown.tree.statement import Piece, Takes

# The name of a line's error, and its half-width.
Line = tuple[str, Length]
Moves = tuple[tuple[str, Fraction], ...]
# A run of more lines than this is left alone: one of its numbers moves too much to be a remedy.
MOST_LINES = 100


@frozen
class Number:
    """A length that can be set: its path without indexes, what it is, the marks it moves by, and how many times over it
    moves each line, by the name of that line's error, as so many of its half-widths for each millimetre."""

    path: str
    value: Length
    mark: Length
    moves: tuple[tuple[str, Fraction], ...]


def numbers_behind(root: Instance, errors: frozenset[str]) -> list[Number]:
    """The numbers that move a line whose error is among `errors`, sorted by path."""
    found: dict[str, Number] = {}
    for piece in _pieces(root):
        for axis in AXES:
            try:
                for number in _of_side(piece, axis, errors):
                    known = found.get(number.path)
                    moves = number.moves if known is None else _added(known.moves, number.moves)
                    found[number.path] = evolve(number, moves=moves)
            except (Fault, Spoilt):
                continue
    return [found[path] for path in sorted(found)]


def _pieces(root: Instance) -> Iterator[PieceMaker]:
    for instance in instances(root):
        for name in instance.names():
            if instance.kind_of(name) is Piece and not instance.is_removed(name):
                try:
                    values = each_of(instance.lookup(name, instance.span))
                except (Fault, Spoilt):
                    continue
                yield from (value for value in values if isinstance(value, PieceMaker))


def _of_side(piece: PieceMaker, axis: str, errors: frozenset[str]) -> Iterator[Number]:
    """The numbers along one side: the side itself, or every panel of its run with all lines beyond it."""
    run = piece.run(axis)
    hand = hand_of(piece.instance.work)
    cut = (cut_name(piece.path, axis), hand.cut)
    if run is None:
        setting = piece.setting(axis)
        if cut[0] in errors and setting is not None:
            yield _number(piece, axis, piece.side(axis), *setting, _moves([cut]))
        return
    lines = [(score.at, (score_name(piece.path, score.name), hand.score)) for score in run.scores]
    lines.append((run.side, cut))
    if len(lines) > MOST_LINES or not errors & {name for _, (name, _) in lines}:
        return
    places, moves = [at for at, _ in lines], _moves([line for _, line in lines])
    sources = piece.panel_sources(axis)
    for panel in run.panels:
        moved = moves[sum(1 for at in places if at < panel.end) :]
        if panel.name in sources and errors & {name for name, _ in moved}:
            yield _number(piece, panel.name, panel.size, *sources[panel.name], moved)


def _number(
    piece: PieceMaker, name: str, value: Length, expression: Expression, scope: Scope, moves: Moves
) -> Number:
    """The fact that the words name, where they name one that can be set; otherwise the side or the panel itself."""
    path, said, where = f"{piece.path}.{name}", expression, scope
    part = scope.part
    if isinstance(expression, Path) and not expression.trailers and expression.head not in scope.locals and part:
        setting = part.setting(expression.head)
        if part.kind_of(expression.head) in (None, Takes) and part.has(expression.head):
            if setting is None or not setting.fixed:
                path = part.path_of(expression.head, None)
            if setting is not None and setting.value is not None:
                said, where = setting.value, setting.scope
    mark = quantity(said.mark, where) if isinstance(said, Rounded) else ruler_of(piece.instance).marks
    return Number(without_indexes(path), value.exact, mark.exact, moves)


def _moves(lines: list[Line]) -> Moves:
    # An error of nought is in no margin.
    return tuple((name, 1 / half_width.value if half_width.value else Fraction(0)) for name, half_width in lines)


def _added(first: Moves, second: Moves) -> Moves:
    moves = dict(first)
    for name, by in second:
        moves[name] = moves.get(name, Fraction(0)) + by
    return tuple(moves.items())
