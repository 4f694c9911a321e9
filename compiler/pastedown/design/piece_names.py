"""The names that a piece's declaration makes known, read off its words."""

from pastedown.design.body import Guard
from pastedown.design.setting_names import PIECE_SETTINGS
from pastedown.tree.expression import Path
from pastedown.tree.statement import Fact, Fold, Panel, Piece, Run, Statement


def edge_names(piece: Piece) -> tuple[str, ...]:
    """Head, tail and the two side edges as the maker calls them."""
    sides = {"left": "left", "right": "right"}
    for setting in piece.settings:
        if setting.label in sides and isinstance(setting.value, Path):
            sides[setting.label] = setting.value.head
    return ("head", "tail", sides["left"], sides["right"])


def misnamed(piece: Piece) -> frozenset[str]:
    """The words behind settings that a piece does not have, as in `rigth: fore_edge`: names that were to be its
    edges."""
    known = {*PIECE_SETTINGS, *(statement.path.head for statement in piece.body if isinstance(statement, Fact))}
    wrong = [setting.value for setting in piece.settings if setting.label not in known]
    return frozenset(value.head for value in wrong if isinstance(value, Path))


def panels_of(piece: Piece) -> dict[str, bool]:
    """The panels of its runs by name, and whether they have an index."""
    return {
        statement.family.name: statement.family.index is not None
        for statement in _in_runs(piece.body)
        if isinstance(statement, Panel)
    }


def lines_of(piece: Piece) -> dict[str, bool]:
    """The folds of its runs by name, and whether they have an index."""
    return {
        statement.family.name: statement.family.index is not None
        for statement in _in_runs(piece.body)
        if isinstance(statement, Fold)
    }


def _in_runs(body: tuple[Statement, ...]) -> list[Statement]:
    found: list[Statement] = []
    for statement in body:
        if isinstance(statement, Guard | Run):
            found.extend(_in_runs(statement.body))
        else:
            found.append(statement)
    return found
