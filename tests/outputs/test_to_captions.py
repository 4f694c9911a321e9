"""Captions: short lines, two at a time, nothing left out, and fractions as they are said."""

import re
from itertools import pairwise

import pytest
from attrs import evolve

from outputs.sample_plan import sample_plan, steps, with_words
from outputs.test_strangers_text import NASTY
from pastedown.outputs.in_words import prose
from pastedown.outputs.to_captions import make
from pastedown.quantity.quantity import inches
from test_examples import DESIGNS
from test_examples import plan_of as plan_of_example


def captions(made: bytes) -> list[list[str]]:
    """The blocks between empty lines."""
    return [block.split("\n") for block in made.decode().rstrip("\n").split("\n\n")]


@pytest.mark.parametrize("name", [name.removesuffix(".album") for name in DESIGNS])
def test_captions_keep_to_two_lines_of_42_letters(name: str) -> None:
    for made in make(plan_of_example(name)).values():
        blocks = captions(made)
        assert len(blocks) > 100
        assert max(len(block) for block in blocks) <= 2
        assert max(len(line) for block in blocks for line in block) <= 42
        assert all(line.strip() for block in blocks for line in block)


@pytest.mark.parametrize("name", [name.removesuffix(".album") for name in DESIGNS])
def test_no_line_ends_within_a_measure(name: str) -> None:
    files = {file: made.decode().split("\n") for file, made in make(plan_of_example(name)).items()}
    figures = [line for line in files["captions.txt"] if line]
    torn = [(one, other) for one, other in pairwise(figures) if re.search("[0-9]$", one) and re.match("[0-9]+/", other)]
    assert torn == [] == [line for line in figures if re.match(r"(in \(|mm\b)", line)]
    spoken = files["captions-spoken.txt"]
    assert not [line for line in spoken if re.match("(inches|millimetres|quarters?|eighths?|sixteenths?)\\b", line)]


def test_a_reading_is_told_by_the_marks_of_the_ruler() -> None:
    files = make(plan_of_example("seed_diary"))
    told = {name: " ".join(made.decode().split()) for name, made in files.items()}
    assert "The ruler should read a little over 5 1/16 in (5.084 in)." in told["captions.txt"]
    assert "read a little over five and one sixteenth inches." in told["captions-spoken.txt"]


@pytest.mark.parametrize("words", NASTY)
def test_no_text_of_a_stranger_makes_them_longer(words: str) -> None:
    for made in make(with_words(words)).values():
        blocks = captions(made)
        assert max(len(block) for block in blocks[1:]) <= 2
        assert max(len(line) for block in blocks for line in block) <= 42
        assert not re.search("[\x00-\x09\x0b-\x1f\x7f\u202e\u2028]", made.decode())


def test_fractions_are_said_in_words() -> None:
    """The spoken form of 2 1/8 in, by hand."""
    text = ("Score at ", inches("17/8"), " and press.")
    plan = evolve(sample_plan(), steps=(evolve(steps()[0], text=text),))
    files = make(plan)
    assert "Score at two and one eighth inches and" in files["captions-spoken.txt"].decode().split("\n")
    assert "Score at 2 1/8 in and press." in files["captions.txt"].decode().split("\n")


def test_a_caption_is_about_one_sentence_and_none_is_lost() -> None:
    for name in ("harbour_walk", "almanac"):
        plan = plan_of_example(name)
        whole = " ".join(make(plan)["captions.txt"].decode().split())
        for step in plan.steps:
            told = " ".join(prose(step.text, plan.ruler).replace("\u00a0", " ").split())
            assert told in whole, step.number
    blocks = captions(make(plan_of_example("harbour_walk"))["captions.txt"])
    ends = [" ".join(block) for block in blocks if re.search(r"[.!?] [A-Z]", " ".join(block))]
    assert ends == []
