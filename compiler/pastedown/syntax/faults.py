"""The mistakes found so far in one file."""

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
        if not self.full:
            self.diagnostics.append(diagnostic)

    @property
    def full(self) -> bool:
        """Whether what is told from now on is not kept."""
        return len(self.diagnostics) >= MOST_DIAGNOSTICS

    def in_order(self) -> tuple[Diagnostic, ...]:
        """The diagnostics in the order of the places they speak of."""
        return tuple(sorted(self.diagnostics, key=_place))


def _place(diagnostic: Diagnostic) -> tuple[int, int]:
    return (diagnostic.span.start, diagnostic.span.end) if diagnostic.span else (-1, -1)
