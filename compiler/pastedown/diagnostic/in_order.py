"""The order in which diagnostics are told."""

from collections.abc import Iterable

from pastedown.diagnostic.cost import place_by_cost
from pastedown.diagnostic.diagnostic import Diagnostic, Severity

WORST_FIRST = (Severity.ERROR, Severity.WARNING, Severity.NOTE)


def in_order(diagnostics: Iterable[Diagnostic]) -> tuple[Diagnostic, ...]:
    """What others follow from first, then errors that cost most at the table, then all others by file name and
    position; what has no place comes last. Said twice is told once.

    Does not depend on the order given: two faults at one place go by severity, then by id and sentence.
    """
    return tuple(sorted(dict.fromkeys(diagnostics), key=_key))


def worst(diagnostics: tuple[Diagnostic, ...], most: int) -> tuple[Diagnostic, ...]:
    """At most `most` of them, errors before warnings before notes, still in the order given."""
    by_severity = sorted(range(len(diagnostics)), key=lambda at: WORST_FIRST.index(diagnostics[at].severity))
    return tuple(diagnostics[at] for at in sorted(by_severity[:most]))


def _key(diagnostic: Diagnostic) -> tuple[int, bool, str, int, int, int, str, str]:
    span = diagnostic.place
    name, start, end = (span.source.name, span.start, span.end) if span else ("", 0, 0)
    rank = WORST_FIRST.index(diagnostic.severity)
    cost = place_by_cost(diagnostic.id) if diagnostic.is_error else place_by_cost("")
    cost = -1 if diagnostic.is_cause else cost
    return cost, span is None, name, start, end, rank, diagnostic.id, diagnostic.sentence
