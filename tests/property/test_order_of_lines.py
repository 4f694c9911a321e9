"""Order of lines never matters: a design with its statements shuffled gives the same files, to the byte."""

import random
import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pastedown.compile import compile_design
from pastedown.outputs.every_output import EVERY_OUTPUT
from test_examples import DESIGNS, FILES

# PDF templates are drawn from the same sheets as the SVG ones, and take long.
OUTPUTS = [output for output in EVERY_OUTPUT if output.name != "templates-pdf"]
HEAD = re.compile(r"(?m)^(album|component|variant) [^{]*\{\n")


def shuffled(text: str, seed: int) -> str:
    """The recipe with the statements in the braces of its albums, components and variants in another order.

    Statements are told apart by their indentation in the shipped files: two blanks begin one, more continue it.
    """
    chance = random.Random(seed)

    def shuffle_braces(match: re.Match[str]) -> str:
        statements: list[str] = []
        for line in match["body"].split("\n"):
            plain = re.sub(r'#(?=(?:[^"]*"[^"]*")*[^"]*$).*', "", line).rstrip()
            if not plain.strip():
                continue
            if (
                re.match(r"  \S", plain)
                and plain.strip()[0] not in "})"
                and not plain.strip().startswith(("left:", '"'))
            ):
                statements.append(plain)
            else:
                statements[-1] += "\n" + plain
        chance.shuffle(statements)
        return match["head"] + "\n".join(statements) + "\n}\n"

    return re.sub(r"(?ms)(?P<head>^(?:album|component|variant) [^{]*\{\n)(?P<body>.*?)\n\}\n", shuffle_braces, text)


def files_of(name: str, files: dict[str, str]) -> dict[str, bytes]:
    made: dict[str, bytes] = {}
    for design in compile_design(name, files[name], files.get).designs:
        assert design.plan is not None, name
        for output in OUTPUTS:
            made |= {f"{design.name}/{file}": content for file, content in output.make(design.plan).items()}
    return made


ORIGINAL = {name: files_of(name, FILES) for name in DESIGNS}


@pytest.mark.parametrize("name", DESIGNS)
def test_a_shuffled_recipe_is_really_another_text(name: str) -> None:
    assert shuffled(FILES[name], 1).split() != FILES[name].split()


@settings(max_examples=12, deadline=None)
@given(st.sampled_from(DESIGNS), st.integers(min_value=0, max_value=10_000))
def test_the_order_of_lines_changes_no_byte(name: str, seed: int) -> None:
    assert files_of(name, {file: shuffled(text, seed) for file, text in FILES.items()}) == ORIGINAL[name]
