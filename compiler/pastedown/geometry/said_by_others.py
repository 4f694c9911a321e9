"""What lies between two sides is judged by the component that has them, unless the design judges it itself."""

from collections.abc import Iterable

from pastedown.geometry.model import Requirement


def without_what_others_say(requirements: Iterable[Requirement]) -> list[Requirement]:
    """All but those on what lies between two sides, where another one hangs on a stack of all that moves there."""
    found = list(requirements)
    own = [
        {layer.what for layer in stack.layers.layers}
        for each in found
        for stack in each.stacks
        if not stack.between and not stack.blank
    ]
    return [each for each in found if not any(_is_in(stack.between, own) for stack in each.stacks)]


def _is_in(moving: frozenset[str], stacks: list[set[str]]) -> bool:
    return bool(moving) and any(moving <= things for things in stacks)
