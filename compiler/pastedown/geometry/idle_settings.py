"""Finds what a design sets of members that are not there, as in `page[9].width = 6 in` of five pages.

Only the outermost braces are looked at. Whoever wrote them sees the whole design, so a number beyond the family is a
slip there. In a base, it is what a variant with fewer members left over.
"""

from __future__ import annotations

from collections.abc import Iterator

from pastedown.diagnostic import warning
from pastedown.geometry.instance import Instance
from pastedown.geometry.layer import Entry, Segment
from pastedown.geometry.make_piece import PieceMaker
from pastedown.geometry.value import FamilyValue, Reference
from pastedown.geometry.work import WORK_OF_A_READING

Members = dict[int | None, object]


def tell_idle_settings(root: Instance) -> None:
    """Tell, once a place, of every setting in the outermost braces whose member is not there."""
    known: dict[tuple[object, str], Members | None] = {}
    layer = root.layers[0]
    for name in layer.names():
        for entry in layer.entries(name):
            numbered = any(segment.index is not None for segment in entry.path)
            if entry.is_setting and numbered and root.kind_of(name) is not None and not root.work.is_used_up:
                with root.work.telling():
                    _follow(root, entry, known)


def _follow(root: Instance, entry: Entry, known: dict[tuple[object, str], Members | None]) -> None:
    reached: list[object] = [root]
    for at, segment in enumerate(entry.path):
        root.work.spend(entry.span, WORK_OF_A_READING * len(reached))
        found: list[Members] = []
        for thing in reached:
            if (thing, segment.name) not in known:
                known[thing, segment.name] = _members(thing, segment)
            members = known[thing, segment.name]
            if members is None:
                return  # no family: what is wrong with that is told elsewhere
            found.append(members)
        if segment.index is not None and found and all(segment.index not in members for members in found):
            _tell(root, entry, at, sorted({number for members in found for number in members if number is not None}))
            return
        if segment.index is None:
            reached = [value for members in found for value in members.values() if value is not None]
        else:
            reached = [value for members in found if (value := members.get(segment.index)) is not None]


def _members(thing: object, segment: Segment) -> Members | None:
    """What goes by a name, by number; None stands for a member that was taken away. None where it is no family."""
    if isinstance(thing, Reference) and thing.kind == "pose":
        thing = thing.instance
    if isinstance(thing, Instance):
        if thing.kind_of(segment.name) is None:
            return None
        members: Members = dict.fromkeys(thing.numbers(segment.name))
        if not thing.is_removed(segment.name):
            members.update(_numbered(thing.lookup(segment.name, segment.span)))
        return members
    if isinstance(thing, PieceMaker) and segment.name in thing.names():
        return dict(_numbered(thing.member(segment.name, segment.span)))
    return None


def _numbered(value: object) -> Iterator[tuple[int | None, object]]:
    if isinstance(value, FamilyValue):
        yield from value.items
    else:
        yield None, value


def _tell(root: Instance, entry: Entry, at: int, numbers: list[int]) -> None:
    segment = entry.path[at]
    name = ".".join([*(each.name for each in entry.path[:at]), f"{segment.name}[{segment.index}]"])
    if not numbers:
        have, way_out = "there are none", "Leave this out, or make one at least."
    else:
        have = f"they go from {numbers[0]} to {numbers[-1]}"
        way_out = f"Use a number from {numbers[0]} to {numbers[-1]}, or leave this out."
    root.work.tell(
        warning(
            "idle-setting",
            segment.span,
            f"This sets something of {name}, and there is no such one: {have}.",
            reason="What is set of a member that is not there is passed over.",
            way_out=way_out,
        )
    )
