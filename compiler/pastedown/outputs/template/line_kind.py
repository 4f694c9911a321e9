"""Kinds of lines, told apart by pattern and weight and never by colour.

Cut edges are continuous, valley folds dashed, mountain folds dashed and double-dotted: the open convention of paper
folding that goes back to Yoshizawa (1954) and Randlett (1961). Widths are of the series of ISO 128-2, in which
neighbours are a square root of two apart; patterns are its dashed line, its long-dashed double-dotted line and its
dotted line, whose elements are counted in line widths (both from memory).
"""

from fractions import Fraction

from attrs import frozen

_DASH = (Fraction(12), Fraction(3))
_LONG_DASH_TWO_DOTS = (Fraction(24), Fraction(3), Fraction(1, 2), Fraction(3), Fraction(1, 2), Fraction(3))
_SHORT_DASH = (Fraction(4), Fraction(8))
_DOT = (Fraction(1, 2), Fraction(3))

# A pattern is read as one only if it comes round this often; a shorter line gets shorter elements instead.
_PERIODS_TO_READ = 2


@frozen
class LineKind:
    """`width` in millimetres; `pattern` in line widths, drawn and left out by turns, empty for a continuous line."""

    name: str
    words: str
    width: Fraction
    pattern: tuple[Fraction, ...] = ()

    def dashes(self, length: Fraction) -> tuple[Fraction, ...]:
        """The pattern in millimetres for a line so long. On a short line it is shrunk, so that a fold of a small tab is
        never one lone dash, which would be read as a cut: it then shows two periods and ends as it began, in a dash."""
        if not self.pattern:
            return ()
        widths = sum(self.pattern) * _PERIODS_TO_READ + self.pattern[0]
        scale = min(self.width, length / widths)
        return tuple(element * scale for element in self.pattern)


CUT = LineKind("cut", "cut", Fraction("0.35"))
SLIT = LineKind("slit", "slit: cut from end to end only", Fraction("0.7"))
VALLEY = LineKind("valley", "valley fold: comes up; score it from behind", Fraction("0.25"), _DASH)
MOUNTAIN = LineKind(
    "mountain", "mountain fold: goes down; score on this side", Fraction("0.25"), _LONG_DASH_TWO_DOTS
)
MARK = LineKind("not scored", "edge of a panel that bends: drawn, not scored", Fraction("0.18"), _SHORT_DASH)
JOIN = LineKind("join", "join of two sheets", Fraction("0.25"), _DOT)
REGISTER = LineKind("register", "cross: laid on its twin", Fraction("0.18"))
THIN = LineKind("thin", "", Fraction("0.25"))
FINE = LineKind("fine", "", Fraction("0.13"))

FOLD_KINDS = {"valley": VALLEY, "mountain": MOUNTAIN, "mark": MARK}
