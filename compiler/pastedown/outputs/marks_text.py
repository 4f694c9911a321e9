"""What the cut list says of lengths that were moved to the marks of the maker's ruler."""

from pastedown.outputs.in_words import measure
from pastedown.outputs.json_value import Json, json_length
from pastedown.outputs.plain_text import Column, heading, table, wrapped
from pastedown.plan.plan import Plan
from pastedown.quantity.quantity import Length, number
from pastedown.quantity.ruler import Ruler
from pastedown.quantity.spoken import spoken

_COLUMNS = (
    Column("length", 24),
    Column("as written", 14, measures=True),
    Column("moved to", 14, measures=True),
)


def moved_text(plan: Plan) -> list[str]:
    """Lines of text; none where nothing was moved."""
    if not plan.moved:
        return []
    ruler = plan.ruler
    rows = [(_named(each.paths), measure(each.written, ruler), measure(each.mark, ruler)) for each in plan.moved]
    reasons: dict[str, list[str]] = {}
    for each in plan.moved:
        reasons.setdefault(each.reason, []).append(_named(each.paths))
    lines = ["", "", *heading("Moved to your ruler's marks", "-"), "", *table(_COLUMNS, rows), ""]
    for reason, names in reasons.items():
        lines += wrapped(f"{', '.join(names)}: {reason}", rest="    ")
    return [*lines, "", *wrapped(_summary(plan, ruler))]


def moved_json(plan: Plan) -> list[Json]:
    """The shape `moved` of the schema."""
    return [
        {
            "paths": list(each.paths),
            "written": json_length(each.written, plan.ruler),
            "mark": json_length(each.mark, plan.ruler),
            "reason": each.reason,
        }
        for each in plan.moved
    ]


def _summary(plan: Plan, ruler: Ruler) -> str:
    """How many numbers are others for it, and by how much."""
    by = sorted({_between(each.written, each.mark) for each in plan.changed}, key=lambda length: length.value)
    span = measure(by[0], ruler) if len(by) == 1 else f"{measure(by[0], ruler)} to {measure(by[-1], ruler)}"
    names = ", ".join(_named(each.paths) for each in plan.changed)
    many = len(plan.changed) != 1
    how_many = spoken(number(len(plan.changed))).capitalize()
    return (
        f"{how_many} {'numbers' if many else 'number'} changed by {span}: {names}. All "
        "scores and sides in this list are worked out from them. Do not round old numbers one at a time: panels that "
        "have to match would differ."
    )


def _between(one: Length, other: Length) -> Length:
    return one - other if one > other else other - one


def _named(paths: tuple[str, ...]) -> str:
    """One path, or the first and the last of several."""
    return paths[0] if len(paths) == 1 else f"{paths[0]} to {paths[-1]}" if len(paths) > 2 else " and ".join(paths)
