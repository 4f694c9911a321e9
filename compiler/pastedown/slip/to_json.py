"""Writes a report on slips as JSON, for other programs."""

from __future__ import annotations

import json
from typing import Any

from pastedown.diagnostic.to_json import diagnostics_to_json
from pastedown.outputs.json_value import json_length, json_length_or_null, json_text, json_value
from pastedown.slip.report import Done, Fit, ReadNow, SlipReport

SLIP_FORMAT = "pastedown-slip"
FORMAT_VERSION = 1


def slip_json(report: SlipReport) -> str:
    """One object: `done`, `changes`, `pairs`, `readings`, `fits`, `faults`, `repairs`, and `holds`, whether all that
    held still does. Lengths and texts are those of album.json; scales are fractions of one, written exactly. Only ASCII
    is written. Ends with a line end."""
    ruler = report.ruler
    whole: dict[str, Any] = {
        "format": SLIP_FORMAT,
        "format_version": FORMAT_VERSION,
        "design": report.design,
        "holds": report.holds,
        "done": [_done(each, report) for each in report.done],
        "changes": [
            {
                "path": each.path,
                "what": each.what,
                "designed": json_length(each.designed, ruler),
                "now": json_length(each.now, ruler),
            }
            for each in report.changes
        ],
        "pairs": [
            {
                "join": each.join,
                "piece": each.piece,
                "panels": [each.one, each.other],
                "sizes": [json_length(each.one_size, ruler), json_length(each.other_size, ruler)],
                "step": json_length(each.step, ruler),
            }
            for each in report.pairs
        ],
        "readings": [_reading(each, report) for each in report.readings],
        "fits": [_fit(each, report) for each in report.fits],
        "faults": json.loads(diagnostics_to_json(report.faults)),
        "repairs": [
            {
                **json_text(each.words, ruler),
                "mends": each.mends,
                "cut_again": list(each.cut_again),
                "readings": [_reading(read, report) for read in each.readings],
            }
            for each in report.repairs
        ],
    }
    return json.dumps(whole, indent=2, sort_keys=True) + "\n"


def _done(done: Done, report: SlipReport) -> dict[str, Any]:
    return {
        "words": done.words,
        "path": done.path,
        "from_edge": done.edge,
        "designed": json_length_or_null(done.designed, report.ruler),
        "done": json_length_or_null(done.done, report.ruler),
        "scale": None if done.scale is None else str(done.scale),
        "as_bought": list(done.as_bought),
    }


def _fit(fit: Fit, report: SlipReport) -> dict[str, Any]:
    return {
        "path": fit.path,
        "strict": fit.strict,
        "operator": fit.operator,
        "held": fit.held,
        "holds": fit.holds,
        "designed": [json_value(each, report.ruler) for each in fit.designed],
        "now": [json_value(each, report.ruler) for each in fit.now],
        "because": json_text(fit.reason, report.ruler),
        "holds_from_scale": None if fit.holds_from is None else str(fit.holds_from),
        "holds_to_scale": None if fit.holds_to is None else str(fit.holds_to),
    }


def _reading(read: ReadNow, report: SlipReport) -> dict[str, Any]:
    ruler = report.ruler
    return {
        "step": read.path,
        "told": read.told,
        "designed": json_length(read.designed, ruler),
        "now": json_length(read.now, ruler),
        "limits": [json_length_or_null(each, ruler) for each in (read.least, read.most)],
        "limits_now": [json_length_or_null(each, ruler) for each in (read.least_now, read.most_now)],
        "past_its_limits": read.past is not None,
    }
