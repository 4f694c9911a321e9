"""Pins: numbers set from outside all braces, to ask what a design would be with them."""

from __future__ import annotations

from attrs import frozen

from pastedown.geometry.instance import Instance
from pastedown.geometry.layer import Entry, Layer, Scope, Segment
from pastedown.quantity.quantity import Quantity
from pastedown.tree.expression import Argument, Literal


@frozen
class Pin:
    """A number by its path without indexes ("strip.height", which means every strip), and what it is to be."""

    path: str
    value: Quantity


def pin(root: Instance, pins: tuple[Pin, ...]) -> None:
    """Set numbers of a design that is about to be worked out, as its outermost layer: they win over all it says."""
    if not pins:
        return
    span = root.span
    entries: dict[str, list[Entry]] = {}
    for each in pins:
        names = each.path.split(".")
        said = Argument(names[-1], Literal(each.value.exact, span=span), span=span)
        path = tuple(Segment(name, None, span) for name in names)
        scope = Scope(root, root.component.file, {}, root)
        entries.setdefault(names[0], []).append(Entry(path, said, scope, 0, 0, False, span))
    root.layers.insert(0, Layer(entries))
