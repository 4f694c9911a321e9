"""The mistakes found so far in one file."""

from collections.abc import Iterable

from attrs import define, field

from pastedown.diagnostic import Diagnostic
from pastedown.syntax.limits import MOST_DIAGNOSTICS


@define
class Faults:
    """Collects diagnostics. A mistake made again and again with the same word is told once, where it stands first."""

    diagnostics: list[Diagnostic] = field(factory=list)
    broken_words: set[str] = field(factory=set)
    _told: set[tuple[str, str]] = field(factory=set)

    def tell(self, diagnostic: Diagnostic, word: str = "") -> None:
        """Keep a diagnostic; with a `word`, only the first of its id about that word."""
        if word:
            if (diagnostic.id, word) in self._told:
                return
            self._told.add((diagnostic.id, word))
        if len(self.diagnostics) < MOST_DIAGNOSTICS:
            self.diagnostics.append(diagnostic)

    def take(self, other: "Faults", further: Iterable[Diagnostic] = ()) -> None:
        """Keep all that another collection holds, and further diagnostics."""
        self.broken_words |= other.broken_words
        for diagnostic in (*other.diagnostics, *further):
            self.tell(diagnostic)

    def in_order(self) -> tuple[Diagnostic, ...]:
        """The diagnostics in the order of the places they speak of."""
        return tuple(sorted(self.diagnostics, key=lambda each: (each.span.start, each.span.end) if each.span else (-1, -1)))
