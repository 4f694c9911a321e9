"""Closings: what is closed has to find its two sides where the folds put them.

All parts are put into their pose `made_up` and every piece is placed by its join. Then the two sides of each closing
must look at one another, lie on one another with nothing between that shut folds and joins are known to put there, and
their lines must meet. Paper takes up its own thickness in its folds,
so they may miss one another by as much as there is paper and adhesive on the way between them. Derived: plates of the
stock's caliper, turned about their scores. What is closed stays closed: the same has to hold in every other pose, of
the design as a whole and of each of its parts by itself.
"""

from collections.abc import Iterator
from fractions import Fraction
from itertools import product

from attrs import evolve, frozen

from pastedown.diagnostic import Diagnostic, error
from pastedown.fit.alike import in_a_row, the_same_goes_for
from pastedown.fit.layer_order import Effort, LayerOrder
from pastedown.geometry.frame import along, cosine
from pastedown.geometry.in_pose import (
    InPose,
    PlacedSide,
    adhesive_of,
    apart_in_plane,
    paper_between,
    turned_bends_between,
)
from pastedown.geometry.model import Alignment, Join, Pose
from pastedown.geometry.natural_order import without_indexes
from pastedown.quantity.quantity import mm
from pastedown.quantity.ruler import Ruler
from pastedown.quantity.write import write

_Face = tuple[str, str, str]


# The kinds of joins that something was told of already.
Told = set[tuple[str, str]]


def look_in(placed: InPose, told: Told, effort: Effort) -> Iterator[Diagnostic]:
    """Each kind of join and closing once, with all that fail named; nothing of what lies as it lies made up, for that
    has been looked at."""
    order: LayerOrder | None = None
    alike: dict[tuple[str, str], list[tuple[Join, Diagnostic]]] = {}
    for join in placed.model.joins:
        if (join.component, join.name) in told or not placed.is_about(join.part):
            continue
        if all(placed.stays(face[0]) for face in (*join.what.faces, *join.to.faces)):
            continue
        if order is None and (join.closes or len(join.what.faces) > 1):
            order = LayerOrder(placed, effort)
        found = list(_look_at(join, placed, order, placed.model.ruler))
        if found:
            alike.setdefault((join.component, join.name), []).append((join, found[0]))
    told.update(alike)
    for failing in alike.values():
        yield _with_others(failing)


def _with_others(failing: list[tuple[Join, Diagnostic]]) -> Diagnostic:
    """The first of several joins of one kind that fail, with the others named: those that fail in the same words but
    for their numbers, and those that fail otherwise."""
    (_, first), *others = failing
    words = without_indexes(first.sentence)
    same = [join.path for join, fault in others if without_indexes(fault.sentence) == words]
    otherwise = [join.path for join, fault in others if without_indexes(fault.sentence) != words]
    also = f" {in_a_row(otherwise)} {'fail' if len(otherwise) > 1 else 'fails'} too, otherwise." if otherwise else ""
    return evolve(first, sentence=f"{first.sentence}{the_same_goes_for(same)}{also}")


def _look_at(join: Join, placed: InPose, order: LayerOrder | None, ruler: Ruler) -> Iterator[Diagnostic]:
    # Where one side has more faces than the other, the maker has brought several onto one.
    pairs = list(zip(join.what.faces, join.to.faces, strict=False))
    if not join.closes:
        placed.place(join.what.faces[0][0])
        if join.path in placed.beside:
            yield _off_the_paper(join, placed.beside[join.path], ruler)
            return
        # The first two sides are brought together by the join itself; the others have to come out.
        pairs = pairs[1:]
    for what_face, to_face in pairs:
        meeting = [
            _Meeting(join, what, to, what_face, to_face)
            for what, to in product(placed.sides(what_face), placed.sides(to_face))
            if what.placed.root == to.placed.root
        ]
        # Where a panel is crossed by others, it is enough that one of its fields meets.
        if meeting and not any(each.meets for each in meeting):
            is_folded = any(path in (what_face[0], to_face[0]) for path, _ in placed.angles)
            yield _does_not_meet(meeting[0], placed, is_folded, ruler)
        elif meeting and order is not None:
            met = [each for each in meeting if each.meets]
            wrong = [_out_of_order(each, placed, order) for each in met]
            touching = [each for each, fault in zip(met, wrong, strict=True) if fault is None]
            if touching and join.closes:
                yield from _lines(touching[0], placed, ruler)
            elif not touching and wrong[0] is not None:
                yield wrong[0]


_CREASE = (
    "Crease what goes over a gap that bends, at the edge where it turns, and let the crease follow the gap: "
    "fold NAME: in_place, on: PANEL, over: EDGE, follows: GAP."
)


@frozen
class _Meeting:
    """Two sides that have to meet, and the fields of them that are compared."""

    join: Join
    what: PlacedSide
    to: PlacedSide
    what_face: _Face
    to_face: _Face

    @property
    def facing(self) -> int:
        """-1 where the two look at one another, 1 where they look the same way, 0 where they stand square."""
        return cosine(self.what.outward, self.to.outward)

    @property
    def play(self) -> Fraction:
        """By how much they may lie apart, in millimetres: the thickness of what is between them."""
        return paper_between(self.what, self.to) + adhesive_of(self.join)

    @property
    def beside(self) -> Fraction:
        """How far they lie apart in their plane, in millimetres; less than nought where they overlap."""
        return apart_in_plane(self.what, self.what_face[1], self.to, self.to_face[1])

    @property
    def above(self) -> Fraction:
        """How far they lie apart square to their plane, in millimetres."""
        return abs(self.what.level + self.to.level)

    @property
    def meets(self) -> bool:
        return self.facing == -1 and self.beside < 0 and self.above <= self.play


def _does_not_meet(meeting: _Meeting, placed: InPose, is_folded: bool, ruler: Ruler) -> Diagnostic:
    if placed.pose is None:
        unfolded = "Say in a pose made_up which folds are turned: pose made_up { sheet.crest = shut }."
        way_out = "" if is_folded else unfolded
        when = "when all is made up"
    else:
        way_out = "What is stuck together stays together: turn the folds of both alike in this pose."
        if turned_bends_between(meeting.what, meeting.to, placed):
            way_out = f"{_CREASE}\n{way_out}"
        when = f"in the pose {placed.pose.path}"
    if meeting.facing != -1:
        return _looks_away(meeting, when, way_out)
    return _misses(meeting.join, max(meeting.beside, meeting.above), when, way_out, ruler)


def _out_of_order(meeting: _Meeting, placed: InPose, order: LayerOrder) -> Diagnostic | None:
    """Where two sides turn their backs on one another, or where a third panel lies between them."""
    join, what_face, to_face = meeting.join, meeting.what_face, meeting.to_face
    when = "folded" if placed.pose is None else f"in the pose {placed.pose.path}"
    if order.looks_away(meeting.what, meeting.to):
        others = [_name((*face[:2], "back" if face[2] == "face" else "face")) for face in (what_face, to_face)]
        turn = "turn a fold between them the other way: mountain for valley."
        return error(
            "close-looks-away",
            join.span,
            f"{join.path}: {when}, {_name(what_face)} and {_name(to_face)} look away from one another and cannot meet.",
            reason="Two sides can only be stuck together where they look at one another: here the glue lies open.",
            way_out=f"Write {others[0]} and {others[1]}, or {turn}" if join.closes else turn.capitalize(),
        )
    between = order.between(meeting.what, meeting.to)
    if between is None:
        return None
    return error(
        "close-misses",
        join.span,
        f"{join.path}: {when}, {'.'.join(part for part in between if part)} lies between {_name(what_face)} and "
        f"{_name(to_face)}.",
        reason="What is closed has to find its two sides where the folds put them: here other paper parts them.",
        way_out="Turn a fold between them the other way, mountain for valley, or close onto what lies there.",
    )


def _lines(meeting: _Meeting, placed: InPose, ruler: Ruler) -> Iterator[Diagnostic]:
    play = meeting.play
    for alignment in meeting.join.alignments:
        off = _off(alignment, meeting.what, meeting.to, placed)
        if off is not None and off > play:
            yield _lines_miss(meeting.join, alignment, off, placed.pose, ruler)


def _off(alignment: Alignment, what: PlacedSide, to: PlacedSide, placed: InPose) -> Fraction | None:
    """By how much two lines miss one another, in millimetres."""
    if alignment.what_line is None or alignment.to_line is None:
        return None
    one, other = placed.line(alignment.what_line, what), placed.line(alignment.to_line, to)
    if one is None or other is None:
        return None
    direction = to.field.frame.axis(alignment.to_line.axis)
    return abs(abs(along(one, direction) - along(other, direction)) - abs(alignment.inside.value))


def _name(face: _Face) -> str:
    path, panel, side = face
    return f"{path}.{panel}.{side}" if panel else f"{path}.{side}"


def _off_the_paper(join: Join, apart: Fraction, ruler: Ruler) -> Diagnostic:
    return error(
        "join-misses",
        join.span,
        f"{join.path} lays {join.what.path} beside {join.to.path}: {write(mm(apart), ruler)} lie between them.",
        reason="What is stuck on has to lie on the paper that carries it: here it hangs loose.",
        way_out="Align other lines, or change what stands after inside.",
    )


def _looks_away(meeting: _Meeting, when: str, way_out: str) -> Diagnostic:
    join, what_face, to_face = meeting.join, meeting.what_face, meeting.to_face
    if meeting.facing == 1:
        other = (*what_face[:2], "back" if what_face[2] == "face" else "face")
        folded = "folded" if when.startswith("when") else when
        sentence = f"{join.path}: {folded}, {_name(what_face)} and {_name(to_face)} look the same way and cannot meet."
        way_out = way_out or f"Write {_name(other)}, or turn a fold between them the other way: mountain for valley."
    else:
        sentence = f"{join.path}: {when}, {_name(what_face)} stands square to {_name(to_face)}."
        in_words = "Turn the folds between them in the pose made_up, as in pose made_up { sheet.crest = shut }."
        way_out = way_out or in_words
    return error(
        "close-looks-away",
        join.span,
        sentence,
        reason="Two sides can only be stuck together where they look at one another: here the glue lies open.",
        way_out=way_out,
    )


def _misses(join: Join, apart: Fraction, when: str, way_out: str, ruler: Ruler) -> Diagnostic:
    return error(
        "close-misses",
        join.span,
        f"{join.path}: {when}, {join.what.path} and {join.to.path} lie {write(mm(apart), ruler)} apart.",
        reason="What is closed has to find its two sides where the folds put them: on the table a gap stays open, or "
        "the paper bows to reach across.",
        way_out=way_out or "Look at the lengths between the two, and at the folds that the pose made_up turns.",
    )


def _lines_miss(join: Join, alignment: Alignment, off: Fraction, pose: Pose | None, ruler: Ruler) -> Diagnostic:
    folded = "folded" if pose is None else f"in the pose {pose.path}"
    return error(
        "close-misses",
        alignment.span or join.span,
        f"{join.path}: {folded}, {alignment.what} and {alignment.to} miss one another by {write(mm(off), ruler)}.",
        reason="More than the thickness of the paper between them can take up: one edge stands out past the other, or "
        "the part comes out askew.",
        way_out=f"Change a length between them by {write(mm(off), ruler)}, or say inside: where it is meant.",
    )
