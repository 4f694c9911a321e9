"""Writes many paths as few words: those that differ in one number only are told as one."""

from __future__ import annotations

import re
from collections.abc import Iterable

from pastedown.geometry.natural_order import natural_key

_INDEX = re.compile(r"\[([0-9]+)\]")


def as_one(paths: Iterable[str]) -> list[str]:
    """Paths with those that are alike but for their first number told as one, as in leaf[1 to 3].sheet."""
    numbers: dict[tuple[str, str], list[int]] = {}
    for path in sorted(set(paths), key=natural_key):
        found = _INDEX.search(path)
        key = (path, "") if found is None else (path[: found.start()], path[found.end() :])
        numbers.setdefault(key, []).extend([] if found is None else [int(found[1])])
    return [
        before if not found else f"{before}[{_in_words(found)}]{after}" for (before, after), found in numbers.items()
    ]


def together(paths: Iterable[str]) -> str:
    """The same as words."""
    told = as_one(paths)
    return told[0] if len(told) == 1 else f"{', '.join(told[:-1])} and {told[-1]}"


def _in_words(numbers: list[int]) -> str:
    if len(numbers) > 1 and numbers == list(range(numbers[0], numbers[-1] + 1)):
        return f"{numbers[0]} to {numbers[-1]}"
    return ", ".join(map(str, numbers))
