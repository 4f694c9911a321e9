"""How one message speaks for several like things."""

from collections.abc import Sequence

# So many like things are named at most.
MOST_NAMED = 4


def the_same_goes_for(paths: Sequence[str]) -> str:
    """ " The same goes for a, b and c.", or nothing where there are no others."""
    if not paths:
        return ""
    named = list(paths[:MOST_NAMED])
    if len(paths) > MOST_NAMED:
        named.append(f"{len(paths) - MOST_NAMED} more")
    return f" The same goes for {', '.join(named[:-1])}{' and ' if len(named) > 1 else ''}{named[-1]}."
