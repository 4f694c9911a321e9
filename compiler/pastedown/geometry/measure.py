"""Measures: lengths that a ruler would read on the piece as it is folded."""

from __future__ import annotations

from attrs import frozen

from pastedown.design.brackets import word_of
from pastedown.diagnostic import error
from pastedown.geometry.describe import describe
from pastedown.geometry.evaluate import single, work_of
from pastedown.geometry.fault import Fault
from pastedown.geometry.fold import Section, SectionPoint, fold_section
from pastedown.geometry.follow import follow
from pastedown.geometry.hand import folded, hand_of
from pastedown.geometry.layer import Scope
from pastedown.geometry.piece import Run
from pastedown.geometry.pose import EXACT_ANGLES, Angles, pose_at, read_pose
from pastedown.geometry.value import LineValue
from pastedown.geometry.work import WORK_OF_A_FOLDED_PANEL
from pastedown.quantity.quantity import NO_LENGTH, Length
from pastedown.tree.expression import Call, Expression, Path


@frozen(eq=False)
class Measured:
    """A span and what it is measured on: `run` and `section` are None where the piece lies flat."""

    length: Length
    first: LineValue
    last: LineValue
    run: Run | None
    section: Section | None


def span(call: Call, scope: Scope) -> Length:
    """`span(line, to: line, along: width, pose: made_up)`: the distance between two lines of one piece, measured
    along the first panel of its run as the pose folds it."""
    work_of(scope).measure(call.span)
    return measure_span(call, scope).length


def measure_span(call: Call, scope: Scope) -> Measured:
    """Measure a span and keep what it was measured on."""
    from pastedown.geometry.functions import values_in_brackets

    arguments = values_in_brackets(call)
    first, last = (_line(arguments[label], scope) for label in ("from", "to"))
    axis = word_of(arguments["along"])
    for line, label in ((first, "from"), (last, "to")):
        if line.axis != axis:
            raise Fault(
                error(
                    "align-axis",
                    arguments[label].span,
                    f"{line.words} has its place along the {line.axis}, not along the {axis}.",
                    way_out=f"Write along: {line.axis}.",
                )
            )
    if first.piece is not last.piece:
        raise Fault(
            error(
                "wrong-kind",
                call.span,
                f"A span is measured on one piece, and these lines lie on {first.piece.path} and {last.piece.path}.",
                way_out="Measure each piece by itself and add the lengths.",
            )
        )
    return _measured(first, last, arguments["pose"], scope)


def _line(expression: Expression, scope: Scope) -> LineValue:
    if isinstance(expression, Path):
        value = single(follow(expression, scope), expression.span)
        if isinstance(value, LineValue):
            return value
        raise Fault(
            error(
                "wrong-kind",
                expression.span,
                f"A line belongs here (an edge or a fold), and this is {describe(value)}.",
                way_out="Name an edge or a fold, as in strip.crest.",
            )
        )
    raise Fault(
        error(
            "wrong-kind",
            expression.span,
            "A line belongs here: an edge or a fold of a piece.",
            way_out="Name an edge or a fold, as in strip.crest.",
        )
    )


def _measured(first: LineValue, last: LineValue, pose: Expression, scope: Scope) -> Measured:
    if not isinstance(pose, Path):
        raise Fault(
            error(
                "wrong-kind",
                pose.span,
                "A pose belongs here, by its name.",
                way_out="Write pose: flat, or the name of a pose.",
            )
        )
    said = None if pose.head == "flat" and not pose.trailers else read_pose(pose_at(pose, scope))
    run = first.piece.run(first.axis)
    if run is None or said is None:
        return Measured(_absolute(last.at - first.at), first, last, None, None)
    work_of(scope).spend(pose.span, WORK_OF_A_FOLDED_PANEL * len(run.panels))
    _refuse_bent(run, first, last, said, pose)
    section = _section(run, first, said, pose)
    length = _absolute(_point(section, run, last, pose).x - _point(section, run, first, pose).x)
    return Measured(length, first, last, run, section)


def _refuse_bent(run: Run, first: LineValue, last: LineValue, said: Angles, pose: Path) -> None:
    """A panel that bends turns as a whole, nobody knows along which curve. Raises Fault where one lies between."""
    nearer, further = sorted((_from_first(run, first), _from_first(run, last)), key=lambda at: at.value)
    for panel in run.panels:
        turned = panel.bends and said.of(first.piece.path, panel.name) != "flat"
        if turned and nearer <= panel.start and panel.end <= further:
            raise Fault(
                error(
                    "pose-angle",
                    pose.span,
                    f"{first.piece.path}.{panel.name} is bent in this pose, and nothing can be measured across it.",
                    way_out="Measure up to its edge, or in a pose in which it is flat.",
                )
            )


def _from_first(run: Run, line: LineValue) -> Length:
    return run.side - line.at if run.reversed else line.at


def _section(run: Run, line: LineValue, said: Angles, pose: Path) -> Section:
    from pastedown.geometry.bond import bonded_gaps

    piece = line.piece
    angles = {score.name: said.of(piece.path, score.name) for score in run.scores}
    for name, angle in angles.items():
        if angle not in EXACT_ANGLES:
            raise Fault(
                error(
                    "pose-angle",
                    pose.span,
                    f"{piece.path}.{name} stands at {angle} degrees in this pose, and only flat, "
                    "square and shut folds can be measured.",
                    way_out="Measure in a pose of flat, square and shut folds.",
                )
            )
    caliper = piece.stock().caliper
    if caliper is None:
        stock = piece.stock()
        raise Fault(
            error(
                "caliper-missing",
                piece.statement.stock.span,
                f"The caliper of {stock.name or 'this stock'} is not given, and this needs it.",
                reason="A fold takes up the thickness of its paper; caliper is not a matter of weight.",
                way_out="Measure it with a caliper and add caliper: ... to the stock.",
            )
        )
    made = folded(run, piece.path, angles, hand_of(piece.instance.work))
    gaps = bonded_gaps(piece, run)
    swollen = piece.instance.work.actual.swollen.get(piece.path)
    if swollen is not None:
        caliper, gaps = caliper * swollen, {name: gap * swollen for name, gap in gaps.items()}
    return fold_section(made, angles, caliper, gaps)


def _point(section: Section, run: Run, line: LineValue, pose: Path) -> SectionPoint:
    if line.fold:
        return section.folds[line.fold]
    from_first = _from_first(run, line)
    if from_first.value == 0:
        return section.first
    if from_first == run.side:
        return section.last
    raise Fault(
        error(
            "wrong-kind",
            pose.span,
            f"{line.words} is neither an edge nor a fold, and only those can be followed through a pose.",
            way_out="Measure from an edge or a fold, or measure in the pose flat.",
        )
    )


def _absolute(length: Length) -> Length:
    return length if length >= NO_LENGTH else -length
