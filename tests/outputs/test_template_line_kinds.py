"""Kinds of lines: patterns, widths, and the legend that names them."""

from fractions import Fraction
from xml.etree.ElementTree import Element

import pytest
from attrs import evolve

from outputs.template_pieces import drawn, ends, ladder_strip, notched_tag, piece, small_tab, windowed_sheet
from pastedown.outputs.pictures.kinds import IN_LEGEND, IN_SENTENCES, KINDS
from pastedown.outputs.template.line_kind import CUT, JOIN, MARK, MOUNTAIN, REGISTER, SLIT, VALLEY, LineKind
from pastedown.outputs.template.svg_text import decimal
from pastedown.plan.plan import FoldLine, PlanPoint
from pastedown.quantity.quantity import mm

# FMT-03, ISO 128-2 from memory: line widths in millimetres.
SERIES = {"0.13", "0.18", "0.25", "0.35", "0.5", "0.7", "1", "1.4", "2"}


def style(element: Element) -> tuple[str | None, str | None]:
    return element.get("stroke-width"), element.get("stroke-dasharray")


def fold_of_length(length: int, kind: str) -> Element:
    fold = FoldLine("crease", kind, PlanPoint(mm(0), mm(5)), PlanPoint(mm(length), mm(5)))
    (sheet,) = drawn(evolve(piece("card", mm(length), mm(10)), folds=(fold,)))
    (found,) = sheet.group(kind)
    return found


def test_folds_are_told_by_pattern_and_cuts_are_continuous() -> None:
    """FMT-01: valley dashed, mountain dashed and dotted (Yoshizawa 1954, Randlett 1961, by encyclopedia accounts)."""
    first, *_ = drawn(ladder_strip())
    assert {style(element) for element in first.group("cut")} == {("0.35", None)}
    (valley,) = {style(element) for element in first.group("valley")}
    (mountain,) = {style(element) for element in first.group("mountain")}
    assert (len(valley[1].split()), len(mountain[1].split())) == (2, 6)  # type: ignore[union-attr]


@pytest.mark.parametrize(
    ("kind", "widths"), [("valley", (12, 3)), ("mountain", (24, 3, 0.5, 3, 0.5, 3))], ids=["valley", "mountain"]
)
def test_patterns_are_counted_in_line_widths(kind: str, widths: tuple[float, ...]) -> None:
    """FMT-02: dashed 12d, 3d; long-dashed double-dotted 24d, 3d, 0.5d, 3d, 0.5d, 3d (ISO 128-2, from memory)."""
    element = fold_of_length(100, kind)
    width = float(element.get("stroke-width", ""))
    assert [float(dash) / width for dash in element.get("stroke-dasharray", "").split()] == list(widths)


def test_dots_have_round_ends_wherever_gaps_stay_open() -> None:
    """A dot of half a line width is hardly seen; with round ends it is three times as long, and the gaps stay open."""
    assert fold_of_length(100, "mountain").get("stroke-linecap") == "round"
    assert fold_of_length(100, "valley").get("stroke-linecap") is None
    assert fold_of_length(4, "mountain").get("stroke-linecap") is None


def test_every_stroke_has_a_width_of_the_series() -> None:
    """FMT-03: 0.13, 0.18, 0.25, 0.35, 0.5, 0.7, 1.0, 1.4, 2.0 mm (ISO 128-2, from memory)."""
    sheets = drawn(ladder_strip(), windowed_sheet(), small_tab())
    used = {element.get("stroke-width") for sheet in sheets for element in sheet.root.iter()} - {None}
    assert used <= SERIES
    assert len(used) > 3
    assert {decimal(kind.width) for kind in KINDS.values()} <= SERIES


@pytest.mark.parametrize(
    "legend",
    [
        [KINDS[name] for name in IN_LEGEND],
        [KINDS[name] for name in ("edge", "zone", "new")],
        [CUT, SLIT, VALLEY, MOUNTAIN, MARK, JOIN, REGISTER],
    ],
    ids=["pictures", "maps", "templates"],
)
def test_no_two_kinds_of_a_legend_look_alike(legend: list[LineKind]) -> None:
    """Black on white there is nothing but width and pattern; a short line keeps the shares of its pattern."""
    looks = {(kind.width, tuple(each / sum(kind.pattern) for each in kind.pattern)) for kind in legend}
    assert len(looks) == len(legend)
    assert len({words for name, words in IN_SENTENCES.items() if name in IN_LEGEND}) == len(IN_SENTENCES)


def test_folds_made_in_place_and_those_of_a_chart_differ_in_pattern_and_not_by_a_hair() -> None:
    shares = [kind.pattern[0] / sum(kind.pattern) for kind in (VALLEY, KINDS["crease"])]
    assert shares[0] - shares[1] > Fraction(1, 4)


@pytest.mark.parametrize("length", [4, 6, 10, 20])
def test_a_short_fold_never_looks_like_a_cut(length: int) -> None:
    """A mountain fold of 6 mm in the full pattern would be one lone dash."""
    for kind in ("valley", "mountain"):
        dashes = [float(dash) for dash in fold_of_length(length, kind).get("stroke-dasharray", "").split()]
        assert 2 * sum(dashes) + dashes[0] <= length + 0.01


def test_a_fold_of_no_length_to_speak_of_is_drawn_all_the_same() -> None:
    """Its dashes would all be nought, which is an error to some readers."""
    fold = FoldLine("speck", "mountain", PlanPoint(mm(0), mm(5)), PlanPoint(mm("1/500"), mm(5)))
    (sheet,) = drawn(evolve(piece("card", mm(20), mm(10)), folds=(fold,)))
    assert [style(element) for element in sheet.group("mountain")] == [("0.25", None)]


def test_patterns_shrink_and_never_grow() -> None:
    assert VALLEY.dashes(Fraction(1000)) == (Fraction(3), Fraction(3, 4))
    assert sum(MOUNTAIN.dashes(Fraction(23))) * 2 + MOUNTAIN.dashes(Fraction(23))[0] == 23


def test_the_legend_names_every_kind_beside_a_sample() -> None:
    (alone,) = drawn(notched_tag())
    samples = {style(element) for element in alone.group("legend")}
    assert samples == {
        ("0.35", None), ("0.7", None), ("0.25", "3 0.75"), ("0.25", "6 0.75 0.125 0.75 0.125 0.75"),
        ("0.18", "0.72 1.44"),
    }  # fmt: skip
    assert "edge of a panel that bends: drawn, not scored" in alone.words()
    named = [words for words in alone.words() if words.startswith(("cut", "slit", "valley fold", "mountain fold"))]
    assert len(named) == 5  # the four kinds, and "cut 6 pieces alike" on the tag
    assert not [words for words in alone.words() if "join" in words or "cross" in words]


def test_a_joined_sheet_explains_joins_and_crosses_too() -> None:
    for sheet in drawn(ladder_strip()):
        assert "join of two sheets" in sheet.words()
        assert "cross: laid on its twin" in sheet.words()
        assert ("0.25", "0.125 0.75") in {style(element) for element in sheet.group("legend")}
        assert ("0.18", None) in {style(element) for element in sheet.group("legend")}


def test_each_sample_stands_at_the_height_of_its_words() -> None:
    (sheet,) = drawn(notched_tag())
    for part, words in (("0.7", "slit: cut from end to end only"), ("0.35", "cut")):
        (sample,) = [element for element in sheet.group("legend") if style(element) == (part, None)]
        ((_, y), (end, _)) = ends(sample.get("d", ""))
        x, base = sheet.place_of(words)
        assert 0 < base - y < 1.5
        assert 0 < x - end < 5
