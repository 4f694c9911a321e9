"""Names made distinct by numbering those that come up again."""

from collections.abc import Sequence


def distinct(wished: Sequence[str], numbered: str) -> list[str]:
    """The wished names in their order; one that is taken already gets a number from 2 on.

    `numbered` says how, with one slot for the name and one for the number: "{}-{}".
    """
    taken: set[str] = set()
    last_number: dict[str, int] = {}
    given = []
    for name in wished:
        free = name
        while free in taken:
            last_number[name] = last_number.get(name, 1) + 1
            free = numbered.format(name, last_number[name])
        taken.add(free)
        given.append(free)
    return given
