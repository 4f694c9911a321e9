"""Whatever stands in a recipe, compiling it ends in designs or in diagnostics, never in an exception."""

import random
import re

from hypothesis import given, settings
from hypothesis import strategies as st

from pastedown.compile import compile_design
from test_examples import FILES

WORDS = re.compile(r'"[^"]*"|[A-Za-z_][A-Za-z0-9_]*|\d+|\s+|.', re.DOTALL)
ALL_WORDS = sorted({word for text in FILES.values() for word in WORDS.findall(text) if not word.isspace()})


def ends_well(name: str, text: str) -> None:
    compiled = compile_design(name, text, FILES.get)
    assert compiled.refused or all(design.sound for design in compiled.designs)
    for diagnostic in compiled.diagnostics:
        assert diagnostic.sentence
        span = diagnostic.span
        assert span is None or 0 <= span.start <= span.end <= len(span.source.text)


@settings(max_examples=60, deadline=None)
@given(st.sampled_from(sorted(FILES)), st.integers(min_value=0, max_value=1_000_000), st.integers(1, 4))
def test_a_damaged_recipe(name: str, seed: int, slips: int) -> None:
    chance = random.Random(seed)
    words = WORDS.findall(FILES[name])
    for _ in range(slips):
        at = chance.randrange(len(words))
        words[at] = chance.choice(
            ["", f" {chance.choice(ALL_WORDS)} ", words[at] * 2, words[chance.randrange(len(words))]]
        )
    ends_well(name, "".join(words))


@settings(max_examples=60, deadline=None)
@given(st.lists(st.sampled_from([*ALL_WORDS, "{", "}", "(", ")", "[", "]", "=", ":", ",", ".", "\n"]), max_size=60))
def test_words_thrown_together(words: list[str]) -> None:
    ends_well("thrown.album", f"edition = 1\nalbum a {{ {' '.join(words)} }}")


@settings(max_examples=40, deadline=None)
@given(st.text(max_size=120))
def test_any_text(text: str) -> None:
    ends_well("any.album", text)
