"""One sheet being filled: rooms within rooms, each cut into strips along one axis, with what is free at its end."""

from collections.abc import Sequence
from typing import Any

from pastedown.cutting.slicing import Tree, leaf_size, row
from pastedown.cutting.task import Kind

# Rooms within rooms beyond this are not filled: nobody cuts so, and what walks through trees must come to an end.
MOST_DEPTH = 80

# A tree with sizes: width, height, leaf or -1, axis, parts. Recursive, so it goes untyped.
_Sized = Any


class Room:
    """A block of `width` by `height` cut into strips along `axis`; `free` of it is not cut yet, at the far end. A room
    that is a piece has no strips and a `leaf` of 0 or more. The list of its parts is never changed but exchanged for
    another, so that what was can be put back."""

    __slots__ = ("axis", "depth", "free", "height", "leaf", "parts", "up", "width")

    def __init__(self, axis: int, width: int, height: int, up: "Room | None", leaf: int = -1) -> None:
        self.axis = axis
        self.width, self.height = width, height
        self.up = up
        self.depth: int = 0 if up is None else up.depth + 1
        self.leaf = leaf
        self.parts: list[Room] = []
        self.free = 0 if leaf >= 0 else height if axis else width

    def below(self) -> "list[Room]":
        """This room and all within it."""
        found = [self]
        for room in found:
            if room.parts:
                found += room.parts
        return found

    def tree(self) -> Tree | None:
        if self.leaf >= 0:
            return self.leaf
        parts = [
            tree for part in self.parts if (tree := part.leaf if part.leaf >= 0 else part.tree()) is not None
        ]
        return row(self.axis, parts) if parts else None


Open = tuple[int, int, Room]


class Board:
    """A sheet of base `base` with its rooms. `used` is the area of the pieces on it. `opens` are the rooms with free
    space that can hold a piece of the `least` width and height: width and height of what is free, and the room."""

    __slots__ = ("_changes", "_known", "_tree", "area", "base", "height", "least", "opens", "room", "rooms", "root",
                 "width")

    def __init__(self, base: int, width: int, height: int, least: tuple[int, int]) -> None:
        self.base, self.width, self.height, self.least = base, width, height, least
        self.area = width * height
        # Area that no piece lies on.
        self.room = self.area
        self.root = Room(0, width, height, None)
        self.rooms: list[Room] = []
        self.opens: list[Open] = []
        # Rooms as they were, each with what was free and its parts, the last one last.
        self._changes: list[tuple[Room, int, list[Room]]] = []
        # The tree, once it was asked for and as long as it is known.
        self._tree: Tree | None = None
        self._known = True
        self.find_opens()

    @property
    def used(self) -> int:
        return self.area - self.room

    def fill(self, tree: Tree | None, kinds: Sequence[Kind]) -> None:
        """Lays the board out as the tree says, pushed together; whatever lay on it is forgotten."""
        self.root = Room(0, self.width, self.height, None)
        self.room = self.area
        if tree is not None:
            sized = _sized(tree, kinds)
            for part in sized[4] if sized[3] == 0 else (sized,):
                self._hang(self.root, part)
        self.find_opens()
        self._known = False

    def _hang(self, up: Room, sized: _Sized) -> None:
        """Cuts a strip for the tree off what is free in `up`."""
        w, h, leaf, axis, parts = sized
        if up.axis == 0:
            along, width, height = w, w, up.height
        else:
            along, width, height = h, up.width, h
        if leaf >= 0:
            self.room -= w * h
            strip = Room(0, w, h, up, leaf)
            if (w, h) != (width, height):
                strip = Room(1 - up.axis, width, height, up)
                strip.parts = [Room(0, w, h, strip, leaf)]
                strip.free -= h if up.axis == 0 else w
        else:
            strip = Room(1 - up.axis, width, height, up)
            for part in parts if axis != up.axis else (sized,):
                self._hang(strip, part)
        up.parts = [*up.parts, strip]
        up.free -= along

    def find_opens(self) -> None:
        self.rooms = self.root.below()
        self.opens = [place for room in self.rooms if room.free and (place := self._open(room)) is not None]

    def _open(self, room: Room) -> Open | None:
        """What is free in a room, if it can hold a piece."""
        width, height = (room.free, room.height) if room.axis == 0 else (room.width, room.free)
        least_width, least_height = self.least
        if width >= least_width and height >= least_height and room.depth <= MOST_DEPTH:
            return width, height, room
        return None

    def put(self, place: Open, leaf: int, width: int, height: int, along: bool) -> None:
        """Puts a piece into what is free in a room: at the end of its strips where `along`, else as the first of a row
        across them that takes up all that was free."""
        open_width, open_height, room = place
        opens, rooms = self.opens, self.rooms
        at = opens.index(place)
        self._changes.append((room, room.free, room.parts))
        self.room -= width * height
        self._known = False
        if not along:
            across = Room(1 - room.axis, open_width, open_height, room)
            room.parts = [*room.parts, across]
            room.free = 0
            rooms.append(across)
            room = across
            del opens[at]
            at = len(opens)
            opens.append(place)
        if room.axis == 0:
            step, rest = width, open_height - height
        else:
            step, rest = height, open_width - width
        room.free -= step
        # What is left of the room stays in its place: of rooms that suit alike the first is taken.
        left = self._open(room)
        if left is None:
            del opens[at]
        else:
            opens[at] = left
        if rest:
            strip = Room(1 - room.axis, *((step, open_height) if room.axis == 0 else (open_width, step)), room)
            piece = Room(0, width, height, strip, leaf)
            strip.parts = [piece]
            strip.free = rest
            rooms.append(strip)
            rooms.append(piece)
            beside = self._open(strip)
            if beside is not None:
                opens.append(beside)
        else:
            strip = Room(0, width, height, room, leaf)
            rooms.append(strip)
        room.parts = [*room.parts, strip]

    def drop(self, room: Room) -> list[int]:
        """Takes a room off the board, with those around it that hold nothing else; the kinds that lay in it. The
        caller calls `find_opens` when all is dropped."""
        dropped: list[int] = []
        for part in room.below():
            if part.leaf >= 0:
                dropped.append(part.leaf >> 1)
                self.room += part.width * part.height
        self._known = False
        up = room.up
        if up is None:
            self.root = Room(0, self.width, self.height, None)
            return dropped
        while True:
            self._changes.append((up, up.free, up.parts))
            up.parts = [part for part in up.parts if part is not room]
            up.free += room.width if up.axis == 0 else room.height
            if up.parts or up.up is None:
                return dropped
            room, up = up, up.up

    def tree(self) -> Tree | None:
        if not self._known:
            self._tree, self._known = self.root.tree(), True
        return self._tree

    def state(self) -> tuple[Any, ...]:
        """What `put_back` needs to bring the board back to where it is now. Only the latest state can be put back."""
        self._changes.clear()
        return self.root, self.room, self.rooms.copy(), self.opens.copy(), self._tree, self._known

    def put_back(self, state: tuple[Any, ...]) -> None:
        for room, free, parts in reversed(self._changes):
            room.free, room.parts = free, parts
        self._changes.clear()
        self.root, self.room, self.rooms, self.opens, self._tree, self._known = state


def _sized(tree: Tree, kinds: Sequence[Kind]) -> _Sized:
    if isinstance(tree, int):
        return *leaf_size(tree, kinds), tree, -1, ()
    parts = [_sized(part, kinds) for part in tree[1:]]
    if tree[0] == 0:
        return sum([part[0] for part in parts]), max([part[1] for part in parts]), -1, 0, parts
    return max([part[0] for part in parts]), sum([part[1] for part in parts]), -1, 1, parts
