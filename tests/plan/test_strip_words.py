"""The strips of tape that steps tell, against the length that the materials count."""

from fractions import Fraction

import pytest

from pastedown.design.stock import Stock
from pastedown.plan.bonded_zones import Zone
from pastedown.plan.plan import PlanText
from pastedown.plan.strip_words import strips_text
from pastedown.quantity.quantity import Length, Quantity, inches
from plan.small_models import PASTE, STICKY, written
from test_examples import DESIGNS, plan_of


def told_length(text: PlanText) -> Fraction:
    """Of all strips together in millimetres: "Lay ", how many, " strips of tape, each ", how long, " long ..."."""
    parts, total = list(text), Fraction(0)
    for at, part in enumerate(parts):
        if isinstance(part, str) and part.startswith(" strip"):
            count, length = parts[at - 1], parts[at + 1]
            assert isinstance(count, Quantity) and isinstance(length, Quantity)
            total += count.value * length.millimetres
    return total


@pytest.mark.parametrize("name", DESIGNS)
def test_all_strips_that_steps_tell_are_the_tape_that_is_bought(name: str) -> None:
    plan = plan_of(name.removesuffix(".album"))
    told = sum(told_length(step.text) * step.times for step in plan.steps if step.kind in ("join", "close"))
    bought = [each.amount.millimetres for each in plan.materials if each.kind == "tape" and not each.pieces]
    assert bought and told == sum(bought)


def words(*zones: Zone, stock: Stock = STICKY) -> str:
    return written(strips_text(stock, "tape", zones))


def seam(height: Length, width: Length) -> Zone:
    return Zone(height, width, moves=True)


def test_strips_are_told_place_by_place() -> None:
    narrow, wide = seam(inches(6), inches("1/2")), Zone(inches(1), inches(4))
    assert words(narrow) == "Lay 1 strip of tape, 6 in long from head to tail, where the two will meet."
    assert words(wide) == "Lay 2 strips of tape, each 4 in long from side to side, where the two will meet."
    assert words(narrow, narrow).endswith(", one for each of the 2 places where they will meet.")
    assert words(wide, wide) == (
        "Lay 4 strips of tape, each 4 in long from side to side, shared between the 2 places where they will meet."
    )
    assert words(narrow, wide) == (
        "Lay 1 strip of tape, 6 in long from head to tail, then 2 strips, each 4 in long from side to side, "
        "shared between the 2 places where they will meet."
    )


def test_what_comes_off_no_roll_has_no_strips() -> None:
    assert words(seam(inches(6), inches(1)), stock=PASTE) == words() == ""
    assert words(*(seam(inches(n), inches("1/2")) for n in range(1, 9))) == ""
