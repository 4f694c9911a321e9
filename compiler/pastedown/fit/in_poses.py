"""What is looked at in space: the pieces are placed once in every pose, and each look at them finds its faults."""

from collections.abc import Iterator

from pastedown.diagnostic import Diagnostic
from pastedown.fit import closings, collisions, tubes
from pastedown.fit.layer_order import Effort
from pastedown.geometry.in_pose import in_every_pose
from pastedown.geometry.model import Model

# The ids of what is only found once the pieces are folded and placed.
SEEN_IN_SPACE = ("join-misses", "close-misses", "close-looks-away", "too-tight", "runs-through")


def look(model: Model, effort: Effort | None = None) -> Iterator[Diagnostic]:
    """What does not meet and what is in one place, each kind once; nothing where a join or a pose is missing, for that
    may have made it right. What cannot be known before it is done, the order of layers, is added to `effort`."""
    if not model.can_be_placed:
        return
    effort = effort if effort is not None else Effort()
    joins: closings.Told = set()
    kinds: collisions.Told = set()
    for placed in in_every_pose(model):
        yield from closings.look_in(placed, joins, effort)
        if placed.pose is None:
            yield from tubes.look_in(placed)
        yield from collisions.look_in(placed, kinds)
