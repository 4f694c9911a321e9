"""The known name that was probably meant."""

from collections.abc import Iterable

LONGEST = 40
# So many names are listed at most.
MOST_LISTED = 16
# More slips than this are another word, however long it is.
MOST_EDITS = 6


def nearest_name(name: str, known: Iterable[str]) -> str | None:
    """The known name that takes the fewest edits to reach, None if all are too far.

    An edit adds, drops or changes a letter or swaps two neighbours; a third of the letters may be edited, at least 1
    and at most 6, but never all of them. Capitals and hyphens count as small letters and underscores. Of equally near
    names the first in the alphabet wins. Names are compared by their first 40 letters, and `name` itself is never the
    answer.
    """
    wanted = _plain(name)
    limit = min(MOST_EDITS, max(1, len(wanted) // 3), len(wanted) - 1)
    if limit < 1:
        return None
    best: tuple[int, str] | None = None
    for candidate in known:
        if candidate == name:
            continue
        # A name later in the alphabet has to be strictly nearer than the best so far.
        found = _edits(wanted, _plain(candidate), limit - (best is not None and candidate > best[1]))
        if found is not None and (best is None or (found, candidate) < best):
            best, limit = (found, candidate), found
    return best[1] if best else None


def equally_near(name: str, known: Iterable[str]) -> list[str]:
    """The nearest known name, as `nearest_name` finds it, and all others that are as near, in the order given."""
    offered = list(known)
    nearest = nearest_name(name, offered)
    if nearest is None:
        return []
    wanted = _plain(name)
    fewest = _edits(wanted, _plain(nearest), MOST_EDITS)
    if fewest is None:
        return [nearest]
    return [other for other in offered if other != name and _edits(wanted, _plain(other), fewest) is not None]


def did_you_mean(name: str, known: Iterable[str]) -> str:
    """The question "Did you mean `seam`?", or nothing if no known name is near."""
    nearest = nearest_name(name, known)
    return f"Did you mean `{nearest}`?" if nearest else ""


def meant_or_one_of(name: str, known: Iterable[str], lead: str) -> str:
    """The question "Did you mean `seam`?", or else `lead` and the known names, as in "It has: crest, seam."."""
    listed = [*known]
    more = len(listed) - MOST_LISTED
    names = ", ".join(listed[:MOST_LISTED]) + (f" and {more} more" if more > 0 else "")
    return did_you_mean(name, listed) or (f"{lead}: {names}." if listed else "")


def _plain(name: str) -> str:
    return name[:LONGEST].casefold().replace("-", "_")[:LONGEST]


def _edits(left: str, right: str, limit: int) -> int | None:
    """Edits from one to the other (optimal string alignment), None if more than `limit`.

    Row by row, only as far from the diagonal as the limit allows, and no further than the first row that is all beyond.
    """
    if abs(len(left) - len(right)) > limit:
        return None
    left, right = _without_common_ends(left, right)
    beyond = limit + 1
    before: list[int] = []
    row = [min(at, beyond) for at in range(len(right) + 1)]
    for i, letter in enumerate(left, start=1):
        first, last = max(1, i - limit), min(len(right), i + limit)
        following = [beyond] * (len(right) + 1)
        following[0] = min(i, beyond)
        for j in range(first, last + 1):
            edits = min(row[j] + 1, following[j - 1] + 1, row[j - 1] + (letter != right[j - 1]))
            if i > 1 and j > 1 and letter == right[j - 2] and left[i - 2] == right[j - 1]:
                edits = min(edits, before[j - 2] + 1)
            following[j] = edits
        if min(following) > limit:
            return None
        before, row = row, following
    return row[-1] if row[-1] <= limit else None


def _without_common_ends(left: str, right: str) -> tuple[str, str]:
    """What differs: letters that both begin or both end with never need an edit."""
    shorter = min(len(left), len(right))
    start = next((at for at in range(shorter) if left[at] != right[at]), shorter)
    left, right = left[start:], right[start:]
    shorter -= start
    end = next((at for at in range(shorter) if left[-1 - at] != right[-1 - at]), shorter)
    return left[: len(left) - end], right[: len(right) - end]
