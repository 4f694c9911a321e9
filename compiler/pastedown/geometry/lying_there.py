"""What lies where a thickness is measured: the pieces named, all that is joined onto them, and the layers they make.

The pieces are placed as in the whole design, but alone, by what carries them together: nothing else is worked out.
Paper that stands square to the stack is no layer of it. Between two sides that a join or a closing brings together
lies its adhesive, over all that both have in common.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Iterator
from fractions import Fraction
from itertools import chain, product

from attrs import define, evolve, field, frozen

from pastedown.diagnostic import error
from pastedown.geometry import model
from pastedown.geometry.carrying import Carrying, Held, carrying_in, is_loose, pieces_in
from pastedown.geometry.describe import describe
from pastedown.geometry.fault import Fault, Spoilt
from pastedown.geometry.folded_piece import Field, how_many_fields, is_cut_away
from pastedown.geometry.frame import Frame, Vector, along, cosine
from pastedown.geometry.in_pose import InPose, PlacedPiece, adhesive_of
from pastedown.geometry.instance import Instance
from pastedown.geometry.layer_stack import Layer, Rectangle
from pastedown.geometry.make_piece import PieceMaker
from pastedown.geometry.natural_order import natural_key
from pastedown.geometry.piece import CutPath, FlatPiece, LineTo
from pastedown.geometry.place import faces_of
from pastedown.geometry.pose import MADE_UP, Angles, read_pose
from pastedown.geometry.ruler import ruler_of
from pastedown.geometry.settle_piece import settle_piece
from pastedown.geometry.value import FaceValue, PanelValue, Reference
from pastedown.geometry.work import WORK_OF_A_FOLDED_PANEL, Work
from pastedown.source import Span
from pastedown.tree.statement import Pose

# A panel of a piece; "" for all of it.
_Panel = tuple[str, str]


@define
class Named:
    """What was named, taken apart: whole pieces, and single panels with the sides by which they were named. `first`
    is the first piece, and `together` are all of the thing it belongs to."""

    whole: dict[str, PieceMaker] = field(factory=dict)
    panels: dict[_Panel, PieceMaker] = field(factory=dict)
    sides: set[tuple[str, str, str]] = field(factory=set)
    first: PieceMaker | None = None
    together: set[str] = field(factory=set)

    def take(self, value: object, span: Span, *, blank: bool) -> None:
        """Add a part, a piece, a panel, a side or a place. Raises Fault for anything else."""
        is_first = self.first is None
        self._take(value, span, blank=blank)
        if is_first:
            self.together = set(self.whole)

    def _take(self, value: object, span: Span, *, blank: bool) -> None:
        match value:
            case Instance():
                pieces = list(pieces_in(value, only_its_own=blank))
                pieces = pieces or list(pieces_in(value, only_its_own=False))
                for piece in pieces:
                    self._piece(piece)
            case PieceMaker():
                self._piece(value)
            case PanelValue(piece=piece, name=name):
                self._panel(piece, name)
                self.sides |= {(piece.path, name, side) for side in ("face", "back")}
            case FaceValue():
                self._face(value)
            case Reference(kind="place"):
                for face in faces_of(value):
                    self._face(face)
            case _:
                raise Fault(
                    error(
                        "wrong-kind",
                        span,
                        f"The thickness of a part, a piece or a place can be told, and this is {describe(value)}.",
                        way_out="Name one of them, as in thickness(sheet).",
                    )
                )

    def _face(self, face: FaceValue) -> None:
        if not face.panel:
            self._piece(face.piece, whole=False)
        else:
            self._panel(face.piece, face.panel)
        self.sides.add((face.piece.path, face.panel, face.side))

    def _piece(self, piece: PieceMaker, *, whole: bool = True) -> None:
        self.first = self.first or piece
        self.whole[piece.path] = piece
        if whole:
            self.sides.add((piece.path, "", ""))

    def _panel(self, piece: PieceMaker, name: str) -> None:
        self.first = self.first or piece
        self.panels[piece.path, name] = piece

    def begins_at(self, face: FaceValue) -> bool:
        """Whether what is joined to a side lies on what was named."""
        path = face.piece.path
        own = (path, face.panel, face.side)
        return bool({own, (path, "", ""), (path, "", face.side)} & self.sides)

    def pieces(self) -> dict[str, PieceMaker]:
        return {**self.whole, **{path: piece for (path, _), piece in self.panels.items()}}


@frozen(eq=False)
class Lying:
    """The layers of a stack, in the plane of the first piece that was named: along `frame`'s width and height, in
    millimetres from its corner."""

    layers: tuple[Layer, ...]
    placed: InPose
    base: PlacedPiece
    frame: Frame

    def places_of(self, sides: Iterable[tuple[str, str, str]]) -> tuple[Rectangle, ...]:
        """Where sides of the paper lie in the plane of the stack."""
        faces = [(path, panel, side or "face") for path, panel, side in sides]
        found = [one for face in faces for one in self.placed.sides(face)]
        return tuple(shadow(one.field, self.frame) for one in found if is_parallel(one.field, self.frame))

    def at(self, line: model.Line) -> tuple[str, Fraction] | None:
        """Along which axis of the stack a line has its place, and where; None where it has none."""
        placed = self.placed.place(line.piece)
        if placed is None:
            return None
        sides = self.placed.sides((line.piece, "", "face"))
        point = self.placed.line(line, sides[0])
        if point is None:
            return None
        direction = placed.base.frame.axis(line.axis)
        for axis in ("width", "height"):
            if cosine(direction, self.frame.axis(axis)):
                return axis, _from_corner(point, self.frame, axis)
        return None


def lying_there(
    named: Named, pose: model.Pose | None, work: Work, span: Span, *, blank: bool, also: tuple[str, ...] = ()
) -> Lying:
    """Everything that lies where the things named lie, in a pose or made up. `blank` leaves out what is joined onto
    them from outside. `also` are pieces whose lines will be asked for. Raises Fault where the things are not held
    together by anything, Spoilt where one of them failed."""
    carrying = carrying_in(work)
    work.spend(span, len(carrying.joins))
    counted = named.pieces()
    if not blank:
        counted |= {piece.path: piece for piece in carrying.upon(named.pieces().values(), named.begins_at)}
    counted = _without_loose(counted, carrying)
    assert named.first is not None
    needed, top = _held_together(counted, carrying, also, named, span)
    made_model = _model_of(needed, top, counted, carrying, work)
    work.spend(span, WORK_OF_A_FOLDED_PANEL * sum(len(run.panels) for one in made_model.pieces for run in one.runs))
    made_up = InPose(made_model)
    placed = InPose(made_model, pose, made_up) if pose is not None else made_up
    base = _base(named, counted, carrying, placed, span)
    papers = (_paper(piece, named, placed, base, span) for piece in made_model.pieces if piece.path in counted)
    adhesives = (_adhesive(join, named, counted, placed, base) for join in made_model.joins)
    layers = chain.from_iterable(chain(papers, adhesives))
    return Lying(tuple(layers), placed, base, base.base.frame)


def _without_loose(counted: dict[str, PieceMaker], carrying: Carrying) -> dict[str, PieceMaker]:
    """What lies loose has no place, unless a join says where it lies; what is loose altogether is looked at alone."""
    placed = {path: piece for path, piece in counted.items() if path in carrying.carrier or not is_loose(piece)}
    return placed or counted


def _held_together(
    counted: dict[str, PieceMaker], carrying: Carrying, also: tuple[str, ...], named: Named, span: Span
) -> tuple[dict[str, PieceMaker], set[str]]:
    """All pieces that have to be placed, and those that stand on nothing."""
    lines = {path: carrying.pieces[path] for path in also if path in carrying.pieces}
    roots = {
        path: piece
        for path, piece in {**counted, **lines}.items()
        if path not in carrying.carrier or carrying.carrier[path].to[0].piece.path not in counted
    }
    if not roots:
        raise Spoilt  # they carry one another in a ring, which is told of the joins
    if len(roots) == 1:
        return {**counted, **lines}, set(roots)
    ways_down = [[*carrying.down_from(piece)] for piece in roots.values()]
    shared = set.intersection(*({piece.path for piece in way} for way in ways_down))
    common = next((piece for piece in ways_down[0] if piece.path in shared), None)
    if common is None and not carrying.is_whole:
        raise Spoilt  # what would hold them together has a fault, which is told there
    if common is None:
        first, *others = sorted(roots, key=natural_key)
        raise Fault(
            error(
                "not-one-stack",
                span,
                f"{first} and {others[0]} are not joined to one another, nor both to a third.",
                reason="Nobody knows how they lie on one another.",
                way_out="Join them, or take the thickness of each by itself.",
            )
        )
    needed = {**counted, **lines}
    for way in ways_down:
        for piece in way:
            needed[piece.path] = piece
            if piece.path == common.path:
                break
    return needed, {common.path}


def _model_of(
    needed: dict[str, PieceMaker], top: set[str], counted: dict[str, PieceMaker], carrying: Carrying, work: Work
) -> model.Model:
    """A model of these pieces alone, with the joins that carry them and those that hold two of the counted ones."""
    joins: dict[str, model.Join] = {}
    for held in carrying.joins:
        path = held.what[0].piece.path
        carries = path in needed and path not in top and carrying.carrier.get(path) is held
        holds = all(face.piece.path in counted for face in (*held.what, *held.to))
        if carries or holds:
            joins[held.maker.path] = made(held, work)
    known = {**carrying.pieces, **needed}
    pieces = dict(needed)
    for join in list(joins.values()):
        for line in join.alignments:
            for end in (line.what_line, line.to_line):
                if end is not None and end.piece in known:
                    pieces.setdefault(end.piece, known[end.piece])
    settled = [flat(piece, work) for piece in sorted(pieces.values(), key=lambda each: natural_key(each.path))]
    root = work.root
    assert root is not None
    return model.Model(
        name="", title="", doc=(), ruler=ruler_of(root), parts=(), stocks=(), pieces=tuple(settled),
        joins=tuple(join for join in joins.values() if not (join.what.faces[0][0] in top and not join.closes)),
        creases=(), steps=(), requirements=(), measurements=(), made_up=made_up_of(pieces.values()),
    )  # fmt: skip


def made(held: Held, work: Work) -> model.Join:
    maker = held.maker
    return work.once(("join", maker.path), maker.path, maker.span, maker.make)


def flat(piece: PieceMaker, work: Work) -> FlatPiece:
    return work.once(("flat", piece.path), piece.path, piece.statement.family.span, lambda: settle_piece(piece))


def made_up_of(pieces: Iterable[PieceMaker]) -> dict[tuple[str, str], str]:
    """The angles of the pieces as they are made up: what a part says goes before what the parts in it say."""
    parts: dict[str, Instance] = {}
    for piece in pieces:
        part: Instance | None = piece.instance
        while part is not None and part.path not in parts:
            parts[part.path] = part
            part = part.parent
    angles: dict[tuple[str, str], str] = {}
    for part in sorted(parts.values(), key=lambda each: -each.depth):
        if part.kind_of(MADE_UP) is Pose:
            said: Angles = read_pose(Reference("pose", part, MADE_UP, None))
            angles.update(said.by_fold)
    return angles


def _base(
    named: Named, counted: dict[str, PieceMaker], carrying: Carrying, placed: InPose, span: Span
) -> PlacedPiece:
    """The piece in whose plane the stack is measured: the first one named, or what carries it of those counted; of a
    panel, with that panel as its field."""
    assert named.first is not None
    path = named.first.path
    panel = next((name for own, name in named.panels if own == path), "")
    if not panel:
        for piece in carrying.down_from(named.first):
            if piece.path not in named.together:
                break
            path = piece.path
    where = placed.place(path) if path in counted else None
    if where is None:
        others = (placed.place(one) for one in sorted(counted, key=natural_key))
        where = next((at for at in others if at is not None), None)
    if where is None:
        raise _no_place(path, span)
    fields = where.folded.of_panel(panel) if panel else []
    return evolve(where, base=fields[0]) if fields else where


def _no_place(path: str, span: Span) -> Fault:
    return Fault(
        error(
            "not-one-stack",
            span,
            f"{path} has no exact place in this pose, or not all of it, so nobody knows what lies on it.",
            reason="What hangs on a fold at another angle than flat, square or shut only ever draws.",
            way_out="Take the thickness in another pose, or give its folds exact angles.",
        )
    )


def _paper(piece: FlatPiece, named: Named, placed: InPose, base: PlacedPiece, span: Span) -> Iterator[Layer]:
    where = placed.place(piece.path)
    if where is None or len(where.folded.fields) < how_many_fields(piece):
        raise _no_place(piece.path, span)
    if piece.stock.caliper is None:
        raise Fault(
            error(
                "caliper-missing",
                piece.span,
                f"The caliper of {piece.stock.name or 'this stock'} is not given, and this needs it.",
                reason="How thick things are together is the sum of their calipers; that is not a matter of weight.",
                way_out="Measure it with a caliper and add caliper: ... to the stock.",
            )
        )
    only = {name for path, name in named.panels if path == piece.path} if piece.path not in named.whole else set()
    yield from paper_layers(where, base.base.frame, only)


def paper_layers(where: PlacedPiece, frame: Frame, only: Collection[str] = ()) -> Iterator[Layer]:
    """The layers that a piece makes in the plane of a frame: all its fields that lie in parallel, or those of `only`
    some panels."""
    piece = where.folded.piece
    caliper = piece.stock.caliper.value if piece.stock.caliper is not None else Fraction(0)
    for one in where.folded.fields:
        if not is_parallel(one, frame) or (only and not set(only) & set(one.panels)):
            continue
        if len(piece.runs) > 1 and is_cut_away(piece, one):
            continue
        holes = (_part(one, hole) for cut in piece.inner_cuts if (hole := _hole(cut)) is not None)
        inside = tuple(_shadow(hole, one, frame) for hole in holes if not hole.is_empty)
        on = where.on.placed.folded.piece.path if where.on is not None else ""
        yield Layer(piece.path, caliper, shadow(one, frame), inside, on=on)


def _adhesive(
    join: model.Join, named: Named, counted: dict[str, PieceMaker], placed: InPose, base: PlacedPiece
) -> Iterator[Layer]:
    def counts(face: tuple[str, str, str]) -> bool:
        """Whether the paper behind a side is counted: all of a piece, or the panels of it that were named."""
        path, panel, _ = face
        own = {name for other, name in named.panels if other == path} if path not in named.whole else set()
        return path in counted and (not own or panel in own)

    yield from adhesive_layers(join, placed, base.base.frame, counts)


def adhesive_layers(
    join: model.Join, placed: InPose, frame: Frame, counts: Callable[[tuple[str, str, str]], bool]
) -> Iterator[Layer]:
    """The layers of adhesive between the sides of a join that both count."""
    thickness = adhesive_of(join)
    if not thickness:
        return
    for what, to in zip(join.what.faces, join.to.faces, strict=False):
        if not (counts(what) and counts(to)):
            continue
        for one, other in product(placed.sides(what), placed.sides(to)):
            if is_parallel(one.field, frame) and is_parallel(other.field, frame):
                common = shadow(one.field, frame).within(shadow(other.field, frame))
                if not common.is_empty:
                    yield Layer(join.path, thickness, common, holds=what[0])


def is_parallel(one: Field, frame: Frame) -> bool:
    return cosine(one.frame.z, frame.z) != 0


def shadow(one: Field, frame: Frame) -> Rectangle:
    """Where a field lies in the plane of a frame."""
    return _shadow(Rectangle(one.left, one.right, one.tail, one.head), one, frame)


def _part(one: Field, place: Rectangle) -> Rectangle:
    return place.within(Rectangle(one.left, one.right, one.tail, one.head))


def _shadow(place: Rectangle, one: Field, frame: Frame) -> Rectangle:
    nought = Fraction(0)
    corners = one.frame.point(place.left, place.tail, nought), one.frame.point(place.right, place.head, nought)
    across = sorted(_from_corner(corner, frame, "width") for corner in corners)
    upward = sorted(_from_corner(corner, frame, "height") for corner in corners)
    return Rectangle(across[0], across[1], upward[0], upward[1])


def _from_corner(point: Vector, frame: Frame, axis: str) -> Fraction:
    direction = frame.axis(axis)
    return along(point, direction) - along(frame.origin, direction)


def _hole(cut: CutPath) -> Rectangle | None:
    """A window with straight sides. One with round corners counts as paper: something may stand on the corners."""
    if not cut.closed or not all(isinstance(move, LineTo) for move in cut.moves):
        return None
    points = [cut.start, *(move.end for move in cut.moves)]
    across, upward = [point.x.value for point in points], [point.y.value for point in points]
    return Rectangle(min(across), max(across), min(upward), max(upward))
