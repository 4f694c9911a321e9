"""What makers say behind "too": which side of a piece it is about, and whether it means more or less."""

# More or less from the edge that the score chart names, or of a size.
_MORE = ("far", "large", "big", "long", "wide", "tall", "high", "up")
_LESS = ("near", "close", "small", "short", "narrow", "low", "down")
# Where a fold lies, seen from the face with the head up: the axis it lies along, and whether that is away from the left
# edge or the tail.
_SEEN = {
    "right": ("width", 1), "left": ("width", -1), "high": ("height", 1), "up": ("height", 1), "low": ("height", -1),
    "down": ("height", -1),
}  # fmt: skip
_SIDES = {"high": "height", "tall": "height", "low": "height", "wide": "width", "narrow": "width"}
SEEN_WAYS = frozenset(_SEEN)
WAYS = frozenset((*_MORE, *_LESS, *_SEEN))


def side_meant(way: str) -> str:
    """The side of a whole piece that is too high or too wide; "" for words that say nothing of it."""
    return _SIDES.get(way, "")


def says_size(way: str) -> bool:
    """Whether words tell that a length is off, and not where a fold lies."""
    return bool(sign_of_size(way)) and bool(way) and way not in (*_SEEN, "far", "near", "close")


def sign_of_size(way: str) -> int:
    """1 for a length that is too large by these words, -1 for one that is too small; 0 where they are no such words."""
    return 1 if not way or way in _MORE else -1 if way in _LESS else 0


def sign_of_fold(way: str, axis: str, starts_at_origin: bool) -> int:
    """1 for a fold that lies too far from the first edge of its run, -1 for one too near; 0 where the words do not tell
    of a run along this axis. `starts_at_origin` says that the first edge is the left one or the tail."""
    if way in _SEEN:
        seen_along, sign = _SEEN[way]
        return 0 if seen_along != axis else sign if starts_at_origin else -sign
    return {"": 1, "far": 1, "near": -1, "close": -1}.get(way, 0)
