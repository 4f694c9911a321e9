"""Small designs made by hand, as the stage before would hand them over."""

from collections.abc import Sequence

from attrs import evolve

from pastedown.design.stock import Stock
from pastedown.geometry.model import Alignment, Join, Model, Part, Side, Step, WorkedText
from pastedown.geometry.piece import CutPath, FlatPiece, LineTo, Panel, Point, Run, Score
from pastedown.plan.plan import BuildStep, Plan, PlanText
from pastedown.quantity.dimension import GRAMMAGE
from pastedown.quantity.quantity import NO_LENGTH, Length, Quantity, inches, mm
from pastedown.quantity.ruler import INCH_RULER
from pastedown.quantity.write import write
from pastedown.source import SourceText, Span

KRAFT = Stock(
    name="kraft card",
    kind="card",
    sheet=(inches(12), inches(12)),
    caliper=mm("0.3"),
    weight=Quantity(mm(216).value / 1_000_000, GRAMMAGE),
    grain="marked",
)
STICKY = Stock(name="double-sided tape", kind="tape", roll_width=inches("1/4"), caliper=mm("0.1"))
PASTE = Stock(name="wheat paste", kind="glue", caution="Keep it off the decorated side.")
GREY = Stock(name="grey board", kind="board", sheet=(inches(12), inches(24)), caliper=mm(2), grain="long")
SNAPSHOT = Stock(name="snapshot", kind="print", height=inches(3), width=inches(4))


def somewhere(words: str = "here") -> Span:
    """A span of a text that says nothing but these words."""
    return Span(SourceText("small.album", words), 0, len(words))


def rectangle(height: Length, width: Length, begun_at: int = 0) -> CutPath:
    """An outline begun at one of the four corners, counted from tail and left against the clock."""
    corners = [Point(NO_LENGTH, NO_LENGTH), Point(width, NO_LENGTH), Point(width, height), Point(NO_LENGTH, height)]
    in_turn = corners[begun_at:] + corners[:begun_at]
    return CutPath("outline", in_turn[0], tuple(LineTo(corner) for corner in (*in_turn[1:], in_turn[0])), True)


def run(axis: str, edges: tuple[str, str], items: Sequence[tuple[str, Length | str]], turned: bool = False) -> Run:
    """A run read off as one calls it out: a panel's name with its size, a fold's name with its kind."""
    at = NO_LENGTH
    panels, scores = [], []
    for name, size_or_kind in items:
        if isinstance(size_or_kind, str):
            scores.append(Score(name, at, size_or_kind))
        else:
            panels.append(Panel(name, at, at + size_or_kind))
            at += size_or_kind
    return Run(axis, *edges, turned, tuple(panels), tuple(scores))


def piece(path: str, height: Length, width: Length, *runs: Run, stock: Stock = KRAFT, component: str = "") -> FlatPiece:
    """A rectangle at this path; it belongs to the part before the last dot, and is named after what follows it."""
    part, _, name = path.rpartition(".")
    return FlatPiece(
        path=path,
        part=part,
        component=component or part.partition("[")[0] or "design",
        name=name,
        doc="",
        stock=stock,
        height=height,
        width=width,
        left="spine",
        right="fore_edge",
        grain="height",
        against_grain="refuse",
        face_up="",
        loose=False,
        runs=runs,
        outline=rectangle(height, width),
        inner_cuts=(),
        span=somewhere(path),
    )


def join(
    path: str,
    what: Sequence[tuple[str, str, str]],
    to: Sequence[tuple[str, str, str]],
    *lines: tuple[str, str, Length],
    by: Stock | None = STICKY,
    closes: bool = False,
    after: tuple[str, ...] = (),
    before: tuple[str, ...] = (),
) -> Join:
    """A join or close of these faces; lines are what, to, and how far inside. Taped ones move, others do not."""
    part, _, name = path.rpartition(".")
    moving = by is not None and by.kind == "tape"
    return Join(
        path=path,
        part=part,
        component=part.partition("[")[0] or "design",
        name=name,
        closes=closes,
        what=Side(path, tuple(what)),
        to=Side(path, tuple(to)),
        alignments=tuple(Alignment(one, other, inside, "width") for one, other, inside in lines),
        by=by,
        adhesive="tape" if moving else "glue",
        moving=moving,
        doc=(),
        tip=(),
        caution=(),
        after=after,
        before=before,
        span=somewhere(path),
    )


def step(
    path: str,
    *text: str | Quantity,
    after: tuple[str, ...] = (),
    before: tuple[str, ...] = (),
    reads: Length | None = None,
    most: Length | None = None,
) -> Step:
    """A step as a maker writes it."""
    part, _, name = path.rpartition(".")
    component = part.partition("[")[0] or "design"
    written: WorkedText = text or (f"Do {name}.",)
    return Step(path, part, component, name, written, reads, None, most, (), (), after, before, somewhere(path))


def model(
    pieces: Sequence[FlatPiece] = (), joins: Sequence[Join] = (), steps: Sequence[Step] = (), parts: Sequence[str] = ()
) -> Model:
    """A design of these things and nothing else."""
    return Model(
        name="small",
        title="Small",
        doc=(),
        ruler=INCH_RULER,
        parts=tuple(Part(path, path.partition("[")[0], "") for path in parts),
        stocks=(),
        pieces=tuple(pieces),
        joins=tuple(joins),
        creases=(),
        steps=tuple(steps),
        requirements=(),
        measurements=(),
    )


def peaked_strip(peaks: int = 4) -> FlatPiece:
    """A hinge strip with wings of 2 3/4 in, peaks of 1/2 in and gussets of 1/2 in; with four peaks it is 11 in long."""
    items: list[tuple[str, Length | str]] = [("front_wing", inches("11/4"))]
    for peak in range(1, peaks + 1):
        items += [(f"front_foot[{peak}]", "valley"), (f"rise[{peak}]", inches("1/2"))]
        items += [(f"crest[{peak}]", "mountain"), (f"fall[{peak}]", inches("1/2"))]
        items += [(f"back_foot[{peak}]", "valley")]
        if peak < peaks:
            items += [(f"floor[{peak}]", inches("1/2"))]
    items += [("back_wing", inches("11/4"))]
    laid = run("width", ("front_end", "back_end"), items)
    strip = piece("hinge.strip", inches("45/8"), laid.side, laid)
    return evolve(strip, left="front_end", right="back_end")


def two_sheets(path: str, width: Length) -> tuple[list[FlatPiece], list[Join]]:
    """A page of two sheets with a seam along tail and head: the first seam places, the second closes."""
    height, seam, body = inches("49/8"), inches("3/8"), inches("23/4")
    flap_at_tail = run("height", ("tail", "head"), [("flap", seam), ("tail_fold", "mountain"), ("body", body)])
    flap_at_head = run("height", ("tail", "head"), [("body", body), ("head_fold", "mountain"), ("flap", seam)])
    front = piece(f"{path}.front_sheet", height, width, flap_at_tail)
    rear = evolve(piece(f"{path}.rear_sheet", height, width, flap_at_head), left="fore_edge", right="spine")
    first = join(
        f"{path}.seam_tail",
        [(rear.path, "body", "face")],
        [(front.path, "flap", "back")],
        (f"{rear.path}.body.tail", f"{front.path}.tail_fold", NO_LENGTH),
    )
    second = join(
        f"{path}.seam_head", [(rear.path, "flap", "back")], [(front.path, "body", "face")], closes=True
    )
    return [front, rear], [first, second]


def small_book(pages: int = 4) -> Model:
    """A strip with a peak for each page, and the pages that are slid over the peaks."""
    strip = peaked_strip(pages)
    pieces, joins = [strip], []
    for number in range(1, pages + 1):
        shut = join(
            f"hinge.peak_shut[{number}]",
            [(strip.path, f"rise[{number}]", "back")],
            [(strip.path, f"fall[{number}]", "back")],
            (f"{strip.path}.front_foot[{number}]", f"{strip.path}.back_foot[{number}]", NO_LENGTH),
            closes=True,
        )
        sheets, seams = two_sheets(f"page[{number}]", inches("15/2"))
        mount = join(
            f"mount[{number}]",
            [(sheet.path, "body", "back") for sheet in sheets],
            [(strip.path, f"rise[{number}]", "face"), (strip.path, f"fall[{number}]", "face")],
            (f"{sheets[0].path}.spine", f"{strip.path}.front_foot[{number}]", inches("1/16")),
        )
        pieces += sheets
        joins += [shut, *seams, mount]
    parts = ["", "hinge", *(f"page[{number}]" for number in range(1, pages + 1))]
    return model(pieces, joins, parts=parts)


def written(text: PlanText) -> str:
    """The text as a maker with an inch ruler reads it."""
    return "".join(write(part, INCH_RULER) if isinstance(part, Quantity) else part for part in text)


def titles(plan: Plan) -> list[str]:
    return [written(each.title) for each in plan.steps]


def step_called(plan: Plan, title: str) -> BuildStep:
    """The one step of this title."""
    (found,) = [each for each in plan.steps if written(each.title) == title]
    return found
