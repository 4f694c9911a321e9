"""What all maps of thickness have in common: areas, where they lie on the sheet, and what is said below."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from attrs import frozen

from pastedown.outputs.pictures.lettering import MOST_WIDTH, ROW, SIZE, TITLE_ROW, TITLE_SIZE
from pastedown.outputs.pictures.strokes import RIM, legend_of_kinds, sheet_of, straight
from pastedown.outputs.template.drawing import Patch, Sheet, Stroke, Words
from pastedown.outputs.template.letter_width import shortened
from pastedown.outputs.template.wrap import lines_of, title_lines
from pastedown.outputs.two_systems import TwoSystems
from pastedown.plan.ledger import ThickPartTold, ThickPlace
from pastedown.plan.words import spoken

WHOLE = MOST_WIDTH - 2 * RIM
COLUMN, COLUMN_APART = 36.0, 4.0
WIDEST, HIGHEST = WHOLE - COLUMN_APART - COLUMN, 110.0
KINDS = {"edge": "where it ends", "zone": "the thickness changes"}


@frozen
class Area:
    """A rectangle from the outermost left edge and the outermost tail, in millimetres of the part, and its words, which
    may read otherwise in one system of units alone."""

    left: float
    right: float
    tail: float
    head: float
    words: str
    inches: str = ""
    metric: str = ""


@frozen
class MapSheet:
    """Where the left and the tail of the part lie on the sheet, and how large a millimetre of it is."""

    scale: float
    left: float
    bottom: float

    def spot(self, x: float, y: float) -> tuple[float, float]:
        return self.left + x * self.scale, self.bottom - y * self.scale

    def rim(self, kind: str, area: Area) -> Iterator[Stroke]:
        corners = [
            self.spot(x, y)
            for x, y in (
                (area.left, area.tail), (area.right, area.tail), (area.right, area.head), (area.left, area.head),
            )
        ]  # fmt: skip
        yield straight(kind, *corners, corners[0])


@frozen
class Begun:
    """A map with its title, if it is `headed`, and where the part is drawn on it: `at` a scale at which it is at most
    so wide."""

    title: str
    at: MapSheet
    wide: float
    tall: float
    words: tuple[Words, ...]
    headed: bool


def begun(part: ThickPartTold, zones: Sequence[Area], widest: float, headed: bool) -> Begun:
    """The head of a map of these zones; the part is drawn at its true size where there is room."""
    wide, tall = max(zone.right for zone in zones), max(zone.head for zone in zones)
    scale = min(widest / wide, HIGHEST / tall, 1.0)
    subject, ending = spoken(part.paths[0]), ": how thick it is where"
    title = subject + ending
    rows = title_lines(subject, ending, TITLE_SIZE, WHOLE) if headed else []
    words = tuple(Words(row, RIM, RIM + TITLE_SIZE + number * TITLE_ROW, TITLE_SIZE) for number, row in enumerate(rows))
    top = RIM + (TITLE_ROW * len(rows) + 2.0 if headed else 0.0)
    return Begun(title, MapSheet(scale, RIM, top + tall * scale), wide, tall, words, headed)


def ended(
    begin: Begun, drawing: Sequence[Stroke | Patch | Words], bottom: float, notes: str, kinds: Mapping[str, str]
) -> Sheet:
    """The whole sheet: below what is drawn, which reaches down to `bottom`, the notes and the kinds of lines, if it is
    headed. The drawing alone stands in a text that tells all this."""
    if not begin.headed:
        return sheet_of(begin.title, WHOLE + 2 * RIM, bottom + RIM, drawing)
    below: list[Stroke | Patch | Words] = []
    for row in lines_of(notes, SIZE, WHOLE):
        bottom += ROW
        below.append(Words(shortened(row, SIZE, WHOLE), RIM, bottom, SIZE))
    legend, height = legend_of_kinds(list(kinds), bottom + 2.0, WHOLE, kinds)
    return sheet_of(begin.title, WHOLE + 2 * RIM, bottom + 2.0 + height + RIM, [*drawing, *below, *legend])


def area_of(place: ThickPlace, words: TwoSystems | None = None) -> Area:
    left, right, tail, head = (float(each.millimetres) for each in (place.left, place.right, place.tail, place.head))
    if words is None:
        return Area(left, right, tail, head, "")
    return Area(left, right, tail, head, words.text, *((words.inches, words.metric) if words.differ else ()))


def notes_below(part: ThickPartTold, blank: str, loaded: str) -> str:
    alike = f" So {_is_or_are(len(part.paths) - 1)} {_spoken_list(part.paths[1:])}." if len(part.paths) > 1 else ""
    left_out = f" Not counted, for it lies loose: {_spoken_list(part.unplaced)}." if part.unplaced else ""
    over_all = f" Loose, and counted over the whole: {_spoken_list(part.loose)}." if part.loose else ""
    square = f" Not counted, for it stands square to it: {_square(part)}." if part.square else ""
    made_up = f"Made up, with all that is joined onto it or lies in it. Thickest: blank {blank}, loaded {loaded}."
    return f"{made_up}{alike}{over_all}{left_out}{square}"


def _square(part: ThickPartTold) -> str:
    return ", ".join(f"some of {spoken(path)} itself" if path in part.paths else spoken(path) for path in part.square)


def _is_or_are(count: int) -> str:
    return "is" if count == 1 else "are"


def _spoken_list(paths: Sequence[str]) -> str:
    return ", ".join(spoken(path) for path in paths)
