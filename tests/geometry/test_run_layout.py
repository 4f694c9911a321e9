"""Runs: panels and folds lie where the sums of the panels before them say, whichever edge the run begins at."""

from fractions import Fraction
from itertools import accumulate, pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from reference.through_the_compiler import fact, piece, refused, size

CARD = "card = stock(kind: card, sheet: 3 m x 3 m, caliper: 1 mm, grain: none)\n"
ENDS = {
    "left to right": ("width", False), "right to left": ("width", True),
    "tail to head": ("height", False), "head to tail": ("height", True),
}  # fmt: skip
sizes = st.lists(st.integers(1, 80), min_size=2, max_size=9)


def strip(run: str, panels: list[int]) -> str:
    """A strip with a fold between each two panels, mountains and valleys in turn."""
    words = [f"panel p{number}: {size} mm" for number, size in enumerate(panels)]
    folds = [f"fold f{number}: {'valley' if number % 2 else 'mountain'}" for number in range(len(panels) - 1)]
    lying = " ".join(word for pair in zip(words, [*folds, ""], strict=True) for word in pair)
    other = "height" if ENDS[run][0] == "width" else "width"
    return f"{CARD}piece strip from card, {other}: 50 mm, loose: yes {{ run {run} {{ {lying} }} }}\n"


@settings(max_examples=40, deadline=None)
@given(sizes, st.sampled_from(sorted(ENDS)))
def test_panels_and_folds_lie_at_the_running_sums(panels: list[int], run: str) -> None:
    axis, backwards = ENDS[run]
    found = piece(strip(run, panels), "strip")
    (made,) = found.runs
    sums = [0, *accumulate(panels)]
    assert (made.axis, made.reversed) == (axis, backwards)
    assert [(panel.start.value, panel.end.value) for panel in made.panels] == list(pairwise(sums))
    assert [score.at.value for score in made.scores] == sums[1:-1]
    assert [score.kind for score in made.scores] == (["mountain", "valley"] * len(panels))[: len(panels) - 1]
    assert (found.width if axis == "width" else found.height).value == made.side.value == sum(panels)


@settings(max_examples=40, deadline=None)
@given(sizes, st.sampled_from(sorted(ENDS)), st.data())
def test_a_fold_is_as_far_from_an_edge_as_the_panels_between_are_long(
    panels: list[int], run: str, data: st.DataObject
) -> None:
    at = data.draw(st.integers(0, len(panels) - 2))
    axis = ENDS[run][0]
    first, last = run.split(" to ")
    body = strip(run, panels)
    spans = "".join(
        f"{name} = span(strip.{line}, to: strip.f{at}, along: {axis}, pose: flat)\n"
        for name, line in (("from_first", first), ("from_last", last))
    )
    assert fact(body + spans, "from_first") == sum(panels[: at + 1])
    assert fact(body + spans, "from_last") == sum(panels[at + 1 :])


@pytest.mark.parametrize("run", sorted(ENDS))
def test_the_edges_of_a_panel_are_those_of_the_paper(run: str) -> None:
    # Whichever way the run is read, the head of a panel lies nearer the head, its left edge nearer the left.
    axis = ENDS[run][0]
    near, far = ("left", "right") if axis == "width" else ("tail", "head")
    body = strip(run, [10, 20, 40]) + "".join(
        f"{name} = span(strip.{near}, to: strip.p1.{line}, along: {axis}, pose: flat)\n"
        for name, line in (("start", near), ("end", far), ("middle", f"mid_{axis}"))
    )
    start = 40 if ENDS[run][1] else 10
    assert [fact(body, name) for name in ("start", "end", "middle")] == [start, start + 20, start + 10]


def test_a_panel_is_as_long_as_it_says_and_as_high_as_its_piece() -> None:
    body = strip("left to right", [10, 20, 40]) + (
        "one = strip.p1.size\ntwo = strip.p1.width\nthree = strip.p1.height\nfour = strip.area\n"
    )
    assert [fact(body, name) for name in ("one", "two", "three", "four")] == [20, 20, 50, 70 * 50]


def test_two_runs_cross() -> None:
    body = (
        CARD
        + """
      piece box from card, loose: yes {
        run tail to head { panel low: 10 mm  fold a: valley  panel mid: 30 mm  fold b: valley  panel high: 10 mm }
        run left to right { panel near: 5 mm  fold c: valley  panel field: 60 mm  fold d: valley  panel far: 5 mm }
      }
    """
    )
    assert size(body, "box") == (50, 70)
    assert [(run.axis, len(run.scores)) for run in piece(body, "box").runs] == [("height", 2), ("width", 2)]


@settings(max_examples=15, deadline=None)
@given(st.integers(1, 9), st.integers(1, 9), st.integers(1, 9))
def test_a_repeated_run_is_the_run_written_out(count: int, deep: int, gap: int) -> None:
    def marks(inner: str) -> tuple[list[Fraction], list[str]]:
        body = f"{CARD}piece strip from card, height: 50 mm, loose: yes {{ run left to right {{ panel a: 20 mm {inner} panel z: 20 mm }} }}"
        (run,) = piece(body, "strip").runs
        return [score.at.value for score in run.scores], [score.kind for score in run.scores]

    repeated = (
        f"each k from 1 to {count} {{ fold foot[k]: valley panel rise[k]: {deep} mm fold crest[k]: mountain "
        f"panel fall[k]: {deep} mm fold heel[k]: valley if k < {count} {{ panel floor[k]: {gap} mm }} }}"
    )
    out = f"panel q: {gap} mm ".join(
        f"fold foot_{k}: valley panel rise_{k}: {deep} mm fold crest_{k}: mountain panel fall_{k}: {deep} mm fold heel_{k}: valley "
        for k in range(count)
    )
    for k in range(count - 1):
        out = out.replace("panel q:", f"panel floor_{k}:", 1)
    assert marks(repeated) == marks(out)


@pytest.mark.parametrize(
    ("settings_of_piece", "ids"),
    [("width: 70 mm, ", []), ("width: 71 mm, ", ["run-mismatch"]), ("", []), ("width: 2 3/4 in, ", ["run-mismatch"])],
)
def test_a_stated_side_has_to_be_the_sum_of_the_panels(settings_of_piece: str, ids: list[str]) -> None:
    body = strip("left to right", [10, 20, 40]).replace("card, height", f"card, {settings_of_piece}height")
    assert refused(body) == ids
