"""Finding tasks by path, where a name without an index means all of its family and a part all that makes it."""

import re
from collections.abc import Iterable, Iterator

_NAME_AND_INDEX = re.compile(r"([^\[]*)((?:\[[^\]]*\])*)")


class _Node:
    """One name on the way down a path, with the tasks that stand exactly here and all that lies beneath."""

    def __init__(self) -> None:
        self.tasks: list[int] = []
        self.beneath: dict[str, dict[str, _Node]] = {}

    def all_tasks(self) -> Iterator[int]:
        waiting = [self]
        while waiting:
            node = waiting.pop()
            yield from node.tasks
            waiting += [child for family in node.beneath.values() for child in family.values()]


class PathIndex:
    """Numbered paths by name and index, so that a path is found without looking at all the others."""

    def __init__(self, paths: Iterable[str]) -> None:
        self._top = _Node()
        for task, path in enumerate(paths):
            node = self._top
            for name, index in _split(path):
                node = node.beneath.setdefault(name, {}).setdefault(index, _Node())
            node.tasks.append(task)

    def find(self, path: str) -> Iterator[int]:
        """The numbers of all tasks at the path or beneath it, in no order; none for a path that leads nowhere."""
        nodes = [self._top]
        for name, index in _split(path):
            families = [node.beneath.get(name, {}) for node in nodes]
            if index:
                nodes = [family[index] for family in families if index in family]
            else:
                nodes = [node for family in families for node in family.values()]
        for node in nodes:
            yield from node.all_tasks()


def _split(path: str) -> list[tuple[str, str]]:
    matches = (_NAME_AND_INDEX.match(name) for name in path.split("."))
    return [(match.group(1), match.group(2)) for match in matches if match]
