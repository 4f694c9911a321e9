"""All checks, in the order in which they run. A new check is one file and one line here."""

from collections.abc import Callable, Iterator

from pastedown.diagnostic import Diagnostic
from pastedown.fit import alignments, margins, placing, requirements, sheet_and_grain
from pastedown.geometry.model import Model

Check = Callable[[Model], Iterator[Diagnostic]]

EVERY_CHECK: tuple[Check, ...] = (
    requirements.look,
    sheet_and_grain.look,
    placing.look,
    alignments.look,
    margins.look,
)


def judge(model: Model) -> tuple[Diagnostic, ...]:
    """Everything the checks find, in their order."""
    return tuple(diagnostic for check in EVERY_CHECK for diagnostic in check(model))
