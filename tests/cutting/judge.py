"""An independent judge of cutting plans: it looks at the rectangles, the counts and the cuts, and uses nothing of the planner
but the classes of problems and plans."""

from collections import Counter
from collections.abc import Sequence
from fractions import Fraction

from pastedown.cutting.cutting_plan import Block, CuttingPlan, Pattern
from pastedown.cutting.problem import Problem, Sheet

# x, y, width, height
Rectangle = tuple[Fraction, Fraction, Fraction, Fraction]


class Refused(AssertionError):
    """The plan breaks a rule."""


def demand(holds: bool, why: str) -> None:
    if not holds:
        raise Refused(why)


def rectangle(block: Block) -> Rectangle:
    return Fraction(block.x), Fraction(block.y), Fraction(block.width), Fraction(block.height)


def overlap(one: Rectangle, other: Rectangle) -> bool:
    return (
        one[0] < other[0] + other[2] and other[0] < one[0] + one[2]
        and one[1] < other[1] + other[3] and other[1] < one[1] + one[3]
    )


def can_be_cut(rectangles: Sequence[Rectangle]) -> bool:
    """Whether straight cuts from edge to edge free them all: some line that meets none of them parts them, and both parts
    can be cut likewise."""
    waiting = [list(rectangles)]
    while waiting:
        block = waiting.pop()
        if len(block) < 2:
            continue
        for axis in (0, 1):
            block.sort(key=lambda r: r[axis])
            reach = block[0][axis] + block[0][axis + 2]
            for at in range(1, len(block)):
                if block[at][axis] >= reach:
                    waiting += [block[:at], block[at:]]
                    break
                reach = max(reach, block[at][axis] + block[at][axis + 2])
            else:
                continue
            break
        else:
            return False
    return True


def usable(sheet: Sheet) -> Rectangle:
    trim = sheet.trim
    return (
        Fraction(trim.left), Fraction(trim.bottom),
        Fraction(sheet.width) - trim.left - trim.right, Fraction(sheet.height) - trim.bottom - trim.top,
    )


def judge_pattern(problem: Problem, pattern: Pattern) -> Counter[int]:
    """How many of which piece come out of all sheets of the pattern."""
    pieces = pattern.pieces
    x0, y0, width, height = usable(pattern.sheet)
    placed = [rectangle(piece) for piece in pieces]
    demand(bool(placed), "a pattern without pieces")
    for x, y, w, h in placed:
        demand(x >= x0 and y >= y0 and x + w <= x0 + width and y + h <= y0 + height, "a piece sticks out")
    for at, one in enumerate(placed):
        demand(not any(overlap(one, other) for other in placed[at + 1 :]), "pieces overlap")
    demand(can_be_cut(placed), "no edge-to-edge cuts free the pieces")
    demand([piece.slot for piece in pieces] == list(range(len(pieces))), "slots are not in order")
    demand(pattern.times == sum(run.times for run in pattern.runs) and pattern.times > 0, "runs are not the sheets")
    made: Counter[int] = Counter()
    for run in pattern.runs:
        demand(len(run.pieces) == len(pieces) and run.times > 0, "a run has other slots than the pattern")
        for index, turned, block in zip(run.pieces, run.turned, pieces, strict=True):
            piece = problem.pieces[index]
            lies = (piece.height, piece.width) if turned else (piece.width, piece.height)
            demand(lies == (block.width, block.height), "a piece has another size")
            demand(piece.may_turn or not turned, "a piece is turned that may not be")
            made[index] += run.times
    judge_blocks(pattern.block, (Fraction(0), Fraction(0), Fraction(pattern.sheet.width), Fraction(pattern.sheet.height)))
    judge_cuts(pattern)
    return made


def judge_blocks(block: Block, box: Rectangle) -> None:
    """Every block fills its place, and its parts fill it."""
    demand(rectangle(block) == box, "a block is not where it should be")
    demand(block.width > 0 and block.height > 0, "a block without area")
    if block.what != "cut":
        demand(not block.parts, "an end has parts")
        return
    demand(len(block.parts) > 1, "a cut that parts nothing")
    x, y, width, height = box
    for part in block.parts:
        if block.axis == "x":
            judge_blocks(part, (x, y, Fraction(part.width), height))
            x += Fraction(part.width)
        else:
            judge_blocks(part, (x, y, width, Fraction(part.height)))
            y += Fraction(part.height)
    demand((x, y) in ((box[0] + width, box[1]), (box[0], box[1] + height)), "parts do not fill their block")


def judge_cuts(pattern: Pattern) -> None:
    """Replays the cuts on paper: what lies there at the end is what the pattern says."""
    there: Counter[tuple[Fraction, Fraction]] = Counter()
    there[(Fraction(pattern.sheet.width), Fraction(pattern.sheet.height))] = 1
    for number, cut in enumerate(pattern.cuts, 1):
        demand(cut.number == number, "cuts are not numbered")
        first = [other for other in pattern.cuts[: number - 1] if other.block == cut.block]
        taken = sum((Fraction(other.fence) * other.strips for other in first), Fraction(0))
        width, height = Fraction(cut.block.width), Fraction(cut.block.height)
        before = (width - taken, height) if cut.axis == "x" else (width, height - taken)
        demand(there[before] >= cut.alike, "a block is cut that is not there")
        there[before] -= cut.alike
        fence = Fraction(cut.fence)
        strip = (fence, height) if cut.axis == "x" else (width, fence)
        left = before[0 if cut.axis == "x" else 1] - fence * cut.strips
        demand(left >= 0, "the fence is set beyond the block")
        there[strip] += cut.alike * cut.strips
        if left:
            there[(left, height) if cut.axis == "x" else (width, left)] += cut.alike
        if cut.rest is not None:
            demand((left, height) == (cut.rest.width, cut.rest.height) if cut.axis == "x"
                   else (width, left) == (cut.rest.width, cut.rest.height), "the rest has another size")
    ends = Counter((Fraction(end.width), Fraction(end.height)) for end in pattern.block.ends())
    demand(+there == ends, "the cuts do not end in the pattern's pieces and offcuts")


def judge(problem: Problem, plan: CuttingPlan) -> None:
    """Raises Refused with the reason where the plan breaks a rule."""
    made: Counter[int] = Counter()
    used: Counter[Sheet] = Counter()
    for pattern in plan.patterns:
        made += judge_pattern(problem, pattern)
        used[pattern.sheet] += pattern.times
    missing = dict(plan.short)
    for misfit in plan.misfits:
        missing[misfit.index] = misfit.piece.count
        demand(misfit.short_width > 0 or misfit.short_height > 0, "a misfit that lacks nothing")
    for index, piece in enumerate(problem.pieces):
        demand(made[index] + missing.get(index, 0) == piece.count, f"{made[index]} of piece {index}, not {piece.count}")
    for sheet, count in used.items():
        demand(sheet.on_hand is None or count <= sheet.on_hand, "more offcuts than there are")
    new = sum(count for sheet, count in used.items() if sheet.on_hand is None)
    demand(new == plan.new_sheets, "new sheets are counted wrong")
    for each in plan.bought:
        if each.sheet.on_hand is None:
            demand(each.packs == -(-each.used // each.sheet.pack), "packs are not counted whole")
    if plan.least_sheets is not None:
        demand(plan.least_sheets <= new or bool(plan.short), "fewer sheets than the bound")
        demand(plan.proven == (plan.least_sheets == new and not plan.short), "proven without reason")
