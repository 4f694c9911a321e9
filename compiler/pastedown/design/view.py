"""What can be read of a part, told from its component's words and those of every layer around it."""

from __future__ import annotations

from collections.abc import Iterator

from attrs import evolve, frozen

from pastedown.design.body import Body, Placed, is_declaration, states
from pastedown.design.recipe import ComponentOf, File
from pastedown.tree.expression import Dot, Path
from pastedown.tree.statement import Amend, Fact, Statement, Takes


@frozen(eq=False)
class View:
    """A component with the braces laid around it, outermost first. `file` is where the component's own words are
    read, and `files` where each of the bodies was written."""

    component: ComponentOf
    bodies: tuple[Body, ...]
    files: tuple[File, ...]

    def around(self, body: Body, file: File) -> View:
        return evolve(self, bodies=(body, *self.bodies), files=(file, *self.files))

    def placed(self, name: str) -> Iterator[tuple[Placed, File]]:
        """Everything said of a name, outermost first."""
        for body, file in zip(self.bodies, self.files, strict=True):
            for placed in body.by_name.get(name, ()):
                yield placed, file

    def declaration(self, name: str) -> tuple[Statement, File] | None:
        """The statement that makes a name known: a declaration of any layer, or a fact of the component's own."""
        for placed, file in self.placed(name):
            if is_declaration(placed.statement):
                return placed.statement, file
        own = self.bodies[-1].stated(name)
        return None if own is None else (own, self.files[-1])

    def names(self) -> list[str]:
        """Every name that can be read, sorted."""
        last = len(self.bodies) - 1
        return sorted(
            {
                name
                for number, body in enumerate(self.bodies)
                for name, said in body.by_name.items()
                if any(is_declaration(each.statement) or (number == last and states(each.statement)) for each in said)
            }
        )

    def takes(self) -> list[Takes]:
        return [placed.statement for placed in self.bodies[-1].placed() if isinstance(placed.statement, Takes)]

    def set_below(self, name: str) -> list[tuple[list[Fact], File]]:
        """What every layer sets of the thing called `name` by path (`name.inner = ...`), with that name taken off,
        outermost first."""
        found: list[tuple[list[Fact], File]] = []
        for body, file in zip(self.bodies, self.files, strict=True):
            facts = [fact for placed in body.by_name.get(name, ()) if (fact := _below(placed.statement)) is not None]
            if facts:
                found.append((facts, file))
        return found

    def amendments(self, name: str) -> list[tuple[tuple[Statement, ...], File]]:
        """The braces of every `name with { ... }`, outermost first."""
        return [
            (placed.statement.body, file)
            for placed, file in self.placed(name)
            if isinstance(placed.statement, Amend)
            and not any(hasattr(trailer, "name") for trailer in placed.statement.path.trailers)
        ]




def _below(statement: Statement) -> Fact | None:
    """A fact with the first name of its path taken off; None for any other statement and for a plain name."""
    if not isinstance(statement, Fact):
        return None
    trailers = statement.path.trailers
    if statement.path.head == "its":
        trailers = trailers[1:]
    at = next((at for at, trailer in enumerate(trailers) if isinstance(trailer, Dot)), None)
    if at is None:
        return None
    first = trailers[at]
    assert isinstance(first, Dot)
    return evolve(statement, path=Path(first.name, trailers[at + 1 :], statement.path.span, first.span))
