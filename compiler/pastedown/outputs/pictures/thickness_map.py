"""Maps of thickness: parts seen square to what they lie on, with every zone and how thick it is there, and hatched
where something else is joined to them, so that nothing more may go there.

Zones come from the ledger of thickness; made up, with all that is joined onto the part or lies loose in it. A part with
many zones tells them by letters; one with more than could be made out has no map, nor has one that is as thick
everywhere.
"""

from __future__ import annotations

from collections.abc import Iterator

from attrs import frozen

from pastedown.outputs.in_words import measure
from pastedown.outputs.pictures.frame import Frame, dot
from pastedown.outputs.pictures.lettered_map import lettered_map
from pastedown.outputs.pictures.map_outline import outlines
from pastedown.outputs.pictures.map_sheet import (
    COLUMN,
    COLUMN_APART,
    KINDS,
    WIDEST,
    Area,
    MapSheet,
    area_of,
    begun,
    ended,
    notes_below,
)
from pastedown.outputs.pictures.places import field_corners
from pastedown.outputs.pictures.posed import Posed, State
from pastedown.outputs.pictures.strokes import RIM, straight
from pastedown.outputs.pictures.workshop import Workshop
from pastedown.outputs.pictures.zone_words import Box, words_of_areas
from pastedown.outputs.template.drawing import Patch, Sheet, Stroke, Words
from pastedown.outputs.two_systems import TwoSystems, in_two_systems
from pastedown.plan.ledger import ThickPartTold

_HATCH = 2.2
# What is joined over nearly all of a part is what carries it by its back: it keeps nothing clear on it.
_MOST_SHARE = 0.85
_PARALLEL = 1 - 1e-9
# By so much, in millimetres, a zone may seem to reach over what it is part of.
_PLAY = 0.5
# More zones than this are not pointed at one by one.
_MOST_POINTED_AT = 24


@frozen
class BareMap:
    """The map of one part of those that are alike, without its title and notes, for a text that tells them: what its
    `letters` stand for, if it has any, and the names of what it keeps clear for."""

    part: ThickPartTold
    sheet: Sheet
    letters: tuple[TwoSystems, ...] = ()
    kept_clear: tuple[str, ...] = ()


def thickness_maps(workshop: Workshop) -> Iterator[tuple[str, Sheet]]:
    """A map of each part, one of those that are alike, with the name of its file."""
    for number, part in enumerate(_mapped(workshop), 1):
        is_small = len(part.zones) <= _MOST_POINTED_AT
        sheet, _ = _map(workshop, part) if is_small else lettered_map(part, workshop.plan.ruler)
        yield f"thickness-{number}", sheet


def bare_maps(workshop: Workshop) -> Iterator[BareMap]:
    """The same maps without their words above and below."""
    for part in _mapped(workshop):
        if len(part.zones) <= _MOST_POINTED_AT:
            sheet, taken = _map(workshop, part, headed=False)
            yield BareMap(part, sheet, (), tuple(dict.fromkeys(area.words for area in taken)))
        else:
            sheet, letters = lettered_map(part, workshop.plan.ruler, headed=False)
            yield BareMap(part, sheet, tuple(letters))


def _mapped(workshop: Workshop) -> list[ThickPartTold]:
    return [part for part in workshop.plan.bulk.parts if len({place.thickness for place in part.zones}) > 1]


def _map(workshop: Workshop, part: ThickPartTold, *, headed: bool = True) -> tuple[Sheet, list[Area]]:
    """The map, and where it says to keep clear."""
    ruler = workshop.plan.ruler
    zones = [area_of(place, in_two_systems(place.thickness, ruler)) for place in part.zones]
    begin = begun(part, zones, WIDEST, headed)
    at, drawing = begin.at, list[Stroke | Patch | Words](begin.words)
    taken = list(_taken(workshop, part.paths[0], (begin.wide, begin.tall)))
    for area in taken:
        drawing += _hatched(at, area)
    drawing += [each for zone in zones for each in at.rim("zone", zone)]
    drawing += [each for area in taken for each in at.rim("new", area)]
    drawing += outlines(at, zones)
    boxes = [*(_box(at, zone, hatched=False) for zone in zones), *(_box(at, area, hatched=True) for area in taken)]
    told = words_of_areas(boxes, RIM + begin.wide * at.scale + COLUMN_APART, COLUMN, at.bottom - begin.tall * at.scale)
    drawing += told
    bottom = max(at.bottom, *(each.y for each in told if isinstance(each, Words))) + (2.0 if headed else 0.0)
    below = notes_below(part, measure(part.blank, ruler), measure(part.loaded, ruler))
    kinds = {**KINDS, "new": "joined to something: keep clear"} if taken else KINDS
    return ended(begin, drawing, bottom, below, kinds), taken


def _box(at: MapSheet, area: Area, *, hatched: bool) -> Box:
    (left, bottom), (right, top) = at.spot(area.left, area.tail), at.spot(area.right, area.head)
    return Box(left, top, right, bottom, area.words, hatched, area.inches, area.metric)


def _hatched(at: MapSheet, area: Area) -> Iterator[Stroke]:
    """Slanting lines, falling to the right."""
    left, top = at.spot(area.left, area.head)
    right, bottom = at.spot(area.right, area.tail)
    place = (int((left - bottom) / _HATCH) + 1) * _HATCH
    while place < right - top:
        start, end = max(left, top + place), min(right, bottom + place)
        if end - start > 0.1:
            yield straight("hatch", (start, start - place), (end, end - place))
        place += _HATCH


def _taken(workshop: Workshop, part: str, size: tuple[float, float]) -> Iterator[Area]:
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
) -> Iterator[Area]:
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
                yield Area(left, right, tail, head, f"keep clear: {workshop.name(face.piece)}")


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
