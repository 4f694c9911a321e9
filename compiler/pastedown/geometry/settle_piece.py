"""Takes a piece being made; gives the flat piece. Afterwards its runs sum to its sides and its cuts lie on the
paper."""

from __future__ import annotations

from pastedown.diagnostic import error
from pastedown.geometry.fault import Fault
from pastedown.geometry.find_making import making_of_side
from pastedown.geometry.lay_piece import AXES
from pastedown.geometry.make_piece import PieceMaker
from pastedown.geometry.off_marks import off_marks_of
from pastedown.geometry.outline import outline_of
from pastedown.geometry.piece import FlatPiece, Run
from pastedown.geometry.ruler import ruler_of
from pastedown.geometry.value import TextValue
from pastedown.quantity.quantity import Length
from pastedown.quantity.write import write
from pastedown.tree.expression import Text


def settle_piece(piece: PieceMaker) -> FlatPiece:
    """The piece with everything worked out. Raises Fault at its first fault."""
    runs = tuple(run for axis in AXES if (run := _run_that_fits(piece, axis)) is not None)
    outline, inner_cuts, cuts = outline_of(piece)
    left, right = piece.edge_name("left"), piece.edge_name("right")
    if left == right:
        raise Fault(
            error(
                "edge-names",
                piece.statement.family.span,
                f"Both side edges of {piece.path} are called {left}.",
                way_out="Give each a name of its own.",
            )
        )
    return FlatPiece(
        path=piece.path,
        part=piece.instance.path,
        component=piece.instance.component.name,
        name=piece.name,
        doc=_doc(piece),
        stock=piece.stock(),
        height=piece.side("height"),
        width=piece.side("width"),
        left=left,
        right=right,
        grain=piece.word("grain", ("height", "width", "any"), "any"),
        against_grain=piece.word("against_grain", ("refuse", "warn"), "refuse"),
        face_up=_face(piece),
        loose=piece.word("loose", ("yes", "no"), "no") == "yes",
        runs=runs,
        outline=outline,
        inner_cuts=inner_cuts,
        span=piece.statement.family.span,
        off_marks=off_marks_of(piece, runs, outline, inner_cuts),
        cuts=cuts,
        height_made=making_of_side(piece, "height"),
        width_made=making_of_side(piece, "width"),
    )


def _run_that_fits(piece: PieceMaker, axis: str) -> Run | None:
    run = piece.run(axis)
    setting = piece.setting(axis)
    if run is not None and setting is not None and run.side != piece.side(axis):
        ruler = ruler_of(piece.instance)
        raise Fault(
            error(
                "run-mismatch",
                setting[0].span,
                f"The panels of {piece.path} along its {axis} come to {write(run.side, ruler)}, and "
                f"its {axis} is stated as {write(piece.side(axis), ruler)}.",
                reason="The last panel would miss the edge of the sheet.",
                way_out=(
                    f"Leave {axis} out: the run gives it. Or change a panel by "
                    f"{write(_difference(run, piece, axis), ruler)}."
                ),
            )
        )
    return run


def _difference(run: Run, piece: PieceMaker, axis: str) -> Length:
    difference = run.side - piece.side(axis)
    return difference if difference.value >= 0 else -difference


def _doc(piece: PieceMaker) -> str:
    doc = piece.statement.doc
    return "".join(part for part in doc.pieces if isinstance(part, str)) if doc is not None else ""


def _face(piece: PieceMaker) -> str:
    """The face in words: as the piece says, or as its stock makes plain."""
    setting = piece.setting("face")
    if setting is not None:
        from pastedown.geometry.evaluate import evaluate

        expression, scope = setting
        value = evaluate(expression, scope)
        if not isinstance(expression, Text) or not isinstance(value, TextValue):
            raise Fault(
                error(
                    "wrong-kind",
                    expression.span,
                    "The face is described by a text in quotes.",
                    way_out='Write it as in face: "decorated side".',
                )
            )
        return "".join(part for part in value.pieces if isinstance(part, str))
    return "decorated side" if piece.stock().decorated == "face" else "either side"
