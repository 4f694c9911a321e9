"""The margins, read back from each format."""

import csv
import json
from fractions import Fraction
from io import StringIO

from attrs import evolve

from outputs.sample_plan import BOTH_RULER, sample_plan
from pastedown.outputs.to_margins import make


def text() -> str:
    return make(sample_plan())["margins.txt"].decode()


def test_every_requirement_has_a_row_and_what_it_hangs_on() -> None:
    shown = text()
    assert "   1  hinge.goes_in  0.089 in  7/64 in  3/64 in    1.9    1000    560" in shown
    assert "   2  hinge.near         1 in  1/32 in  1/32 in     32   never  never" in shown
    assert "One in about 1000 fails; of 2 such things in an album, one album in about 560 has one that does." in " ".join(
        shown.split()
    )
    assert "2. hinge.near: its.height <= 2 * room (only preferred)" in shown
    words = " ".join(shown.split())
    assert "page[1].sheet, cut to its height 1/32 in; strip, cut to its height 1/32 in;" in words
    assert "Safer: hinge.height 6 3/4 in instead of 6 7/8 in. Score then 4.57." in words
    assert "The same goes for 1 more." in words
    assert "With 0.089 in to spare the strip may jam." in words


def test_the_table_has_every_number_in_both_units() -> None:
    rows = list(csv.DictReader(StringIO(make(sample_plan())["margins.csv"].decode(), newline="")))
    assert [row["requirement"] for row in rows] == ["hinge.goes_in", "hinge.near"]
    first, second = rows
    assert (first["rank"], first["strict"], second["strict"]) == ("1", "yes", "no")
    assert (first["margin in"], first["worst case in"], first["root-sum-square in"]) == ("0.089", "0.109375", "0.046875")
    assert first["margin mm"] == "2.2606"
    assert (first["score"], first["score after the change"], second["fails once in"]) == ("1.8987", "4.5652", "never")
    assert (first["things"], first["album fails once in"]) == ("2", "560")


def test_the_json_keeps_signs_and_exact_values() -> None:
    made = json.loads(make(sample_plan(BOTH_RULER))["margins.json"])
    assert made["format"] == "pastedown-margins"
    first = made["margins"][0]
    assert [Fraction(each["amount"]["exact_mm"]) for each in first["errors"]] == [
        Fraction(127, 160), -Fraction(127, 160), Fraction(127, 320),
    ]  # fmt: skip
    assert first["change"]["value"]["inches"] == 6.75
    assert (first["fails_one_in"], made["margins"][1]["fails_one_in"], made["margins"][1]["change"]) == (1000, None, None)


def test_a_design_without_margins_says_so() -> None:
    files = make(evolve(sample_plan(), margins=()))
    assert "No requirement of this design compares what is made by hand." in files["margins.txt"].decode()
    assert json.loads(files["margins.json"])["margins"] == []
    assert files["margins.csv"].count(b"\n") == 1
