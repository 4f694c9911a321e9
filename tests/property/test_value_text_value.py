"""Value, text, value: what is written of a measure can be put into a recipe, and is then the same measure, unless it
says "about"; and then it is the nearest that can be written."""

from fractions import Fraction

from hypothesis import given, settings
from hypothesis import strategies as st

from pastedown.compile import compile_design
from pastedown.geometry.model import Model
from pastedown.quantity.quantity import Quantity
from pastedown.quantity.write import write

RULERS = ("inches to 1/16", "inches to 1/8", "millimetres to 1", "millimetres to 1/2")
SHOWN = ("inches", "metric", "both")
# What each kind of measure is rounded to where it cannot be written whole, in millimetres, degrees, grams for each
# square metre, grams and euros.
STEP = {"in": Fraction("0.0254"), "mm": Fraction("0.01"), "deg": Fraction("0.01"), "gsm": Fraction(1), "g": Fraction("0.01"),
        "EUR": Fraction("0.01"), "": Fraction("0.01")}  # fmt: skip


def model_of(ruler: str, shown: str, facts: list[str]) -> Model:
    lines = "\n".join(f"fact_{number} = {fact}" for number, fact in enumerate(facts))
    text = f"edition = 1\nalbum probe {{\nruler = {ruler}\nshow = {shown}\n{lines}\n}}"
    compiled = compile_design("probe.album", text, lambda _: None)
    assert [each.sentence for each in compiled.diagnostics if each.id != "metric-fraction"] == []
    model = compiled.designs[0].model
    assert model is not None
    return model


def values(model: Model, facts: list[str]) -> list[Quantity]:
    by_path = {each.path: each.value for each in model.measurements}
    found = [by_path[f"fact_{number}"] for number in range(len(facts))]
    return [value for value in found if isinstance(value, Quantity)]


numbers = st.one_of(
    st.fractions(min_value=Fraction(1, 64), max_value=2000, max_denominator=64),
    st.decimals(min_value="0.01", max_value=2000, places=2).map(Fraction),
)
measures = st.tuples(numbers, st.sampled_from(sorted(STEP)))


@settings(max_examples=40, deadline=None)
@given(st.lists(measures, min_size=1, max_size=12), st.sampled_from(RULERS), st.sampled_from(SHOWN))
def test_what_is_written_reads_back(chosen: list[tuple[Fraction, str]], ruler: str, shown: str) -> None:
    facts = [f"{number} {unit}".strip() for number, unit in chosen]
    model = model_of(ruler, shown, facts)
    before = values(model, facts)
    # Of a length in both systems each one has to read back.
    texts = [write(value, model.ruler).rstrip(")").split(" (") for value in before]
    written = [
        (value, unit, text) for (_, unit), value, both in zip(chosen, before, texts, strict=True) for text in both
    ]
    again = [text.removeprefix("about ") for _, _, text in written]
    after = values(model_of(ruler, shown, again), again)
    for (value, unit, text), read in zip(written, after, strict=True):
        assert read.dimension == value.dimension
        assert (read == value) is not text.startswith("about "), text
        step = STEP["in" if text.endswith("in") else "mm" if text.endswith("mm") else unit]
        assert abs((read - value).value) * (1_000_000 if unit == "gsm" else 1) <= step / 2
