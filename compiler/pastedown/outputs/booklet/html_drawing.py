"""A drawing as a symbol of the booklet's HTML, written short: a booklet holds one for nearly every step.

Nothing here is measured with a ruler, unlike a template: places are rounded to a hundredth of a millimetre, a place
after the first is told from the one before it, and like lines share one path. SVG 1.1, 8.3 (relative commands) and
11.4 (a pattern of dashes begins anew with each of a path's lines).
"""

from collections.abc import Iterable, Iterator
from fractions import Fraction

from pastedown.outputs.safe_text import xml
from pastedown.outputs.template.drawing import Patch, Sheet, Stroke, Words
from pastedown.outputs.template.shape import Round, Spot
from pastedown.outputs.template.svg_text import decimal

_STEPS = 100
_FONT = "DejaVu Sans, sans-serif"
_Place = tuple[int, int]


def symbol_of(sheet: Sheet, name: str) -> str:
    """The sheet as a symbol, to be used by `name`, in millimetres of the sheet."""
    width, height = (decimal(side.millimetres) for side in (sheet.paper.width, sheet.paper.height))
    return "\n".join(
        (
            f'<symbol id="{name}" viewBox="0 0 {width} {height}" fill="none" stroke="#000">',
            *_lines(sheet.strokes),
            *(_patches(sheet.patches)),
            f'<g fill="#000" stroke="none" font-family="{_FONT}">',
            *_all_words(sheet.words),
            "</g>",
            "</symbol>",
        )
    )


def _lines(strokes: Iterable[Stroke]) -> Iterator[str]:
    alike: dict[str, list[str]] = {}
    for stroke in strokes:
        alike.setdefault(_attributes(stroke), []).append(_path(stroke))
    for attributes, paths in alike.items():
        yield f'<path {attributes} d="{"".join(paths)}"/>'


def _attributes(stroke: Stroke) -> str:
    """A line too short for its pattern is drawn continuous: dashes of nought are an error to some readers."""
    dashes = [_short(_place(dash)) for dash in stroke.dashes]
    width = f'stroke-width="{_short(_place(stroke.kind.width))}"'
    if not dashes or "0" in dashes:
        return width
    offset = f' stroke-dashoffset="{_short(_place(stroke.gone))}"' if stroke.gone else ""
    ends = ' stroke-linecap="round"' if stroke.has_dots else ""
    return f'{width} stroke-dasharray="{" ".join(dashes)}"{offset}{ends}'


def _path(stroke: Stroke) -> str:
    here = _spot(stroke.moves[0].start)
    written = [f"M{_pair(here)}"]
    before = "M"
    for move in stroke.moves:
        end = _spot(move.end)
        way = (end[0] - here[0], end[1] - here[1])
        if isinstance(move, Round):
            radius = _short(_place(move.radius))
            written.append(f"a{radius} {radius} 0 0 {1 if move.clockwise else 0} {_pair(way)}")
            before = "a"
        else:
            written.append(f"l{_pair(way)}" if before != "l" else f" {_pair(way)}")
            before = "l"
        here = end
    return "".join(written) + ("Z" if stroke.closed else "")


def _patches(patches: Iterable[Patch]) -> Iterator[str]:
    corners = [[(_place(x), _place(y)) for x, y in patch.corners] for patch in patches]
    if corners:
        rings = "".join(f"M{'L'.join(map(_pair, ring))}Z" for ring in corners)
        yield f'<path fill="#000" stroke="none" d="{rings}"/>'


def _all_words(words: Iterable[Words]) -> Iterator[str]:
    alike: dict[float, list[Words]] = {}
    for each in words:
        alike.setdefault(each.size, []).append(each)
    for size, some in alike.items():
        yield f'<g font-size="{decimal(size)}">'
        yield from map(_words, some)
        yield "</g>"


def _words(words: Words) -> str:
    x, y = _short(_place(words.x)), _short(_place(words.y))
    anchor = "" if words.anchor == "start" else f' text-anchor="{words.anchor}"'
    turn = f' transform="rotate({decimal(-words.angle)} {x} {y})"' if words.angle else ""
    units = f' data-in="{xml(words.inches)}" data-mm="{xml(words.metric)}"' if words.inches else ""
    return f'<text x="{x}" y="{y}"{anchor}{turn}{units}>{xml(words.text)}</text>'


def _spot(spot: Spot) -> _Place:
    return _place(spot[0]), _place(spot[1])


def _place(value: Fraction | float) -> int:
    return round(value * _STEPS)


def _pair(place: _Place) -> str:
    """Both numbers, with a blank between them only where the second has no sign to part them."""
    x, y = map(_short, place)
    return f"{x}{y}" if y.startswith("-") else f"{x} {y}"


def _short(steps: int) -> str:
    whole, rest = divmod(abs(steps), _STEPS)
    told = f"{whole or ''}.{rest:02}".rstrip("0") if rest else str(whole)
    return f"-{told}" if steps < 0 else told
