"""What is asked for where not the whole design is: some requirements and steps, and the parts that lead to them."""

from __future__ import annotations

from collections.abc import Iterable

from pastedown.geometry.natural_order import without_number


class AskedFor:
    """`paths` are those of what is asked for, without the number at their end."""

    def __init__(self, paths: Iterable[str]) -> None:
        self._names: dict[str, set[str]] = {}
        self._parts: dict[str, set[str]] = {}
        for path in paths:
            part, _, name = path.rpartition(".")
            self._names.setdefault(part, set()).add(name)
            while part:
                above, _, last = part.rpartition(".")
                self._parts.setdefault(above, set()).add(without_number(last))
                part = above

    def names_in(self, part: str) -> list[str]:
        """What is asked of a part by its path, sorted."""
        return sorted(self._names.get(part, ()))

    def parts_in(self, part: str) -> list[str]:
        """The names of the parts in a part that lead to what is asked for, sorted."""
        return sorted(self._parts.get(part, ()))
