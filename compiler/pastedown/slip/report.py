"""What there is to tell about slips, before it is written down."""

from fractions import Fraction

from attrs import frozen

from pastedown.diagnostic import Diagnostic
from pastedown.quantity.quantity import Length, Quantity
from pastedown.quantity.ruler import Ruler

# Words with lengths in them.
Words = tuple[str | Quantity, ...]


@frozen
class Done:
    """One thing that was really done: `words` as typed, what it is by its path, and its length as designed and as done.
    A `scale` has no lengths; `edge` is the edge a fold is measured from, "" for everything else. `guessed` says that it
    was not told which way it is off; `as_bought` are sides that a print leaves as they were bought."""

    words: str
    path: str
    edge: str = ""
    designed: Length | None = None
    done: Length | None = None
    scale: Fraction | None = None
    guessed: bool = False
    as_bought: tuple[str, ...] = ()


@frozen
class Changed:
    """A length of the design that is another one now. `what` is "panel", "fold", "side", "reading" or "fact"."""

    path: str
    what: str
    designed: Length
    now: Length


@frozen
class Pair:
    """Two panels of one piece that are stuck together and no longer match: by `step`."""

    join: str
    piece: str
    one: str
    other: str
    one_size: Length
    other_size: Length

    @property
    def step(self) -> Length:
        by = self.one_size - self.other_size
        return by if by.value >= 0 else -by


@frozen
class ReadNow:
    """What the ruler will read at a step, where that is no longer what the steps say: as `designed` and `now`, with the
    limits that the step states, `least` and `most`, and those that it would state for what was really done. `told` says
    that it was read already, and is a slip itself."""

    path: str
    designed: Length
    now: Length
    least: Length | None
    most: Length | None
    least_now: Length | None
    most_now: Length | None
    told: bool = False

    @property
    def is_another(self) -> bool:
        """Whether somebody who goes by the step would take it for a fault: its step states no limits, or it is past
        them."""
        return self.past is not None or (self.least is None and self.most is None)

    @property
    def past(self) -> Length | None:
        """The limit of its step that it is past; None where it is within both."""
        if self.least is not None and self.now < self.least:
            return self.least
        return self.most if self.most is not None and self.now > self.most else None


@frozen
class Fit:
    """A requirement or a preference: whether it held as designed and holds now, with both sides each time. `reason` is
    why it matters. `holds_from` and `holds_to` are the scales between which it holds, for what was printed."""

    path: str
    strict: bool
    operator: str
    held: bool
    holds: bool
    designed: tuple[Quantity | str | bool, Quantity | str | bool]
    now: tuple[Quantity | str | bool, Quantity | str | bool]
    words: tuple[str, str]
    reason: tuple[str | Quantity, ...]
    holds_from: Fraction | None = None
    holds_to: Fraction | None = None


@frozen
class Repair:
    """Something to do, in words with lengths in them. `mends` says that the design goes together with it, which has
    been tried; `cut_again` are the pieces that it takes to be cut again, `order` is for the same cost. `readings` are
    those that somebody who goes by their steps would take for a fault even when it was done."""

    words: Words
    mends: bool
    cut_again: tuple[str, ...] = ()
    order: int = 0
    readings: tuple[ReadNow, ...] = ()


@frozen
class SlipReport:
    """Everything about the slips of one design. `faults` are what checks find now and did not find before."""

    design: str
    ruler: Ruler
    done: tuple[Done, ...]
    changes: tuple[Changed, ...]
    pairs: tuple[Pair, ...]
    readings: tuple[ReadNow, ...]
    fits: tuple[Fit, ...]
    faults: tuple[Diagnostic, ...]
    repairs: tuple[Repair, ...]

    @property
    def broken(self) -> tuple[Fit, ...]:
        """The requirements that held as designed and do not hold now."""
        return tuple(fit for fit in self.fits if fit.strict and fit.held and not fit.holds)

    @property
    def wrong_way(self) -> tuple[Done, ...]:
        """What was folded to the wrong side."""
        return tuple(each for each in self.done if each.done is None and each.scale is None)

    @property
    def holds_when_folded_back(self) -> bool:
        """Whether everything that held as designed still does, and all pairs match, with every fold to its side."""
        return not self.broken and not self.pairs and not self.faults

    @property
    def holds(self) -> bool:
        """Whether everything that held as designed still does as it lies there."""
        return self.holds_when_folded_back and not self.wrong_way
