"""The lengths that are others since some were moved to marks: those moved, and those that parts take and work out from
them. Parts without pieces only pass lengths on, and are left out."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pastedown.geometry.fault import Fault, Spoilt
from pastedown.geometry.from_design import instances
from pastedown.geometry.model import Change
from pastedown.geometry.natural_order import natural_key
from pastedown.quantity.dimension import LENGTH
from pastedown.quantity.quantity import Length, Quantity
from pastedown.tree.statement import Piece, Takes

if TYPE_CHECKING:
    from pastedown.geometry.instance import Instance


def changes_of(root: Instance, written: Instance) -> tuple[Change, ...]:
    """What differs between a design on marks and the same as written, sorted by path."""
    before, after = dict(_taken(written)), dict(_taken(root))
    changed = [
        Change(path, before[path], mark) for path, mark in after.items() if path in before and before[path] != mark
    ]
    return tuple(sorted(changed, key=lambda change: natural_key(change.path)))


def _taken(root: Instance) -> list[tuple[str, Length]]:
    """Every length that a part with pieces takes, by its path."""
    found: list[tuple[str, Length]] = []
    for instance in instances(root):
        kinds = {name: instance.kind_of(name) for name in instance.names()}
        if Piece not in kinds.values():
            continue
        for name, kind in kinds.items():
            if kind is Takes:
                value = _value(instance, name)
                if value is not None:
                    found.append((instance.path_of(name, None), value))
    return found


def _value(instance: Instance, name: str) -> Length | None:
    try:
        value = instance.lookup(name, instance.span)
    except (Fault, Spoilt):
        return None
    return value if isinstance(value, Quantity) and value.dimension == LENGTH else None
