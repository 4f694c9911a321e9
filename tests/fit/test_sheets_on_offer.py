"""Sheets that cannot be: nothing left within the raw edges, another size that is another paper, a price below nought."""

import pytest

from pastedown.compile import compile_design
from pastedown.diagnostic import Severity

TEXT = """\
edition = 1
large = stock(kind: {kind}, sheet: 18 in x 24 in, caliper: {caliper}, grain: long, trim: {large_trim})
album card "One card" {{
  kraft = stock(kind: card, sheet: 12 in x 12 in, caliper: 12 pt, grain: long, trim: {trim}, price: {price},
    also: [large])
  piece leaf from kraft, height: 8 in, width: 4 in
}}
"""


def told(**changes: str) -> list[str]:
    sound = {"kind": "card", "caliper": "12 pt", "trim": "1/8 in", "large_trim": "1/4 in", "price": "9.00 EUR"}
    text = TEXT.format(**{**sound, **changes})
    found = compile_design("card.album", text, lambda _: None).diagnostics
    return [each.id for each in found if each.severity is Severity.ERROR]


def test_sound_sheets_pass() -> None:
    assert told() == []


@pytest.mark.parametrize(
    ("changes", "id"),
    [
        ({"trim": "6 in"}, "nothing-within-raw-edges"),
        ({"large_trim": "9 in"}, "nothing-within-raw-edges"),
        ({"kind": "board"}, "other-size-is-other-stock"),
        ({"caliper": "11 pt"}, "other-size-is-other-stock"),
        ({"price": "-9.00 EUR"}, "out-of-range"),
    ],
    ids=str,
)
def test_what_cannot_be_is_an_error(changes: dict[str, str], id: str) -> None:
    assert told(**changes) == [id]


def test_a_hair_less_trim_leaves_something() -> None:
    assert told(large_trim="8 in") == []


@pytest.mark.parametrize(("grain", "offcut", "sound"), [
    ("long", "18 in x 12 in", True), ("long", "12 in x 18 in", False), ("short", "12 in x 18 in", True),
    ("marked", "12 in x 18 in", True), ("none", "12 in x 18 in", True), ("long", "20 in x 12 in", False),
    ("long", "24 in x 14 in", False), ("long, also: [stock(kind: card, sheet: 24 in x 18 in, grain: long)]",
     "24 in x 14 in", True),
])  # fmt: skip
def test_an_offcut_is_no_larger_than_a_sheet_with_its_grain(grain: str, offcut: str, sound: bool) -> None:
    text = f"""\
edition = 1
album card "One card" {{
  kraft = stock(kind: card, sheet: 12 in x 18 in, trim: 1/8 in, offcuts: [{offcut}, {offcut}], grain: {grain})
  piece leaf from kraft, height: 8 in, width: 4 in
}}
"""
    found = [each for each in compile_design("card.album", text, lambda _: None).diagnostics]
    assert [each.id for each in found] == ([] if sound else ["offcut-larger-than-sheet"])
    assert sound or all(side in found[0].sentence for side in (*offcut.split(" x "), "12 in by 18 in"))
    assert sound or (found[0].span is not None and found[0].span.line == 3)
