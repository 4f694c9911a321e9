"""What has to be done before what.

Takes the model and its tasks, gives links between numbered things. Some links lie in the nature of the work (a piece is
cut before it is scored), some the maker wrote, and some are only good habit (a part is finished before it is joined to
another). Habit gives way wherever it would contradict the rest: see `order.py`.
"""

from collections.abc import Iterable, Iterator, Sequence
from enum import Enum

from attrs import frozen

from pastedown.geometry.model import Crease, Join, Model, Step
from pastedown.geometry.natural_order import NaturalKey, natural_key
from pastedown.plan.path_index import PathIndex
from pastedown.plan.placing_tree import placing_tree
from pastedown.plan.task import Task
from pastedown.source import Span


class Force(Enum):
    """Why one thing comes before another."""

    NATURE = "nature"
    WRITTEN = "written"
    HABIT = "habit"


@frozen
class Link:
    """`first` comes before `then`. `words` and `span` say what the maker wrote, for a link that was written."""

    first: int
    then: int
    force: Force
    words: str = ""
    span: Span | None = None


@frozen
class Needs:
    """Links between the numbers 0 to `count` - 1. The tasks have the lowest numbers, in their order; every further
    number is a milestone, which is no work itself but stands for "all of these are done" or "any of those may
    begin"."""

    count: int
    links: tuple[Link, ...]


def needs(model: Model, tasks: Sequence[Task]) -> Needs:
    """All links between the tasks, which are numbered by their place in `tasks`."""
    return _Drawing(model, tasks).draw()


Ordered = Join | Crease | Step

_WORK_ON_PIECES = ("cut", "score", "fold")


class _Drawing:
    """Links as they are collected, with what is needed to look tasks up."""

    def __init__(self, model: Model, tasks: Sequence[Task]) -> None:
        self._model = model
        self._tasks = tasks
        self._links: list[Link] = []
        self._count = len(tasks)
        # Putting in what lies loose finishes nothing and is waited for by nothing: it comes last of all.
        self._waited_for = [number for number, task in enumerate(tasks) if task.kind != "lay"]
        self._index = PathIndex(tasks[number].path for number in self._waited_for)
        self._milestones: dict[tuple[str, str], int] = {}
        self._found: dict[str, frozenset[int]] = {}
        self._on_piece: dict[str, list[int]] = {piece.path: [] for piece in model.pieces}
        self._number: dict[str, int] = {}
        for number, task in enumerate(tasks):
            if task.kind in _WORK_ON_PIECES:
                self._on_piece[task.path].append(number)
            else:
                self._number[task.path] = number

    def draw(self) -> Needs:
        for piece in self._on_piece.values():
            self._link_work_on_piece(piece)
        assembly: list[Join | Crease] = sorted([*self._model.joins, *self._model.creases], key=_by_path)
        self._link_assembly(assembly)
        self._link_closes_to_creases(assembly)
        self._link_creases_outwards(assembly)
        self._link_loose_pieces()
        for thing in (*assembly, *sorted(self._model.steps, key=_by_path)):
            self._link_as_written(thing)
        return Needs(self._count, tuple(dict.fromkeys(self._links)))

    def _link(self, first: int, then: int, force: Force = Force.NATURE) -> None:
        self._links.append(Link(first, then, force))

    def _link_work_on_piece(self, numbers: list[int]) -> None:
        for first in numbers:
            for then in numbers:
                if self._phase(first) < self._phase(then):
                    self._link(first, then)

    def _phase(self, number: int) -> int:
        return _WORK_ON_PIECES.index(self._tasks[number].kind)

    def _link_assembly(self, assembly: Sequence[Join | Crease]) -> None:
        tree = placing_tree({self._number[join.path]: join for join in self._model.joins})
        part_of = {piece.path: piece.part for piece in self._model.pieces}
        joins = [thing for thing in assembly if isinstance(thing, Join)]
        placed_by = {join.what.faces[0][0]: join for join in joins if not join.closes}
        for thing in assembly:
            number = self._number[thing.path]
            pairs = self._pairs(thing)
            used = [path for path in dict.fromkeys(path for pair in pairs for path in pair) if path in part_of]
            for path in used:
                for first in self._on_piece[path]:
                    self._link(first, number)
            if isinstance(thing, Crease) or thing.closes:
                for one, other in pairs:
                    for join in tree.joins_between(one, other):
                        self._link(join, number)
            self._link_finished_parts(thing, {part_of[path] for path in used})
            if isinstance(thing, Join) and not thing.closes:
                self._link_outwards(thing, number, placed_by)

    def _link_closes_to_creases(self, assembly: Sequence[Join | Crease]) -> None:
        """By habit a panel is stuck down flat before it is creased where it lies: a fold made sooner would lie beside
        the edge that it has to follow."""
        creased: dict[tuple[str, str], list[int]] = {}
        for thing in assembly:
            if isinstance(thing, Crease):
                for path, panel, _ in thing.on.faces:
                    creased.setdefault((path, panel), []).append(self._number[thing.path])
        for thing in assembly:
            if isinstance(thing, Join) and thing.closes:
                for path, panel, _ in thing.what.faces:
                    for crease in creased.get((path, panel), ()):
                        self._link(self._number[thing.path], crease, Force.HABIT)

    def _link_creases_outwards(self, assembly: Sequence[Join | Crease]) -> None:
        """By habit a panel is creased over what carries its piece before it is creased over anything beyond: what lies
        next to the place that is stuck already cannot shift any more."""
        carrier = {
            join.what.faces[0][0]: join.to.faces[0][0]
            for join in assembly
            if isinstance(join, Join) and not join.closes
        }
        creases: dict[tuple[str, str], list[Crease]] = {}
        for thing in assembly:
            if isinstance(thing, Crease):
                for path, panel, _ in thing.on.faces:
                    creases.setdefault((path, panel), []).append(thing)
        for (path, _), on_one in creases.items():
            near = [each for each in on_one if self._piece_of_line(each.over) == carrier.get(path)]
            for first in near:
                for then in on_one:
                    if then not in near:
                        self._link(self._number[first.path], self._number[then.path], Force.HABIT)

    def _link_loose_pieces(self) -> None:
        """What lies loose is put in once everything has been done to it."""
        joined: dict[str, list[int]] = {}
        for join in self._model.joins:
            for path, _, _ in (*join.what.faces, *join.to.faces):
                joined.setdefault(path, []).append(self._number[join.path])
        for number, task in enumerate(self._tasks):
            if task.kind == "lay":
                for first in (*self._on_piece[task.path], *joined.get(task.path, ())):
                    self._link(first, number)

    def _pairs(self, thing: Join | Crease) -> list[tuple[str, str]]:
        """The pieces that come together, in pairs; a face without a partner pairs with itself."""
        what = [path for path, _, _ in (thing.what if isinstance(thing, Join) else thing.on).faces]
        if isinstance(thing, Crease):
            over = self._piece_of_line(thing.over)
            return [(path, over or path) for path in what]
        to = [path for path, _, _ in thing.to.faces]
        alone = what[len(to) :] + to[len(what) :]
        return list(zip(what, to, strict=False)) + [(path, path) for path in alone]

    def _piece_of_line(self, line: str) -> str | None:
        names = line.split(".")
        stretches = (".".join(names[:length]) for length in range(len(names), 0, -1))
        return next((path for path in stretches if path in self._on_piece), None)

    def _link_finished_parts(self, thing: Join | Crease, parts: Iterable[str]) -> None:
        """Parts within the one that is being put together are finished first, by habit."""
        for part in sorted({_next_part_down(thing.part, part) for part in parts} - {""}):
            milestone = self._milestone("finished", part, Force.HABIT)
            self._link(milestone, self._number[thing.path])

    def _link_outwards(self, join: Join, number: int, placed_by: dict[str, Join]) -> None:
        """Within one part a thing is joined to what lies in its own place already, by habit."""
        target = placed_by.get(join.to.faces[0][0])
        if target is not None and target.part == join.part:
            self._link(self._number[target.path], number, Force.HABIT)

    def _milestone(self, purpose: str, path: str, force: Force = Force.NATURE) -> int:
        """The milestone after all that the path means or, to `begin` it, before; one for each purpose."""
        milestone = self._milestones.get((purpose, path))
        if milestone is None:
            milestone = self._milestones[purpose, path] = self._count
            self._count += 1
            for number in sorted(self._find(path)):
                first, then = (milestone, number) if purpose == "begin" else (number, milestone)
                self._link(first, then, force)
        return milestone

    def _find(self, path: str) -> frozenset[int]:
        if path not in self._found:
            self._found[path] = frozenset(self._waited_for[place] for place in self._index.find(path))
        return self._found[path]

    def _link_as_written(self, thing: Ordered) -> None:
        number = self._number[thing.path]
        for path in sorted(set(thing.after), key=natural_key):
            for first in self._meant(path, thing, "done"):
                words = f"{thing.path} is to come after {path}"
                self._links.append(Link(first, number, Force.WRITTEN, words, thing.span))
        for path in sorted(set(thing.before), key=natural_key):
            for then in self._meant(path, thing, "begin"):
                words = f"{thing.path} is to come before {path}"
                self._links.append(Link(number, then, Force.WRITTEN, words, thing.span))

    def _meant(self, path: str, thing: Ordered, purpose: str) -> Iterator[int]:
        """What a written order links to. A path of the part in which a thing stands does not mean the thing itself."""
        if not self._find(path) and thing.part:
            path = f"{thing.part}.{path}"
        found, number = self._find(path), self._number[thing.path]
        if number in found and path.count(".") < thing.path.count("."):
            yield from sorted(found - {number})
        elif len(found) > 1:
            yield self._milestone(purpose, path)
        else:
            yield from found


def _by_path(thing: Ordered) -> NaturalKey:
    return natural_key(thing.path)


def _next_part_down(part: str, inner: str) -> str:
    """The first part on the way from `part` down to `inner`; "" when `inner` does not lie within it."""
    if part and not inner.startswith(part + "."):
        return ""
    start = len(part) + 1 if part else 0
    end = inner.find(".", start)
    return inner if end < 0 else inner[:end]
