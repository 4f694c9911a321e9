"""Small recipes made up at random end in a plan from which every file can be made, or in an error; never both."""

from hypothesis import given, settings
from hypothesis import strategies as st

from pastedown.compile import Compiled, compile_design
from pastedown.diagnostic import Severity
from pastedown.diagnostic.draw import draw
from pastedown.outputs.every_output import EVERY_OUTPUT
from property.small_recipes import SmallRecipe

OUTPUTS = [output for output in EVERY_OUTPUT if not output.name.startswith(("templates", "booklet-pdf"))]


def compiled(seed: int, slips: float) -> Compiled:
    return compile_design("small.album", SmallRecipe(seed, slips).text(), lambda _: None)


@settings(max_examples=120, deadline=None)
@given(st.integers(0, 1_000_000), st.sampled_from([0.0, 0.02, 0.1, 0.5]))
def test_it_ends_in_a_plan_or_in_an_error(seed: int, slips: float) -> None:
    result = compiled(seed, slips)
    errors = [each for each in result.diagnostics if each.severity is Severity.ERROR]
    assert result.refused is bool(errors)
    if not errors:
        assert result.designs and all(design.plan is not None for design in result.designs)
    for design in result.designs:
        assert design.sound is (design.plan is not None)
        if design.plan is not None:
            for output in OUTPUTS:
                assert all(output.make(design.plan).values())
    assert bool(draw(result.diagnostics)) is bool(result.diagnostics)


@settings(max_examples=20, deadline=None)
@given(st.integers(0, 1_000_000))
def test_it_ends_alike_every_time(seed: int) -> None:
    first, second = (compiled(seed, 0.05) for _ in range(2))
    assert draw(first.diagnostics) == draw(second.diagnostics)
    assert [design.plan for design in first.designs] == [design.plan for design in second.designs]


def test_the_recipes_are_of_both_kinds() -> None:
    refused = [compiled(seed, 0.02).refused for seed in range(60)]
    assert 5 < sum(refused) < 55
