"""A sheet written as SVG: one user unit is one millimetre, so every number can be read with a ruler.

Size by `width` and `height` in millimetres with a `viewBox` of the same numbers: SVG 1.1, sections 7.2 and 7.7.
"""

from collections.abc import Iterable
from fractions import Fraction

from pastedown.outputs.safe_text import xml
from pastedown.outputs.template.drawing import Patch, Sheet, Stroke, Words
from pastedown.outputs.template.shape import Move, Round, Spot

_STEP = Fraction(1, 1000)
FONT = "DejaVu Sans, sans-serif"


def svg_of(sheet: Sheet) -> str:
    """The sheet as one SVG document, without scripts, styles or anything fetched from elsewhere."""
    width, height = (decimal(side.millimetres) for side in (sheet.paper.width, sheet.paper.height))
    lines = [
        '<?xml version="1.0" encoding="UTF-8"?>',
        f'<svg xmlns="http://www.w3.org/2000/svg" version="1.1" width="{width}mm" height="{height}mm" '
        f'viewBox="0 0 {width} {height}">',
        f"<title>{xml(sheet.title)}</title>",
        *_groups(sheet),
        "</svg>",
    ]
    return "\n".join(lines) + "\n"


def decimal(value: Fraction | float) -> str:
    """Millimetres to a thousandth, which is the only place where a template rounds. Half a thousandth goes to even."""
    thousandths = round(Fraction(value) / _STEP)
    whole, rest = divmod(abs(thousandths), 1000)
    sign = "-" if thousandths < 0 else ""
    return f"{sign}{whole}.{rest:03}".rstrip("0").rstrip(".")


def _groups(sheet: Sheet) -> Iterable[str]:
    """One group a part, in the order in which parts first come, so that cutting software can switch them off; the
    words last."""
    parts = dict.fromkeys([*(stroke.part for stroke in sheet.strokes), *(patch.part for patch in sheet.patches)])
    for part in parts:
        yield f'<g id="{part}" fill="none" stroke="#000" stroke-linecap="butt">'
        yield from (_stroke(stroke) for stroke in sheet.strokes if stroke.part == part)
        yield from (_patch(patch) for patch in sheet.patches if patch.part == part)
        yield "</g>"
    yield f'<g id="words" fill="#000" font-family="{FONT}">'
    yield from map(_words, sheet.words)
    yield "</g>"


def _stroke(stroke: Stroke) -> str:
    data = f"M{_pair(stroke.moves[0].start)}" + "".join(map(_move, stroke.moves)) + ("Z" if stroke.closed else "")
    return f'<path d="{data}" stroke-width="{decimal(stroke.kind.width)}"{_pattern(stroke)}/>'


def _pattern(stroke: Stroke) -> str:
    """A line too short for its pattern is drawn continuous: dashes of nought are an error to some readers."""
    dashes = [decimal(dash) for dash in stroke.dashes]
    if not dashes or "0" in dashes:
        return ""
    offset = f' stroke-dashoffset="{decimal(stroke.gone)}"' if stroke.gone else ""
    ends = ' stroke-linecap="round"' if stroke.has_dots else ""
    return f' stroke-dasharray="{" ".join(dashes)}"{offset}{ends}'


def _move(move: Move) -> str:
    if isinstance(move, Round):
        radius = decimal(move.radius)
        return f"A{radius} {radius} 0 0 {1 if move.clockwise else 0} {_pair(move.end)}"
    return f"L{_pair(move.end)}"


def _patch(patch: Patch) -> str:
    corners = " ".join(f"{decimal(x)},{decimal(y)}" for x, y in patch.corners)
    return f'<polygon points="{corners}" fill="#000" stroke="none"/>'


def _words(words: Words) -> str:
    x, y = decimal(words.x), decimal(words.y)
    anchor = "" if words.anchor == "start" else f' text-anchor="{words.anchor}"'
    turn = f' transform="rotate({decimal(-words.angle)} {x} {y})"' if words.angle else ""
    units = f' data-in="{xml(words.inches)}" data-mm="{xml(words.metric)}"' if words.inches else ""
    return f'<text x="{x}" y="{y}" font-size="{decimal(words.size)}"{anchor}{turn}{units}>{xml(words.text)}</text>'


def _pair(place: Spot) -> str:
    return f"{decimal(place[0])} {decimal(place[1])}"
