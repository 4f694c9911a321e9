"""Words in and beside the areas of a map, against a grid of areas made by chance."""

from itertools import pairwise
from random import Random

import pytest

from outputs.test_drawings import FONT
from pastedown.outputs.pictures.lettering import SIZE
from pastedown.outputs.pictures.thickness_map import thickness_maps
from pastedown.outputs.pictures.workshop import workshop_of
from pastedown.outputs.pictures.zone_words import Box, words_of_areas
from pastedown.outputs.template.drawing import Patch, Stroke, Words
from test_examples import DESIGNS, plan_of

COLUMN, ROOM = 96.0, 40.0


def grid(chance: Random) -> list[Box]:
    """Areas side by side and one above the other, a few so narrow that no words go in, and a hatched one on top."""
    across = [2.0, *sorted(chance.uniform(2, 90) for _ in range(chance.randint(1, 4))), 90.0]
    down = [2.0, *sorted(chance.uniform(2, 80) for _ in range(chance.randint(1, 4))), 80.0]
    boxes = [
        Box(left, top, right, bottom, f"{number}.{place} mm")
        for number, (left, right) in enumerate(pairwise(across))
        for place, (top, bottom) in enumerate(pairwise(down))
    ]
    left, top = chance.uniform(2, 60), chance.uniform(2, 60)
    return [*boxes, Box(left, top, left + chance.uniform(1, 20), top + chance.uniform(1, 20), "keep clear", hatched=True)]


def room_of(words: Words) -> Box:
    """By the font itself."""
    left, top, right, bottom = (edge * words.size / 1000 for edge in FONT.getbbox(words.text, anchor="ls"))
    shift = {"middle": (right - left) / 2, "start": 0.0}[words.anchor]
    if words.angle:
        return Box(words.x + top, words.y - right + shift, words.x + bottom, words.y - left + shift, words.text)
    return Box(words.x + left - shift, words.y + top, words.x + right - shift, words.y + bottom, words.text)


def spots(stroke: Stroke) -> list[tuple[float, float]]:
    (move,) = stroke.moves
    (x, y), (a, b) = ([float(each) for each in spot] for spot in (move.start, move.end))
    return [(x + (a - x) * step / 800, y + (b - y) * step / 800) for step in range(801)]


def is_in(inner: Box, outer: Box) -> bool:
    return outer.left < inner.left and inner.right < outer.right and outer.top < inner.top and inner.bottom < outer.bottom


@pytest.mark.parametrize("seed", range(60))
def test_every_area_is_told_once_and_no_words_lie_over_anything(seed: int) -> None:
    boxes = grid(Random(seed))
    drawn = words_of_areas(boxes, COLUMN, ROOM, 2.0)
    told = [each for each in drawn if isinstance(each, Words)]
    leaders = [each for each in drawn if isinstance(each, Stroke)]
    assert sorted(each.text for each in told) == sorted(box.words for box in boxes)
    assert len(leaders) == sum(isinstance(each, Patch) for each in drawn) == sum(each.x == COLUMN for each in told)
    rooms = [room_of(each) for each in told]
    for number, one in enumerate(rooms):
        assert not any(one.shares(other) for other in rooms[:number])
        assert not any(one.left < x < one.right and one.top < y < one.bottom for each in leaders for x, y in spots(each))
    for words, room in zip(told, rooms, strict=True):
        (box,) = [each for each in boxes if each.words == words.text]
        if words.x != COLUMN:
            assert is_in(room, box) and not any(room.shares(each) for each in boxes if each.hatched)
    ends = {spots(each)[-1] for each in leaders}
    for words in told:
        (box,) = [each for each in boxes if each.words == words.text]
        if words.x == COLUMN:
            assert any(box.left <= x <= box.right and box.top <= y <= box.bottom for x, y in ends)


@pytest.mark.parametrize("name", DESIGNS)
def test_the_largest_area_of_every_map_is_told_where_it_lies(name: str) -> None:
    plan = plan_of(name.removesuffix(".album"))
    maps = [sheet for _, sheet in thickness_maps(workshop_of(plan))]
    told_in_place = 0
    for sheet in maps:
        zones = [stroke for stroke in sheet.strokes if stroke.part == "zone"]
        if any(len(zone.moves) == 1 for zone in zones):
            continue  # told by letters
        told_in_place += 1
        leaders = [stroke for stroke in sheet.strokes if stroke.part == "leader"]
        reach = [[sorted(float(move.start[way]) for move in zone.moves) for way in (0, 1)] for zone in zones]
        areas = [Box(across[0], down[0], across[-1], down[-1], "") for across, down in reach]
        largest = max(areas, key=lambda box: (box.right - box.left) * (box.bottom - box.top))
        inside = [words for words in sheet.words if words.size <= SIZE and is_in(room_of(words), largest)]
        assert len(inside) == 1 and len(leaders) < len(zones) + 1, sheet.title
    assert told_in_place
