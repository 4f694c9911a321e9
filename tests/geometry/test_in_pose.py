"""Places of folded and joined pieces, against rotation matrices that know nothing of the compiler."""

from fractions import Fraction
from math import cos, pi, sin

from hypothesis import given, settings
from hypothesis import strategies as st

from pastedown.geometry.folded_piece import Field, fold_piece
from pastedown.geometry.frame import AT_THE_ORIGIN, cosine, square_to
from pastedown.geometry.in_pose import HIGHEST_HEAP, InPose, paper_between
from pastedown.geometry.model import Model
from reference.through_the_compiler import made, refused

DEGREES = {"flat": 0, "square": 90, "shut": 180}
folds = st.lists(
    st.tuples(st.integers(1, 40), st.sampled_from(["mountain", "valley"]), st.sampled_from([*DEGREES])),
    min_size=1,
    max_size=5,
)
Matrix = list[list[float]]


def model_of(body: str) -> Model:
    model = made(body).model
    assert model is not None
    return model


def recipe(axis: str, sizes: list[tuple[int, str, str]], caliper: str = ", caliper: 0.5 mm") -> str:
    edges, other = ("left_edge to right_edge", "height") if axis == "width" else ("tail to head", "width")
    run = " ".join(f"panel p{at}: {size} mm fold f{at}: {kind}" for at, (size, kind, _) in enumerate(sizes))
    angles = " ".join(f"sheet.f{at} = {angle}" for at, (_, _, angle) in enumerate(sizes))
    return (
        f"card = stock(kind: card, sheet: 900 mm x 900 mm{caliper}, grain: none)\n"
        f"piece sheet from card, {other}: 10 mm, left: left_edge, right: right_edge, loose: yes {{\n"
        f"  run {edges} {{ {run} panel last: 7 mm }}\n}}\n"
        f"pose made_up {{ {angles} }}"
    )


def turned_about(axis: str, x: float, z: float, degrees: float) -> Matrix:
    """A turn about a line across `axis`, `x` along it and `z` high, as a matrix of four rows; positive degrees lift
    what lies beyond."""
    c, s = cos(degrees * pi / 180), sin(degrees * pi / 180)
    i = 0 if axis == "width" else 1
    turn = [[float(row == column) for column in range(4)] for row in range(4)]
    turn[i][i], turn[i][2], turn[2][i], turn[2][2] = c, -s, s, c
    turn[i][3], turn[2][3] = x - c * x + s * z, z - s * x - c * z
    return turn


def times(one: Matrix, other: Matrix) -> Matrix:
    return [[sum(one[row][k] * other[k][column] for k in range(4)) for column in range(4)] for row in range(4)]


@given(st.sampled_from(["width", "height"]), folds)
def test_folded_fields_lie_where_matrices_put_them(axis: str, sizes: list[tuple[int, str, str]]) -> None:
    model = model_of(recipe(axis, sizes))
    (sheet,) = model.pieces
    folded, base = fold_piece(sheet, model.made_up, "p0")
    assert base.frame == AT_THE_ORIGIN
    at, place = 0.0, turned_about(axis, 0, 0, 0)
    ordered = sorted(folded.fields, key=lambda one: (one.left, one.tail))
    for number, one in enumerate(ordered):
        found = one.frame.point(one.left, one.tail, Fraction(0))
        wanted = moved(place, one)
        assert all(abs(float(a) - b) < 1e-9 for a, b in zip(found, wanted, strict=True))
        if number < len(sizes):
            size, kind, angle = sizes[number]
            at += size
            rise = 1 if kind == "valley" else -1
            place = times(place, turned_about(axis, at, 0 if rise == 1 else -0.5, rise * DEGREES[angle]))


def moved(place: Matrix, one: Field) -> list[float]:
    flat = (float(one.left), float(one.tail), 0.0, 1.0)
    return [sum(place[row][k] * flat[k] for k in range(4)) for row in range(3)]


@given(folds)
def test_frames_stay_right_handed(sizes: list[tuple[int, str, str]]) -> None:
    model = model_of(recipe("width", sizes))
    for one in fold_piece(model.pieces[0], model.made_up, "")[0].fields:
        assert square_to(one.frame.x, one.frame.y) == one.frame.z
        assert cosine(one.frame.x, one.frame.y) == 0


def test_a_piece_is_placed_upright_or_turned_where_only_so_it_lies_on_the_paper() -> None:
    model = model_of(
        """
        card = stock(kind: card, sheet: 12 in x 12 in, caliper: 0.5 mm, grain: none)
        piece under from card, height: 100 mm, width: 60 mm
        piece upright from card, height: 20 mm, width: 10 mm
        piece turned from card, height: 20 mm, width: 10 mm
        join a: upright.back to under.face {
          align upright.head to under.head, inside: 5 mm   align upright.left to under.left
        }
        join b: turned.back to under.face {
          align turned.tail to under.head                  align turned.right to under.left
        }
        """
    )
    places = InPose(model)
    assert corner(places, model, "upright") == (0, 75)
    assert places.place("turned").base.frame.y == (0, -1, 0)  # type: ignore[union-attr]


def corner(places: InPose, model: Model, path: str) -> tuple[Fraction, Fraction]:
    placed = places.place(path)
    assert placed is not None
    x, y, _ = placed.base.frame.point(Fraction(0), Fraction(0), Fraction(0))
    return x, y


FOLDER = """
card = stock(kind: card, sheet: 12 in x 12 in, caliper: 12 pt, grain: long)
sticky = stock(kind: tape, roll_width: 1/4 in, caliper: 4 pt)
piece sheet from card, height: 5 in, left: west, right: east {{
  run west to east {{
    panel tab: 1/2 in  fold tab_fold: mountain  panel front: 4 in  fold turn: mountain  panel rear: {rear}
  }}
}}
close seam: sheet.tab.face to sheet.rear.back, by: sticky {{
  align sheet.tab_fold to sheet.rear.east
  align sheet.tab.tail to sheet.rear.tail
}}
pose made_up {{ sheet.tab_fold = shut  sheet.turn = shut }}
"""


def test_a_closing_may_miss_by_the_paper_between_its_sides_and_no_more() -> None:
    # Two folds lie between the two panels: five leaves of 12 points and one of tape.
    for off, found in (("0 in", []), ("0.064 in", []), ("0.065 in", ["close-misses"]), ("0 in - 0.065 in", ["close-misses"])):
        assert refused(FOLDER.format(rear=f"4 in + {off}")) == found, off


def test_a_heap_is_placed_up_to_its_highest_piece() -> None:
    higher = HIGHEST_HEAP + 1
    lines = ["card = stock(kind: card, sheet: 300 mm x 300 mm, caliper: 0.5 mm, grain: none)"]
    lines += [f"piece s{number} from card, height: 20 mm, width: 20 mm" for number in range(higher + 1)]
    lines += [
        f"join j{number}: s{number}.back to s{number - 1}.face {{\n"
        f"  align s{number}.tail to s{number - 1}.tail   align s{number}.left to s{number - 1}.left\n}}"
        for number in range(1, higher + 1)
    ]
    places = InPose(model_of("\n".join(lines)))
    below, top, above = (places.place(f"s{number}") for number in (0, HIGHEST_HEAP, higher))
    assert below is not None and top is not None and above is None
    assert top.base.frame.origin[2] == HIGHEST_HEAP * Fraction("0.5")


def test_the_way_between_two_sides_counts_every_leaf_once() -> None:
    model = model_of(
        """
        card = stock(kind: card, sheet: 300 mm x 300 mm, caliper: 0.5 mm, grain: none)
        film = stock(kind: tape, roll_width: 5 mm, caliper: 0.1 mm)
        piece under from card, height: 90 mm, width: 60 mm
        each k from 1 to 2 {
          piece leaf[k] from card, height: 20 mm, width: 20 mm
          piece label[k] from card, height: 10 mm, width: 10 mm
          join on[k]: leaf[k].back to under.face, by: film {
            align leaf[k].left to under.left   align leaf[k].tail to under.tail, inside: k * 30 mm
          }
          join up[k]: label[k].back to leaf[k].face, by: film {
            align label[k].left to leaf[k].left   align label[k].tail to leaf[k].tail
          }
        }
        """
    )
    places = InPose(model)
    first, second, leaf = (places.side((path, "", "face")) for path in ("label[1]", "label[2]", "leaf[1]"))
    assert first is not None and second is not None and leaf is not None
    # Two labels, two leaves and what lies under both, with four films; from a label to its own leaf, two and one.
    assert paper_between(first, second) == 5 * Fraction("0.5") + 4 * Fraction("0.1")
    assert paper_between(first, leaf) == paper_between(leaf, first) == 2 * Fraction("0.5") + Fraction("0.1")


@given(folds)
@settings(deadline=None)
def test_paper_without_thickness_is_the_flat_arithmetic(sizes: list[tuple[int, str, str]]) -> None:
    """Each panel goes on from the one before, turned by its fold: a sum of whole numbers in the plane of x and z."""
    quarters = {"flat": 0, "square": 1, "shut": 2}
    at, way = 0j, 1 + 0j
    wanted = [at]
    for size, kind, angle in sizes:
        at += size * way
        wanted.append(at)
        way *= (1j if kind == "valley" else -1j) ** quarters[angle]
    found = begins(sizes, "")
    assert found == [(Fraction(int(each.real)), Fraction(int(each.imag))) for each in wanted]


@given(folds, st.integers(1, 50))
@settings(deadline=None)
def test_places_go_to_the_flat_arithmetic_with_the_thickness(sizes: list[tuple[int, str, str]], hundredths: int) -> None:
    """How far thick paper lies from paper without thickness grows with the thickness in a straight line, by two
    calipers at most for each fold."""
    caliper = Fraction(hundredths, 100)
    without = begins(sizes, "")
    once, twice = (begins(sizes, f", caliper: {times * hundredths}/100 mm") for times in (1, 2))
    for number, (flat, one, two) in enumerate(zip(without, once, twice, strict=True)):
        for axis in (0, 1):
            assert two[axis] - flat[axis] == 2 * (one[axis] - flat[axis])
            assert abs(one[axis] - flat[axis]) <= 2 * caliper * number


def begins(sizes: list[tuple[int, str, str]], caliper: str) -> list[tuple[Fraction, Fraction]]:
    """Where the face of each panel begins, along the width of the first one and out of its face."""
    model = model_of(recipe("width", sizes, caliper))
    fields = sorted(fold_piece(model.pieces[0], model.made_up, "p0")[0].fields, key=lambda one: one.left)
    places = [one.frame.point(one.left, one.tail, Fraction(0)) for one in fields]
    return [(x, z) for x, _, z in places]


def test_what_is_stuck_on_does_not_slide_when_it_is_folded() -> None:
    """Put on by the middle of all of it: folded otherwise its middle is elsewhere, and the glue is not."""
    model = model_of(
        """
        card = stock(kind: card, sheet: 300 mm x 300 mm, caliper: 0.5 mm, grain: none)
        piece under from card, height: 90 mm, width: 80 mm
        piece over from card, height: 40 mm, left: west, right: east {
          run west to east { panel foot: 30 mm   fold hinge: valley   panel flag: 20 mm }
        }
        join on: over.foot.back to under.face {
          align over.mid_width to under.mid_width   align over.mid_height to under.mid_height
        }
        pose risen { over.hinge = square }
        pose over_it { over.hinge = shut }
        """
    )
    made_up = InPose(model)
    for places in (made_up, *(InPose(model, pose, made_up) for pose in model.poses)):
        assert corner(places, model, "over") == (15, 25)
