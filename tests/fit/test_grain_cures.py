"""Every cure of a piece across its grain, typed as it is told."""

import re

from hypothesis import given, settings
from hypothesis import strategies as st

from pastedown.compile import compile_design, mend
from pastedown.diagnostic import Diagnostic
from pastedown.mend.to_text import mend_text

sides = st.integers(min_value=10, max_value=60)
ALBUM = """edition = 1
album leaves "Leaves" {{
  ruler = millimetres to 1
  card = stock(kind: card, sheet: {one} mm x {other} mm, caliper: 0.3 mm, grain: {grain})
  piece leaf from card, height: {high} mm, width: {wide} mm, grain: height, against_grain: warn, loose: yes
  piece label from card, height: 10 mm, width: {label} mm, grain: height, against_grain: warn, loose: yes
}}
"""


def across(text: str, refused: bool = False) -> dict[str, Diagnostic]:
    """The warnings of pieces that lie across their grain, by the piece. What is `refused` may have become too small for
    another piece."""
    found = compile_design("leaves.album", text, lambda _: None, planned=False)
    assert refused or not found.refused
    return {each.sentence.split()[0]: each for each in found.diagnostics if each.id == "against-grain"}


@settings(max_examples=60, deadline=None)
@given(sides, sides, sides, sides, st.sampled_from(["long", "short"]), sides)
def test_what_is_told_cures_it_when_it_is_typed(high: int, wide: int, one: int, other: int, grain: str, label: int) -> None:
    if one == other or min(high, wide) > min(one, other) or max(high, wide) > max(one, other) or label > max(one, other):
        return
    text = ALBUM.format(one=one, other=other, grain=grain, high=high, wide=wide, label=label)
    for piece, told in across(text).items():
        for way in told.way_out.split("\n"):
            if found := re.match(r"Buy card .*: grain: (\w+) instead of (\w+), line 4; (.*)\.$", way):
                after = across(text.replace(f"grain: {found[2]})", f"grain: {found[1]})"))
                assert piece not in after
                lies = re.match(r"(?:but then|only) (\w+) lies across it", found[3])
                assert list(after) == ([lies[1]] if lies else [])
            elif found := re.match(
                r"Use sheets of (\d+) mm or more along the grain and (\d+) mm or more across it"
                r"(?:, and write grain: (\w+) instead of (\w+), line 4)?\.$", way
            ):
                along, beside, instead, before = found.groups()
                larger = text.replace(f"sheet: {one} mm x {other} mm", f"sheet: {along} mm x {beside} mm")
                if instead is not None:
                    larger = larger.replace(f"grain: {before})", f"grain: {instead})")
                elif along != beside:
                    assert (int(along) > int(beside)) == (grain == "long")
                assert piece not in across(larger, refused=True)
            elif found := re.match(r"Bring its (height|width) to (\d+) mm at most(?: and its (\w+) to (\d+) mm at most)?", way):
                line = next(each for each in text.split("\n") if f"piece {piece} " in each)
                new = line
                for name, most in (found.groups()[:2], found.groups()[2:]):
                    new = re.sub(rf"{name}: \d+ mm", f"{name}: {most} mm", new) if name else new
                assert piece not in across(text.replace(line, new))
            else:
                assert way.endswith("write grain: any.")
                line = next(each for each in text.split("\n") if f"piece {piece} " in each)
                assert piece not in across(text.replace(line, line.replace("grain: height", "grain: any")))


def test_mending_tells_of_warnings_and_their_cure() -> None:
    text = ALBUM.format(one=40, other=20, grain="short", high=30, wide=20, label=10)
    report, _ = mend("leaves.album", text, lambda _: None)
    assert report is not None
    told = " ".join(mend_text(report).split())
    assert "There is nothing to mend. 1 warning is left for you to weigh: leaf " in told
    assert "grain: long instead of short, line 4; all 2 pieces of it lie along their grain then." in told
