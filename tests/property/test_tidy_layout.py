"""Tidying lays a recipe out and changes nothing else: not its meaning, not its comments, and nothing the second time."""

import random
import re
from functools import cache

from hypothesis import given, settings
from hypothesis import strategies as st

from pastedown.shipped_files import grammar_path
from pastedown.source import SourceText
from pastedown.syntax.language import COMMENT, language
from pastedown.syntax.parse import ParseResult, parse
from pastedown.syntax.tidy import tidy
from property.recipe_text import EXAMPLES

GRAMMAR = str(grammar_path())


def read(text: str) -> ParseResult:
    return parse(SourceText("laid_out.album", text), GRAMMAR)


def tidied(text: str) -> str:
    return tidy(SourceText("laid_out.album", text), GRAMMAR).text


def comments(text: str) -> list[str]:
    tokens = language(GRAMMAR).all_tokens(SourceText("laid_out.album", text))
    return [token.text.rstrip() for token in tokens if token.type == COMMENT]


def laid_out_anew(text: str, chance: random.Random, *, commented: bool) -> str:
    """The recipe with other blanks and line ends where it had any, and a comment here and there."""
    written: list[str] = []
    end = 0
    for token in language(GRAMMAR).all_tokens(SourceText("laid_out.album", text)):
        gap = text[end : token.start]
        if gap:
            gap = chance.choice([" ", "   ", "\n", "\r\n", "\n\n\n", "\t"])
            if commented and chance.random() < 0.05:
                gap = f" # note {len(written)}  \n{gap}"
        if token.type == COMMENT:
            if commented:
                written += [gap, token.text, "\n"]
        else:
            written += [gap, token.text]
        end = token.end
    return "".join(written)


@cache
def statements(name: str) -> object:
    return read(EXAMPLES[name]).statements


@settings(max_examples=25, deadline=None)
@given(st.sampled_from(sorted(EXAMPLES)), st.integers(0, 10_000))
def test_meaning_and_comments_stay_and_a_second_time_changes_nothing(name: str, seed: int) -> None:
    text = laid_out_anew(EXAMPLES[name], random.Random(seed), commented=True)
    once = tidied(text)
    result = read(once)
    assert result.diagnostics == ()
    assert result.statements == statements(name)
    assert comments(once) == comments(text)
    assert tidied(once) == once


@settings(max_examples=15, deadline=None)
@given(st.sampled_from(sorted(EXAMPLES)), st.integers(0, 10_000))
def test_the_layout_does_not_hang_on_the_layout_before(name: str, seed: int) -> None:
    # But for empty lines, of which one is kept between two statements.
    chance = random.Random(seed)
    plain, other = (laid_out_anew(EXAMPLES[name], chance, commented=False) for _ in range(2))
    assert plain != other
    assert without_empty_lines(tidied(plain)) == without_empty_lines(tidied(other))


def without_empty_lines(text: str) -> str:
    return re.sub(r"\n{2,}", "\n", text)
