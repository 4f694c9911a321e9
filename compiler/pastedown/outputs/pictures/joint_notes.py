"""What is said below the pictures of joints, and which lines they show."""

from __future__ import annotations

from collections.abc import Iterable

from pastedown.outputs.in_words import counted, sentence
from pastedown.outputs.pictures.places import UPRIGHT
from pastedown.outputs.pictures.posed import Posed
from pastedown.outputs.pictures.view import OBLIQUE, View
from pastedown.outputs.pictures.workshop import Workshop
from pastedown.plan.join_words import side_in_words
from pastedown.plan.plan import BuildStep
from pastedown.plan.space import Face


def lines_of(workshop: Workshop, step: BuildStep) -> frozenset[str]:
    """Folds, and the creases that are made before a step."""
    made = {
        path
        for earlier in workshop.plan.steps
        if earlier.number < step.number and (earlier.kind == "crease" or earlier.actions)
        for path in earlier.refers
    }
    return frozenset(("valley", "mountain", *made))


def notes_of(
    workshop: Workshop, step: BuildStep, turned_now: bool, posed: Posed, on: Face | None, at_once: int = 1
) -> tuple[str, ...]:
    """Which side is up of the piece on whose face the work is done, whether it was turned over, and how often the same
    is done; `at_once` of these are shown."""
    up = _up(workshop, posed, on) if on is not None else ""
    turned = "The work is turned over, from side to side" if turned_now else ""
    told = ": ".join(one for one in (turned, up) if one)
    return (*((sentence(told),) if told else ()), *times_done(step, at_once))


def _up(workshop: Workshop, posed: Posed, on: Face) -> str:
    """Which side of a piece is up, in words; "" where it stands."""
    rise = posed.frames[on.piece][on.field].z[2]
    if abs(rise) <= UPRIGHT:
        return ""
    cut = workshop.piece(on.piece)
    side = side_in_words(cut.stock_kind, cut.face_up, "face" if rise > 0 else "back")
    return f"the {side} of the {workshop.name(on.piece)} is up"


def shown_at_once(workshop: Workshop, step: BuildStep, pieces: Iterable[str]) -> int:
    """Of how many of a step's joints both sides are in a picture of some pieces."""
    there = set(pieces)
    contacts = [workshop.contacts[path] for path in step.refers if path in workshop.contacts]
    return sum(all(face.piece in there for pair in contact.pairs for face in pair) for contact in contacts)


def times_done(step: BuildStep, at_once: int = 1) -> tuple[str, ...]:
    if step.times > 1 and at_once == step.times:
        return (f"All {step.times} are shown, the arrow on the first.",)
    return (f"Shown once; the same is done {step.times} times.",) if step.times > 1 else ()


def seen_otherwise(view: View, left_out: int) -> tuple[str, ...]:
    """That a picture is seen from another side than most, and that something would hide the place."""
    told = () if view is OBLIQUE else ("Seen from the left.",)
    is_or_are = "is" if left_out == 1 else "are"
    return (*told, f"{counted(left_out, 'piece')} in front of it {is_or_are} left out.") if left_out else told
