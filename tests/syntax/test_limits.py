"""Recipes from strangers: past a limit a file is refused with one message."""

import pytest

from pastedown.syntax.limits import MOST_DIAGNOSTICS, MOST_JOINED, MOST_LETTERS, MOST_NESTED, MOST_TOKENS
from syntax.reading import read, told

PAST_LIMITS = {
    "a long line": ("x = " + "1" * MOST_LETTERS, "too-long-file"),
    "a long file": ("# nothing\n" * (MOST_LETTERS // 10 + 1), "too-long-file"),
    "parentheses": ("x = " + "(" * 20_000 + "1" + ")" * 20_000, "too-deep"),
    "square brackets": ("[" * 20_000, "too-deep"),
    "braces": ("each k from 1 to 2 { " * 20_000, "too-deep"),
    "many words": ("x = 1 " * (MOST_TOKENS // 3 + 1), "too-many-tokens"),
    "many comments": ("#\n" * (MOST_TOKENS + 1), "too-many-tokens"),
    "many slots": ('x = "' + "{a}" * (MOST_TOKENS // 4) + '"', "too-many-tokens"),
    "a long sum": ("x = 1" + " + 1" * (MOST_JOINED + 1), "too-long-sum"),
    "many signs": ("x = " + "-" * 50_000 + "1", "too-long-sum"),
    "many amendments": ("x = a" + " with { }" * 50_000, "too-long-sum"),
    "a sum in sums": ("x = " + "(1 + 1 + 1 + 1 + 1 + " * 60 + "1" + ")" * 60, "too-long-sum"),
}


@pytest.mark.parametrize("name", PAST_LIMITS)
def test_past_a_limit_there_is_one_message_and_nothing_else(name: str) -> None:
    text, id = PAST_LIMITS[name]
    result = read(text)
    assert [each.id for each in result.diagnostics] == [id]
    assert result.statements == ()


WITHIN_LIMITS = {
    "nesting": "x = " + "(" * MOST_NESTED + "1" + ")" * MOST_NESTED,
    "a sum": "x = 1" + " + 1" * MOST_JOINED,
    "a long path": "x = a" + ".b[1]" * 1_000,
    "a long list": "x = [" + "1, " * 10_000 + "1]",
    "conditions": "if a + b > c { x = 1 }\n" * 400,
    "amendments": "a with { x = 1 }\n" * 400,
    "facts": "a = b + c\n" * 400,
    "a wide number": "x = 1" + " " * 500_000 + "in",
}


@pytest.mark.parametrize("name", WITHIN_LIMITS)
def test_within_the_limits_all_is_read(name: str) -> None:
    assert told(WITHIN_LIMITS[name]) == []


LONG = {
    "closing brackets": ")" * 100_000,
    "digits": "x = " + "9" * 1_000_000,
    "blanks after a number": "x = 1" + " " * 1_000_000 + "z",
    "a long word": "a" * 1_000_000,
    "hyphens": "a-" * 500_000,
    "quotes": '"' * 100_001,
    "open curly quotes": "“" * 100_000,
    "odd quotes on many lines": '"\nx = ' * 20_000,
    "inch marks": 'x = "1/2" of " \n' * 10_000,
    "names": "a" + " b" * 100_000,
    "equals signs": "= " * 100_000,
    "names in a comment": "# " + "a." * 200_000,
    "blanks in a comment": "# a" + " " * 500_000 + "b",
    "lines in a text": 'x = "' + "\n " * 500_000,
    "broken facts": "\n".join(f"x{at} = = 3" for at in range(10_000)),
    "broken facts on one line": " ".join(f"x{at} = =" for at in range(30_000)),
    "words of the language": "panel " * 100_000,
    "unknown characters": "@ " * 100_000,
    "dots": "x = a" + "." * 100_000,
    "braces in a text": 'x = "' + "{{" * 10_000 + '"',
    "broken slots": 'x = "' + "{a b}" * 5_000 + '"',
    "brackets closed by others": "album a {\n" + "{)" * 30_000,
    "brackets that cross": "[}" * 30_000,
    "closing braces between open parentheses": "}}(" * 20_000,
    "braces opened nowhere": "each k from 1 to 2 x = 1 " * 5_000 + "}" * 5_000,
    "braces left out of components": "component a x = 1 " * 5_000 + "}" * 5_000,
    "mistakes inside one another": "a with { x = = " * 60 + "}" * 60,
}


@pytest.mark.parametrize("name", LONG)
def test_long_nonsense_is_told_in_short_messages(name: str) -> None:
    diagnostics = read(LONG[name]).diagnostics
    assert len(diagnostics) <= MOST_DIAGNOSTICS
    assert all(len(each.sentence) + len(each.way_out) < 1_000 for each in diagnostics)
