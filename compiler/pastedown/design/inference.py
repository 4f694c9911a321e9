"""One run of inference: what was told, what is known already, and where an expression stands."""

from __future__ import annotations

from collections.abc import Callable

from attrs import define, evolve, field, frozen

from pastedown.design.kind import (
    UNKNOWN,
    Kind,
)
from pastedown.design.recipe import File, Makeable
from pastedown.design.view import View
from pastedown.diagnostic import Diagnostic

# A name that is not there is one mistake, however often it is used.
TOLD_ONCE_A_NAME = ("unknown-name", "unknown-function", "no-such-member", "unknown-argument")


@frozen(eq=False)
class Where:
    """Where an expression stands: the part's view (None at the top of a file), the file, the counters known, and what
    `its` means: in the braces of a `with` (`in_with`) always the thing amended, else in a call what the call makes."""

    view: View | None
    file: File
    counters: frozenset[str] = frozenset()
    its: Kind = UNKNOWN
    in_with: bool = False

    def counting(self, counter: str) -> Where:
        return evolve(self, counters=self.counters | {counter})


@define
class Inference:
    """One run over a recipe's words. `tell` keeps one message for the same words; `broken` are the names in
    statements that could not be read, of which nothing is said."""

    makeables: dict[int, Makeable]
    broken: frozenset[str] = frozenset()
    diagnostics: list[Diagnostic] = field(factory=list)
    told: set[tuple[str, int, int]] = field(factory=set)
    told_names: set[tuple[str, str] | None] = field(factory=set)
    known: dict[tuple[int, str], Kind] = field(factory=dict)
    silent: int = 0

    def tell(self, diagnostic: Diagnostic) -> Kind:
        """Report, unless something was said about these words already. Gives UNKNOWN, which is what a fault comes
        to."""
        span = diagnostic.span
        if self.silent or span is None:
            return UNKNOWN
        key = (span.source.name, span.start, span.end)
        name = (diagnostic.id, span.text) if diagnostic.id in TOLD_ONCE_A_NAME else None
        if key not in self.told and name not in self.told_names:
            self.diagnostics.append(diagnostic)
        self.told.add(key)
        if name is not None:
            self.told_names.add(name)
        return UNKNOWN

    def once(self, key: tuple[int, str], make: Callable[[], Kind]) -> Kind:
        if key not in self.known:
            self.known[key] = UNKNOWN
            self.known[key] = make()
        return self.known[key]
