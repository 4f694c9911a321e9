"""How thick things are together, whether a full book shuts, and by how much it gapes: numbers worked out by hand, with
exact fractions, from calipers alone."""

from fractions import Fraction

import pytest

from pastedown.compile import MadeDesign, compile_design
from pastedown.diagnostic import Severity
from pastedown.quantity.quantity import Quantity
from reference.thick_pages import ON_BOTH_FACES, ON_ONE_FACE, STAGGERED, USES, album

INCH = Fraction("25.4")


def compiled(body: str) -> tuple[MadeDesign, dict[str, str]]:
    text = f"edition = 1\n{USES}\nalbum probe {{\n{body}\n}}\n"
    done = compile_design("probe.album", text, lambda _: None)
    told = {each.id: f"{each.sentence} {each.reason}" for each in done.diagnostics if each.severity is Severity.ERROR}
    return done.designs[0], told


def fact(design: MadeDesign, path: str) -> Fraction:
    assert design.model is not None
    (found,) = [each.value for each in design.model.measurements if each.path == path]
    assert isinstance(found, Quantity)
    return found.value


def inches(design: MadeDesign, path: str) -> Fraction:
    return fact(design, path) / INCH


def test_pages_too_thick_for_their_spine() -> None:
    design, told = compiled(album(ON_BOTH_FACES, more="one = thickness(page[1])\nhalf = thickness(page[1], state: blank)"))
    assert list(told) == ["requirement-fails"]
    assert inches(design, "one") == Fraction("0.398")
    assert inches(design, "stack") == Fraction("1.592")
    assert inches(design, "shut.between") == Fraction("1.34")
    assert inches(design, "blank") == Fraction("0.096")
    assert fact(design, "shut.slope") == Fraction("0.063")
    assert inches(design, "shut.fore_edge_opening") == Fraction("1.8755")
    assert inches(design, "shut.budget") == Fraction("0.319375")
    assert inches(design, "half") == Fraction("0.040")
    assert "3.61 degrees" in told["requirement-fails"]


@pytest.mark.parametrize(
    ("body", "stack"),
    [
        (album(STAGGERED), "1.092"),
        (album(ON_ONE_FACE), "1.092"),
        (album(ON_BOTH_FACES, spine="1 7/8 in"), "1.592"),
    ],
)
def test_each_cure_shuts_the_book(body: str, stack: str) -> None:
    design, told = compiled(body)
    assert told == {}
    assert inches(design, "stack") == Fraction(stack)
