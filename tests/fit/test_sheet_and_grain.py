"""Pieces against sheets, rolls and grain: every way of lying, and the numbers in the message."""

from hypothesis import given
from hypothesis import strategies as st

from reference.through_the_compiler import told

sides = st.integers(min_value=10, max_value=60)


@given(
    sides,
    sides,
    sides,
    sides,
    st.sampled_from(["long", "short", "none", "marked"]),
    st.sampled_from(["height", "width", "any"]),
)
def test_the_verdict_is_that_of_trying_both_ways(
    high: int, wide: int, one: int, other: int, grain: str, wants: str
) -> None:
    found = told(
        f"card = stock(kind: card, sheet: {one} mm x {other} mm, grain: {grain})\n"
        f"piece leaf from card, height: {high} mm, width: {wide} mm, grain: {wants}"
    )
    long, short = max(one, other), min(one, other)
    lies = {"upright": high <= long and wide <= short, "across": high <= short and wide <= long}
    if not any(lies.values()):
        assert found == ["sheet-too-small"]
        return
    # Upright, the height lies along the longer side; grain long runs along that side.
    with_grain = {
        "upright": (wants == "height") == (grain == "long"),
        "across": (wants == "height") != (grain == "long"),
    }
    free = wants == "any" or grain in ("none", "marked") or long == short
    fits = free or any(lies[way] and with_grain[way] for way in lies)
    assert found == ([] if fits else ["against-grain"])


def test_like_pieces_are_told_about_once() -> None:
    body = """
      card = stock(kind: card, sheet: 10 mm x 10 mm, grain: marked)
      each k from 1 to 5 { piece leaf[k] from card, height: 20 mm, width: 20 mm, loose: yes }
    """
    assert told(body) == ["sheet-too-small"]
