"""The ledger of thickness in sentences: what lies between two sides that are shut, and what room is left."""

from collections.abc import Callable, Iterator

from pastedown.outputs.in_words import counted, measure
from pastedown.plan.ledger import RoomLeft, Shut
from pastedown.quantity.quantity import Length
from pastedown.quantity.ruler import Ruler

NOTE = (
    "Thickness is the sum of the calipers of all paper, board and adhesive over a place; nothing is squeezed. Blank is "
    "a part by itself, loaded is with all that is joined onto it or put into it. What lies loose in a part counts over "
    "all of it, unless a join says where it lies. Places are measured from the outermost left edge and the "
    "outermost tail."
)


def shut_in_words(shut: Shut, ruler: Ruler, called: Callable[[str], str] = str) -> Iterator[str]:
    """The paragraphs about one pair of sides that look at one another in a design that is shut. Paths are told as
    they are `called`."""
    blank, loaded = measure(shut.blank, ruler), measure(shut.loaded, ruler)
    least, apart = measure(shut.least, ruler), measure(shut.apart, ruler)
    said = [
        f"All of it in the pose {called(shut.pose)}, between {called(shut.one)} and {called(shut.other)}: "
        f"blank {blank}, loaded {loaded} at the thickest place.",
        f"{least} of room. {left_over_in_words(shut.left_over, shut.each, shut.count, ruler)}",
    ]
    if shut.apart != shut.least:
        said.append(f"The pose has {apart} between them; the room is what is left where each gap that bends gives way.")
    if shut.filled is not None:
        said.append(f"Where something is put on or in, it is {measure(shut.filled, ruler)} at most.")
    yield " ".join(said)
    if shut.loose:
        yield loose_in_words(shut.loose, called)
    if shut.unplaced:
        together = measure(shut.unplaced_thickness, ruler)
        yield (
            f"Not counted, for it lies loose and nothing says in what: {', '.join(map(called, shut.unplaced))}. All in "
            f"one place, that would be {together} more."
        )
    if shut.without_caliper:
        yield f"Not counted, for its caliper is not given: {', '.join(shut.without_caliper)}."


def loose_in_words(paths: tuple[str, ...], called: Callable[[str], str] = str) -> str:
    """What lies loose in a part."""
    return f"It lies loose, and is counted over all of its part: {', '.join(map(called, paths))}."


def room_in_words(room: RoomLeft, ruler: Ruler, called: Callable[[str], str] = str) -> str:
    """What of a room is taken, and what is left of it."""
    taken, whole = measure(room.taken, ruler), measure(room.room, ruler)
    left = left_over_in_words(room.left_over, room.each, room.count, ruler)
    return f"{called(room.path)}: {taken} of {whole} taken. {left}"


def left_over_in_words(over: Length, each: Length, count: int, ruler: Ruler) -> str:
    """What is left of a room, and for each of so many things."""
    what = "Too thick by" if over.value < 0 else "Left over:"
    amount = f"{what} {measure(_size(over), ruler)}"
    share = f", {measure(_size(each), ruler)} for each of {counted(count, 'thing')}" if count > 1 else ""
    return f"{amount}{share}."


def _size(length: Length) -> Length:
    return length if length.value >= 0 else -length
