"""What a maker calls things: any one of several like ones, and which of a family are meant."""

from collections.abc import Sequence
from typing import Protocol

from pastedown.geometry.natural_order import without_indexes
from pastedown.plan.words import is_said_by, last_name, listed, plural, spoken


class Named(Protocol):
    """Anything with a place in the design: pieces, joins, steps and the tasks on them."""

    @property
    def path(self) -> str: ...

    @property
    def part(self) -> str: ...

    @property
    def component(self) -> str: ...

    @property
    def name(self) -> str: ...


def owner_and_name(things: Sequence[Named]) -> list[str]:
    """The part that like things belong to, by its own name or, where these differ, what kind of part it is; then the
    name of the things themselves. Only the one where it says the other as well, or where they belong to no part."""
    owners = {last_name(without_indexes(thing.part)) for thing in things}
    owner = owners.pop() if len(owners) == 1 else things[0].component
    name = without_indexes(things[0].name)
    if is_said_by(owner, name):
        return [owner]
    return [owner, name] if owner else [name]


def plain_name(things: Sequence[Named]) -> str:
    """What a maker calls any one of several like things: "tray long side"."""
    return " ".join(spoken(word) for word in owner_and_name(things))


def members(paths: Sequence[str]) -> str:
    """Which ones are meant, told down to the last number or the last name that differs: "trays 1 to 4 and 6".

    They are told in the order given; a run of three or more numbers is drawn together.
    """
    heads_of: dict[str, list[str]] = {}
    for head in _telling_heads(paths):
        heads_of.setdefault(head[: head.rindex("[")] if head.endswith("]") else head, []).append(head)
    return listed([_tell_family(family, heads) for family, heads in heads_of.items()])


def _telling_heads(paths: Sequence[str]) -> list[str]:
    split = [path.split(".") for path in paths]
    if len({len(names) for names in split}) > 1:
        return list(paths)
    columns = enumerate(zip(*split, strict=True))
    telling = [place for place, names in columns if len(set(names)) > 1 or names[0].endswith("]")]
    length = telling[-1] + 1 if telling else len(split[0])
    return list(dict.fromkeys(".".join(names[:length]) for names in split))


def _tell_family(family: str, heads: list[str]) -> str:
    indexes = [head[len(family) + 1 : -1] for head in heads if len(head) > len(family)]
    if not indexes:
        return spoken(family)
    name = plural(spoken(family)) if len(indexes) > 1 else spoken(family)
    return f"{name} {listed(_draw_together(indexes))}"


def _draw_together(indexes: list[str]) -> list[str]:
    if not all(index.isdecimal() and len(index) < 10 for index in indexes):
        return indexes
    runs: list[list[int]] = []
    for number in map(int, indexes):
        if runs and number == runs[-1][-1] + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    return [words for run in runs for words in _tell_run(run)]


def _tell_run(run: list[int]) -> list[str]:
    return [f"{run[0]} to {run[-1]}"] if len(run) > 2 else [str(number) for number in run]
