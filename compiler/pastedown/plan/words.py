"""Paths of a recipe as words a maker reads: "tray[2].long_side" becomes "the long side of tray 2"."""

import re

from pastedown.geometry.natural_order import without_indexes

_INDEX = re.compile(r"\[([^\]]*)\]")
# Of things that parts of paper are named after; all others take an s.
_PLURALS = {"leaf": "leaves", "half": "halves", "shelf": "shelves", "foot": "feet", "tooth": "teeth"}
_SPOKEN_LINES = {"mid_height": "mid-height line", "mid_width": "mid-width line"}


def of_family(path: str) -> str:
    """A path without its numbers."""
    return without_indexes(path)


def spoken(name: str) -> str:
    """One name, or a path read from the outside in, without dots, brackets and underscores: "tray 2 long side"."""
    return " ".join(_INDEX.sub(r" \1", name).replace("_", " ").replace(".", " ").split())


def last_name(path: str) -> str:
    return path.rpartition(".")[2]


def is_of_part(path: str, part: str) -> bool:
    """Whether something lies in a part, or is that part; all lies in the design itself, whose path is ""."""
    return not part or path == part or path.startswith(f"{part}.")


def within(path: str, part: str) -> str:
    """The path as one says it when speaking of `part` already; unchanged when it lies elsewhere."""
    return path[len(part) + 1 :] if part and path.startswith(part + ".") else path


def read_inside_out(path: str) -> str:
    """A path as one would say it, the smallest thing first: "the tail of the long side of tray 2"."""
    return " of ".join(_with_article(name) for name in reversed(path.split(".")))


def read_piece(path: str) -> str:
    """A piece's path as one would say it, where a piece that is named like its part is named once: "the tray"."""
    told: list[str] = []
    for name in path.split("."):
        if not (told and is_said_by(told[-1], name)):
            told.append(name)
    return read_inside_out(".".join(told))


def is_said_by(owner: str, name: str) -> bool:
    """Whether a part's name says what its piece is called as well: "tray" and "long_tray" say "tray"."""
    return f"_{without_indexes(owner)}".endswith(f"_{name}")


def _with_article(name: str) -> str:
    words = _SPOKEN_LINES.get(name) or spoken(name)
    return words if name.endswith("]") else f"the {words}"


def plural(words: str) -> str:
    """The words with the last of them in the plural: "back covers", "leaves", "boxes"."""
    start, last = words[: words.rfind(" ") + 1], words[words.rfind(" ") + 1 :]
    if last in _PLURALS:
        return start + _PLURALS[last]
    if not last.isascii() or not last[-1:].isalpha() or (last.endswith("s") and not last.endswith("ss")):
        return words
    if last.endswith(("ss", "x", "z", "ch", "sh")):
        return f"{words}es"
    if last.endswith("y") and last[-2:-1] not in "aeiou":
        return f"{words[:-1]}ies"
    return f"{words}s"


def listed(words: list[str]) -> str:
    """ "a", "a and b", "a, b and c"."""
    return words[0] if len(words) == 1 else ", ".join(words[:-1]) + " and " + words[-1]
