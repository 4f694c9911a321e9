"""Amending a value from outside gives what writing it inside would have given."""

from fractions import Fraction

from hypothesis import given, settings
from hypothesis import strategies as st

from pastedown.compile import compile_design
from pastedown.geometry.model import Measurement

BASE = """\
edition = 1
use concertina_hinge from hinges
use pocket_page from pages
album base {{
  kraft = stock(kind: card, sheet: 40 in x 40 in, caliper: {caliper} pt, grain: marked)
  sticky = stock(kind: tape, roll_width: 1/8 in, caliper: 4 pt)
  pages = {pages}
  part page[k from 1 to pages] = pocket_page(paper: kraft, tape: sticky, height: {height}, width: 6 in)
  part hinge = concertina_hinge(paper: kraft, tape: sticky, peaks: pages, peak: {peak}, gusset: {peak}, wing: 2 in,
    height: min(page.height) - its.stand_thickness - 1/16 in rounded down to ruler.marks)
  spine = hinge.block + 1 in rounded up to ruler.marks
}}
"""
VARIANT = """
variant other of base {{
  kraft.caliper = {caliper} pt
  pages = {pages}
  page.height = {height}
  hinge with {{ peak = {peak}  gusset = {peak} }}
}}
"""
eighths = st.integers(min_value=3, max_value=12).map(lambda number: f"{Fraction(number, 8)} in")
choices = st.fixed_dictionaries(
    {
        "caliper": st.integers(min_value=6, max_value=20),
        "pages": st.integers(min_value=1, max_value=6),
        "height": st.integers(min_value=30, max_value=90).map(lambda number: f"{Fraction(number, 8)} in"),
        "peak": eighths,
    }
)


def measurements(text: str, design: str) -> list[tuple[str, object]]:
    compiled = compile_design("base.album", text, lambda _: None, design=design)
    model = compiled.designs[0].model
    assert model is not None

    def plain(measurement: Measurement) -> tuple[str, object]:
        return measurement.path, measurement.value

    return [plain(each) for each in model.measurements]


@settings(max_examples=25, deadline=None)
@given(choices, choices)
def test_a_variant_is_its_base_written_otherwise(first: dict[str, object], second: dict[str, object]) -> None:
    varied = measurements(BASE.format(**first) + VARIANT.format(**second), "other")
    assert varied == measurements(BASE.format(**second), "base")


STRIP = """\
edition = 1
use concertina_hinge from hinges
album base {{
  kraft = stock(kind: card, sheet: 40 in x 40 in, caliper: 12 pt, grain: marked)
  sticky = stock(kind: tape, roll_width: 1/8 in, caliper: 4 pt)
  {plain}
  part hinge = {hinge}
  {after}
}}
{variant}
"""
CALL = "concertina_hinge(paper: kraft, tape: sticky, peaks: 3, wing: 2 in, height: 7 in"


@settings(max_examples=10, deadline=None)
@given(eighths, eighths)
def test_wherever_a_value_is_set_the_strip_is_the_same(peak: str, gusset: str) -> None:
    written = (
        STRIP.format(plain="", hinge=f"{CALL}, peak: {peak}, gusset: {gusset})", after="", variant=""),
        STRIP.format(plain="", hinge=f"{CALL}) with {{ peak = {peak}  gusset = {gusset} }}", after="", variant=""),
        STRIP.format(plain="", hinge=f"{CALL})", after=f"hinge.gusset = {gusset}  hinge.peak = {peak}", variant=""),
        STRIP.format(
            plain=f"kind = {CALL}, peak: {peak})", hinge=f"kind(gusset: {gusset})", after="", variant=""
        ),
        STRIP.format(plain="deep = 1/4 in", hinge=f"{CALL}, peak: deep, gusset: {gusset})", after="",
                     variant=f"variant other of base {{ deep = {peak} }}"),
        STRIP.format(plain="", hinge=f"{CALL}, peak: 1 in, gusset: 1 in)", after="",
                     variant=f"variant mid of base {{ hinge.peak = {peak}  hinge.gusset = 2 in }}\n"
                             f"variant other of mid {{ hinge with {{ gusset = {gusset} }} }}"),
    )  # fmt: skip

    def of_the_hinge(text: str) -> list[tuple[str, object]]:
        found = measurements(text, "other" if "variant other" in text else "base")
        return [each for each in found if each[0].startswith("hinge.")]

    first, *others = map(of_the_hinge, written)
    assert len(first) > 20
    for other in others:
        assert other == first
