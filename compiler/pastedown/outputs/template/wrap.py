"""Running text in lines that fit, without a font at hand."""

from collections.abc import Iterator

from pastedown.outputs.safe_text import plain
from pastedown.outputs.template.letter_width import LEFT_OUT, width_of

# Words measured one by one and together come to the same but for the last digits.
_HAIR = 1e-6


def lines_of(text: str, size: float, room: float) -> list[str]:
    """The text in lines no longer than the room, broken at spaces; a word longer than a line is broken anywhere. There
    is one line at least, be it empty."""
    lines, length = [""], 0.0
    space = width_of(" ", size)
    for word in _words(plain(text), size, room):
        width = width_of(word, size)
        if lines[-1] and length + space + width <= room + _HAIR:
            lines[-1] += f" {word}"
            length += space + width
        elif not lines[-1]:
            lines[-1], length = word, width
        else:
            lines.append(word)
            length = width
    return lines


def title_lines(subject: str, ending: str, size: float, room: float, most: int = 2) -> list[str]:
    """A title in so many lines at most: where it is longer, the subject is shortened, with a mark, and never the
    ending. An ending that is too long by itself takes more lines."""
    lines = lines_of(subject + ending, size, room)
    if len(lines) <= most:
        return lines
    letters = plain(subject)
    fits, too_many = 0, len(letters)
    while too_many - fits > 1:
        kept = (fits + too_many) // 2
        if len(lines_of(letters[:kept].rstrip() + LEFT_OUT + ending, size, room)) <= most:
            fits = kept
        else:
            too_many = kept
    lines = lines_of(letters[:fits].rstrip() + LEFT_OUT + ending, size, room)
    return lines if ending else lines[:most]


def _words(text: str, size: float, room: float) -> Iterator[str]:
    for word in text.split(" "):
        if not word:
            continue
        if width_of(word, size) <= room + _HAIR:
            yield word
        else:
            yield from _broken(word, size, room)


def _broken(word: str, size: float, room: float) -> Iterator[str]:
    part, length = "", 0.0
    for letter in word:
        width = width_of(letter, size)
        if part and length + width > room:
            yield part
            part, length = "", 0.0
        part, length = part + letter, length + width
    yield part
