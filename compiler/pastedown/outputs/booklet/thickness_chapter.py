"""How thick it gets: what lies between its sides when it is shut, what room is left, and where each part is how thick,
with a map of one of each that are alike."""

from collections.abc import Iterator
from functools import partial

from pastedown.outputs.booklet.blocks import Block, Listing, Paragraph, Picture, Pictures, Section
from pastedown.outputs.bulk_words import NOTE, room_in_words, shut_in_words
from pastedown.outputs.in_words import counted, measure, sentence
from pastedown.outputs.pictures.lettered_map import SMALL_ZONES
from pastedown.outputs.pictures.map_sheet import notes_below
from pastedown.outputs.pictures.thickness_map import BareMap, bare_maps
from pastedown.outputs.pictures.workshop import workshop_of
from pastedown.outputs.two_systems import told_in_two_systems
from pastedown.plan.ledger import RoomLeft, Shut, ThickPartTold
from pastedown.plan.plan import Plan
from pastedown.plan.words import spoken
from pastedown.quantity.ruler import Ruler

_KEEP_CLEAR = "Where it is hatched something is joined to it: put nothing more there."


def thickness_chapter(plan: Plan) -> tuple[Block, ...]:
    """First the whole when it is shut, then its parts; nothing where there is nothing to tell."""
    sections = (*_shut(plan), *_maps(plan))
    return (Paragraph((NOTE,)), *sections) if sections else ()


def _shut(plan: Plan) -> Iterator[Section]:
    """What lies between each two sides, and what the design itself asks of the room there."""
    told = [
        Paragraph((told_in_two_systems(partial(_paragraph_of, shut, number), plan.ruler),))
        for shut in plan.bulk.shut
        for number, _ in enumerate(shut_in_words(shut, plan.ruler))
    ]
    rooms = tuple((told_in_two_systems(partial(_room_left, room), plan.ruler),) for room in plan.bulk.rooms)
    if told or rooms:
        yield Section(("When it is shut",), (*told, *((Listing(rooms),) if rooms else ())))


def _paragraph_of(shut: Shut, number: int, ruler: Ruler) -> str:
    return list(shut_in_words(shut, ruler, spoken))[number]


def _room_left(room: RoomLeft, ruler: Ruler) -> str:
    return sentence(room_in_words(room, ruler, spoken))


def _maps(plan: Plan) -> Iterator[Section]:
    for number, one in enumerate(bare_maps(workshop_of(plan)), 1):
        title = sentence(f"{spoken(one.part.paths[0])}: how thick it is where").removesuffix(".")
        yield Section((title,), tuple(_map(number, one, plan.ruler)))


def _map(number: int, one: BareMap, ruler: Ruler) -> Iterator[Block]:
    yield Paragraph((told_in_two_systems(partial(_notes, one.part), ruler),))
    caption = (_KEEP_CLEAR,) if one.kept_clear else ()
    yield Pictures((Picture(f"thickness-{number}", one.sheet, _in_words(one, ruler), caption),))
    if one.letters:
        yield Listing(tuple((each,) for each in one.letters))
        yield Paragraph((SMALL_ZONES,))


def _notes(part: ThickPartTold, ruler: Ruler) -> str:
    return notes_below(part, measure(part.blank, ruler), measure(part.loaded, ruler))


def _in_words(one: BareMap, ruler: Ruler) -> str:
    """For who cannot see it."""
    thicknesses = [zone.thickness for zone in one.part.zones]
    clear = f" {sentence('; '.join(one.kept_clear))}" if one.kept_clear else ""
    return (
        f"A map of {spoken(one.part.paths[0])}, seen square to it: {counted(len(thicknesses), 'place')}, from "
        f"{measure(min(thicknesses), ruler)} to {measure(max(thicknesses), ruler)} thick.{clear}"
    )
