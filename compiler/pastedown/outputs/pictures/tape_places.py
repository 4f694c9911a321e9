"""Where the tape lies that is laid before a joint is made, as a picture of the joint shows it."""

from __future__ import annotations

from collections.abc import Sequence

from attrs import frozen

from pastedown.outputs.pictures.frame import Vector
from pastedown.outputs.pictures.places import outward_of
from pastedown.outputs.pictures.plate import Plate
from pastedown.outputs.pictures.posed import Posed
from pastedown.outputs.pictures.scene import STICKY
from pastedown.outputs.pictures.seats import seat_of
from pastedown.outputs.pictures.sight import is_seen
from pastedown.outputs.pictures.view import View
from pastedown.outputs.pictures.workshop import Workshop
from pastedown.plan.space import Contact


@frozen
class Tape:
    """The outlines of its places, its name beside them, and what is said where none of them is seen."""

    outlines: tuple[tuple[Vector, ...], ...] = ()
    names: tuple[tuple[str, str], ...] = ()
    notes: tuple[str, ...] = ()


def tape_of(
    workshop: Workshop, contact: Contact, joined: Posed, drawn: Posed, plates: Sequence[Plate], view: View
) -> Tape:
    """The places that the faces of a joint share once they are `joined`, as they lie when `drawn` among some plates: on
    the face that it goes to or, where that is not seen, on the other one."""
    name = workshop.tapes.get(contact.path)
    if name is None:
        return Tape()
    found = []
    for what, to in contact.pairs:
        for one, other in ((what, to), (to, what)):
            seat = seat_of(workshop, joined, one, other, drawn)
            if seat and is_seen(seat, outward_of(drawn, other), plates, view):
                found.append(seat)
                break
    if found:
        return Tape(tuple(found), ((STICKY, name),))
    return Tape(notes=(f"The {name} lies on a side that is not seen here.",))
