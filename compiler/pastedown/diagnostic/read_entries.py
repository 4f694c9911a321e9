"""Takes the text of one catalogue file. Gives its entries. The format is strict: a slip raises CatalogueError.

An entry begins with `== id ==`, then a line with its title, then these headings in this order, each on a line of its
own: "What it looks for:", "Why it matters at the table:", "Example:", "Mended:" and, where there is a limit, "Source of
the limit:". Prose stands at the left; recipes are indented by four blanks, and `--- house.album` in one begins a file
beside the recipe. Text before the first entry says what the file is about.
"""

import re
from collections.abc import Iterator

from pastedown.diagnostic.entry import Entry, Example

WHAT = "What it looks for:"
WHY = "Why it matters at the table:"
FAILING = "Example:"
MENDED = "Mended:"
SOURCE = "Source of the limit:"
HEADINGS = (WHAT, WHY, FAILING, MENDED, SOURCE)
INDENT = "    "

_START = re.compile(r"^== ([a-z]+(?:-[a-z]+)*) ==$")
_BESIDE = re.compile(r"^--- ([a-z0-9_/.]+|\.\.\. [0-9,]+ more files like this)$")


class CatalogueError(ValueError):
    """A catalogue file is not in the format: a fault of ours, never of a maker's."""


def read_entries(text: str, name: str) -> tuple[Entry, ...]:
    """The entries of the file called `name`, in its order. Raises CatalogueError."""
    return tuple(_entry(id, lines, f"{name}, {id}") for id, lines in _blocks(text))


def _blocks(text: str) -> Iterator[tuple[str, list[str]]]:
    id, lines = "", list[str]()
    for line in text.splitlines():
        start = _START.match(line)
        if start is None:
            lines.append(line)
            continue
        if id:
            yield id, lines
        id, lines = start[1], []
    if id:
        yield id, lines


def _entry(id: str, lines: list[str], where: str) -> Entry:
    title, *rest = lines or [""]
    sections = _sections(rest, where)
    missing = [heading for heading in HEADINGS[:-1] if heading not in sections]
    if missing or not title.strip():
        raise CatalogueError(f"{where}: no {missing[0] if missing else 'title'}")
    if tuple(sections) != tuple(heading for heading in HEADINGS if heading in sections):
        raise CatalogueError(f"{where}: the headings stand in another order than usual")
    return Entry(
        id,
        title.strip(),
        what=_prose(sections[WHAT], where),
        why=_prose(sections[WHY], where),
        failing=_example(sections[FAILING], where),
        mended=_example(sections[MENDED], where),
        source=_prose(sections[SOURCE], where) if SOURCE in sections else "",
    )


def _sections(lines: list[str], where: str) -> dict[str, list[str]]:
    sections: dict[str, list[str]] = {}
    heading = ""
    for line in lines:
        if line in sections:
            raise CatalogueError(f'{where}: "{line}" stands twice')
        if line in HEADINGS:
            heading = line
            sections[heading] = []
        elif heading:
            sections[heading].append(line)
        elif line.strip():
            raise CatalogueError(f'{where}: "{line}" stands under no heading')
    return sections


def _prose(lines: list[str], where: str) -> str:
    if any(line.startswith(" ") for line in lines) or not any(map(str.strip, lines)):
        raise CatalogueError(f"{where}: prose is missing or indented")
    return " ".join(line.strip() for line in lines if line.strip())


def _example(lines: list[str], where: str) -> Example:
    if any(line.strip() and not line.startswith(INDENT) for line in lines) or not any(map(str.strip, lines)):
        raise CatalogueError(f"{where}: a recipe is missing or not indented by four blanks")
    texts: list[tuple[str, list[str]]] = [("", [])]
    for line in lines:
        bare = line[len(INDENT) :].rstrip()
        beside = _BESIDE.match(bare)
        if beside:
            texts.append((beside[1], []))
        else:
            texts[-1][1].append(bare)
    (_, recipe), *others = texts
    if not any(recipe):
        raise CatalogueError(f"{where}: a recipe has files beside it and nothing in itself")
    return Example(_recipe(recipe), tuple((name, _recipe(text)) for name, text in others))


def _recipe(lines: list[str]) -> str:
    return "\n".join(lines).strip("\n") + "\n"
