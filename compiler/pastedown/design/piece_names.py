"""The names that a piece's declaration makes known, read off its words."""

from pastedown.design.body import Guard
from pastedown.design.setting_names import PIECE_SETTINGS
from pastedown.diagnostic import Diagnostic, error
from pastedown.tree.expression import Expression, Path
from pastedown.tree.statement import Fact, Fold, Panel, Piece, Run, Statement

# What every piece has under a name of its own, whatever it is made of.
OF_EVERY_PIECE = ("height", "width", "area", "face", "back", "head", "tail", "mid_height", "mid_width")


def wrong_edge_name(side: str, expression: Expression) -> Diagnostic | None:
    """What is told of a name for the left or the right edge that is none, or that is taken; None for a good one."""
    taken = (*OF_EVERY_PIECE, "right" if side == "left" else "left")
    if isinstance(expression, Path) and not expression.trailers and expression.head not in taken:
        return None
    return error(
        "edge-names",
        expression.span,
        f"The {side} edge gets one name of its own, which no other edge or side has.",
        way_out=f"Write a plain name, as in {side}: outer_edge.",
    )


def taken_in_run(piece: Piece, name: str) -> bool:
    """Whether a panel or a fold may not be called `name`, because that means something else of the piece."""
    return name in (*OF_EVERY_PIECE, *PIECE_SETTINGS, "stock", *edge_names(piece))


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
