"""Packing single pieces onto a given number of boards, by taking some off and putting them back better.

The boards are given, pieces that do not fit are left out, and what is sought is a packing that
leaves nothing out. Some rooms are emptied, their pieces and those left out are put back one by one, each into the open
room that suits it best; the result is kept unless more area is left out than before, with some leniency.
"""

from collections.abc import Callable, Sequence
from math import inf
from typing import Any

from pastedown.cutting.budget import Budget
from pastedown.cutting.dice import Dice
from pastedown.cutting.rooms import Board, Open
from pastedown.cutting.slicing import Tree
from pastedown.cutting.task import Base, Kind

# A unit of work in looks at an open room; what a piece taken off and put back takes, and a room walked
# through, in looks: measured.
LOOKS_A_UNIT = 15_000
_LOOSE, _WALKED = 120, 8
# Free area is of more use on one sheet than on many: per cent of its square, in sheets, are as good as so much area of
# pieces placed. With none fewer packings succeed, with twice as much too many get stuck: tried.
_GATHERED = 25

Seen = Callable[[int, Tree], object]
Saved = dict[Board, tuple[Any, ...]]


class Packing:
    """Boards, and the pieces left out (kinds, one entry a piece)."""

    def __init__(self, kinds: Sequence[Kind], bases: Sequence[Base], seed: int, seen: Seen | None = None) -> None:
        self.kinds, self.bases = kinds, bases
        self.dice = Dice(seed)
        self.boards: list[Board] = []
        self.out: list[int] = []
        self.seen = seen
        # Of each kind the ways to lie, as width, height, leaf.
        self.ways = [
            tuple((width, height, 2 * number + turned) for width, height, turned in kind.ways())
            for number, kind in enumerate(kinds)
        ]
        lying = [way for ways in self.ways for way in ways]
        self.least = min([way[0] for way in lying], default=0), min([way[1] for way in lying], default=0)
        self.areas = [kind.area for kind in kinds]
        self.looks = 0

    def add_board(self, base: int, tree: Tree | None = None) -> Board:
        board = Board(base, self.bases[base].width, self.bases[base].height, self.least)
        if tree is not None:
            board.fill(tree, self.kinds)
        self.boards.append(board)
        return board

    @property
    def area_out(self) -> int:
        return sum([self.areas[kind] for kind in self.out])

    def place(self, kind: int, saved: Saved | None, blink: int = 0) -> bool:
        """Puts one piece where it suits best; False where it fits nowhere. A room is overlooked with a chance of
        `blink` per mille. How a board was before is noted in `saved`."""
        best: tuple[Board, Open] | None = None
        best_score: float = inf
        ways = self.ways[kind]
        area = self.areas[kind]
        below = self.dice.below
        looks = len(self.boards)
        for board in self.boards:
            if board.room < area:
                continue
            opens = board.opens
            looks += len(opens)
            for room in opens:
                open_width, open_height, _ = room
                for width, height, leaf in ways:
                    if width <= open_width and height <= open_height:
                        over_width, over_height = open_width - width, open_height - height
                        # The less is left of the room the better, and best of all is to use a side of it up.
                        score = over_width if over_width < over_height else over_height
                        score = score * (open_width + open_height) + open_width * open_height - area
                        if score < best_score and not (blink and below(1000) < blink):
                            best_score = score
                            best = board, room
                            best_width, best_height, best_leaf = width, height, leaf
        self.looks += looks
        if best is None:
            return False
        board, room = best
        if saved is not None and board not in saved:
            saved[board] = board.state()
        over_width, over_height = room[0] - best_width, room[1] - best_height
        # Of the two ways to cut on, the one that leaves the larger rest; now and then the other.
        right = over_width * room[1] >= over_height * room[0]
        if blink and below(8) == 0:
            right = not right
        board.put(room, best_leaf, best_width, best_height, right if room[2].axis == 0 else not right)
        return True

    def fill_up(self, order: Sequence[int], saved: Saved | None, blink: int = 0) -> None:
        """Places the pieces in that order; those that fit nowhere are left out."""
        fits_not: set[int] = set()
        for kind in order:
            if kind in fits_not or not self.place(kind, saved, blink):
                self.out.append(kind)
                if not blink:
                    fits_not.add(kind)

    def _order(self, loose: list[int]) -> list[int]:
        dice, kinds, areas = self.dice, self.kinds, self.areas
        way = dice.below(5)
        if way < 4:
            return sorted(loose, key=lambda kind: -areas[kind] * (850 + dice.below(300)))
        return sorted(loose, key=lambda kind: -max(kinds[kind].width, kinds[kind].height) * (900 + dice.below(200)))

    def _empty_some(self, saved: Saved) -> list[int]:
        """Takes pieces off a few boards; the pieces."""
        dice = self.dice
        loose: list[int] = []
        wanted = 2 + dice.below(10)
        tries = 0
        while len(loose) < wanted and tries < 12:
            tries += 1
            board = self.boards[dice.below(len(self.boards))]
            if board.room == board.area:
                continue
            if board not in saved:
                saved[board] = board.state()
            rooms = board.rooms
            walked = len(rooms)
            if len(rooms) <= 2 + 2 * (wanted - len(loose)) and dice.below(3) == 0:
                loose += board.drop(board.root)
                board.find_opens()
            else:
                for _ in range(1 + dice.below(3)):
                    if len(rooms) < 2:
                        break
                    loose += board.drop(rooms[1 + dice.below(len(rooms) - 1)])
                    board.find_opens()
                    rooms = board.rooms
                    walked += len(rooms)
            self.looks += _WALKED * walked
        self.looks += 30 * tries
        return loose

    def improve(self, budget: Budget) -> bool:
        """Searches until nothing is left out; False where the budget was spent before."""
        now = best = self.area_out
        if not self.boards:
            return now == 0
        slack = min(self.areas) // 2 if self.areas else 0
        stale = 0
        while now and not budget.over:
            before = self.looks
            saved: Saved = {}
            kept_out = self.out
            loose = self._empty_some(saved) + kept_out
            self.out = []
            self.fill_up(self._order(loose), saved, 20)
            after = self.area_out
            gathered = sum([(board.room**2 - was[1] ** 2) * _GATHERED // board.area for board, was in saved.items()])
            if after - gathered // 100 <= now + (slack * self.dice.below(1000) // 1000 if stale < 200 else 0):
                now = after
                if self.seen is not None:
                    for board in saved:
                        tree = board.tree()
                        if tree is not None:
                            self.seen(board.base, tree)
                            board.fill(tree, self.kinds)
            else:
                for board, state in saved.items():
                    board.put_back(state)
                self.out = kept_out
            if now < best:
                best, stale = now, 0
            else:
                stale = stale + 1 if stale < 400 else 0
            budget.spend((self.looks - before + _LOOSE * len(loose)) / LOOKS_A_UNIT)
        return now == 0
