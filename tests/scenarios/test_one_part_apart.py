"""One piece of a good album is made another size than its fellows: what then no longer goes together is told."""

from functools import cache
from pathlib import Path

import pytest

from pastedown.compile import Compiled, compile_design
from pastedown.diagnostic import Diagnostic, Severity

HARBOUR_WALK = (Path(__file__).parents[2] / "examples" / "harbour_walk.album").read_text()
# Pages of 6 3/4 by 9 1/2 in between covers of 7 by 9 3/4 in.
PLACE = "  part front_liner ="


@cache
def compiled(*lines: str) -> Compiled:
    text = HARBOUR_WALK.replace(PLACE, "".join(f"  {line}\n" for line in lines) + PLACE, 1)
    assert PLACE in HARBOUR_WALK
    return compile_design("one_part_apart.album", text, lambda _: None, planned=False)


def errors(*lines: str) -> list[Diagnostic]:
    return [each for each in compiled(*lines).diagnostics if each.severity is Severity.ERROR]


def test_the_album_itself_is_good() -> None:
    assert not errors()


@pytest.mark.parametrize("cover", ["front", "back"])
@pytest.mark.parametrize(("side", "made", "apart"), [("height", "6 1/2 in", "1/2 in"), ("width", "9 1/4 in", "1/2 in")])
def test_a_cover_smaller_than_the_page_is_told_on_either_side(cover: str, side: str, made: str, apart: str) -> None:
    told = errors(f"case.{cover}_cover.{side} = {made}", "case.read_case = nothing")
    assert any("case.covers_match" in each.sentence for each in told)
    assert any(f"one cover stands {apart} beyond the other" in each.reason for each in told)
    # Unlike covers may be meant; a page that stands out may not.
    meant = errors(f"case.{cover}_cover.{side} = {made}", "case.read_case = nothing", "case.covers_match = meant")
    stays = "borders.stays_inside_fore_edge" if side == "width" else "borders.stays_inside "
    assert [each.sentence for each in meant if stays in each.sentence], meant


def test_covers_an_eighth_apart_are_alike_enough() -> None:
    assert not errors("case.back_cover.height = 6 7/8 in")
