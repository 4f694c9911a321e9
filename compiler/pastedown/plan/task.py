"""One piece of work on one thing: what steps are batched from."""

from collections.abc import Hashable

from attrs import field, frozen

from pastedown.design.stock import Stock
from pastedown.geometry.natural_order import NaturalKey, natural_key
from pastedown.plan.plan import PlanText, Reading

# The order in which work that is ready is taken up.
PHASES = ("cut", "score", "fold", "join", "close", "crease", "check", "do", "lay")

# What is taken up first among things that are ready: the least rank.
Rank = tuple[int, int, NaturalKey, str, str]


@frozen
class Origin:
    """What a task works on: its path, the part it belongs to, the component it was written in, and its name there."""

    path: str
    part: str
    component: str
    name: str


@frozen
class Task:
    """Work of one kind on one piece, join, crease or written step.

    `like` is equal for tasks that are the same work over again. `text` tells this one; how often it is done is added
    when tasks are batched. `pieces` are handles of cut pieces; `stocks` are what is cut into, stuck with or taken up
    as bought. `place` goes before the path in the order of work: the place in the cut list, nought for all but
    cutting. `detail` tells two tasks of one kind on one thing apart. `title` heads the step; without one the thing's
    own name does. `fuller` is a title for where other work would be called the same, "" where there is none. `heading`
    is the path of the written step that gathers it, "" where it makes a step by itself; `lines` are the paths of the
    folds that are scored, where only some of a ladder are. `shown` is the path of the pose in which the step is drawn,
    "" where the work is drawn as it lies. `prepared` is a sentence on what is done for it first, which may be another
    for work that is the same otherwise.
    """

    kind: str
    origin: Origin
    text: PlanText
    like: Hashable
    pieces: tuple[str, ...] = ()
    stocks: tuple[Stock, ...] = ()
    place: int = 0
    detail: str = ""
    title: str = ""
    reading: Reading | None = None
    tips: tuple[PlanText, ...] = ()
    cautions: tuple[PlanText, ...] = ()
    heading: str = ""
    lines: tuple[str, ...] = ()
    shown: str = ""
    prepared: PlanText = ()
    fuller: str = ""
    rank: Rank = field(init=False, eq=False, repr=False)

    @rank.default
    def _work_out_rank(self) -> Rank:
        return PHASES.index(self.kind), self.place, natural_key(self.path), self.path, self.detail

    @property
    def path(self) -> str:
        return self.origin.path

    @property
    def same_work(self) -> Hashable:
        """Equal for tasks that are told once, with the number of times."""
        return self.kind, self.detail, self.like

    @property
    def batch(self) -> Hashable:
        """Equal for tasks that make one step unless the order of work forbids."""
        return ("", self.heading) if self.heading else self.same_work
