"""Units and conversions against published figures. Expected values come from the figure itself or from pint, never from
the factors of the compiler."""

from fractions import Fraction

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from pastedown.quantity import inches, mm, read_quantity

REGISTRY: pint.UnitRegistry[Fraction] = pint.UnitRegistry(non_int_type=Fraction)

# The names pint has for our units. `pt` is a thousandth of an inch (PrintWiki, 'Point': 80-point board is 0.080 in).
PINT_NAMES = {
    "in": "inch", "ft": "foot", "yd": "yard", "pt": "thou", "mm": "millimeter", "cm": "centimeter", "m": "meter",
}  # fmt: skip


@pytest.mark.parametrize("unit", PINT_NAMES)
def test_length_units_agree_with_pint(unit: str) -> None:
    expected = REGISTRY.Quantity(Fraction(7), PINT_NAMES[unit]).to("millimeter").magnitude
    assert read_quantity(f"7 {unit}").millimetres == expected


@pytest.mark.parametrize(
    ("text", "millimetres"),
    [
        # International yard and pound agreement of 1959, repeated in NIST SP 811, appendix B.8.
        ("1 in", "25.4"), ("1 ft", "304.8"), ("1 yd", "914.4"),
        # PrintWiki, 'Point': a point of thickness is one thousandth of an inch; GNU units 2.22, `pointthickness`.
        ("1 pt", "0.0254"), ("80 pt", "2.032"),
        # Decimal expansions of the fractions on an inch rule, times 25.4.
        ("1/64 in", "0.396875"), ("1/32 in", "0.79375"), ("1/16 in", "1.5875"), ("1/8 in", "3.175"),
        ("3/16 in", "4.7625"), ("1/4 in", "6.35"), ("3/8 in", "9.525"), ("1/2 in", "12.7"), ("5/8 in", "15.875"),
        ("3/4 in", "19.05"), ("7/8 in", "22.225"),
        # Papercatalog, 'Metric Measurements': 8 1/2 x 25.4 = 215.9 and 11 x 25.4 = 279.4.
        ("8 1/2 in", "215.9"), ("11 in", "279.4"),
        # NIST SP 811, appendix B.7.2: 36 ft is 10.9728 m.
        ("36 ft", "10972.8"),
        # NIST Metric Style Guide, LC 1137: 36 in is 91.44 cm and 40.1 in is 101.854 cm.
        ("36 in", "914.4"), ("40.1 in", "1018.54"),
    ],
)  # fmt: skip
def test_published_lengths(text: str, millimetres: str) -> None:
    assert read_quantity(text).millimetres == Fraction(millimetres)


@pytest.mark.parametrize("printers_point", ["point", "tex_point"])
def test_point_is_not_the_typographers_point(printers_point: str) -> None:
    # 1/72 in (PostScript) and 1/72.27 in (TeX), which CSS and TeX call pt.
    assert read_quantity("72 pt").millimetres != REGISTRY.Quantity(Fraction(72), printers_point).to("mm").magnitude


def test_css_inch_is_our_inch() -> None:
    # CSS Values and Units, absolute lengths: 1 in = 96 px = 72 pt = 6 pc = 101.6 Q, and 1 Q is a quarter millimetre.
    assert read_quantity("1 in").millimetres == Fraction("101.6") / 4
    assert float(read_quantity("1 in").millimetres / 96) == pytest.approx(0.264583, abs=5e-7)
    assert float(read_quantity("1 in").millimetres / 72) == pytest.approx(0.352778, abs=5e-7)


@given(st.fractions())
def test_inches_to_millimetres_and_back_is_the_identity(value: Fraction) -> None:
    assert inches(value).inches == value
    assert mm(value).inches * Fraction("25.4") == value
