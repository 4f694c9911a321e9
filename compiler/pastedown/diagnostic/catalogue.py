"""The catalogue of all diagnostics: what each looks for, why it matters, and an example that is run by the tests.

The entries are text files under catalogue/, one a topic. They are read when this module is imported, which nothing does
but a request to explain. Raises CatalogueError then if the files that came with the compiler are damaged.
"""

from collections.abc import Mapping
from importlib.resources import files
from types import MappingProxyType

from pastedown.diagnostic.draw import ROOM
from pastedown.diagnostic.entry import Entry, Example
from pastedown.diagnostic.read_entries import FAILING, INDENT, MENDED, SOURCE, WHAT, WHY, CatalogueError, read_entries
from pastedown.diagnostic.visible_text import wrapped

__all__ = ["CATALOGUE", "CatalogueError", "Entry", "Example", "explain"]


def _read_all() -> Mapping[str, Entry]:
    folder = files("pastedown.diagnostic") / "catalogue"
    topics = sorted((topic.name, topic) for topic in folder.iterdir() if topic.name.endswith(".txt"))
    found = [entry for name, topic in topics for entry in read_entries(topic.read_text(encoding="utf-8"), name)]
    by_id = {entry.id: entry for entry in sorted(found, key=lambda entry: entry.id)}
    if len(by_id) < len(found):
        raise CatalogueError("an id has two entries")
    return MappingProxyType(by_id)


# Every entry by its id, sorted.
CATALOGUE: Mapping[str, Entry] = _read_all()


def explain(id: str) -> str | None:
    """What the catalogue says about a diagnostic, its prose in at most 100 columns; None for an id it does not have."""
    entry = CATALOGUE.get(id)
    if entry is None:
        return None
    lines = [entry.id, *wrapped(entry.title, "", "", ROOM)]
    lines += ["", WHAT, *_prose(entry.what), "", WHY, *_prose(entry.why)]
    lines += ["", FAILING, *_recipe(entry.failing), "", MENDED, *_recipe(entry.mended)]
    if entry.source:
        lines += ["", SOURCE, *_prose(entry.source)]
    return "\n".join(lines)


def _prose(text: str) -> list[str]:
    return wrapped(text, "  ", "  ", ROOM)


def _recipe(example: Example) -> list[str]:
    """The recipe as the catalogue has it, its notations left as they are, and the files beside it."""
    lines = example.text.splitlines()
    for name, text in example.beside:
        lines += ["", f"--- {name}", *text.splitlines()]
    return [(INDENT + line).rstrip() for line in lines]
