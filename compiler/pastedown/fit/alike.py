"""How one message speaks for several like things."""

from collections.abc import Sequence

# So many like things are named at most.
MOST_NAMED = 4


def the_same_goes_for(paths: Sequence[str]) -> str:
    """ " The same goes for a, b and c.", or nothing where there are no others."""
    return f" The same goes for {in_a_row(paths)}." if paths else ""


def in_a_row(paths: Sequence[str]) -> str:
    """ "a, b and c", at most MOST_NAMED of them, of one at least."""
    named = list(paths[:MOST_NAMED])
    if len(paths) > MOST_NAMED:
        named.append(f"{len(paths) - MOST_NAMED} more")
    return f"{', '.join(named[:-1])}{' and ' if len(named) > 1 else ''}{named[-1]}"
