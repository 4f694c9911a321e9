"""The kinds of lines of pictures in space: black on white, told apart by weight, pattern and hatching."""

from fractions import Fraction

from pastedown.outputs.template.line_kind import FINE, MARK, MOUNTAIN, THIN, VALLEY, LineKind

EDGE = LineKind("edge", "edge of paper or board", Fraction("0.25"))
NEW = LineKind("new", "new in this step or moving: heavy and hatched", Fraction("0.5"))
HATCH = LineKind("hatch", "", Fraction("0.13"))
GUIDE = LineKind("guide", "where it goes", Fraction("0.18"), (Fraction(2), Fraction(6)))
# The dashed spaced line of ISO 128-2, from memory: a valley fold has its dashes close together.
CREASE = LineKind("crease", "crease made in place", VALLEY.width, (Fraction(12), Fraction(18)))
CREASED = LineKind("creased", "crease made in this step", NEW.width, VALLEY.pattern)
ARROW = LineKind("arrow", "way it moves", Fraction("0.35"))
GRAIN = LineKind("grain", "the way the grain runs", Fraction("0.18"))
STICKY = LineKind("sticky", "tape, laid before", Fraction("0.35"), (Fraction(3), Fraction(2)))
BEHIND = LineKind("behind", "the same, behind the paper", ARROW.width, (Fraction(4), Fraction(3)))
HEAD = LineKind("head", "", Fraction("0.18"))
ZONE = LineKind("zone", "", FINE.width)
SIZE = LineKind("size", "", Fraction("0.18"))
LEADER = LineKind("leader", "", FINE.width)
FRAME = LineKind("frame", "", FINE.width)

KINDS = {
    "edge": EDGE, "new": NEW, "hatch": HATCH, "guide": GUIDE, "valley": VALLEY, "mountain": MOUNTAIN, "mark": MARK,
    "frame": FRAME, "crease": CREASE, "creased": CREASED, "arrow": ARROW, "behind": BEHIND,
    "head": HEAD, "grain": GRAIN, "sticky": STICKY, "size": SIZE, "leader": LEADER, "section": THIN, "zone": ZONE,
}  # fmt: skip
IN_LEGEND = (
    "edge", "new", "valley", "mountain", "mark", "crease", "creased", "guide", "sticky", "arrow", "behind", "grain",
)  # fmt: skip

# The legend in sentences, for outputs that are read as running text.
IN_SENTENCES = {
    "new": "What is new in this step, or moves, is drawn heavy and hatched.",
    "valley": "Dashes close together are valley folds: both sides come up.",
    "mountain": "Dashes with two dots between them are mountain folds: both sides go down.",
    "mark": "Short dashes are drawn and not scored: there a panel bends.",
    "crease": "Dashes far apart are creases made in place.",
    "creased": "Heavy dashes are the crease that is made in this step.",
    "guide": "Dots lead to where it goes, or outline that place.",
    "sticky": "Where tape lies is hatched with dashes, and named.",
    "grain": "The arrow with two heads lies along the grain.",
    "arrow": "The arrow shows which way it moves.",
    "behind": "Where an arrow runs behind the paper, it is dashed and its head hollow.",
}
