"""The whole design in pictures as SVG: made up, in its own poses, flat, folded strips seen from their ends, and maps
of thickness."""

from pastedown.outputs.pictures.end_view import end_views
from pastedown.outputs.pictures.flat_parts import flat_part_scenes
from pastedown.outputs.pictures.picture import picture_of
from pastedown.outputs.pictures.thickness_map import thickness_maps
from pastedown.outputs.pictures.whole_scenes import whole_scenes
from pastedown.outputs.pictures.workshop import workshop_of
from pastedown.outputs.template.svg_text import svg_of
from pastedown.plan.plan import Plan

FOLDER = "views"


def make(plan: Plan) -> dict[str, bytes]:
    """views/made-up.svg, views/<pose>.svg for the design's own poses, views/flat-1.svg and so on for parts that turn on
    gaps, views/end-<piece>.svg for folded strips, and views/thickness-1.svg and so on for parts that are not as thick
    everywhere. A pose has a second view, -blank, where there is something that the design can do without. Where
    poses are asked for, the views in these alone."""
    workshop = workshop_of(plan)
    if plan.poses:
        return {f"{FOLDER}/{name}.svg": svg_of(picture_of(scene)).encode() for name, scene in whole_scenes(workshop)}
    scenes = [*whole_scenes(workshop), *flat_part_scenes(workshop)]
    sheets = {name: picture_of(scene) for name, scene in scenes}
    sheets.update(end_views(workshop))
    sheets.update(thickness_maps(workshop))
    return {f"{FOLDER}/{name}.svg": svg_of(sheet).encode() for name, sheet in sheets.items()}
