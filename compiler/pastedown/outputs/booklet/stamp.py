"""The release word and the fingerprint of a design: whether two sheets of paper belong to the same design.

Both come from the SHA-256 of all that the plan says of the design, so that like designs have like stamps on every
machine and any other number has another one. The word is for calling across a room; the fingerprint decides.
"""

import hashlib

from pastedown.outputs.to_json import album_file
from pastedown.plan.plan import Plan

_WORDS = (
    "acorn", "amber", "anchor", "apple", "arrow", "aspen", "barley", "basket", "beacon", "birch", "bramble", "brook",
    "button", "cedar", "chalk", "cherry", "clover", "cobalt", "comet", "copper", "coral", "cotton", "daisy", "elder",
    "ember", "falcon", "fennel", "fern", "flint", "garnet", "ginger", "harbour", "hazel", "heron", "indigo", "iris",
    "ivory", "juniper", "kettle", "lantern", "larch", "lemon", "linen", "maple", "marble", "meadow", "nutmeg", "oat",
    "olive", "orchard", "otter", "pebble", "plum", "poppy", "quartz", "quince", "river", "saffron", "sparrow", "thyme",
    "tulip", "velvet", "walnut", "willow",
)  # fmt: skip
_DIGITS = 12


def stamp_of(plan: Plan) -> str:
    """For example "lantern · 3f9a 12c4 77e0"."""
    digest = hashlib.sha256(album_file(plan)).hexdigest()
    word = _WORDS[int(digest[-4:], 16) % len(_WORDS)]
    groups = [digest[n : n + 4] for n in range(0, _DIGITS, 4)]
    return f"{word} · {' '.join(groups)}"
