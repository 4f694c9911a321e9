"""How much room writing takes, without a font at hand.

Widths are those of DejaVu Sans 2.37, measured in its units of 1/2048 of the letter size. Few common sans-serif letters
are wider, so what fits here fits where another font stands in.
"""

from pastedown.outputs.safe_text import plain

_UNITS = 2048
# From space to tilde, U+0020 to U+007E.
_WIDTHS = (
    651, 821, 942, 1716, 1303, 1946, 1597, 563, 799, 799, 1024, 1716, 651, 739, 651, 690, 1303, 1303, 1303,
    1303, 1303, 1303, 1303, 1303, 1303, 1303, 690, 690, 1716, 1716, 1716, 1087, 2048, 1401, 1405, 1430, 1577,
    1294, 1178, 1587, 1540, 604, 604, 1343, 1141, 1767, 1532, 1612, 1235, 1612, 1423, 1300, 1251, 1499, 1401,
    2025, 1403, 1251, 1403, 799, 690, 799, 1716, 1024, 1024, 1255, 1300, 1126, 1300, 1260, 721, 1300, 1298,
    569, 569, 1186, 569, 1995, 1298, 1253, 1300, 1300, 842, 1067, 803, 1298, 1212, 1675, 1212, 1212, 1075,
    1303, 690, 1303, 1716,
)  # fmt: skip
_NO_BREAK_SPACE = "\u00a0"
# Not measured: room enough for the widest letter of any script, and for the pictures some fonts add, from memory.
_WIDE = 2400
_PICTURE = 2800
_FIRST_PICTURE = 0x1F000
_ACCENTS = range(0x0300, 0x0370)

# Readers that round letters to whole dots of a screen make lines up to a hundredth longer: seen in pictures at 144 dpi.
_SLACK = 1.02

# How far letters and brackets reach above and below their base line, in letter sizes: measured likewise.
ASCENT = 0.77
DESCENT = 0.24

LEFT_OUT = "…"


def width_of(text: str, size: float) -> float:
    """The most room the text takes along its base line, in the unit of `size`, the size of its letters."""
    return sum(map(_width, plain(text))) * size / _UNITS * _SLACK


def shortened(text: str, size: float, room: float) -> str:
    """The text, or as much of its beginning as fits into `room`, with a mark that there is more."""
    if width_of(text, size) <= room:
        return text
    left = room - width_of(LEFT_OUT, size)
    kept = 0
    for letter in text:
        left -= width_of(letter, size)
        if left < 0:
            break
        kept += 1
    return text[:kept].rstrip() + LEFT_OUT


def _width(letter: str) -> int:
    code = ord(letter)
    if 0x20 <= code < 0x7F:
        return _WIDTHS[code - 0x20]
    if letter == _NO_BREAK_SPACE:
        return _WIDTHS[0]
    if code in _ACCENTS:
        return 0
    return _PICTURE if code >= _FIRST_PICTURE else _WIDE
