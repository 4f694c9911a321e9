"""A small plan made by hand: a concertina hinge strip of three peaks, six page sheets, a tag with round corners."""

from collections.abc import Sequence
from fractions import Fraction

from attrs import evolve

from pastedown.plan.ledger import Bulk, RoomLeft, Shut, StackBulk, ThickPartTold, ThickPlace
from pastedown.plan.material import Material
from pastedown.plan.plan import (
    Bond,
    BuildStep,
    CutPiece,
    Fact,
    FoldLine,
    Margin,
    Mark,
    PartOfAlbum,
    Plan,
    PlanArc,
    PlanCut,
    PlanLine,
    PlanPath,
    PlanPoint,
    Reading,
    SaferNumber,
    ScoreChart,
    Verdict,
)
from pastedown.quantity.dimension import GRAMMAGE
from pastedown.quantity.quantity import NO_LENGTH, Length, Quantity, inches, money, number
from pastedown.quantity.ruler import INCH_RULER, Ruler, Show

BOTH_RULER = Ruler(inches("1/16"), Show.BOTH)
PEAK_KINDS = ("valley", "mountain", "valley")


def point(x: Length, y: Length) -> PlanPoint:
    return PlanPoint(x, y)


def rectangle(height: Length, width: Length) -> PlanPath:
    corners = ((width, NO_LENGTH), (width, height), (NO_LENGTH, height), (NO_LENGTH, NO_LENGTH))
    return PlanPath("outline", point(NO_LENGTH, NO_LENGTH), tuple(PlanLine(point(x, y)) for x, y in corners), True)


def ladder(
    axis: str, edges: tuple[str, str], panels: Sequence[tuple[str, Length]], folds: Sequence[tuple[str, str]]
) -> ScoreChart:
    """The chart that a run of these panels gives; `folds` are names and kinds."""
    side = sum((size for _, size in panels), NO_LENGTH)
    marks, at = [], NO_LENGTH
    for (name, kind), (_, gap) in zip(folds, panels, strict=False):
        at = at + gap
        marks.append(Mark(name, kind, at, side - at, gap))
    return ScoreChart(axis, edges[0], edges[1], tuple(marks), tuple(panels), side, panels[-1][1])


def hinge_strip() -> CutPiece:
    rise, gusset, wing = inches("5/8"), inches("3/8"), inches("17/8")
    panels = [("front wing", wing)]
    for peak in (1, 2, 3):
        panels += [(f"rise {peak}", rise), (f"fall {peak}", rise), (f"gusset {peak}", gusset)]
    panels[-1] = ("back wing", wing)
    names = [(f"{name} {peak}", kind) for peak in (1, 2, 3) for name, kind in zip("abc", PEAK_KINDS, strict=True)]
    chart = ladder("width", ("front end", "back end"), panels, names)
    height = inches("27/4")
    folds = tuple(
        FoldLine(mark.name, mark.kind, point(mark.from_first, NO_LENGTH), point(mark.from_first, height))
        for mark in chart.marks
    )
    return CutPiece(
        id="strip", name="hinge strip", doc="carries the pages", paths=("hinge.strip",), count=1, stock="kraft card",
        stock_kind="card", height=height, width=chart.side, left="front end", right="back end", grain="height",
        face_up="outside", outline=rectangle(height, chart.side), inner_cuts=(), folds=folds, score_charts=(chart,),
    )  # fmt: skip


def page_sheet() -> CutPiece:
    height, width, seam = inches("15/2"), inches("11/2"), inches("1/2")
    chart = ladder("height", ("tail", "head"), [("flap", seam), ("body", inches(7))], [("seam fold", "mountain")])
    return CutPiece(
        id="page-sheet", name="page sheet", doc="", paths=tuple(f"page[{n}].sheet" for n in range(1, 7)), count=6,
        stock="kraft card", stock_kind="card", height=height, width=width, left="spine", right="fore edge",
        grain="height", face_up="decorated side", outline=rectangle(height, width), inner_cuts=(),
        folds=(FoldLine("seam fold", "mountain", point(NO_LENGTH, seam), point(width, seam)),), score_charts=(chart,),
    )  # fmt: skip


def tag() -> CutPiece:
    height, width, leg = inches("13/2"), inches("19/4"), inches("1/4")
    outline = PlanPath(
        "outline",
        point(NO_LENGTH, NO_LENGTH),
        (
            PlanLine(point(width, NO_LENGTH)),
            PlanLine(point(width, height - leg)),
            PlanArc(point(width - leg, height), point(width - leg, height - leg), leg, False),
            PlanLine(point(NO_LENGTH, height)),
            PlanLine(point(NO_LENGTH, NO_LENGTH)),
        ),
        True,
    )
    words = ("corner of head and right edge rounded to a radius of ", leg)
    corner = PlanCut("round", "", ("head", "right"), (("radius", leg),), words)
    slit = PlanPath("ribbon slit", point(leg, leg), (PlanLine(point(width - leg, leg)),), False)
    return CutPiece(
        id="tag", name="tag", doc="", paths=("tag[1]", "tag[2]"), count=2, stock="white paper", stock_kind="paper",
        height=height, width=width, left="left", right="right", grain="any", face_up="either side", outline=outline,
        inner_cuts=(slit,), folds=(), score_charts=(), cuts=(corner,),
    )  # fmt: skip


def steps() -> tuple[BuildStep, ...]:
    made_up = Reading(inches("5.084"), inches(5), inches("41/8"))
    return (
        BuildStep(1, "cut", ("Cut the page sheets",), ("Cut 6 page sheets ", inches("15/2"), " high and ",
                  inches("11/2"), " wide."), 6, ("page-sheet",), None, (), (), ("page[1].sheet",)),
        BuildStep(2, "check", ("Read the strip",), ("Hold the strip shut and measure across its foot.",), 1, ("strip",),
                  made_up, (("Press each peak with a bone folder.",),),
                  (("A strip that reads more than ", inches("41/8"), " does not fit.",),), ("hinge.made_up",)),
    )  # fmt: skip


def materials() -> tuple[Material, ...]:
    card_area = inches("27/4") * inches("35/4") + inches("15/2") * inches("11/2") * 6
    weight = Quantity(inches(1).value / inches(1).value * 216 / 1_000_000, GRAMMAGE)
    return (
        Material("kraft card", "card", (inches(12), " x ", inches(12)), inches("0.012"), weight, "long", 7, card_area,
                 3, money("4.20", "EUR"), 2, (number(7), " pieces"), card_area * weight),
        Material("magnets", "magnet", (inches("3/8"),), None, None, "none", 4, number(4), None, money(3, "EUR"), 10),
        Material("narrow tape", "tape", (inches("1/4"), " wide"), None, None, "none", 0, inches("174.75"), None, None,
                 1),
        Material("white paper", "paper", (), None, None, "unknown", 2, inches("13/2") * inches("19/4") * 2, 1,
                 money(2, "USD"), 1, ("2 pieces",)),
    )  # fmt: skip


def margins() -> tuple[Margin, ...]:
    because = ("With ", inches("0.089"), " to spare the strip may jam.")
    errors = (("page[1].sheet, cut to its height", inches("1/32")), ("strip, cut to its height", -inches("1/32")),
              ("page[1].sheet, fold seam_fold", inches("1/64")))  # fmt: skip
    safer = SaferNumber("hinge.height", inches("55/8"), inches("27/4"), Fraction("4.5652"))
    return (
        Margin("hinge.goes_in", ("hinge.goes_in", "hinge.goes_in[2]"), "made_clearance >= 0 in", True, inches("0.089"),
               inches("7/64"), inches("3/64"), Fraction("1.8987"), 1000, 2, 560, errors, safer, because),
        Margin("hinge.near", ("hinge.near",), "its.height <= 2 * room", False, inches(1), inches("1/32"),
               inches("1/32"), Fraction(32), None, 1, None, (("strip, cut to its height", -inches("1/32")),), None, because),
    )  # fmt: skip


def bulk() -> Bulk:
    place = ThickPlace(inches(0), inches("5/8"), inches(0), inches(7), inches("0.06"),
                       (("hinge.strip", inches("0.024")), ("mount", inches("0.008"))))  # fmt: skip
    return Bulk(
        (ThickPartTold(("page[1]", "page[2]"), inches("0.04"), inches("0.398"), (place,), ("page[1].note",), ("hinge",), ("page[2].slip",)),),
        (StackBulk("stack", "thickness(page, hinge)", 2, False, inches("1.592"), (place, place)),),
        (RoomLeft("shut.shuts", inches("1.592"), inches("1.34"), inches("-0.252"), 2, inches("-0.126"), False,
                  ("The spine is ", inches("3/2")), ("It stands proud.",), (("make it ", inches("15/8")),)),),
        (Shut("closed", "case.front", "case.back", inches("1.34"), inches("1.59"), inches("0.2"), inches("0.3"),
              inches("0.29"), inches("1.04"), 2, inches("0.52"), (place,), ("page[2].slip",), ("note",),
              inches("0.012"), ("glue",)),),
    )  # fmt: skip


def sample_plan(ruler: Ruler = INCH_RULER) -> Plan:
    return Plan(
        name="lantern",
        title="A lantern album",
        doc=("Three pages, each ", inches(7), " high."),
        ruler=ruler,
        parts=(PartOfAlbum("", "lantern", ""), PartOfAlbum("hinge", "concertina_hinge", "A folded strip.")),
        pieces=(hinge_strip(), page_sheet(), tag()),
        steps=steps(),
        materials=materials(),
        bonds=(Bond("mount", "join", "page[1].mouth", "hinge.peak[1]", (("spine", "crest", inches("1/8")),), "tape",
                    "narrow tape", True),),
        facts=(
            Fact("hinge.closed", True, "derived", ""),
            Fact("hinge.colour", "grey", "chosen", "of the card"),
            Fact("hinge.made_up", inches("5.084"), "derived", ""),
            Fact("hinge.peaks", number(3), "chosen", "how many pages it carries"),
            Fact("price_of_tape", money(1, "EUR") / inches(1), "stock", ""),
        ),
        margins=margins(),
        bulk=bulk(),
        verdicts=(Verdict("hinge.fits", inches("27/4"), "<=", inches(7), True, ("The strip slides into the page.",)),),
    )  # fmt: skip


def with_words(words: str) -> Plan:
    """The sample with `words` of a stranger's in every place that takes a text."""
    plan = sample_plan()
    text = (words, inches(1))
    return evolve(
        plan,
        title=words,
        doc=text,
        parts=tuple(evolve(part, doc=words) for part in plan.parts),
        pieces=tuple(
            evolve(piece, name=words, doc=words, stock=words, left=words, right=words, face_up=words)
            for piece in plan.pieces
        ),
        steps=tuple(evolve(step, title=text, text=text, tips=(text,), cautions=(text,)) for step in plan.steps),
        materials=tuple(evolve(material, stock=words, size=text) for material in plan.materials),
        facts=tuple(evolve(fact, doc=words) for fact in plan.facts),
        verdicts=tuple(evolve(verdict, because=text) for verdict in plan.verdicts),
        bulk=evolve(
            plan.bulk,
            parts=tuple(evolve(part, paths=(words,), unplaced=(words,)) for part in plan.bulk.parts),
            stacks=tuple(evolve(stack, path=words, words=words) for stack in plan.bulk.stacks),
            rooms=tuple(
                evolve(room, path=words, because=text, meant=text, ways=(text,)) for room in plan.bulk.rooms
            ),
        ),
        margins=tuple(
            evolve(margin, path=words, words=words, errors=((words, inches(1)),), because=text) for margin in plan.margins
        ),
    )
