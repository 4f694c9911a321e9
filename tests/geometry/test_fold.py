"""Thick folding against an independent account of it: plates turned by rotations in floating point."""

from math import cos, pi, sin

from hypothesis import given
from hypothesis import strategies as st

from pastedown.geometry.fold import fold_section
from pastedown.geometry.piece import Panel, Run, Score
from pastedown.quantity.quantity import NO_LENGTH, Length, mm

Corner = tuple[float, float]
TURNS = {"flat": 0.0, "square": pi / 2, "shut": pi}


def run_of(sizes: list[int], kinds: list[str]) -> Run:
    panels: list[Panel] = []
    scores: list[Score] = []
    at = NO_LENGTH
    for number, size in enumerate(sizes):
        panels.append(Panel(f"panel[{number}]", at, at + mm(size)))
        at = at + mm(size)
        if number < len(sizes) - 1:
            scores.append(Score(f"fold[{number}]", at, kinds[number]))
    return Run("width", "left", "right", False, tuple(panels), tuple(scores))


def turned(point: Corner, about: Corner, angle: float) -> Corner:
    x, y = point[0] - about[0], point[1] - about[1]
    return about[0] + x * cos(angle) - y * sin(angle), about[1] + x * sin(angle) + y * cos(angle)


def hinges_by_rotation(
    sizes: list[int], kinds: list[str], angles: list[str], caliper: int, gaps: list[int]
) -> list[Corner]:
    """Lay all plates flat, face up with the face at height nought; then turn everything behind each fold, the last fold
    first, about its hinge: on the face for a valley, on the back for a mountain."""
    starts = [float(sum(sizes[:number])) for number in range(len(sizes) + 1)]
    hinges = [
        (starts[number + 1], 0.0 if kinds[number] == "valley" else -float(caliper)) for number in range(len(kinds))
    ]
    points: list[Corner] = [*hinges, (starts[-1], 0.0)]
    for number in reversed(range(len(kinds))):
        sign = 1 if kinds[number] == "valley" else -1
        apart = sign * gaps[number] if angles[number] == "shut" else 0
        for later in range(number + 1, len(points)):
            x, y = turned(points[later], hinges[number], sign * TURNS[angles[number]])
            points[later] = (x, y + apart)
    return points


folds = st.integers(min_value=1, max_value=7)


@given(st.data())
def test_a_folded_run_lies_where_rotation_puts_it(data: st.DataObject) -> None:
    count = data.draw(folds)
    sizes = data.draw(st.lists(st.integers(1, 200), min_size=count + 1, max_size=count + 1))
    kinds = data.draw(st.lists(st.sampled_from(["mountain", "valley"]), min_size=count, max_size=count))
    angles = data.draw(st.lists(st.sampled_from(sorted(TURNS)), min_size=count, max_size=count))
    gaps = data.draw(st.lists(st.integers(0, 5), min_size=count, max_size=count))
    caliper = data.draw(st.integers(0, 4))
    names = [f"fold[{number}]" for number in range(count)]
    section = fold_section(
        run_of(sizes, kinds), dict(zip(names, angles, strict=True)), mm(caliper),
        {name: mm(gap) for name, gap in zip(names, gaps, strict=True)},
    )  # fmt: skip
    expected = hinges_by_rotation(sizes, kinds, angles, caliper, gaps)
    found = [*(section.folds[name] for name in names), section.last]
    for point, (x, y) in zip(found, expected, strict=True):
        assert abs(float(point.x.millimetres) - x) < 1e-6
        assert abs(float(point.y.millimetres) - y) < 1e-6


@given(
    st.integers(1, 12), st.integers(1, 60), st.integers(1, 60), st.integers(1, 90), st.integers(0, 3), st.integers(0, 3)
)
def test_closed_peaks_take_two_calipers_and_the_adhesive_each(
    peaks: int, depth: int, gap: int, end: int, caliper: int, film: int
) -> None:
    # FLD-20 of the strip geometry at a neutral line on the inner surface: 2F + (n - 1)g + n(2t + a).
    sizes, kinds, angles = [end], [], []
    for number in range(peaks):
        sizes += [depth, depth, gap if number < peaks - 1 else end]
        kinds += ["valley", "mountain", "valley"]
        angles += ["square", "shut", "square"]
    names = [f"fold[{number}]" for number in range(len(kinds))]
    crests = {name: mm(film) for name, angle in zip(names, angles, strict=True) if angle == "shut"}
    section = fold_section(run_of(sizes, kinds), dict(zip(names, angles, strict=True)), mm(caliper), crests)
    expected: Length = mm(2 * end + (peaks - 1) * gap + peaks * (2 * caliper + film))
    assert section.last.x - section.first.x == expected
    assert section.last.y == NO_LENGTH


def test_paper_without_thickness_gives_the_flat_arithmetic() -> None:
    run = run_of([40, 10, 10, 40], ["valley", "mountain", "valley"])
    angles = {"fold[0]": "square", "fold[1]": "shut", "fold[2]": "square"}
    section = fold_section(run, angles, NO_LENGTH, {})
    assert section.last.x == mm(80)
