"""Which pose a maker means: by its path, or in words as one would say it."""

from __future__ import annotations

import re
from collections.abc import Iterable

from pastedown.diagnostic.nearest_name import did_you_mean
from pastedown.diagnostic.visible_text import visible
from pastedown.geometry.natural_order import natural_key, without_indexes
from pastedown.plan.plan import Plan
from pastedown.plan.space import FLAT, MADE_UP
from pastedown.plan.words import is_of_part, last_name, spoken

_OWN = (MADE_UP, FLAT)
# Words that may stand beside those of a pose, besides the names of parts.
_BESIDE = frozenset(("the", "of", "pose"))
_MOST_ASKED = 200


def find_pose(plan: Plan, asked: str) -> str | None:
    """The path of the pose that is asked for: "case.closed", "case closed", "open_at[2]", "open at 2" or "open at leaf
    2". None where there is none, or where several might be meant."""
    known = _known(plan)
    if asked in known:
        return asked
    words = _words(asked)
    parts = {word for part in plan.parts for word in _words(without_indexes(part.path))}
    for beside in (frozenset[str](), _BESIDE, _BESIDE | parts):
        found = [path for path in known if _is_told(_words(path), words, beside)]
        if found:
            return found[0] if len(found) == 1 else None
    return None


def no_such_pose(plan: Plan, asked: str) -> str:
    """A sentence for who asked for a pose that is not there, with the nearest one and all there are."""
    known = _known(plan)
    nearest = did_you_mean(asked, [*known, *map(spoken, known)])
    told = f"{plan.name} has no pose {visible(asked[:_MOST_ASKED])}."
    return " ".join(part for part in (told, nearest, f"It has: {', '.join(_told(known))}.") if part)


def _known(plan: Plan) -> list[str]:
    """The poses there are; that of a part without pieces shows nothing."""
    pieces = [piece.path for piece in plan.space.pieces]
    shown = [
        posture.path
        for posture in plan.space.postures
        if any(is_of_part(path, posture.part) for path in pieces)
    ]
    return [*_OWN, *shown]


def _words(text: str) -> list[str]:
    return sorted(re.findall(r"[^\W\d]+|\d+", spoken(text).lower()))


def _is_told(pose: list[str], asked: list[str], beside: frozenset[str]) -> bool:
    left = list(asked)
    for word in pose:
        if word not in left:
            return False
        left.remove(word)
    return all(word in beside for word in left)


def _told(paths: Iterable[str]) -> list[str]:
    """The names of poses, of a family from its first to its last."""
    families: dict[str, list[str]] = {}
    for path in paths:
        own = path if "[" not in last_name(path) else f"{path.rpartition('.')[0]}.{without_indexes(last_name(path))}"
        families.setdefault(own, []).append(path)
    told = []
    for members in families.values():
        members.sort(key=natural_key)
        told.append(members[0] if len(members) == 1 else f"{members[0]} to {members[-1]}")
    return told
