"""What the catalogue says about one diagnostic."""

import re

from attrs import frozen

# Writing out an example stops here: no limit of the compiler needs a longer recipe to be passed.
MOST_LINES = 400_000

_HIDDEN = re.compile(r"<U\+([0-9A-F]{4,6})>")
_REPEATED = re.compile(r"^ *\.\.\. ([0-9,]+) more (?:lines|files) like this$")
_COUNTED = re.compile(r"(?<=_)[0-9]+")


@frozen
class Example:
    """A whole recipe, as short as it can be, and the files `beside` it that it uses (name, text).

    Notations keep it readable. `<U+0007>` stands for that character. A line `... 4,000 more lines like this` stands for
    the line above so many times again, with each number after an underscore counting on by one; so does a file named
    `... 70 more files like this` for the file before it.
    """

    text: str
    beside: tuple[tuple[str, str], ...] = ()

    def recipe(self) -> str:
        """The recipe itself, as a maker would have it. Raises ValueError past MOST_LINES lines."""
        return written_out(self.text)

    def files(self) -> dict[str, str]:
        """The files beside it by their names. Raises ValueError like `recipe`."""
        found: dict[str, str] = {}
        last = ("", "")
        for name, text in self.beside:
            times = _times(name)
            for by in range(1, times + 1):
                found[_counted_on(last[0], by)] = written_out(_counted_on(last[1], by))
            if not times:
                last = (name, text)
                found[name] = written_out(text)
        return found


@frozen
class Entry:
    """What one diagnostic looks for (`what`), `why` it matters, and a recipe that is told off with the same one mended.

    `source` says where a limit comes from; it is empty where there is no limit.
    """

    id: str
    title: str
    what: str
    why: str
    failing: Example
    mended: Example
    source: str = ""


def written_out(text: str) -> str:
    """Text with the notations of `Example` replaced by what they stand for. Raises ValueError past MOST_LINES lines."""
    lines: list[str] = []
    for line in text.split("\n"):
        times = _times(line)
        if not times:
            lines.append(_HIDDEN.sub(lambda found: chr(int(found[1], 16)), line))
            continue
        if not lines or len(lines) + times > MOST_LINES:
            raise ValueError(f"an example repeats a line {times} times")
        lines += [_counted_on(lines[-1], by) for by in range(1, times + 1)]
    return "\n".join(lines)


def _times(line: str) -> int:
    """How often a line asks for the one above again; 0 for an ordinary line."""
    repeated = _REPEATED.match(line)
    return int(repeated[1].replace(",", "")) if repeated else 0


def _counted_on(line: str, by: int) -> str:
    return _COUNTED.sub(lambda found: str(int(found[0]) + by), line)
