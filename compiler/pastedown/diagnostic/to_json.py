"""Diagnostics for other programs, as JSON."""

import json
from collections.abc import Iterable
from typing import Any

from pastedown.diagnostic.diagnostic import Diagnostic, Label
from pastedown.diagnostic.in_order import in_order
from pastedown.source import Span

LONGEST_TEXT = 200
# What is said of the line of a library.
RULE = "what the library says"


def diagnostics_to_json(diagnostics: Iterable[Diagnostic]) -> str:
    """A list of objects in the order in which `draw` tells them.

    Each has id, severity, sentence, reason, way_out, place and labels (words, place). A place has file, line, column,
    end_line, end_column and text, or is null. Lines and columns count characters from 1; the end is the first character
    after the words. `text` holds the words, cut to 200 characters. Only ASCII characters are written, others as
    escapes. Ends with a line end.
    """
    return json.dumps([_one(diagnostic) for diagnostic in in_order(diagnostics)], indent=2) + "\n"


def _one(diagnostic: Diagnostic) -> dict[str, Any]:
    return {
        "id": diagnostic.id,
        "severity": diagnostic.severity.value,
        "sentence": diagnostic.sentence,
        "reason": diagnostic.reason,
        "way_out": diagnostic.way_out,
        "place": _place(diagnostic.place),
        "labels": [{"words": label.words, "place": _place(label.span)} for label in _labels(diagnostic)],
    }


def _labels(diagnostic: Diagnostic) -> tuple[Label, ...]:
    """The labels; where a line of the maker's own stands first, with the line of the library it is told of."""
    own = diagnostic.span is None or diagnostic.place == diagnostic.span
    return diagnostic.labels if own or diagnostic.span is None else (*diagnostic.labels, Label(diagnostic.span, RULE))


def _place(span: Span | None) -> dict[str, str | int] | None:
    if span is None:
        return None
    line, column = span.source.line_and_column(span.start)
    end_line, end_column = span.source.line_and_column(span.end)
    return {
        "file": span.source.name,
        "line": line,
        "column": column,
        "end_line": end_line,
        "end_column": end_column,
        "text": span.source.text[span.start : min(span.end, span.start + LONGEST_TEXT)],
    }
