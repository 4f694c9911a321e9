"""Writes many paths as few words: those that differ in one number only are told as one."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

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


def pieces_printed(path: str, pieces: Iterable[str]) -> tuple[list[str], tuple[str, ...]]:
    """The pieces that a path names as a list of pieces prints them, with a dot for each blank, and the names behind
    that. Several where the numbers are left out that tell them apart; none where it names none."""
    said = path.split(".")
    known = [(each, tuple(_from_each_name(each))) for each in pieces]
    for length in range(len(said), 0, -1):
        found = {each for each, ends in known if any(_alike(said[:length], own) for own in ends)}
        if found:
            return sorted(found, key=natural_key), tuple(said[length:])
    return [], ()


def _from_each_name(path: str) -> Iterator[list[str]]:
    """The words of a path, from each of its names onwards."""
    names = path.split(".")
    for start in range(len(names)):
        yield ".".join(names[start:]).replace("_", ".").split(".")


def _alike(said: list[str], own: list[str]) -> bool:
    """Whether names are the same, but for numbers that were not said."""
    if len(said) != len(own):
        return False
    return all(one in (other, _INDEX.sub("", other)) for one, other in zip(said, own, strict=True))


def _in_words(numbers: list[int]) -> str:
    if len(numbers) > 1 and numbers == list(range(numbers[0], numbers[-1] + 1)):
        return f"{numbers[0]} to {numbers[-1]}"
    return ", ".join(map(str, numbers))
