"""Finds the lengths given to parts that their pieces were cut by, for pieces that were cut at another scale."""

from __future__ import annotations

from collections.abc import Iterator

from pastedown.geometry.fault import Fault, Spoilt
from pastedown.geometry.instance import Instance
from pastedown.geometry.paths import paths_in
from pastedown.quantity.dimension import LENGTH
from pastedown.quantity.quantity import Length, Quantity
from pastedown.slip.shapes import CutTo, Shapes
from pastedown.tree.expression import Expression, Path
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


def handed_down(facts: tuple[CutTo, ...]) -> tuple[CutTo, ...]:
    """The same, with the facts that parts were given by their plain names for what their pieces are cut to: these
    pieces are cut to those facts, too, as all pages are to the height that a design states once for them."""
    found = {fact.path: fact for fact in facts}
    further = list(facts)
    while further:
        fact = further.pop(0)
        above = _given_by(fact)
        if above is None:
            continue
        owner, name = above
        before = found.get(owner.path_of(name, None))
        known = () if before is None else before.places
        more = tuple(place for place in fact.places if place not in known)
        if more:
            found[owner.path_of(name, None)] = CutTo(owner, name, (*known, *more), handed_down=True)
            further.append(CutTo(owner, name, more, handed_down=True))
    return tuple(found.values())


def _given_by(fact: CutTo) -> tuple[Instance, str] | None:
    """The fact of another part that a fact was given by its plain name."""
    setting = fact.instance.setting(fact.name) if fact.is_given else None
    value = None if setting is None else setting.value
    if setting is None or not isinstance(value, Path) or value.trailers or value.head in setting.scope.locals:
        return None
    owner = setting.scope.part
    if owner is None or owner is fact.instance or not owner.has(value.head):
        return None
    return owner, value.head


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
