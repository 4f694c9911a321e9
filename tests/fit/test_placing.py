"""The placing tree and sliding joins, against plain accounts of a graph."""

from collections import Counter
from unittest.mock import patch

from hypothesis import given, settings
from hypothesis import strategies as st

from reference.through_the_compiler import told

NAMES = "abcde"
edges = st.lists(
    st.tuples(st.sampled_from(NAMES), st.sampled_from(NAMES), st.booleans()), min_size=1, max_size=7
)  # fmt: skip


def recipe(joins: list[tuple[str, str, bool]]) -> str:
    """Five like pieces and, for each entry, what is joined to what; closings where the third is true."""
    lines = ["card = stock(kind: card, sheet: 300 mm x 300 mm, grain: none)"]
    lines += [f"piece {name} from card, height: 60 mm, width: 60 mm" for name in NAMES]
    for number, (what, to, closes) in enumerate(joins):
        word, lies = ("close", "") if closes else ("join", middles(what, to))
        lines.append(f"{word} j{number}: {what}.back to {to}.face {{ {lies} }}")
    return "\n".join(lines)


def middles(what: str, to: str) -> str:
    return " ".join(f"align {what}.{middle} to {to}.{middle}" for middle in ("mid_height", "mid_width"))


def rings(carrier: dict[str, str]) -> int:
    """How many rings there are when each piece is carried by at most one other."""
    found = set()
    for start in carrier:
        walk = [start]
        while walk[-1] in carrier and len(walk) <= len(NAMES) + 1:
            walk.append(carrier[walk[-1]])
        if start in walk[1:]:
            found.add(frozenset(walk[1 : walk.index(start, 1) + 1]))
    return len(found)


def heaps(joins: list[tuple[str, str, bool]]) -> int:
    """How many heaps of two pieces and more there are, by colouring."""
    colour = {name: name for name in NAMES}
    for what, to, _ in joins:
        old, new = colour[what], colour[to]
        colour = {name: new if own == old else own for name, own in colour.items()}
    return sum(count > 1 for count in Counter(colour.values()).values())


def way_down(name: str, carrier: dict[str, str]) -> list[str]:
    """What lies below a piece by the first join of each, the nearest first; nothing where it hangs in a ring and has no place."""
    way: list[str] = []
    while name in carrier:
        name = carrier[name]
        if name in way:
            return []
        way.append(name)
    return way


@settings(max_examples=60, deadline=None)
@given(edges)
def test_every_piece_has_one_place(joins: list[tuple[str, str, bool]]) -> None:
    expected: Counter[str] = Counter()
    carrier: dict[str, str] = {}
    for what, to, closes in joins:
        if closes:
            continue
        if what == to:
            expected["join-ring"] += 1
        elif what in carrier:
            expected["joined-twice"] += 1
        else:
            carrier[what] = to
    expected["join-ring"] += rings(carrier)
    held = {name for what, to, _ in joins for name in (what, to)}
    expected["joined-to-nothing"] = len(set(NAMES) - held)
    expected["two-heaps"] = max(0, heaps(joins) - 1)
    first: dict[str, str] = {}
    for what, to, closes in joins:
        if not closes:
            first.setdefault(what, to)
    for what, to, closes in joins:
        if closes and to != what:
            expected["close-looks-away"] += what in way_down(to, first)
            expected["close-misses"] += to in way_down(what, first)[1:]
    # What several of them follow from is looked for elsewhere.
    with patch("pastedown.mend.other_way_round.with_its_root", lambda judged: judged):
        found = Counter(told(recipe(joins)))
    assert found == +expected


def test_one_loose_piece_alone_needs_nothing() -> None:
    card = "card = stock(kind: card, sheet: 300 mm x 300 mm, grain: none)\n"
    assert told(f"{card}piece one from card, height: 60 mm, width: 60 mm") == []
    two = "".join(f"piece {name} from card, height: 60 mm, width: 60 mm, loose: yes\n" for name in "ab")
    assert told(card + two) == []


@settings(max_examples=20, deadline=None)
@given(st.lists(st.sampled_from(["head", "tail", "mid_height", "left", "right", "mid_width"]), max_size=3))
def test_a_join_slides_along_a_direction_in_which_it_is_not_aligned(lines: list[str]) -> None:
    body = f"""
      card = stock(kind: card, sheet: 300 mm x 300 mm, grain: none)
      piece a from card, height: 60 mm, width: 60 mm
      piece b from card, height: 60 mm, width: 60 mm
      join stuck: a.back to b.face {{ {" ".join(f"align a.{line} to b.{line}" for line in lines)} }}
    """
    axes = {"height" if line in ("head", "tail", "mid_height") else "width" for line in lines}
    assert told(body) == ([] if len(axes) == 2 else ["join-slides"])
