"""What a ruler should read at a step, in words: nominal, what the design bears, and what the hand comes to."""

from collections.abc import Iterator

from attrs import frozen

from pastedown.plan.plan import Reading
from pastedown.quantity.quantity import Length


@frozen
class Read:
    """A length as it is found on the ruler, with the marks it lies between unless it lies on one or half-way."""

    value: Length


Words = str | Read | Length


def reading_words(reading: Reading) -> tuple[Words, ...]:
    """Sentences with their values in them: lengths that are read, and others as such."""
    return "The ruler should read ", Read(reading.nominal), ".", *_band(reading), *_by_hand(reading)


def _band(reading: Reading) -> Iterator[Words]:
    least, most = reading.least, reading.most
    if least is not None and most is not None:
        yield from (" It may read from ", Read(least), " to ", Read(most), ".")
    elif least is not None:
        yield from (" It may not read less than ", Read(least), ".")
    elif most is not None:
        yield from (" It may not read more than ", Read(most), ".")


def _by_hand(reading: Reading) -> Iterator[Words]:
    give, nominal = reading.give, reading.nominal
    if give is None:
        return
    room = [*([nominal - reading.least] if reading.least is not None else [])]
    room += [reading.most - nominal] if reading.most is not None else []
    if not room:
        yield from (" By the errors of the hand it may read from ", Read(nominal - give), " to ", Read(nominal + give))
        yield "."
    elif give.value <= min(each.value for each in room):
        yield from (" The errors of the hand come to ", give, " either way, which stays within that.")
    else:
        yield from (" That is what the design bears; the errors of the hand may come to ", give, " either way, so ")
        yield "careful work can read otherwise too: put it right before you go on."
