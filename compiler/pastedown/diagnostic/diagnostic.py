"""The facts of one fault, note or warning. Drawing it is `draw.py`'s work."""

from collections.abc import Iterable
from enum import Enum
from fractions import Fraction

from attrs import field, frozen

from pastedown.source import Span


class Severity(Enum):
    """How bad it is: an error refuses the design, a warning and a note do not."""

    ERROR = "error"
    WARNING = "warning"
    NOTE = "note"


@frozen
class Label:
    """A further place worth showing, with a few words about it ("opened here"). `own` says that it is the line of the
    maker's own file by which a line of a library came to be looked at."""

    span: Span
    words: str
    own: bool = False


@frozen
class Diagnostic:
    """One thing to tell the maker.

    `id` is kebab-case, named for the fault, listed in the catalogue. `sentence` says what is wrong and stands alone.
    `reason` says why it matters to the album on the table. `way_out` says what to do, with numbers. `missing` is by how
    much a thing fails, where that is one number (a length in millimetres): nought where it just holds. `is_cause` says
    that others follow from it, so that it is told before them.
    """

    id: str
    severity: Severity
    sentence: str
    span: Span | None
    reason: str = ""
    way_out: str = ""
    labels: tuple[Label, ...] = ()
    missing: Fraction | None = field(default=None, eq=False)
    is_cause: bool = field(default=False, eq=False)

    @property
    def is_error(self) -> bool:
        return self.severity is Severity.ERROR

    @property
    def place(self) -> Span | None:
        """Where the maker looks first: the line of the own file, where there is one, before that of a library."""
        return next((label.span for label in self.labels if label.own), self.span)


def error(
    id: str,
    span: Span | None,
    sentence: str,
    *,
    reason: str = "",
    way_out: str = "",
    labels: Iterable[Label] = (),
    missing: Fraction | None = None,
) -> Diagnostic:
    """A fault that refuses the design."""
    return Diagnostic(id, Severity.ERROR, sentence, span, reason, way_out, tuple(labels), missing)


def warning(
    id: str, span: Span | None, sentence: str, *, reason: str = "", way_out: str = "", labels: Iterable[Label] = ()
) -> Diagnostic:
    """A risk the maker should know of; the design still passes."""
    return Diagnostic(id, Severity.WARNING, sentence, span, reason, way_out, tuple(labels))


def note(
    id: str, span: Span | None, sentence: str, *, reason: str = "", way_out: str = "", labels: Iterable[Label] = ()
) -> Diagnostic:
    """Something worth knowing, neither fault nor risk."""
    return Diagnostic(id, Severity.NOTE, sentence, span, reason, way_out, tuple(labels))
