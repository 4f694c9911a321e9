"""A piece written as DXF of release 12, for machines that cut and score and for drawing programs.

One file holds the whole piece at its true size, in millimetres: x from the left edge, y from the tail, as seen from
the face. Lines run where the edge of the finished paper is: nothing is added for the width of a blade or a beam.

The layout follows the published DXF reference: group codes and header of AC1009, which releases 11 and 12 share;
$INSUNITS 4 for millimetres; outlines as POLYLINE, since LWPOLYLINE came later; arcs by their bulge, the tangent of a
quarter of the angle, negative for clockwise ones.
"""

from collections.abc import Iterator
from fractions import Fraction
from math import sqrt

from pastedown.outputs.safe_text import plain
from pastedown.outputs.template.line_kind import CUT, MARK, MOUNTAIN, VALLEY, LineKind
from pastedown.outputs.template.piece_shape import PieceShape
from pastedown.outputs.template.shape import Move, Round, Spot
from pastedown.quantity.decimals import rounded_decimal

# Layers by the kinds of lines on them, with their colour numbers: black or white, blue, red, grey.
LAYERS: dict[LineKind, tuple[str, int]] = {CUT: ("cut", 7), VALLEY: ("valley", 5), MOUNTAIN: ("mountain", 1),
                                           MARK: ("mark", 8)}  # fmt: skip
# A kilometre: readers keep about 15 digits of a number, and 6 of them stand behind the point.
LONGEST = Fraction(1_000_000)

_PLACES = 6
# A bulge is a ratio: half a millionth of it would move the middle of a large arc by a tenth of a millimetre.
_PLACES_OF_BULGE = 12
_BULGE = 42
_CONTINUOUS = "CONTINUOUS"
_LONGEST_COMMENT = 200
_NOTE = "lengths in millimetres; layers: cut, valley, mountain (folds as seen from this side), mark (drawn, not scored)"

Group = tuple[int, str | int | Fraction | float]


def dxf_of(shape: PieceShape, name: str, title: str) -> bytes:
    """The piece as a DXF document in ASCII. One longer than `LONGEST` has a comment instead of lines."""
    too_large = max(shape.bounds.width, shape.bounds.height) > LONGEST
    notes = (name, title, _NOTE, *(("longer than a kilometre: not drawn",) if too_large else ()))
    groups = [*((999, note) for note in notes), *_header(shape, too_large), *_tables()]
    groups += _section("ENTITIES", [] if too_large else _entities(shape))
    return "".join(f"{code:>3}\r\n{_value(code, value)}\r\n" for code, value in (*groups, (0, "EOF"))).encode("ascii")


def _entities(shape: PieceShape) -> Iterator[Group]:
    yield from _polyline("cut", shape.outline, closed=True)
    for cut in shape.inner_cuts:
        yield from _polyline("cut", cut.moves, closed=cut.closed)
    for fold in shape.folds:
        yield from _groups((0, "LINE"), (8, LAYERS[fold.kind][0]), *_point(fold.line.start), *_point(fold.line.end, 1))


def _polyline(layer: str, moves: tuple[Move, ...], *, closed: bool) -> Iterator[Group]:
    if not moves:
        return
    yield from _groups((0, "POLYLINE"), (8, layer), (66, 1), *_point((Fraction(0), Fraction(0))), (70, int(closed)))
    for move in moves:
        yield from _groups((0, "VERTEX"), (8, layer), *_point(move.start), *_bulge(move))
    if not closed:
        yield from _groups((0, "VERTEX"), (8, layer), *_point(moves[-1].end))
    yield from _groups((0, "SEQEND"), (8, layer))


def _bulge(move: Move) -> list[Group]:
    if not isinstance(move, Round):
        return []
    (x, y), (x1, y1), (x2, y2) = move.centre, move.start, move.end
    across, along = float((x1 - x) * (y2 - y) - (y1 - y) * (x2 - x)), float((x1 - x) * (x2 - x) + (y1 - y) * (y2 - y))
    # By halves of the angle: tan(a / 2) = sin a / (1 + cos a), twice.
    half = across / (sqrt(across * across + along * along) + along)
    return [(_BULGE, half / (1 + sqrt(1 + half * half)))]


def _header(shape: PieceShape, too_large: bool) -> Iterator[Group]:
    low = (shape.bounds.left, shape.bounds.bottom)
    high = low if too_large else (shape.bounds.right, shape.bounds.top)
    yield from _section(
        "HEADER",
        [
            (9, "$ACADVER"), (1, "AC1009"),
            (9, "$INSUNITS"), (70, 4),
            (9, "$EXTMIN"), *_point(low),
            (9, "$EXTMAX"), *_point(high),
        ],
    )  # fmt: skip


def _tables() -> Iterator[Group]:
    yield from _groups((0, "SECTION"), (2, "TABLES"), (0, "TABLE"), (2, "LTYPE"), (70, len(LAYERS)))
    for kind in LAYERS:
        yield from _line_type(kind)
    yield from _groups((0, "ENDTAB"), (0, "TABLE"), (2, "LAYER"), (70, len(LAYERS)))
    for kind, (layer, colour) in LAYERS.items():
        yield from _groups((0, "LAYER"), (2, layer), (70, 0), (62, colour), (6, _line_type_name(kind)))
    yield from _groups((0, "ENDTAB"), (0, "ENDSEC"))


def _line_type(kind: LineKind) -> Iterator[Group]:
    """The pattern in millimetres: what is drawn counts from nought up, what is left out from nought down."""
    elements = [element * kind.width * (-1 if n % 2 else 1) for n, element in enumerate(kind.pattern)]
    yield from _groups((0, "LTYPE"), (2, _line_type_name(kind)), (70, 0), (3, kind.words))
    yield from _groups((72, 65), (73, len(elements)), (40, Fraction(sum(map(abs, elements)))))
    yield from ((49, element) for element in elements)


def _line_type_name(kind: LineKind) -> str:
    return LAYERS[kind][0].upper() + "_LINE" if kind.pattern else _CONTINUOUS


def _groups(*groups: Group) -> tuple[Group, ...]:
    return groups


def _section(name: str, groups: Iterator[Group] | list[Group]) -> Iterator[Group]:
    yield from _groups((0, "SECTION"), (2, name), *groups, (0, "ENDSEC"))


def _point(place: Spot, which: int = 0) -> list[Group]:
    return [(10 + which, place[0]), (20 + which, place[1]), (30 + which, Fraction(0))]


def _value(code: int, value: str | int | Fraction | float) -> str:
    if isinstance(value, str):
        return "".join(map(_letter, plain(value)))[:_LONGEST_COMMENT]
    if isinstance(value, int):
        return str(value)
    number = rounded_decimal(Fraction(value), _PLACES_OF_BULGE if code == _BULGE else _PLACES)
    return number if "." in number else f"{number}.0"


def _letter(letter: str) -> str:
    """Release 12 knows no Unicode; drawing programs write what is not ASCII by its code point."""
    return letter if letter.isascii() else f"\\U+{ord(letter):04X}"
