"""The kind of what the language's own functions give, and what may stand in their brackets."""

from __future__ import annotations

from pastedown.design import infer_expression
from pastedown.design.brackets import TREATMENTS, values_of
from pastedown.design.inference import Inference, Where
from pastedown.design.kind import (
    A_LENGTH,
    JOIN,
    LINE,
    PLAIN_NUMBER,
    POSE,
    TEXT,
    TREATMENT,
    UNKNOWN,
    YES_NO,
    Amount,
    FaceOf,
    Kind,
    ListOfKind,
    Made,
    PanelOf,
    PieceOf,
    PlaceOf,
    agree,
    in_words,
    like,
    one_of,
)
from pastedown.design.missing_pose import tell_missing_pose
from pastedown.design.slips import no_square_root, whole_of_no_number
from pastedown.diagnostic import error
from pastedown.diagnostic.capital import capital
from pastedown.quantity.dimension import AREA
from pastedown.tree.expression import Call, Expression, Path


def kind_of_function(inference: Inference, call: Call, where: Where) -> Kind:
    """The kind of a call of `min`, `choose`, `mitre` and their kin."""
    values, fault = values_of(call)
    if fault is not None:
        inference.tell(fault)
    match call.called.head:
        case "min" | "max" | "sum":
            return _together(inference, call.called.head, list(values.values()), where)
        case "choose":
            return _chosen(inference, values, where)
        case "count":
            for value in values.values():
                infer_expression.kind_of(inference, value, where)
            return PLAIN_NUMBER
        case "whole":
            for value in values.values():
                kind = infer_expression.amount_of(inference, value, where)
                if isinstance(kind, Amount) and kind != PLAIN_NUMBER:
                    inference.tell(whole_of_no_number(value, kind.dimension))
            return PLAIN_NUMBER
        case "square_root":
            return _root(inference, values["0"], where) if "0" in values else UNKNOWN
        case "on_paper":
            return infer_expression.amount_of(inference, values["0"], where) if "0" in values else UNKNOWN
        case "off_by":
            if "what" in values:
                infer_expression.expect(inference, values["what"], where, TEXT, "The cause")
            return infer_expression.amount_of(inference, values["by"], where) if "by" in values else UNKNOWN
        case "placed" | "skew" as name:
            for label, value in values.items():
                if label.isdigit():
                    infer_expression.expect(inference, value, where, JOIN, f"What {name} takes")
            return A_LENGTH if name == "placed" else PLAIN_NUMBER
        case "thickness" | "steepest" as name:
            _expect_of_stack(inference, name, values, where)
            return A_LENGTH if name == "thickness" else PLAIN_NUMBER
        case "wedge":
            for value in values.values():
                infer_expression.expect(inference, value, where, PLAIN_NUMBER, "The slope")
            return TEXT
        case "middles_apart" | "face_to_face" | "lies_under" | "lies_level" as name:
            _expect_sides(inference, name, values, where)
            return YES_NO if name in ("face_to_face", "lies_level") else A_LENGTH
        case "span":
            _expect_of_span(inference, values, where)
            return A_LENGTH
        case name:
            words = dict(TREATMENTS[name].words)
            for label, value in values.items():
                if label not in words:
                    infer_expression.expect(inference, value, where, A_LENGTH, label)
            return TREATMENT


def _together(inference: Inference, name: str, values: list[Expression], where: Where) -> Kind:
    found: Kind = UNKNOWN
    for value in values:
        kind = one_of(infer_expression.kind_of(inference, value, where))
        kind = kind.of if isinstance(kind, ListOfKind) else kind
        if kind is not UNKNOWN and not isinstance(kind, Amount):
            inference.tell(
                error(
                    "wrong-kind",
                    value.span,
                    f"{name} takes measurements, and this is {in_words(kind)}.",
                    way_out="Name a measure of it, or leave it out.",
                )
            )
        elif isinstance(found, Amount) and isinstance(kind, Amount) and not agree(found.dimension, kind.dimension):
            inference.tell(
                error(
                    "wrong-dimension",
                    value.span,
                    f"{capital(in_words(found))} and {in_words(kind)} do not go together here.",
                    way_out=f"{capital(name)} takes like things: lengths, or counts, or amounts.",
                )
            )
        elif found is UNKNOWN:
            found = kind
    return found


def _root(inference: Inference, value: Expression, where: Where) -> Kind:
    """The side of a square: a length for an area, a plain number for a plain number."""
    kind = infer_expression.amount_of(inference, value, where)
    if not isinstance(kind, Amount) or kind == PLAIN_NUMBER:
        return kind
    if kind.dimension == AREA:
        return A_LENGTH
    return inference.tell(no_square_root(value, kind.dimension))


def _chosen(inference: Inference, values: dict[str, Expression], where: Where) -> Kind:
    """The kind of either outcome: they have to be alike, or what hangs on them would be right by chance."""
    if "when" in values:
        infer_expression.expect_condition(inference, values["when"], where)
    outcomes = [one_of(infer_expression.kind_of(inference, values[at], where)) for at in ("yes", "no") if at in values]
    if len(outcomes) < 2:
        return UNKNOWN
    first, second = outcomes
    if like(first, second):
        return second if first is UNKNOWN else first
    both = isinstance(first, Amount) and isinstance(second, Amount)
    return inference.tell(
        error(
            "wrong-dimension" if both else "wrong-kind",
            values["no"].span,
            f"Both outcomes of choose are alike, and here yes is {in_words(first)} and no is {in_words(second)}.",
            way_out=infer_expression.unit_missing(values["no"], second, first) or "Make both outcomes the same kind.",
        )
    )


def _expect_of_stack(inference: Inference, name: str, values: dict[str, Expression], where: Where) -> None:
    for label, value in values.items():
        if label.isdigit() or label in ("over", "to"):
            kind = one_of(infer_expression.kind_of(inference, value, where))
            named = isinstance(kind, PieceOf | PanelOf | FaceOf | PlaceOf) or (
                isinstance(kind, Made) and not kind.described
            )
            if not named and kind is not UNKNOWN:
                sentence = f"{capital(name)} is of parts, pieces and places, and this is {in_words(kind)}."
                way_out = "Name one of them, as in thickness(sheet)."
                inference.tell(error("wrong-kind", value.span, sentence, way_out=way_out))
        elif label == "above":
            infer_expression.expect(inference, value, where, A_LENGTH, "The room")
        elif label == "from":
            infer_expression.expect(inference, value, where, LINE, "What it turns at")
    what = f"The pose of a {'thickness' if name == 'thickness' else 'slope'}"
    expect_pose(inference, values.get("pose"), where, what)


def _expect_sides(inference: Inference, name: str, values: dict[str, Expression], where: Where) -> None:
    for label in ("from", "to"):
        kind = one_of(infer_expression.kind_of(inference, values[label], where)) if label in values else UNKNOWN
        if kind is not UNKNOWN and not isinstance(kind, FaceOf | PlaceOf) and not getattr(kind, "is_face", False):
            sentence = f"{capital(name)} is of sides of paper, and this is {in_words(kind)}."
            way_out = f"Say which side, as in {values[label].span.text}.face."
            inference.tell(error("wrong-kind", values[label].span, sentence, way_out=way_out))
    expect_pose(inference, values.get("pose"), where, "The pose in which sides lie")


def _expect_of_span(inference: Inference, values: dict[str, Expression], where: Where) -> None:
    for label in ("from", "to"):
        if label in values:
            kind = one_of(infer_expression.kind_of(inference, values[label], where))
            if kind not in (LINE, UNKNOWN):
                sentence = f"A line belongs here (an edge or a fold), and this is {in_words(kind)}."
                way_out = "Name an edge or a fold, as in strip.crest."
                inference.tell(error("wrong-kind", values[label].span, sentence, way_out=way_out))
    expect_pose(inference, values.get("pose"), where, "The pose of a span")


def expect_pose(inference: Inference, pose: Expression | None, where: Where, what: str) -> None:
    """The name of a pose or `flat`, which is built in, wherever one is given."""
    if pose is None or (isinstance(pose, Path) and pose.head == "flat" and not pose.trailers):
        return
    if not tell_missing_pose(inference, pose, where):
        infer_expression.expect(inference, pose, where, POSE, what)
