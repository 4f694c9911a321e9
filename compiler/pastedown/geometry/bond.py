"""What holds the panels of a piece apart where they are bonded to one another."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from pastedown.design.body import left_head
from pastedown.geometry.make_join import JoinMaker
from pastedown.geometry.piece import Panel, Run, Score
from pastedown.geometry.place import faces_at
from pastedown.geometry.value import FaceValue
from pastedown.quantity.quantity import NO_LENGTH, Length
from pastedown.tree.expression import Path
from pastedown.tree.statement import Join

if TYPE_CHECKING:
    from pastedown.geometry.make_piece import PieceMaker


def bonded_gaps(piece: PieceMaker, run: Run) -> dict[str, Length]:
    """How far the two panels of each fold are held apart: the caliper of the adhesive that a join or a closing of the
    piece's own part puts between them, nought where nothing does or where its caliper is not known."""
    words = f"what bonds {piece.path}"
    return piece.instance.work.once(
        (piece, "gaps", run.axis), words, piece.statement.family.span, lambda: _gaps(piece, run)
    )


def _gaps(piece: PieceMaker, run: Run) -> dict[str, Length]:
    between = {frozenset((before.name, after.name)): score.name for before, after, score in _neighbours(run)}
    gaps: dict[str, Length] = {}
    for maker in _joins(piece):
        pairs = zip(
            _panels(maker, maker.statement.what, piece), _panels(maker, maker.statement.to, piece), strict=False
        )
        for pair in pairs:
            fold = between.get(frozenset(pair))
            by = maker.by()
            if fold is not None and by is not None and by.caliper is not None:
                gaps[fold] = gaps.get(fold, NO_LENGTH) + by.caliper
    return gaps


def _neighbours(run: Run) -> Iterator[tuple[Panel, Panel, Score]]:
    scores = {score.at: score for score in run.scores}
    for before, after in zip(run.panels, run.panels[1:], strict=False):
        if before.end in scores:
            yield before, after, scores[before.end]


def _joins(piece: PieceMaker) -> list[JoinMaker]:
    instance = piece.instance
    found: list[JoinMaker] = []
    for name in instance.names():
        if instance.kind_of(name) is not Join or instance.is_removed(name):
            continue
        for index, entry, scope in instance.declared(name):
            statement = entry.statement
            assert isinstance(statement, Join)
            if left_head(statement.what) == piece.name == left_head(statement.to):
                found.append(JoinMaker(instance, name, index, entry, scope))
    return found


def _panels(maker: JoinMaker, path: Path, piece: PieceMaker) -> list[str]:
    faces: tuple[FaceValue, ...] = faces_at(path, maker.scope)
    return [face.panel for face in faces if face.piece is piece]
