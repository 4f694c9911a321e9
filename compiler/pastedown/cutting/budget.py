"""Work counted in steps of the methods, so that a result never depends on how fast a machine is."""


# About two seconds on a quiet machine at 2.5 GHz for a problem that is not settled at once, and a few tenths more for
# what makes a plan less work to cut.
USUAL_EFFORT = 2_000


class Budget:
    """Work that may still be done, in units of which a thousand take about a second."""

    __slots__ = ("left",)

    def __init__(self, work: float) -> None:
        self.left = float(work)

    def spend(self, work: float) -> None:
        self.left -= work

    @property
    def over(self) -> bool:
        return self.left <= 0

    def share(self, part: float) -> "Budget":
        """A budget of its own of so much of what is left; the caller spends here what was spent there."""
        return Budget(self.left * part)
