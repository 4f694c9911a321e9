"""Maps of thickness: parts seen square to what they lie on, with every zone and how thick it is there, and hatched
where something else is joined to them, so that nothing more may go there.

Zones come from the ledger of thickness; made up, with all that is joined onto the part or lies loose in it. A part with
more zones than could be made out has no map, nor has one that is as thick everywhere.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from attrs import frozen

from pastedown.outputs.in_words import measure
from pastedown.outputs.pictures.frame import Frame, dot
from pastedown.outputs.pictures.places import field_corners
from pastedown.outputs.pictures.posed import Posed, State
from pastedown.outputs.pictures.strokes import RIM, ROW, legend_of_kinds, sheet_of, straight
from pastedown.outputs.pictures.workshop import Workshop
from pastedown.outputs.pictures.zone_words import Box, words_of_areas
from pastedown.outputs.template.drawing import Patch, Sheet, Stroke, Words
from pastedown.outputs.template.letter_width import shortened
from pastedown.outputs.template.wrap import lines_of
from pastedown.plan.ledger import ThickPartTold, ThickPlace
from pastedown.plan.words import spoken

_WIDEST, _HIGHEST = 90.0, 110.0
_TITLE, _SIZE = 3.4, 2.6
_COLUMN, _COLUMN_APART = 46.0, 6.0
_WHOLE = _WIDEST + _COLUMN_APART + _COLUMN
_HATCH = 2.2
# What is joined over nearly all of a part is what carries it by its back: it keeps nothing clear on it.
_MOST_SHARE = 0.85
_PARALLEL = 1 - 1e-9
# By so much, in millimetres, a zone may seem to reach over what it is part of.
_PLAY = 0.5


@frozen
class _Area:
    """A rectangle from the outermost left edge and the outermost tail, in millimetres of the part, and its words."""

    left: float
    right: float
    tail: float
    head: float
    words: str


def thickness_maps(workshop: Workshop) -> Iterator[tuple[str, Sheet]]:
    """A map of each part, one of those that are alike, with the name of its file."""
    maps = [
        part
        for part in workshop.plan.bulk.parts
        if len({place.thickness for place in part.zones}) > 1
    ]
    for number, part in enumerate(maps, 1):
        yield f"thickness-{number}", _map(workshop, part)


def _map(workshop: Workshop, part: ThickPartTold) -> Sheet:
    ruler = workshop.plan.ruler
    zones = [_zone(place, measure(place.thickness, ruler)) for place in part.zones]
    wide, tall = max(zone.right for zone in zones), max(zone.head for zone in zones)
    taken = list(_taken(workshop, part.paths[0], (wide, tall)))
    scale = min(_WIDEST / wide, _HIGHEST / tall, 1.0)
    title = f"{spoken(part.paths[0])}: how thick it is where"
    rows = [shortened(row, _TITLE, _WHOLE) for row in lines_of(title, _TITLE, _WHOLE)[:2]]
    drawing: list[Stroke | Patch | Words] = [
        Words(row, RIM, RIM + _TITLE + number * 5.4, _TITLE) for number, row in enumerate(rows)
    ]
    top = RIM + 5.4 * len(rows) + 2.0
    at = _Sheet(scale, RIM, top + tall * scale)
    for area in taken:
        drawing += _hatched(at, area)
    drawing += [each for zone in zones for each in at.rim("zone", zone)]
    drawing += [each for area in taken for each in at.rim("new", area)]
    drawing += at.rim("edge", _Area(0.0, wide, 0.0, tall, ""))
    boxes = [*(at.box(zone, hatched=False) for zone in zones), *(at.box(area, hatched=True) for area in taken)]
    told = words_of_areas(boxes, RIM + wide * scale + _COLUMN_APART, _COLUMN, top)
    drawing += told
    bottom = max(at.bottom, *(each.y for each in told if isinstance(each, Words))) + 2.0
    for row in lines_of(_notes(part, measure(part.blank, ruler), measure(part.loaded, ruler)), _SIZE, _WHOLE):
        bottom += ROW
        drawing.append(Words(shortened(row, _SIZE, _WHOLE), RIM, bottom, _SIZE))
    kinds = {"edge": "outermost edges", "zone": "the thickness changes", "new": "joined to something: keep clear"}
    shown = [kind for kind in kinds if kind != "new" or taken]
    legend, height = legend_of_kinds(shown, bottom + 2.0, _WHOLE, kinds)
    drawing += legend
    return sheet_of(title, _WHOLE + 2 * RIM, bottom + 2.0 + height + RIM, drawing)


def _zone(place: ThickPlace, words: str) -> _Area:
    left, right, tail, head = (float(each.millimetres) for each in (place.left, place.right, place.tail, place.head))
    return _Area(left, right, tail, head, words)


def _notes(part: ThickPartTold, blank: str, loaded: str) -> str:
    alike = f" So {_is_or_are(len(part.paths) - 1)} {_spoken_list(part.paths[1:])}." if len(part.paths) > 1 else ""
    left_out = f" Not counted, for it lies loose: {_spoken_list(part.unplaced)}." if part.unplaced else ""
    over_all = f" Loose, and counted over the whole: {_spoken_list(part.loose)}." if part.loose else ""
    square = f" Not counted, for it stands square to it: {_square(part)}." if part.square else ""
    made_up = f"Made up, with all that is joined onto it or lies in it. Thickest: blank {blank}, loaded {loaded}."
    return f"{made_up}{alike}{over_all}{left_out}{square}"


def _square(part: ThickPartTold) -> str:
    return ", ".join(f"some of {spoken(path)} itself" if path in part.paths else spoken(path) for path in part.square)


def _is_or_are(count: int) -> str:
    return "is" if count == 1 else "are"


def _spoken_list(paths: Sequence[str]) -> str:
    return ", ".join(spoken(path) for path in paths)


@frozen
class _Sheet:
    """Where the left and the tail of the part lie on the sheet, and how large a millimetre of it is."""

    scale: float
    left: float
    bottom: float

    def spot(self, x: float, y: float) -> tuple[float, float]:
        return self.left + x * self.scale, self.bottom - y * self.scale

    def box(self, area: _Area, *, hatched: bool) -> Box:
        (left, bottom), (right, top) = self.spot(area.left, area.tail), self.spot(area.right, area.head)
        return Box(left, top, right, bottom, area.words, hatched)

    def rim(self, kind: str, area: _Area) -> Iterator[Stroke]:
        corners = [
            self.spot(x, y)
            for x, y in (
                (area.left, area.tail), (area.right, area.tail), (area.right, area.head), (area.left, area.head),
            )
        ]  # fmt: skip
        yield straight(kind, *corners, corners[0])


def _hatched(at: _Sheet, area: _Area) -> Iterator[Stroke]:
    """Slanting lines, falling to the right."""
    left, top = at.spot(area.left, area.head)
    right, bottom = at.spot(area.right, area.tail)
    place = (int((left - bottom) / _HATCH) + 1) * _HATCH
    while place < right - top:
        start, end = max(left, top + place), min(right, bottom + place)
        if end - start > 0.1:
            yield straight("hatch", (start, start - place), (end, end - place))
        place += _HATCH


def _taken(workshop: Workshop, part: str, size: tuple[float, float]) -> Iterator[_Area]:
    """Where something is joined to a part that is neither of it nor carried by it."""
    done = workshop.progress.before(10**9)
    angles = {key: float(angle) for key, angle in workshop.plan.space.made_up.angles.items()}
    posed = workshop.posed(State(done.made, angles))
    own = {path for path, piece in workshop.pieces.items() if piece.part.partition(".")[0] == part}
    base = next((path for path in workshop.pieces if path in own and _carrier(workshop, path) not in own), None)
    if base is None:
        return
    frame = posed.frames[base][workshop.pieces[base].base]
    inside = [path for path in workshop.pieces if _stands_on(workshop, path, own)]
    corners = [
        frame.coordinates(corner)
        for plate in workshop.plates(posed, inside)
        if abs(dot(plate.frame.z, frame.z)) > _PARALLEL
        for corner in plate.corners()
    ]
    left, tail = min(corner[0] for corner in corners), min(corner[1] for corner in corners)
    wide, tall = (max(corner[at] for corner in corners) - low for at, low in ((0, left), (1, tail)))
    if abs(wide - size[0]) > _PLAY or abs(tall - size[1]) > _PLAY:
        return
    found = dict.fromkeys(_joined(workshop, posed, set(inside), frame, (left, tail), size))
    yield from found


def _joined(
    workshop: Workshop, posed: Posed, inside: set[str], frame: Frame, corner: tuple[float, float],
    size: tuple[float, float],
) -> Iterator[_Area]:
    for contact in workshop.plan.space.contacts:
        for pair in contact.pairs:
            mine, others = ([face for face in pair if (face.piece in inside) is own] for own in (True, False))
            if not mine or not others:
                continue
            (face,) = others
            over = posed.frames.get(face.piece, {}).get(face.field)
            if over is None or abs(dot(over.z, frame.z)) < _PARALLEL:
                continue
            spots = [frame.coordinates(each) for each in field_corners(workshop.pieces[face.piece], face.field, over)]
            across, up = [spot[0] - corner[0] for spot in spots], [spot[1] - corner[1] for spot in spots]
            left, right = (round(min(max(x, 0.0), size[0]), 4) for x in (min(across), max(across)))
            tail, head = (round(min(max(y, 0.0), size[1]), 4) for y in (min(up), max(up)))
            share = (right - left) * (head - tail) / (size[0] * size[1])
            if 0 < share < _MOST_SHARE and left < right and tail < head:
                yield _Area(left, right, tail, head, f"keep clear: {workshop.name(face.piece)}")


def _carrier(workshop: Workshop, path: str) -> str | None:
    seat = workshop.pieces[path].seat
    return seat.on.piece if seat is not None else None


def _stands_on(workshop: Workshop, path: str, own: set[str]) -> bool:
    seen: set[str] = set()
    here: str | None = path
    while here is not None and here not in seen:
        if here in own:
            return True
        seen.add(here)
        here = _carrier(workshop, here)
    return False
