"""Closings: what is closed has to find its two sides where the folds put them.

All parts are put into their pose `made_up` and every piece is placed by its join. Then the two sides of each closing
must look at one another, lie on one another, and their lines must meet. Paper takes up its own thickness in its folds,
so they may miss one another by as much as there is paper and adhesive on the way between them. Derived: plates of the
stock's caliper, turned about their scores.
"""

from collections.abc import Iterator
from fractions import Fraction
from itertools import product

from attrs import frozen

from pastedown.diagnostic import Diagnostic, error
from pastedown.geometry.frame import along, cosine
from pastedown.geometry.made_up import MadeUp, PlacedSide, adhesive_of, apart_in_plane, paper_between
from pastedown.geometry.model import Alignment, Join, Model
from pastedown.quantity.quantity import mm
from pastedown.quantity.ruler import Ruler
from pastedown.quantity.write import write

_Face = tuple[str, str, str]


def look(model: Model) -> Iterator[Diagnostic]:
    """Each kind of join and closing once; nothing where a join or a pose is missing that may have made them meet."""
    if not model.can_be_placed:
        return
    made_up = MadeUp(model)
    told: set[tuple[str, str]] = set()
    for join in model.joins:
        if (join.component, join.name) in told:
            continue
        found = list(_look_at(join, made_up, model.ruler))
        if found:
            told.add((join.component, join.name))
            yield found[0]


def _look_at(join: Join, made_up: MadeUp, ruler: Ruler) -> Iterator[Diagnostic]:
    # Where one side has more faces than the other, the maker has brought several onto one.
    pairs = list(zip(join.what.faces, join.to.faces, strict=False))
    if not join.closes:
        made_up.place(join.what.faces[0][0])
        if join.path in made_up.beside:
            yield _off_the_paper(join, made_up.beside[join.path], ruler)
            return
        # The first two sides are brought together by the join itself; the others have to come out.
        pairs = pairs[1:]
    for what_face, to_face in pairs:
        meeting = [
            _Meeting(join, what, to, what_face, to_face)
            for what, to in product(made_up.sides(what_face), made_up.sides(to_face))
            if what.placed.root == to.placed.root
        ]
        # Where a panel is crossed by others, it is enough that one of its fields meets.
        if meeting and not any(each.meets for each in meeting):
            is_folded = any(path in (what_face[0], to_face[0]) for path, _ in made_up.model.made_up)
            yield _does_not_meet(meeting[0], is_folded, ruler)
        elif meeting and join.closes:
            met = next(each for each in meeting if each.meets)
            yield from _lines(met, made_up, ruler)


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


def _does_not_meet(meeting: _Meeting, is_folded: bool, ruler: Ruler) -> Diagnostic:
    way_out = "" if is_folded else "Say in a pose made_up which folds are turned: pose made_up { sheet.crest = shut }."
    if meeting.facing != -1:
        return _looks_away(meeting, way_out)
    return _misses(meeting.join, max(meeting.beside, meeting.above), way_out, ruler)


def _lines(meeting: _Meeting, made_up: MadeUp, ruler: Ruler) -> Iterator[Diagnostic]:
    play = meeting.play
    for alignment in meeting.join.alignments:
        off = _off(alignment, meeting.what, meeting.to, made_up)
        if off is not None and off > play:
            yield _lines_miss(meeting.join, alignment, off, ruler)


def _off(alignment: Alignment, what: PlacedSide, to: PlacedSide, made_up: MadeUp) -> Fraction | None:
    """By how much two lines miss one another, in millimetres."""
    if alignment.what_line is None or alignment.to_line is None:
        return None
    one, other = made_up.line(alignment.what_line, what), made_up.line(alignment.to_line, to)
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
        reason="What is stuck on has to lie on the paper that carries it.",
        way_out="Align other lines, or change what stands after inside.",
    )


def _looks_away(meeting: _Meeting, way_out: str) -> Diagnostic:
    join, what_face, to_face = meeting.join, meeting.what_face, meeting.to_face
    if meeting.facing == 1:
        other = (*what_face[:2], "back" if what_face[2] == "face" else "face")
        sentence = f"{join.path}: folded, {_name(what_face)} and {_name(to_face)} look the same way and cannot meet."
        way_out = way_out or f"Write {_name(other)}, or turn a fold between them the other way: mountain for valley."
    else:
        sentence = f"{join.path}: when all is made up, {_name(what_face)} stands square to {_name(to_face)}."
        in_words = "Turn the folds between them in the pose made_up, as in pose made_up { sheet.crest = shut }."
        way_out = way_out or in_words
    return error(
        "close-looks-away",
        join.span,
        sentence,
        reason="Two sides can only be stuck together where they look at one another.",
        way_out=way_out,
    )


def _misses(join: Join, apart: Fraction, way_out: str, ruler: Ruler) -> Diagnostic:
    return error(
        "close-misses",
        join.span,
        f"{join.path}: when all is made up, {join.what.path} and {join.to.path} lie {write(mm(apart), ruler)} apart.",
        reason="What is closed has to find its two sides where the folds put them.",
        way_out=way_out or "Look at the lengths between the two, and at the folds that the pose made_up turns.",
    )


def _lines_miss(join: Join, alignment: Alignment, off: Fraction, ruler: Ruler) -> Diagnostic:
    return error(
        "close-misses",
        alignment.span or join.span,
        f"{join.path}: folded, {alignment.what} and {alignment.to} miss one another by {write(mm(off), ruler)}.",
        reason="More than the thickness of the paper between them can take up.",
        way_out=f"Change a length between them by {write(mm(off), ruler)}, or say inside: where it is meant.",
    )
