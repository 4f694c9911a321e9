"""Tells a mend as JSON."""

import json

from pastedown.geometry.model import Requirement
from pastedown.mend.edit import Edit
from pastedown.mend.report import MendReport
from pastedown.quantity.ruler import Ruler
from pastedown.quantity.write import write


def mend_json(report: MendReport) -> str:
    """An object: the design, its faults, the edits, and the requirements that hold then or come nearest to failing."""
    told = {
        "design": report.name,
        "goes_together": not report.faults,
        "mended": report.is_mended,
        "tried": report.tried,
        "faults": [{"id": each.id, "sentence": each.sentence} for each in report.faults],
        "warnings_left": [
            {"id": each.id, "sentence": each.sentence, "ways_out": each.way_out.split("\n") if each.way_out else []}
            for each in report.warnings
        ],
        "words_to_change": report.root.way_out.split("\n") if report.root is not None else [],
        "edits": [_edit(each) for each in report.edits],
        "other_edits_that_pass": [_edit(each) for each in report.others],
        "bought_otherwise": [_edit(each) for each in report.bought],
        "holds_then": [each.path for each in report.mended],
        "liked_less_then": [each.path for each in report.disliked],
        "nearest_to_failing": [_spare(each, report.ruler) for each in report.nearest],
    }
    return json.dumps(told, ensure_ascii=False, indent=2) + "\n"


def _edit(each: Edit) -> dict[str, object]:
    return {
        "line": each.line,
        "what": each.called,
        "before": each.before,
        "after": each.after,
        "said_after": each.said_after,
        "lowers_a_limit": each.lowers_limit,
        "is_bought": each.is_bought,
    }


def _spare(each: Requirement, ruler: Ruler) -> dict[str, object]:
    margin = each.margin
    assert margin is not None
    return {"path": each.path, "to_spare": write(margin.nominal, ruler), "fails_once_in": margin.one_in}
