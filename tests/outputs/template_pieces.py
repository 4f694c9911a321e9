"""Pieces made by hand for the templates, and the drawings read back: every length in millimetres of the sheet."""

import xml.etree.ElementTree as ElementTree
from fractions import Fraction
from re import findall

from attrs import evolve, frozen

from outputs.sample_plan import sample_plan
from pastedown.outputs.to_template_svg import make
from pastedown.plan.plan import CutPiece, FoldLine, Plan, PlanArc, PlanLine, PlanPath, PlanPoint
from pastedown.quantity.quantity import Length, inches, mm
from pastedown.quantity.ruler import INCH_RULER, Ruler, Show

METRIC_RULER = Ruler(mm(1), Show.METRIC)
SVG = "{http://www.w3.org/2000/svg}"


def at(x: Fraction | int | str, y: Fraction | int | str) -> PlanPoint:
    """A point in inches."""
    return PlanPoint(inches(x), inches(y))


def chain(name: str, *corners: tuple[Length, Length], closed: bool = True) -> PlanPath:
    first, *rest = (PlanPoint(x, y) for x, y in corners)
    return PlanPath(name, first, tuple(map(PlanLine, rest)), closed)


def rectangle(width: Length, height: Length, x: Length | None = None, y: Length | None = None) -> PlanPath:
    left, tail = x or mm(0), y or mm(0)
    right, head = left + width, tail + height
    return chain("outline", (left, tail), (right, tail), (right, head), (left, head))


def piece(name: str, width: Length, height: Length, outline: PlanPath | None = None) -> CutPiece:
    """A plain piece; what else it has is set with `evolve`."""
    return CutPiece(
        id=name.replace(" ", "-"), name=name, doc="", paths=(name,), count=1, stock="kraft card", stock_kind="card",
        height=height, width=width, left="spine", right="fore edge", grain="height", face_up="decorated side",
        outline=outline or rectangle(width, height), inner_cuts=(), folds=(), score_charts=(),
    )  # fmt: skip


def ladder_strip() -> CutPiece:
    """A hinge strip of four peaks, 11 by 6 3/4 in: twelve folds."""
    width, height, x = inches(11), inches("27/4"), inches("5/4")
    folds = []
    lines = (("front foot", "valley", "5/8"), ("crest", "mountain", "5/8"), ("back foot", "valley", "3/8"))
    for peak in range(1, 5):
        for name, kind, gap in lines:
            folds.append(FoldLine(f"{name} {peak}", kind, PlanPoint(x, mm(0)), PlanPoint(x, height)))
            x = x + inches(gap)
    return evolve(piece("hinge strip", width, height), folds=tuple(folds), left="front end", right="back end")


def notched_tag() -> CutPiece:
    """A tag 1 1/2 in wide and 3 in high: round corners of 1/4 in, and a half round notch 3/4 in wide at the head."""
    corner, notch, width, height = Fraction(1, 4), Fraction(3, 8), Fraction(3, 2), Fraction(3)
    moves = (
        PlanLine(at(width - corner, 0)),
        PlanArc(at(width, corner), at(width - corner, corner), inches(corner), False),
        PlanLine(at(width, height - corner)),
        PlanArc(at(width - corner, height), at(width - corner, height - corner), inches(corner), False),
        PlanLine(at(width / 2 + notch, height)),
        PlanArc(at(width / 2 - notch, height), at(width / 2, height), inches(notch), True),
        PlanLine(at(corner, height)),
        PlanArc(at(0, height - corner), at(corner, height - corner), inches(corner), False),
        PlanLine(at(0, corner)),
        PlanArc(at(corner, 0), at(corner, corner), inches(corner), False),
    )
    outline = PlanPath("outline", at(corner, 0), moves, True)
    return evolve(piece("tag", inches(width), inches(height), outline), left="left", right="right", count=6)


def mitred_wrap() -> CutPiece:
    """A cover wrap of 9 1/2 by 7 1/2 in with mitred corners and turn-ins of 3/4 in."""
    w, h, t = inches("19/2"), inches("15/2"), inches("3/4")
    outline = chain(
        "outline", (t, mm(0)), (w - t, mm(0)), (w, t), (w, h - t), (w - t, h), (t, h), (mm(0), h - t), (mm(0), t)
    )
    folds = (
        FoldLine("turn in head", "valley", PlanPoint(mm(0), h - t), PlanPoint(w, h - t)),
        FoldLine("turn in tail", "valley", PlanPoint(mm(0), t), PlanPoint(w, t)),
        FoldLine("turn in spine", "valley", PlanPoint(t, mm(0)), PlanPoint(t, h)),
        FoldLine("turn in fore edge", "valley", PlanPoint(w - t, mm(0)), PlanPoint(w - t, h)),
    )
    return evolve(piece("cover wrap", w, h, outline), folds=folds, count=2)


def windowed_sheet() -> CutPiece:
    """A page sheet with a window of 4 by 3 in, a slit and a seam."""
    window = evolve(rectangle(inches(4), inches(3), inches(1), inches("5/2")), name="photo window")
    slit = chain("strap slit", (inches(2), inches("1/2")), (inches(4), inches("1/2")), closed=False)
    seam = FoldLine("seam fold", "mountain", at(0, 7), at(6, 7))
    sheet = piece("front sheet", inches(6), inches("15/2"))
    return evolve(sheet, inner_cuts=(window, slit), folds=(seam,), grain="any", count=6)


def small_tab() -> CutPiece:
    """A tab of 1/2 by 3/8 in, too small for almost any word."""
    fold = FoldLine("tab fold", "mountain", at("1/8", 0), at("1/8", "3/8"))
    return evolve(piece("tab", inches("1/2"), inches("3/8")), folds=(fold,), grain="width", face_up="")


def disc() -> CutPiece:
    """A disc 10 in across with a hole 2 in across in its middle; each is one arc that goes all round."""
    rim = PlanPath("outline", at(0, 5), (PlanArc(at(0, 5), at(5, 5), inches(5), True),), True)
    hole = PlanPath("hole", at(4, 5), (PlanArc(at(4, 5), at(5, 5), inches(1), False),), True)
    return evolve(piece("disc", inches(10), inches(10), rim), inner_cuts=(hole,))


def plan_of(*pieces: CutPiece, ruler: Ruler = INCH_RULER) -> Plan:
    return evolve(sample_plan(ruler), title="House album", pieces=pieces)


@frozen
class Drawn:
    """One drawing read back, with the tree of its XML."""

    name: str
    text: str

    @property
    def root(self) -> ElementTree.Element:
        return ElementTree.fromstring(self.text)

    def group(self, part: str) -> list[ElementTree.Element]:
        """The elements of one group, none if there is no such group."""
        return [element for group in self.root.iter(f"{SVG}g") if group.get("id") == part for element in group]

    def paths(self, part: str) -> list[str]:
        return [element.get("d", "") for element in self.group(part) if element.tag == f"{SVG}path"]

    def words(self) -> list[str]:
        return [element.text or "" for element in self.group("words")]

    def place_of(self, words: str) -> tuple[float, float]:
        (found,) = [element for element in self.group("words") if element.text == words]
        return float(found.get("x", "")), float(found.get("y", ""))


def drawn(*pieces: CutPiece, ruler: Ruler = INCH_RULER) -> list[Drawn]:
    """The drawings of the pieces, in order."""
    return [Drawn(name, made.decode()) for name, made in make(plan_of(*pieces, ruler=ruler)).items()]


def ends(path: str) -> list[tuple[float, float]]:
    """The spots a path goes through, by the last two numbers of each of its moves."""
    numbers = [[float(n) for n in findall(r"-?\d+(?:\.\d+)?", move)] for move in findall(r"[MLA][^MLAZ]*", path)]
    return [(move[-2], move[-1]) for move in numbers]


def span_of(paths: list[str]) -> tuple[float, float]:
    """Width and height of the box about straight paths."""
    spots = [place for path in paths for place in ends(path)]
    across, down = [x for x, _ in spots], [y for _, y in spots]
    return max(across) - min(across), max(down) - min(down)


EVERY_PIECE = (ladder_strip(), notched_tag(), mitred_wrap(), windowed_sheet(), small_tab(), disc(),
               evolve(piece("front board", inches(8), inches(11)), count=2))  # fmt: skip
