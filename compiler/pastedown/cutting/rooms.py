"""One sheet being filled: rooms within rooms, each cut into strips along one axis, with what is free at its end."""

from collections.abc import Sequence

from pastedown.cutting.slicing import Tree, row, size_of
from pastedown.cutting.task import Kind

# Rooms within rooms beyond this are not filled: nobody cuts so, and what walks through trees must come to an end.
MOST_DEPTH = 80


class Room:
    """A block of `width` by `height` cut into strips along `axis`; `free` of it is not cut yet, at the far end. A room
    that is a piece has no strips and a `leaf` of 0 or more. `open_width` and `open_height` are the size of what is
    free."""

    __slots__ = ("axis", "depth", "free", "height", "leaf", "open_height", "open_width", "parts", "up", "width")

    def __init__(self, axis: int, width: int, height: int, up: "Room | None", leaf: int = -1) -> None:
        self.axis = axis
        self.width, self.height = width, height
        self.up = up
        self.depth: int = 0 if up is None else up.depth + 1
        self.leaf = leaf
        self.parts: list[Room] = []
        self.free = 0
        self.open_width = self.open_height = 0
        if leaf < 0:
            self.set_free(width if axis == 0 else height)

    def set_free(self, free: int) -> None:
        self.free = free
        if self.axis == 0:
            self.open_width, self.open_height = free, self.height
        else:
            self.open_width, self.open_height = self.width, free

    def below(self) -> "list[Room]":
        """This room and all within it."""
        found: list[Room] = []
        waiting = [self]
        while waiting:
            room = waiting.pop()
            found.append(room)
            waiting += room.parts
        return found

    def tree(self) -> Tree | None:
        if self.leaf >= 0:
            return self.leaf
        parts = [
            tree for part in self.parts if (tree := part.leaf if part.leaf >= 0 else part.tree()) is not None
        ]
        return row(self.axis, parts) if parts else None


class Board:
    """A sheet of base `base` with its rooms. `used` is the area of the pieces on it."""

    __slots__ = ("_known", "_tree", "area", "base", "height", "opens", "root", "used", "width")

    def __init__(self, base: int, width: int, height: int) -> None:
        self.base, self.width, self.height = base, width, height
        self.area = width * height
        self.used = 0
        self.root = Room(0, width, height, None)
        self.opens = [self.root]
        # The tree, once it was asked for and as long as it is known.
        self._tree: Tree | None = None
        self._known = True

    def fill(self, tree: Tree | None, kinds: Sequence[Kind]) -> None:
        """Lays the board out as the tree says, pushed together; whatever lay on it is forgotten."""
        self.root = Room(0, self.width, self.height, None)
        self.used = 0
        if tree is not None:
            if isinstance(tree, int) or tree[0] == 1:
                self._hang(self.root, tree, size_of(tree, kinds), kinds)
            else:
                for part in tree[1:]:
                    self._hang(self.root, part, size_of(part, kinds), kinds)
        self.find_opens()
        self._known = False

    def _hang(self, up: Room, tree: Tree, size: tuple[int, int], kinds: Sequence[Kind]) -> None:
        """Cuts a strip for the tree off what is free in `up`."""
        along = size[up.axis]
        width, height = (along, up.height) if up.axis == 0 else (up.width, along)
        if isinstance(tree, int):
            w, h = size
            self.used += w * h
            strip = Room(0, w, h, up, tree)
            if (w, h) != (width, height):
                strip = Room(1 - up.axis, width, height, up)
                strip.parts.append(Room(0, w, h, strip, tree))
                strip.set_free(strip.free - (h if up.axis == 0 else w))
        else:
            strip = Room(1 - up.axis, width, height, up)
            parts = tree[1:] if tree[0] != up.axis else (tree,)
            for part in parts:
                self._hang(strip, part, size_of(part, kinds), kinds)
        up.parts.append(strip)
        up.set_free(up.free - along)

    def find_opens(self) -> None:
        self.opens = [room for room in self.root.below() if room.free]

    def put(self, room: Room, leaf: int, width: int, height: int, along: bool) -> None:
        """Puts a piece into what is free in a room: at the end of its strips where `along`, else as the first of a row
        across them that takes up all that was free."""
        self.used += width * height
        self._known = False
        if not along:
            across = Room(1 - room.axis, room.open_width, room.open_height, room)
            room.parts.append(across)
            room.set_free(0)
            room = across
            self.opens.append(room)
        axis = room.axis
        if axis == 0:
            step, rest = width, room.height - height
        else:
            step, rest = height, room.width - width
        if rest:
            strip = Room(1 - axis, *((step, room.height) if axis == 0 else (room.width, step)), room)
            strip.parts.append(Room(0, width, height, strip, leaf))
            strip.set_free(rest)
            self.opens.append(strip)
        else:
            strip = Room(0, width, height, room, leaf)
        room.parts.append(strip)
        room.set_free(room.free - step)

    def drop(self, room: Room) -> list[int]:
        """Takes a room off the board, with those around it that hold nothing else; the kinds that lay in it. The
        caller calls `find_opens` when all is dropped."""
        pieces = [part for part in room.below() if part.leaf >= 0]
        dropped = [part.leaf >> 1 for part in pieces]
        self.used -= sum([part.width * part.height for part in pieces])
        self._known = False
        up = room.up
        if up is None:
            self.root = Room(0, self.width, self.height, None)
            return dropped
        while True:
            up.parts.remove(room)
            up.set_free(up.free + (room.width if up.axis == 0 else room.height))
            if up.parts or up.up is None:
                return dropped
            room, up = up, up.up

    def tree(self) -> Tree | None:
        if not self._known:
            self._tree, self._known = self.root.tree(), True
        return self._tree

