"""Chance that is the same everywhere: a linear congruential generator, for searches that have to look about."""

# Multiplier and increment as in Knuth's MMIX; the upper bits are the good ones.
_FACTOR, _STEP, _MASK = 6364136223846793005, 1442695040888963407, (1 << 64) - 1


class Dice:
    """Throws numbers in a fixed order that depends on the seed alone."""

    __slots__ = ("_state",)

    def __init__(self, seed: int = 1) -> None:
        self._state = (seed * _FACTOR + _STEP) & _MASK

    def below(self, limit: int) -> int:
        """A whole number from 0 up to, and without, `limit`."""
        self._state = (self._state * _FACTOR + _STEP) & _MASK
        return ((self._state >> 32) * limit) >> 32

