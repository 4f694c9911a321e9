"""Checks a piece by its words: its settings, its runs of panels and folds, and what is cut into it."""

from __future__ import annotations

from pastedown.design import infer_expression
from pastedown.design.check_names import check_family, check_settings
from pastedown.design.inference import Inference, Where
from pastedown.design.kind import (
    A_LENGTH,
    PLAIN_NUMBER,
    STOCK,
    TEXT,
    TREATMENT,
)
from pastedown.design.piece_names import edge_names
from pastedown.design.setting_names import (
    PIECE_SETTINGS,
    WORDS_OF_SETTING,
)
from pastedown.design.view import View
from pastedown.diagnostic import error
from pastedown.diagnostic.nearest_name import did_you_mean
from pastedown.tree.expression import Path
from pastedown.tree.statement import (
    Each,
    Fact,
    Fold,
    Panel,
    Piece,
    Run,
    Setting,
    Statement,
    When,
)


def check_piece(inference: Inference, piece: Piece, view: View, where: Where) -> None:
    inner = check_family(inference, piece, where)
    infer_expression.expect(inference, piece.stock, inner, STOCK, "What a piece is cut from")
    treated = {statement.path.head for statement in piece.body if isinstance(statement, Fact)}
    check_settings(inference, piece.settings, (*PIECE_SETTINGS, *treated), "A piece")
    for setting in piece.settings:
        if setting.label in ("height", "width"):
            infer_expression.expect(inference, setting.value, inner, A_LENGTH, f"The {setting.label}")
        elif setting.label in WORDS_OF_SETTING:
            _expect_word(inference, setting)
        elif setting.label == "face":
            infer_expression.expect(inference, setting.value, inner, TEXT, "The face")
    _check_in_piece(inference, piece.body, piece, inner)


def _expect_word(inference: Inference, setting: Setting) -> None:
    allowed = WORDS_OF_SETTING[setting.label]
    word = setting.value.head if isinstance(setting.value, Path) and not setting.value.trailers else ""
    if word not in allowed:
        inference.tell(
            error(
                "unknown-choice",
                setting.value.span,
                f"{setting.label} is one of {', '.join(allowed)}.",
                way_out=did_you_mean(word, allowed),
            )
        )


def _check_in_piece(inference: Inference, body: tuple[Statement, ...], piece: Piece, where: Where) -> None:
    for statement in body:
        match statement:
            case Run(start=start, end=end, body=inner):
                known = edge_names(piece)
                for edge in (start, end):
                    if edge.span.text not in known:
                        inference.tell(
                            error(
                                "run-edges",
                                edge.span,
                                f"{piece.family.name} has no edge called {edge.span.text}.",
                                way_out=did_you_mean(edge.span.text, known) or f"Its edges are {', '.join(known)}.",
                            )
                        )
                _check_in_run(inference, inner, where)
            case Fact(value=value):
                if not (isinstance(value, Path) and value.head == "nothing"):
                    infer_expression.expect(inference, value, where, TREATMENT, "What is set in the braces of a piece")
            case Each(counter=counter, first=first, last=last, body=inner):
                for bound in (first, last):
                    infer_expression.expect(
                        inference, bound, where, PLAIN_NUMBER, "Each counts with whole numbers: this"
                    )
                _check_in_piece(inference, inner, piece, where.counting(counter))
            case When(condition=condition, body=inner):
                infer_expression.expect_condition(inference, condition, where)
                _check_in_piece(inference, inner, piece, where)
            case _:
                inference.tell(
                    error(
                        "out-of-place",
                        statement.span,
                        "In the braces of a piece stand its runs and what is cut into it.",
                    )
                )


def _check_in_run(inference: Inference, body: tuple[Statement, ...], where: Where) -> None:
    for statement in body:
        match statement:
            case Panel(size=size, settings=settings, family=family):
                if family.index is not None:
                    infer_expression.expect(inference, family.index, where, PLAIN_NUMBER, "An index")
                infer_expression.expect(inference, size, where, A_LENGTH, "The size of a panel")
                check_settings(inference, settings, ("bends",), "A panel")
                for setting in settings:
                    if setting.label == "bends":
                        _expect_word(inference, setting)
            case Fold(kind=kind, kind_span=span, family=family, settings=settings):
                if family.index is not None:
                    infer_expression.expect(inference, family.index, where, PLAIN_NUMBER, "An index")
                if kind not in ("mountain", "valley"):
                    inference.tell(
                        error(
                            "fold-kind",
                            span,
                            f"A fold in a run is a mountain or a valley, as seen from the face, not {kind}.",
                            way_out=did_you_mean(kind, ("mountain", "valley")),
                        )
                    )
                check_settings(inference, settings, (), "A fold in a run")
            case Each(counter=counter, first=first, last=last, body=inner):
                for end in (first, last):
                    infer_expression.expect(inference, end, where, PLAIN_NUMBER, "Each counts with whole numbers: this")
                _check_in_run(inference, inner, where.counting(counter))
            case When(condition=condition, body=inner):
                infer_expression.expect_condition(inference, condition, where)
                _check_in_run(inference, inner, where)
            case _:
                inference.tell(error("out-of-place", statement.span, "In a run stand only panels and folds."))
