"""A fault of another file's line points to the line of the maker's own file that makes the part, with what is given."""

from pastedown import check
from pastedown.diagnostic import Diagnostic

HOUSE = """edition = 1
component strip_of "a strip" {
  takes paper: stock "card"
  takes folds: count from 1 to 9 "how many"
  takes gap: length from 1 in to 9 in "between two"
  takes ends: length from 1 in to 9 in = 2 in "at each end"
  takes tall: length from 1 in to 30 in = 5 in "head to tail"
  takes least: length from 0 in to 9 in = 1 in "of a gap"
  between = gap * (folds - 1)
  piece strip from paper, height: tall, grain: any, loose: yes {
    run left to right {
      panel first: ends
      each k from 1 to folds {
        fold line[k]: valley
        if k < folds { panel middle[k]: gap }
      }
      panel last: ends
    }
  }
  thick = paper.caliper + between
  require roomy: between >= least because "too narrow", way_out: "make gap wider"
}
component two_deep "a part in a part" {
  takes paper: stock "card"
  takes opening: length from 1 in to 9 in "between two"
  part inner = strip_of(paper: paper, folds: 3, gap: opening / 2)
}
"""
HEAD = """edition = 1
use strip_of, two_deep from "house.album"
album a {
  card = stock(kind: card, sheet: 12 in x 12 in, caliper: 12 pt, grain: long)
  bare = stock(kind: card, sheet: 12 in x 12 in, grain: long)
"""


def found(body: str) -> list[Diagnostic]:
    return list(check(HEAD + body + "\n}\n", {"house.album": HOUSE}.get))


def labels(body: str) -> list[tuple[str, int, str, str]]:
    return [
        (told.id, label.span.line, label.span.text, label.words)
        for told in found(body)
        for label in told.labels
        if label.span.source.name != "house.album"
    ]


def test_a_piece_too_large_names_what_its_side_was_given() -> None:
    body = "  part long = strip_of(paper: card, folds: 5, gap: 3 in)"
    words = "long is made here: folds 5, gap 3 in, ends left at 2 in"
    (told,) = labels(body)
    assert told[:3] == ("sheet-too-small", 6, "long")
    assert sorted(told[3].partition(": ")[2].split(", ")) == sorted(words.partition(": ")[2].split(", "))


def test_only_the_side_that_is_too_large_is_spoken_of() -> None:
    (told,) = labels("  part high = strip_of(paper: card, folds: 2, gap: 1 in, tall: 13 in)")
    assert told[3] == "high is made here: tall 13 in"


def test_a_requirement_names_what_its_sides_were_given_and_what_was_left() -> None:
    (told,) = labels("  part close = strip_of(paper: card, folds: 1, gap: 1 in)")
    assert told == (
        "requirement-fails", 6, "close", "close is made here: gap 1 in, folds 1, least left at 1 in",
    )  # fmt: skip


def test_a_part_in_a_part_is_seen_from_the_line_the_maker_wrote() -> None:
    (told,) = labels("  part deep = two_deep(paper: card, opening: 4 in)\n  deep.inner.ends = 6 in")
    assert told == ("sheet-too-small", 6, "deep", "deep is made here: inner.ends 6 in, opening 4 in")


def test_a_lack_of_a_stock_is_told_once_and_points_to_the_own_line() -> None:
    made = "strip_of(paper: bare, folds: 2, gap: 1 in)"
    body = f"  part one = {made}\n  part two = {made}"
    assert [told.id for told in found(body)] == ["caliper-missing"]
    assert labels(body) == [("caliper-missing", 6, "one", "made here")]


def test_a_fault_of_the_own_file_has_no_such_label() -> None:
    (told,) = found("  piece big from card, height: 13 in, width: 13 in, grain: any, loose: yes")
    assert told.id == "sheet-too-small"
    assert told.labels == ()


def test_a_variant_of_another_files_album_is_where_it_was_made() -> None:
    whole = (
        "edition = 1\nalbum a {\n  size = 5 in\n"
        "  card = stock(kind: card, sheet: 12 in x 12 in, caliper: 12 pt, grain: long)"
        "\n  piece big from card, height: 5 in, width: size, grain: any, loose: yes\n}\n"
    )
    own = 'edition = 1\nuse a from "whole.album"\nvariant wide of a { size = 13 in }\n'
    (told,) = check(own, {"whole.album": whole}.get)
    assert [(label.span.text, label.words) for label in told.labels] == [("wide", "made here: size 13 in")]
