"""Order of lines never matters: a recipe with its statements shuffled gives the same files, to the byte."""

import random
from functools import cache

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pastedown.compile import compile_design
from pastedown.outputs.every_output import EVERY_OUTPUT
from property.recipe_text import EXAMPLES, shuffled
from test_examples import DESIGNS, FILES

# PDF templates are drawn from the same sheets as the SVG ones, and take long.
OUTPUTS = [output for output in EVERY_OUTPUT if not output.name.endswith("-pdf")]


def files_of(name: str, files: dict[str, str]) -> dict[str, bytes]:
    made: dict[str, bytes] = {}
    for design in compile_design(name, files[name], files.get).designs:
        assert design.plan is not None, name
        for output in OUTPUTS:
            made |= {f"{design.name}/{file}": content for file, content in output.make(design.plan).items()}
    return made


@cache
def original(name: str) -> dict[str, bytes]:
    return files_of(name, FILES)


@pytest.mark.parametrize("name", sorted(EXAMPLES))
def test_a_shuffled_recipe_is_really_another_text_of_the_same_words(name: str) -> None:
    before = shuffled(EXAMPLES[name], random.Random(1)).split()
    after = shuffled(EXAMPLES[name], random.Random(2)).split()
    assert before != after
    assert sorted(before) == sorted(after)


@settings(max_examples=10, deadline=None)
@given(st.sampled_from(DESIGNS), st.integers(min_value=0, max_value=10_000))
def test_the_order_of_lines_changes_no_byte(name: str, seed: int) -> None:
    # The library's files are shuffled with the recipe's.
    chance = random.Random(seed)
    files = {file: shuffled(text, chance) for file, text in EXAMPLES.items()}
    assert files_of(name, files) == original(name)


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
