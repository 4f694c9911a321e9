"""The statements between braces, found by the name they are about.

Order of lines never matters, so a body is read by name: every statement stands under its head, with the `each` and `if`
around it as guards.
"""

from collections.abc import Iterator

from attrs import frozen

from pastedown.source import Span
from pastedown.tree.expression import Path
from pastedown.tree.statement import (
    Album,
    Amend,
    Component,
    Each,
    Fact,
    Fold,
    Join,
    Part,
    Piece,
    Place,
    Pose,
    Require,
    Statement,
    Step,
    Takes,
    Variant,
    When,
)

Guard = Each | When
Declaration = Takes | Part | Piece | Join | Place | Pose | Fold | Step | Require | Component | Album | Variant


@frozen
class Placed:
    """A statement with the guards around it, outermost first."""

    statement: Statement
    guards: tuple[Guard, ...]


@frozen(eq=False)
class Body:
    """All statements of one pair of braces (or of a file) by the name they are about."""

    by_name: dict[str, tuple[Placed, ...]]
    repeats: tuple[Guard, ...]

    def placed(self) -> Iterator[Placed]:
        for group in self.by_name.values():
            yield from group

    def stated(self, name: str) -> Statement | None:
        """The first statement that makes `name` known, whatever sets something of it before that."""
        said = (placed.statement for placed in self.by_name.get(name, ()))
        return next((statement for statement in said if states(statement)), None)


def name_of(statement: Statement) -> str | None:
    """The name a statement is about; None for what has none (an import, a panel, an alignment)."""
    match statement:
        case Fact(path=path) | Amend(path=path):
            return left_head(path)
        case Part() | Piece() | Join() | Place() | Pose() | Fold() | Step():
            return statement.family.name
        case Takes() | Require() | Component() | Album() | Variant():
            return statement.name
        case _:
            return None


def left_head(path: Path) -> str:
    """The head of a path on the left of `=`; a leading `its` says nothing there that the braces do not."""
    if path.head == "its" and path.trailers and hasattr(path.trailers[0], "name"):
        return str(path.trailers[0].name)
    return path.head


def name_span(statement: Statement) -> Span:
    """The words that name what a statement declares or sets."""
    match statement:
        case Fact(path=path) | Amend(path=path):
            return path.span
        case Part() | Piece() | Join() | Place() | Pose() | Fold() | Step():
            return statement.family.span
        case Takes() | Require() | Component() | Album() | Variant():
            return statement.name_span
        case _:
            return statement.span


def is_declaration(statement: Statement) -> bool:
    """Whether the statement makes a name known, rather than amend what another one made known."""
    return isinstance(statement, Declaration)


def states(statement: Statement) -> bool:
    """Whether the statement makes a name known in the braces in which it stands: a fact by its plain name does too."""
    return is_declaration(statement) or (isinstance(statement, Fact) and not statement.path.trailers)


def index_body(statements: tuple[Statement, ...]) -> Body:
    """Read a body by name. Statements without a name are left out; where they are out of place is the checker's
    affair."""
    found: dict[str, list[Placed]] = {}
    repeats: list[Guard] = []

    def read(inner: tuple[Statement, ...], guards: tuple[Guard, ...]) -> None:
        for statement in inner:
            if isinstance(statement, Guard):
                repeats.append(statement)
                read(statement.body, (*guards, statement))
            elif (name := name_of(statement)) is not None:
                found.setdefault(name, []).append(Placed(statement, guards))

    read(statements, ())
    return Body({name: tuple(group) for name, group in found.items()}, tuple(repeats))
