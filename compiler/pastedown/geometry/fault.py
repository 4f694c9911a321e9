"""How working out stops at a fault without stopping everything else."""

from pastedown.diagnostic import Diagnostic


class Fault(Exception):
    """A fault of the maker's, on its way to the fact that it spoils. Never leaves the geometry stage."""

    def __init__(self, diagnostic: Diagnostic) -> None:
        super().__init__(diagnostic.sentence)
        self.diagnostic = diagnostic


class Spoilt(Exception):
    """Something depends on a fact that has failed already and was told about: nothing more is said."""
