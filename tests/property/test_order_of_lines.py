"""Order of lines never matters: a recipe with its statements shuffled gives the same files, to the byte."""

import random
from collections.abc import Sequence
from functools import cache

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pastedown.compile import compile_design
from pastedown.outputs.every_output import EVERY_OUTPUT, Output
from property.recipe_text import EXAMPLES, shuffled
from test_examples import DESIGNS, FILES

# What is drawn takes long, and is drawn from the same plan; it is all made where fewer recipes are tried.
DRAWN = ("-pdf", "-html", "-svg", "-dxf", "pictures", "views", "model", "drawings")
WRITTEN = [output for output in EVERY_OUTPUT if not output.name.endswith(DRAWN)]


def files_of(name: str, files: dict[str, str], outputs: Sequence[Output]) -> dict[str, bytes]:
    made: dict[str, bytes] = {}
    for design in compile_design(name, files[name], files.get).designs:
        assert design.plan is not None, name
        for output in outputs:
            made |= {f"{design.name}/{file}": content for file, content in output.make(design.plan).items()}
    return made


@cache
def original(name: str) -> dict[str, bytes]:
    return files_of(name, FILES, WRITTEN)


@pytest.mark.parametrize("name", sorted(EXAMPLES))
def test_a_shuffled_recipe_is_really_another_text_of_the_same_words(name: str) -> None:
    before = shuffled(EXAMPLES[name], random.Random(1)).split()
    after = shuffled(EXAMPLES[name], random.Random(2)).split()
    assert before != after
    assert sorted(before) == sorted(after)


def shuffled_files(seed: int) -> dict[str, str]:
    """The library's files are shuffled with the recipes."""
    chance = random.Random(seed)
    return {file: shuffled(text, chance) for file, text in EXAMPLES.items()}


@settings(max_examples=10, deadline=None)
@given(st.sampled_from(DESIGNS), st.integers(min_value=0, max_value=10_000))
def test_the_order_of_lines_changes_no_byte(name: str, seed: int) -> None:
    assert files_of(name, shuffled_files(seed), WRITTEN) == original(name)


@settings(max_examples=2, deadline=None)
@given(st.sampled_from(DESIGNS), st.integers(min_value=0, max_value=10_000))
def test_the_order_of_lines_changes_no_byte_of_what_is_drawn(name: str, seed: int) -> None:
    outputs = [output for output in EVERY_OUTPUT if output not in WRITTEN and not output.name.endswith("-pdf")]
    assert files_of(name, shuffled_files(seed), outputs) == files_of(name, FILES, outputs)


FAULTY = """\
edition = 1
album faulty {
  card = stock(kind: card, sheet: 12 in x 12 in, caliper: 12 pt, grain: long)
  height = 13 in
  margin = 1/8 in
  piece leaf from card, height: height, width: 5 in, grain: height, loose: yes
  piece stray from card, height: 1 in, width: 1 in, grain: width
  piece held from card, height: 1 in, width: 1 in
  join stuck: held.back to stray.face { align held.mid_height to stray.mid_height }
  require slim: margin >= 1/4 in because "{margin} is too slim"
  wrong = height + 2
  each k from 1 to 3 { mark[k] = k * marign }
  if margin > 1 in { part never = nobody() }
}
variant other of faulty { height = 14 in  margin = 1/2 in }
"""


@settings(max_examples=25, deadline=None)
@given(st.integers(min_value=0, max_value=10_000))
def test_the_order_of_lines_changes_no_verdict(seed: int) -> None:
    def verdicts(text: str) -> list[tuple[str, str]]:
        found = compile_design("faulty.album", text, lambda _: None).diagnostics
        return sorted((each.id, each.sentence) for each in found)

    expected = verdicts(FAULTY)
    assert len(expected) >= 5
    assert verdicts(shuffled(FAULTY, random.Random(seed))) == expected
