"""What a ruler should read at a step, in words: nominal, what its step allows, what hands come to, and from where to
where everything goes together; so that whoever reads another number knows whether to go on."""

from collections.abc import Iterator

from attrs import evolve, frozen

from pastedown.plan.plan import Reading
from pastedown.quantity.quantity import Length


@frozen
class Read:
    """A length as it is found on the ruler, by the mark it lies next to unless it lies on one or half-way."""

    value: Length


Words = str | Read | Length


def reading_words(reading: Reading) -> tuple[Words, ...]:
    """Sentences with their values in them: lengths that are read, and others as such."""
    reading = with_nearer_limits(reading)
    return "The ruler should read ", Read(reading.nominal), ".", *_allowed(reading), *_by_hand(reading)


def with_nearer_limits(reading: Reading) -> Reading:
    """With what its step allows no further than what the design bears."""
    least, most = reading.least, reading.most
    if least is not None and reading.bears_least is not None:
        least = max(least, reading.bears_least)
    if most is not None and reading.bears_most is not None:
        most = min(most, reading.bears_most)
    return evolve(reading, least=least, most=most)


def _allowed(reading: Reading) -> Iterator[Words]:
    least, most = reading.least, reading.most
    if least is not None and most is not None:
        yield from (" It may read from ", Read(least), " to ", Read(most), ".")
    elif least is not None:
        yield from (" The least it may read is ", Read(least), ".")
    elif most is not None:
        yield from (" The most it may read is ", Read(most), ".")


def _by_hand(reading: Reading) -> Iterator[Words]:
    """What hands come to is no limit, and no fault; what the design bears is a limit."""
    give, nominal = reading.give, reading.nominal
    stated = reading.least is not None or reading.most is not None
    borne = reading.bears_least is not None or reading.bears_most is not None
    if give is None:
        if not stated and not borne:
            yield " The design does not say by how much it may differ: a mark of the ruler either way is no fault."
        return
    if stated and _is_within(reading, reading.least, reading.most):
        yield from (" The errors of the hand come to ", give, " either way, which stays within that.")
    elif stated:
        yield from (" The errors of careful hands come to ", give, " either way, which may go past that: then measure ")
        yield "each thing in it by itself, put right what is off, and go on where each is right."
    elif reading.all_holds.below or reading.all_holds.above:
        yield from (" The errors of careful hands come to ", give, " either way.", *_all_holds(reading))
    elif borne:
        only = not _is_within(reading, reading.bears_least, reading.bears_most)
        yield from (" The errors of careful hands come to ", give, " either way, and everything goes together ")
        yield from (*(["only "] if only else []), *_bears(reading), ": so far, go on; ")
        yield "past it, measure each thing in it by itself and put right what is off."
    else:
        yield from (" By the errors of the hand it may read from ", Read(nominal - give), " to ", Read(nominal + give))
        yield "."


def _all_holds(reading: Reading) -> Iterator[Words]:
    """The band in which nothing is lost, and the wider one with what is lost beyond the first."""
    band = reading.all_holds
    least = band.least if band.below else reading.bears_least
    most = band.most if band.above else reading.bears_most
    whole = evolve(reading, bears_least=least, bears_most=most)
    if least is not None and least == most:
        yield from (" All holds only at ", Read(least))
    else:
        yield from (" All holds ", *_bears(whole))
    outer = evolve(
        reading,
        bears_least=reading.bears_least if band.below else None,
        bears_most=reading.bears_most if band.above else None,
    )
    if outer.bears_least is not None or outer.bears_most is not None:
        yield from ("; ", *_bears(outer), " it still goes together, but ")
    else:
        yield "; "
    if band.below and least is not None:
        yield from ("below ", Read(least), " ", *(band.less or (f"{band.below} is lost",)))
        yield ", and " if band.above else ""
    if band.above and most is not None:
        yield from ("above ", Read(most), " ", *(band.more or (f"{band.above} is lost",)))
    yield ": go on where that will do. Past it, measure each thing in it by itself and put right what is off."


def _bears(reading: Reading) -> Iterator[Words]:
    least, most = reading.bears_least, reading.bears_most
    if least is not None and most is not None:
        yield from ("from ", Read(least), " to ", Read(most))
    elif least is not None:
        yield from ("down to ", Read(least))
    elif most is not None:
        yield from ("up to ", Read(most))


def _is_within(reading: Reading, least: Length | None, most: Length | None) -> bool:
    """Whether what hands come to stays between two limits."""
    assert reading.give is not None
    return (least is None or reading.nominal - reading.give >= least) and (
        most is None or reading.nominal + reading.give <= most
    )
