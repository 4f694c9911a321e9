"""Every output there is, in the order in which they are listed and made."""

from collections.abc import Callable
from importlib import import_module

from attrs import frozen

from pastedown.plan.plan import Plan

# File names, inside the folder the maker chose, and what is in them.
Files = dict[str, bytes]


@frozen
class Output:
    """One thing a maker can ask for. `make` is pure: like plans give like bytes. It may raise `MissingLibrary`. What
    `may_mirror` shows pieces as they lie, and so from their backs for who asks for that. What `may_pose` shows the
    design in the poses that are asked for."""

    name: str
    sentence: str
    make: Callable[[Plan], Files]
    may_mirror: bool = False
    may_pose: bool = False


def _made_by(module: str) -> Callable[[Plan], Files]:
    """The module's `make`, imported only when it is called: who only checks a design does not pay for its outputs."""

    def make(plan: Plan) -> Files:
        made: Files = import_module(f"pastedown.outputs.{module}").make(plan)
        return made

    return make


EVERY_OUTPUT = (
    Output(
        "cut-list",
        "Every piece to cut, grouped by stock, as text, as CSV and as JSON.",
        _made_by("to_cut_list"),
    ),
    Output(
        "score-chart",
        "Every score of every piece, measured from both edges, with its closing check.",
        _made_by("to_score_chart"),
    ),
    Output("steps", "What to do, in order, with the readings to check on the way.", _made_by("to_steps")),
    Output("materials", "What to buy or have at hand, as text and as CSV.", _made_by("to_materials")),
    Output(
        "cutting-plan",
        "How sheets are cut, cut by cut, as text, as CSV, as JSON and as drawings.",
        _made_by("to_cutting_plan"),
    ),
    Output("json", "The whole design with every measurement as JSON, and its schema.", _made_by("to_json")),
    Output(
        "margins",
        "What fails first at the table, by the errors of the hand, as text, as CSV and as JSON.",
        _made_by("to_margins"),
    ),
    Output("bulk", "How thick each part is and where, what room there is and what is left of it.", _made_by("to_bulk")),
    Output("captions", "The steps in short lines, with figures and in spoken words.", _made_by("to_captions")),
    Output("booklet-html", "All of it to hold while building, as one file for a screen.", _made_by("to_booklet_html")),
    Output("booklet-pdf", "The same booklet as a PDF to print.", _made_by("to_booklet_pdf")),
    Output("drawings", "Every piece flat and to scale, size and lines from both edges.", _made_by("to_drawings")),
    Output("pictures", "A picture of every step in three dimensions, as SVG.", _made_by("to_pictures")),
    Output(
        "views",
        "The whole made up, in its poses, flat, and strips from their ends; --pose shows any pose.",
        _made_by("to_views"),
        may_pose=True,
    ),
    Output(
        "model",
        "The whole in three dimensions as glTF, in the poses of the views, for any viewer.",
        _made_by("to_model"),
        may_pose=True,
    ),
    Output(
        "templates-svg", "Every piece at its true size as SVG drawings.", _made_by("to_template_svg"), may_mirror=True
    ),
    Output(
        "templates-pdf", "Every piece at its true size as a PDF to print.", _made_by("to_template_pdf"), may_mirror=True
    ),
    Output(
        "templates-dxf",
        "Every piece at its true size as DXF for a machine that cuts, in millimetres.",
        _made_by("to_template_dxf"),
        may_mirror=True,
    ),
)
