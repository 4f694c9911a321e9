"""Zones of layers, against a grid that looks at every cell by itself."""

from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from pastedown.geometry.layer_stack import Layer, LayerStack, Rectangle, stack_of

SIDE = 6
marks = st.integers(0, SIDE).map(Fraction)


@st.composite
def rectangles(draw: st.DrawFn) -> Rectangle:
    left, right = sorted(draw(st.lists(marks, min_size=2, max_size=2, unique=True)))
    tail, head = sorted(draw(st.lists(marks, min_size=2, max_size=2, unique=True)))
    return Rectangle(left, right, tail, head)


@st.composite
def layers(draw: st.DrawFn) -> Layer:
    thickness = Fraction(draw(st.integers(1, 20)), 10)
    return Layer("sheet", thickness, draw(rectangles()), tuple(draw(st.lists(rectangles(), max_size=2))))


def is_in(place: Rectangle, x: Fraction, y: Fraction) -> bool:
    return place.left < x < place.right and place.tail < y < place.head


def lying_at(found: list[Layer], x: Fraction, y: Fraction) -> list[int]:
    return [
        number
        for number, one in enumerate(found)
        if is_in(one.place, x, y) and not any(is_in(hole, x, y) for hole in one.holes)
    ]


def cells() -> list[tuple[Fraction, Fraction]]:
    middles = [Fraction(2 * at + 1, 2) for at in range(SIDE)]
    return [(x, y) for x in middles for y in middles]


@given(st.lists(layers(), max_size=7))
def test_zones_are_what_a_grid_finds(found: list[Layer]) -> None:
    stack = stack_of(found)
    for x, y in cells():
        zones = [zone for zone in stack.zones if is_in(zone.place, x, y)]
        lying = lying_at(found, x, y)
        assert len(zones) == (1 if lying else 0)
        if lying:
            assert list(zones[0].layers) == lying
            assert zones[0].thickness == sum(found[number].thickness for number in lying)
    assert stack.highest == max((sum(found[n].thickness for n in lying_at(found, x, y)) for x, y in cells()), default=0)


@given(st.lists(layers(), max_size=6), st.lists(rectangles(), min_size=1, max_size=3))
def test_over_some_places_it_is_what_a_grid_finds_there(found: list[Layer], over: list[Rectangle]) -> None:
    stack = stack_of(found, tuple(over))
    for x, y in cells():
        inside = any(is_in(place, x, y) for place in over)
        here = sum((zone.thickness for zone in stack.zones if is_in(zone.place, x, y)), Fraction(0))
        assert here == (sum(found[number].thickness for number in lying_at(found, x, y)) if inside else 0)


def gape(stack: LayerStack, room: Fraction) -> Fraction:
    return stack.steepest(room, "width", Fraction(0))


@given(st.lists(layers(), max_size=6), st.integers(0, 40), st.integers(0, 40))
def test_more_room_never_gapes_more(found: list[Layer], room: int, more: int) -> None:
    stack = stack_of(found)
    assert gape(stack, Fraction(room + more, 10)) <= gape(stack, Fraction(room, 10))
    assert (gape(stack, Fraction(room, 10)) > 0) == (stack.highest > Fraction(room, 10))


@given(st.lists(layers(), max_size=5), layers())
def test_one_more_layer_never_makes_it_thinner(found: list[Layer], one: Layer) -> None:
    assert stack_of([*found, one]).highest >= stack_of(found).highest


@given(st.lists(layers(), max_size=6))
def test_without_thickness_all_is_flat(found: list[Layer]) -> None:
    flat = stack_of(Layer(one.what, Fraction(0), one.place, one.holes) for one in found)
    assert flat.highest == 0 and gape(flat, Fraction(0)) == 0


def mirrored(place: Rectangle) -> Rectangle:
    return Rectangle(-place.right, -place.left, place.tail, place.head)


@given(st.lists(layers(), max_size=6), st.integers(0, 20), marks)
def test_a_mirror_changes_nothing(found: list[Layer], room: int, line: Fraction) -> None:
    other = [Layer(one.what, one.thickness, mirrored(one.place), tuple(map(mirrored, one.holes))) for one in found]
    above = Fraction(room, 10)
    assert stack_of(other).highest == stack_of(found).highest
    assert stack_of(other).steepest(above, "width", -line) == stack_of(found).steepest(above, "width", line)
