"""How much of a drawing's height is drawn on: on paper its empty rims only part it from the words it belongs to."""

from collections.abc import Iterator

from pastedown.outputs.template.drawing import Sheet
from pastedown.outputs.template.ground import box_of
from pastedown.outputs.template.shape import corners_of


def drawn_between(sheet: Sheet) -> tuple[float, float]:
    """Where what is drawn begins and ends, in millimetres down from the upper edge; all of a sheet on which nothing
    is."""
    places = list(_places(sheet))
    return (min(places), max(places)) if places else (0.0, float(sheet.paper.height.millimetres))


def _places(sheet: Sheet) -> Iterator[float]:
    for stroke in sheet.strokes:
        half = float(stroke.kind.width) / 2
        for _, y in corners_of(stroke.moves):
            yield from (y - half, y + half)
    for patch in sheet.patches:
        yield from (y for _, y in patch.corners)
    for words in sheet.words:
        yield from (y for _, y in box_of(words).corners())
