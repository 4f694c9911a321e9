"""Numbers of a ladder moved apart until they can be read, each as near to its line as may be."""

from collections.abc import Sequence


def spread(places: Sequence[float], pitch: float, first: float, last: float) -> list[float]:
    """The places, which climb, moved so that neighbours are `pitch` apart at least and all lie from `first` to `last`,
    which must be far enough apart. They move as little as possible in the sum of squares: with the pitch taken off,
    this is isotonic regression, solved by pooling neighbours that are out of order (Ayer and others, 1955)."""
    heaps: list[tuple[float, int]] = []
    for number, place in enumerate(places):
        total, count = place - number * pitch, 1
        while heaps and heaps[-1][0] / heaps[-1][1] > total / count:
            before, many = heaps.pop()
            total, count = total + before, count + many
        heaps.append((total, count))
    apart = [total / count for total, count in heaps for _ in range(count)]
    left = [max(first, min(place, last - pitch * (len(places) - 1))) for place in apart]
    return [place + number * pitch for number, place in enumerate(left)]
