"""Recipes that are accepted without a word, and come to the same: `tests/cases/good/*.cases`.

A file holds several cases. `==== words` begins a case, `---- again` another way of writing the same recipe.
"""

import re
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from attrs import frozen

from pastedown import check
from pastedown.compile import Compiled, compile_design
from test_cases import ALL, RECIPE, told

FOLDER = Path(__file__).parent / "cases" / "good"


@frozen
class Alike:
    """One recipe, written in several ways."""

    title: str
    ways: tuple[str, ...]


def cases() -> Iterator[Alike]:
    for path in sorted(FOLDER.glob("*.cases")):
        for block in re.split(r"(?m)^==== ", path.read_text(encoding="utf-8"))[1:]:
            title, _, text = block.partition("\n")
            yield Alike(f"{path.stem}: {title}", tuple(re.split(r"(?m)^---- again\n", text)))


GOOD = list(cases())


def comes_to(text: str) -> list[object]:
    """What is told of a recipe, and everything that its designs come to."""
    compiled: Compiled = compile_design(RECIPE, text, lambda name: None)
    found: list[object] = [(each.id, each.sentence) for each in compiled.diagnostics]
    for design in compiled.designs:
        model = design.model
        assert model is not None
        found += [model.name, model.title, model.ruler, model.stocks, model.parts, model.joins]
        found += [(each.path, each.value) for each in model.measurements]
        found += [(each.path, each.holds, each.left, each.right) for each in model.requirements]
        found += [(piece.path, piece.height, piece.width, piece.outline) for piece in model.pieces]
    return found


@pytest.mark.parametrize("case", GOOD, ids=lambda case: case.title)
def test_a_recipe_is_accepted_and_comes_to_the_same(case: Alike) -> None:
    assert len(case.ways) > 1
    assert check(case.ways[0]) == ()
    first = comes_to(case.ways[0])
    for way in case.ways[1:]:
        assert comes_to(way) == first


def curly(text: str) -> str:
    """The text with every pair of straight quotes turned into curly ones; inch marks stay."""
    return re.sub(r'(?<![0-9])"([^"\n]*)"', "\u201c\\1\u201d", text)


PASTED: dict[str, Callable[[str], str]] = {
    "with the line ends of another system": lambda text: text.replace("\n", "\r\n"),
    "with a byte order mark": lambda text: "\ufeff" + text,
    "with curly quotes": curly,
    "with blanks that do not break": lambda text: text.replace(" ", "\u00a0"),
}


@pytest.mark.parametrize("pasted", PASTED.values(), ids=PASTED.keys())
@pytest.mark.parametrize("case", GOOD, ids=lambda case: case.title)
def test_a_pasted_recipe_comes_to_the_same(case: Alike, pasted: Callable[[str], str]) -> None:
    assert comes_to(pasted(case.ways[0])) == comes_to(case.ways[0])


def test_a_message_does_not_hang_on_the_line_ends() -> None:
    for case in ALL:
        other = {name: text.replace("\n", "\r\n") for name, text in case.files.items()}
        told_here = [told(each) for each in check(case.files[RECIPE], case.files.get)]
        assert [told(each) for each in check(other[RECIPE], other.get)] == told_here, case.title
