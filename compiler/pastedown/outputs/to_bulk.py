"""The ledger of thickness: how thick each part is and where, blank and loaded, what room there is and what is left."""

from pastedown.outputs.bulk_words import NOTE, loose_in_words, room_in_words, shut_in_words
from pastedown.outputs.in_words import measure, prose, sentence
from pastedown.outputs.json_value import Json, json_length, json_length_or_null, json_text
from pastedown.outputs.plain_text import Column, heading, table, text_file, wrapped
from pastedown.plan.ledger import Bulk, RoomLeft, Shut, StackBulk, ThickPartTold, ThickPlace
from pastedown.plan.plan import Plan
from pastedown.quantity.ruler import Ruler

_COLUMNS = (
    Column("from left", 14, measures=True),
    Column("to", 14, measures=True),
    Column("from tail", 14, measures=True),
    Column("to", 14, measures=True),
    Column("thick", 14, measures=True),
)
# So many places of each part are printed; all that the plan has stand in the JSON file.
_MOST_PRINTED = 6


def make(plan: Plan) -> dict[str, bytes]:
    """bulk.txt"""
    return {"bulk.txt": text_file(_text(plan))}


def _text(plan: Plan) -> list[str]:
    ruler, bulk = plan.ruler, plan.bulk
    lines = [*heading(f"Thickness: {plan.title}"), "", *wrapped(NOTE)]
    for shut in bulk.shut:
        lines += ["", *_shut(shut, ruler)]
    for part in bulk.parts:
        lines += ["", *_part(part, ruler)]
    for stack in bulk.stacks:
        lines += ["", *_stack(stack, ruler)]
    for room in bulk.rooms:
        lines += ["", *_room(room, ruler)]
    return lines


def _shut(shut: Shut, ruler: Ruler) -> list[str]:
    lines = [row for paragraph in shut_in_words(shut, ruler) for row in wrapped(paragraph)]
    return lines + _places(shut.places, ruler)


def _part(part: ThickPartTold, ruler: Ruler) -> list[str]:
    blank, loaded = measure(part.blank, ruler), measure(part.loaded, ruler)
    lines = wrapped(f"{', '.join(part.paths)}: blank {blank}, loaded {loaded}")
    if part.loose:
        lines += wrapped(loose_in_words(part.loose))
    if part.unplaced:
        lines += wrapped(f"Not counted, for it lies loose and no join says where: {', '.join(part.unplaced)}.")
    if part.square:
        square = ", ".join(f"some of {path} itself" if path in part.paths else path for path in part.square)
        lines += wrapped(f"It stands square to the rest as it is made up, and is not counted: {square}.")
    return lines + _places(part.places, ruler)


def _stack(stack: StackBulk, ruler: Ruler) -> list[str]:
    lines = wrapped(f"{stack.path}: {stack.words} is {measure(stack.thickness, ruler)} at its thickest place")
    return lines + _places(stack.places, ruler)


def _places(places: tuple[ThickPlace, ...], ruler: Ruler) -> list[str]:
    if not places:
        return []
    rows = [
        tuple(measure(each, ruler) for each in (place.left, place.right, place.tail, place.head, place.thickness))
        for place in places[:_MOST_PRINTED]
    ]
    things = "; ".join(f"{path} {measure(thick, ruler)}" for path, thick in places[0].things)
    return [*table(_COLUMNS, rows), *wrapped(f"At the thickest place lie: {things}.")]


def _room(room: RoomLeft, ruler: Ruler) -> list[str]:
    lines = wrapped(room_in_words(room, ruler))
    if room.meant:
        lines += wrapped(f"It is not met, and is meant so: {sentence(prose(room.meant, ruler))}")
    for number, way in enumerate(room.ways, start=1):
        lines += wrapped(sentence(prose(way, ruler)), first=f"{number:>3}. ")
    return lines


def json_bulk(bulk: Bulk, ruler: Ruler) -> Json:
    """The ledger as it stands in album.json."""
    return {
        "parts": [
            {
                "paths": list(part.paths),
                "blank": json_length(part.blank, ruler),
                "loaded": json_length(part.loaded, ruler),
                "places": [_json_place(place, ruler) for place in part.places],
                "unplaced": list(part.unplaced),
                "square": list(part.square),
                "loose": list(part.loose),
            }
            for part in bulk.parts
        ],
        "stacks": [
            {
                "path": stack.path,
                "words": stack.words,
                "count": stack.count,
                "blank": stack.blank,
                "thickness": json_length(stack.thickness, ruler),
                "places": [_json_place(place, ruler) for place in stack.places],
            }
            for stack in bulk.stacks
        ],
        "rooms": [
            {
                "path": room.path,
                "taken": json_length(room.taken, ruler),
                "room": json_length(room.room, ruler),
                "left_over": json_length(room.left_over, ruler),
                "count": room.count,
                "each": json_length(room.each, ruler),
                "holds": room.holds,
                "because": json_text(room.because, ruler),
                "meant": json_text(room.meant, ruler),
                "ways": [json_text(way, ruler) for way in room.ways],
            }
            for room in bulk.rooms
        ],
        "shut": [
            {
                "pose": shut.pose,
                "one": shut.one,
                "other": shut.other,
                "least": json_length(shut.least, ruler),
                "apart": json_length(shut.apart, ruler),
                "blank": json_length(shut.blank, ruler),
                "loaded": json_length(shut.loaded, ruler),
                "filled": json_length_or_null(shut.filled, ruler),
                "left_over": json_length(shut.left_over, ruler),
                "count": shut.count,
                "each": json_length(shut.each, ruler),
                "places": [_json_place(place, ruler) for place in shut.places],
                "loose": list(shut.loose),
                "unplaced": list(shut.unplaced),
                "unplaced_thickness": json_length(shut.unplaced_thickness, ruler),
                "without_caliper": list(shut.without_caliper),
            }
            for shut in bulk.shut
        ],
    }


def _json_place(place: ThickPlace, ruler: Ruler) -> Json:
    return {
        "left": json_length(place.left, ruler),
        "right": json_length(place.right, ruler),
        "tail": json_length(place.tail, ruler),
        "head": json_length(place.head, ruler),
        "thickness": json_length(place.thickness, ruler),
        "things": [{"path": path, "thickness": json_length(thick, ruler)} for path, thick in place.things],
    }
