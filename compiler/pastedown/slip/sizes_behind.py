"""Finds the lengths given to parts that their pieces were cut by, for pieces that were cut at another scale."""

from __future__ import annotations

from collections.abc import Iterator

from pastedown.geometry.fault import Fault, Spoilt
from pastedown.geometry.instance import Instance
from pastedown.geometry.paths import paths_in
from pastedown.quantity.dimension import LENGTH
from pastedown.quantity.quantity import Length, Quantity
from pastedown.slip.shapes import CutTo, Shapes
from pastedown.tree.expression import Expression
from pastedown.tree.statement import Fact, Takes


def sizes_behind(root: Instance, pieces: set[str], facts: tuple[CutTo, ...]) -> dict[str, Length]:
    """By path, what was given to parts of which every piece is among `pieces` and what their sizes are worked out from,
    as "the sheet" of a part whose height is what is left of it. The sizes themselves are read off the pieces."""
    found: dict[str, Length] = {}
    for fact in facts:
        part = fact.instance
        of_part = [each for each in facts if each.instance is part]
        if all(side[0] in pieces for each in of_part for side, _ in each.places):
            own = {each.name for each in of_part}
            for name in _given_behind(part, fact.name, set()):
                value = _value(part, name)
                if name not in own and value is not None:
                    found[part.path_of(name, None)] = value
    return found


def whole_sizes(facts: tuple[CutTo, ...], shapes: Shapes) -> tuple[CutTo, ...]:
    """What was given to parts, is what sizes of their pieces are worked out from, and is a whole side of a piece that
    has folds across it: that side is cut to it, without its name being written there."""
    found: dict[str, CutTo] = {}
    for fact in facts:
        part = fact.instance
        own = {each.name for each in facts if each.instance is part}
        for name in _given_behind(part, fact.name, set()):
            sides = [side for each in facts if each.instance is part for side, _ in each.places]
            value = _value(part, name)
            whole = [side for side in dict.fromkeys(sides) if shapes[side].ends and shapes[side].side == value]
            places = tuple((side, None) for side in whole)
            if places and name not in own:
                found[part.path_of(name, None)] = CutTo(part, name, places)
    return tuple(found.values())


def _given_behind(part: Instance, name: str, seen: set[str]) -> Iterator[str]:
    if name in seen or not part.has(name):
        return
    seen.add(name)
    setting, kind = part.setting(name), part.kind_of(name)
    if kind is Takes and setting is not None:
        yield name
        return
    for path in paths_in(_own_words(part, name)):
        if not path.trailers:
            yield from _given_behind(part, path.head, seen)


def _own_words(part: Instance, name: str) -> Expression | None:
    """What a component itself says that one of its lengths is."""
    for layer in part.layers:
        for entry in layer.entries(name):
            if len(entry.path) == 1 and isinstance(entry.statement, Takes):
                return entry.statement.default
            if len(entry.path) == 1 and isinstance(entry.statement, Fact) and layer is part.layers[-1]:
                return entry.statement.value
    return None


def _value(part: Instance, name: str) -> Length | None:
    try:
        value = part.lookup(name, part.span)
    except (Fault, Spoilt):
        return None
    return value if isinstance(value, Quantity) and value.dimension == LENGTH else None
