"""Cuts told in words, so that a piece can be cut without its template."""

import pytest

from pastedown.plan.cut_words import plan_cuts
from pastedown.plan.plan import PlanCut
from pastedown.quantity.quantity import mm
from pastedown.quantity.ruler import Ruler, Show
from pastedown.quantity.write import write_text
from reference.through_the_compiler import piece

RULER = Ruler(mm(1), Show.METRIC)


def cut_of(text: str) -> PlanCut:
    body = "card = stock(kind: card, sheet: 300 mm x 300 mm, grain: marked)\n"
    leaf = piece(body + f"piece leaf from card, height: 100 mm, width: 60 mm, right: fore_edge {{ {text} }}", "leaf")
    (found,) = plan_cuts(leaf)
    return found


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("head = notch(width: 20 mm, depth: 5 mm, at: 15 mm)",
         "notch in the head, 20 mm wide and 5 mm deep, its middle 15 mm from the left edge"),
        ("left = notch(width: 20 mm, depth: 5 mm)",
         "notch in the left edge, 20 mm wide and 5 mm deep, its middle 50 mm from the tail"),
        ("fore_edge = thumb_notch(width: 20 mm, at: 30 mm)",
         "thumb notch in the fore edge, 20 mm wide and 10 mm deep, ending in a half round, "
         "its middle 30 mm from the tail"),
        ("head_left = mitre(10 mm)", "corner of head and left edge cut off slantwise, 10 mm along either edge"),
        ("tail_fore_edge = mitre(10 mm, along_height: 20 mm)",
         "corner of tail and fore edge cut off slantwise, 10 mm along the tail and 20 mm along the fore edge"),
        ("head_right = round(5 mm)", "corner of head and fore edge rounded to a radius of 5 mm"),
        ("head = taper(5 mm)", "taper to the head, which is 5 mm shorter at each end"),
        ("view = window(height: 40 mm, width: 30 mm, from_tail: 10 mm)",
         "window view, 40 mm high and 30 mm wide, 15 mm from the left edge and 10 mm from the tail"),
        ("view = window(height: 40 mm, width: 30 mm, radius: 2 mm)",
         "window view, 40 mm high and 30 mm wide, 15 mm from the left edge and 30 mm from the tail, "
         "its corners rounded to a radius of 2 mm"),
        ("tongue = slit(20 mm, along: width)",
         "slit tongue, 20 mm long from side to side, begun 20 mm from the left edge and 50 mm from the tail"),
        ("tongue = slit(20 mm, along: height, from_left: 5 mm)",
         "slit tongue, 20 mm long from tail to head, begun 5 mm from the left edge and 40 mm from the tail"),
    ],
)  # fmt: skip
def test_kind_size_and_place_are_said(text: str, words: str) -> None:
    assert write_text(cut_of(text).text, RULER) == words
