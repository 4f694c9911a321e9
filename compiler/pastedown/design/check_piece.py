"""Checks a piece by its words: its settings, its runs of panels and folds, and what is cut into it."""

from __future__ import annotations

from pastedown.design import infer_expression
from pastedown.design.check_names import check_family, check_settings
from pastedown.design.inference import Inference, Where
from pastedown.design.kind import (
    A_LENGTH,
    NOTHING,
    PLAIN_NUMBER,
    STOCK,
    TEXT,
    TREATMENT,
    UNKNOWN,
    PieceOf,
    in_words,
    one_of,
)
from pastedown.design.piece_names import edge_names, misnamed, taken_in_run, wrong_edge_name
from pastedown.design.setting_names import (
    PIECE_SETTINGS,
    WORDS_OF_SETTING,
)
from pastedown.design.view import View
from pastedown.diagnostic import error
from pastedown.diagnostic.nearest_name import did_you_mean, meant_or_one_of
from pastedown.source import Span
from pastedown.tree.expression import Call, Dot, Expression, Path
from pastedown.tree.statement import (
    Each,
    Fact,
    Fold,
    Panel,
    Piece,
    Run,
    Statement,
    When,
)


def check_piece(inference: Inference, piece: Piece, view: View, where: Where) -> None:
    inner = check_family(inference, piece, where)
    infer_expression.expect(inference, piece.stock, inner, STOCK, "What a piece is cut from")
    check_settings(inference, piece.settings, PIECE_SETTINGS, "A piece")
    for setting in piece.settings:
        if setting.label in ("height", "width"):
            infer_expression.expect(inference, setting.value, inner, A_LENGTH, f"The {setting.label}")
        elif setting.label in WORDS_OF_SETTING:
            expect_word(inference, setting.label, setting.value)
        elif setting.label == "face":
            infer_expression.expect(inference, setting.value, inner, TEXT, "The face")
        elif setting.label in ("left", "right"):
            fault = wrong_edge_name(setting.label, setting.value)
            if fault is not None:
                inference.tell(fault)
    _check_in_piece(inference, piece.body, piece, inner)


def expect_word(inference: Inference, label: str, value: Expression) -> None:
    """Tell when a setting of a piece or a panel is none of its few words."""
    allowed = WORDS_OF_SETTING[label]
    word = value.head if isinstance(value, Path) and not value.trailers else ""
    if word not in allowed:
        inference.tell(
            error(
                "unknown-choice",
                value.span,
                f"{label} is one of {', '.join(allowed)}.",
                way_out=did_you_mean(word, allowed) or f"Write one of them, such as {allowed[0]}.",
            )
        )


def expect_fold_kind(inference: Inference, kind: str, span: Span) -> None:
    """Tell when a fold of a run is neither a mountain nor a valley."""
    if kind not in ("mountain", "valley"):
        inference.tell(
            error(
                "fold-kind",
                span,
                f"A fold in a run is a mountain or a valley, as seen from the face, not {kind}.",
                way_out=did_you_mean(kind, ("mountain", "valley"))
                or "Write valley where the panels come towards you, mountain where they go away.",
            )
        )


def check_set_of_piece(inference: Inference, piece: PieceOf, last: Dot, value: Expression, where: Where) -> None:
    """Check `sheet.name = value`: a side, a setting, a panel or a fold of its runs, or else something cut into it."""
    name = last.name
    if name in ("height", "width") or name in piece.panels:
        if isinstance(value, Call) and infer_expression.kind_of(inference, value, where) == TREATMENT:
            return
        infer_expression.expect(inference, value, where, A_LENGTH, f"The {name}")
    elif name == "stock":
        infer_expression.expect(inference, value, where, STOCK, "What a piece is cut from")
    elif name in WORDS_OF_SETTING:
        expect_word(inference, name, value)
    elif name in piece.folds:
        expect_fold_kind(inference, value.span.text, value.span)
    elif name not in PIECE_SETTINGS or isinstance(value, Call):
        kind = one_of(infer_expression.kind_of(inference, value, where))
        if kind not in (TREATMENT, NOTHING, UNKNOWN):
            known = [*PIECE_SETTINGS, *piece.panels, *piece.folds]
            inference.tell(
                error(
                    "unknown-setting",
                    last.span,
                    f"The piece {piece.statement.family.name} has no {name} that could be set to {in_words(kind)}.",
                    way_out=meant_or_one_of(name, known, "It has"),
                )
            )


def _check_in_piece(inference: Inference, body: tuple[Statement, ...], piece: Piece, where: Where) -> None:
    for statement in body:
        match statement:
            case Run(start=start, end=end, body=inner):
                known = edge_names(piece)
                for edge in (start, end):
                    if edge.span.text not in known and edge.span.text not in misnamed(piece):
                        inference.tell_name(
                            error(
                                "run-edges",
                                edge.span,
                                f"{piece.family.name} has no edge called {edge.span.text}.",
                                way_out=did_you_mean(edge.span.text, known) or f"Its edges are {', '.join(known)}.",
                            ),
                            piece.family.span,
                        )
                _check_in_run(inference, inner, piece, where)
            case Fact(path=path, value=value):
                if path.trailers:
                    inference.tell(
                        error(
                            "wrong-kind",
                            path.span,
                            "What is cut into a piece has a plain name, without dots and brackets.",
                            way_out="Give each cut a name of its own, as in window_1 = window(...).",
                        )
                    )
                if not (isinstance(value, Path) and value.head == "nothing"):
                    infer_expression.expect(inference, value, where, TREATMENT, "What is set in the braces of a piece")
            case Each(counter=counter, first=first, last=last, body=inner):
                for bound in (first, last):
                    infer_expression.expect(inference, bound, where, PLAIN_NUMBER, "The counter of an each")
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
                        way_out="Move it out of them; what a piece has stands behind a comma, as in height: 5 in.",
                    )
                )


def _refuse_taken(inference: Inference, statement: Panel | Fold, piece: Piece) -> None:
    name, what = statement.family.name, type(statement).__name__.lower()
    if taken_in_run(piece, name):
        inference.tell(
            error(
                "reserved-word",
                statement.family.span,
                f"A {what} cannot be called {name}: {piece.family.name}.{name} means something else already.",
                way_out=f"Give it a name of its own, such as {name}_{what}.",
            )
        )


def _check_in_run(inference: Inference, body: tuple[Statement, ...], piece: Piece, where: Where) -> None:
    for statement in body:
        match statement:
            case Panel(size=size, settings=settings, family=family):
                _refuse_taken(inference, statement, piece)
                if family.index is not None:
                    infer_expression.expect(inference, family.index, where, PLAIN_NUMBER, "An index")
                infer_expression.expect(inference, size, where, A_LENGTH, "The size of a panel")
                check_settings(inference, settings, ("bends",), "A panel")
                for setting in settings:
                    if setting.label == "bends":
                        expect_word(inference, setting.label, setting.value)
            case Fold(kind=kind, kind_span=span, family=family, settings=settings):
                _refuse_taken(inference, statement, piece)
                if family.index is not None:
                    infer_expression.expect(inference, family.index, where, PLAIN_NUMBER, "An index")
                expect_fold_kind(inference, kind, span)
                check_settings(inference, settings, (), "A fold in a run")
            case Each(counter=counter, first=first, last=last, body=inner):
                for end in (first, last):
                    infer_expression.expect(inference, end, where, PLAIN_NUMBER, "The counter of an each")
                _check_in_run(inference, inner, piece, where.counting(counter))
            case When(condition=condition, body=inner):
                infer_expression.expect_condition(inference, condition, where)
                _check_in_run(inference, inner, piece, where)
            case _:
                inference.tell(
                    error(
                        "out-of-place",
                        statement.span,
                        "In a run stand only panels and folds.",
                        way_out="Move it out of these braces.",
                    )
                )
