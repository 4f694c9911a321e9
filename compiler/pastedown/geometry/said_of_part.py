"""What is said of a part: the layers around it, which of them is heard, and which names they make known."""

from __future__ import annotations

from typing import TYPE_CHECKING

from attrs import evolve

from pastedown.diagnostic import Label, error, note
from pastedown.geometry.fault import Fault
from pastedown.geometry.layer import Entry, Layer, Scope, set_twice
from pastedown.geometry.value import Reference
from pastedown.geometry.work import (
    WORK_OF_AN_ENTRY,
    WORK_OF_ONE,
    Work,
)
from pastedown.source import Span
from pastedown.tree.expression import Path
from pastedown.tree.statement import Family

if TYPE_CHECKING:
    from pastedown.geometry.value import Value


Declared = tuple[int | None, Entry, Scope]


class SaidOfPart:
    """What the layers of one part say, outermost first. `path` is "" for the album itself; `known` are the names that
    have been worked out."""

    work: Work
    path: str
    span: Span
    layers: list[Layer]
    known: dict[str, Value | None]

    def __init__(self) -> None:
        self._declared: dict[str, dict[int | None, tuple[Entry, Scope]]] = {}

    def path_of(self, name: str, index: int | None) -> str:
        """The path of something declared in this part."""
        own = name if index is None else f"{name}[{index}]"
        return f"{self.path}.{own}" if self.path else own

    def layers_below(self, name: str, index: int | None, child: object) -> list[Layer]:
        """What this part's layers say of the thing called `name`, with that name taken off, outermost first."""
        layers: list[Layer] = []
        for layer in self.layers:
            entries: dict[str, list[Entry]] = {}
            said = layer.entries_of(name, index)
            self.work.spend(self.span, WORK_OF_AN_ENTRY * len(said))
            for entry in said:
                inner = entry.below(name, index, child)
                if inner is not None:
                    entries.setdefault(inner.path[0].name, []).append(inner)
            if entries:
                layers.append(Layer(entries))
        return layers

    def names(self) -> list[str]:
        """Every name that this part makes known, sorted."""
        spoken_of = {name for layer in self.layers for name in layer.names()}
        return sorted(name for name in spoken_of if self._makes_known(name))

    def _makes_known(self, name: str) -> bool:
        return any(
            len(entry.path) == 1
            and (not entry.is_setting or (layer is self.layers[-1] and entry.path[0].index is None))
            for layer in self.layers
            for entry in layer.entries(name)
        )

    def setting(self, name: str, index: int | None = None) -> Entry | None:
        """The entry that sets `name`, or its member `index`: of the outermost layer that does, the most exact one.
        Tells what it overrides."""
        layered = [
            (number, entry)
            for number, layer in enumerate(self.layers)
            for entry in layer.entries_of(name, index)
            if len(entry.path) == 1 and entry.is_setting
        ]
        if not layered:
            return None
        outermost = [entry for number, entry in layered if number == layered[0][0]]
        outermost.sort(key=lambda entry: -entry.exactness)
        winner = outermost[0]
        if len(outermost) > 1 and outermost[1].exactness == winner.exactness:
            raise set_twice(self.path_of(name, None), winner.span, outermost[1].span)
        self._judge_overridden(name, winner, [entry for number, entry in layered if number != layered[0][0]])
        return winner

    def _judge_overridden(self, name: str, winner: Entry, inner: list[Entry]) -> None:
        for entry in inner:
            if entry.fixed:
                raise Fault(
                    error(
                        "fixed-value",
                        winner.span,
                        f"{self.path_of(name, None)} is fixed and may not be set anew.",
                        reason="Whoever wrote the component marked it as a margin that no variant may touch.",
                        labels=(Label(entry.span, "fixed here"),),
                        way_out="Leave it out here.",
                    )
                )
            if entry.exactness > winner.exactness:
                self.work.tell(
                    note(
                        "override-noted",
                        winner.span,
                        f"{self.path_of(name, None)} had a value of its own; the outer one holds.",
                        reason="The outermost is heard: a variant before its base, outer braces before inner ones.",
                        labels=(Label(entry.span, "its own value"),),
                    )
                )

    def declared(self, name: str) -> list[Declared]:
        """What declares `name` (not what sets it), each with its index and the scope to read it in. Members of a
        family that an outer layer took away are left out."""
        return [(index, entry, scope) for index, (entry, scope) in self._members(name).items()]

    def numbers(self, name: str) -> list[int | None]:
        """The indexes under which `name` is declared, also of members that were taken away; None for no index."""
        entries = [entry for layer in self.layers for entry in layer.entries(name)]
        declaring = [entry for entry in entries if len(entry.path) == 1 and not entry.is_setting]
        return [index for entry in declaring for index, _, _ in self._indexed(entry)]

    def declaration(self, reference: Reference) -> tuple[Entry, Scope]:
        """What declares one thing of this part, and the scope to read it in."""
        return self._members(reference.name)[reference.index]

    def _members(self, name: str) -> dict[int | None, tuple[Entry, Scope]]:
        if name not in self._declared:
            self._declared[name] = {index: (entry, scope) for index, entry, scope in self._declared_now(name)}
        return self._declared[name]

    def _declared_now(self, name: str) -> list[Declared]:
        found: list[Declared] = []
        for layer in self.layers:
            for entry in layer.entries(name):
                if len(entry.path) == 1 and not entry.is_setting:
                    members = self._indexed(entry)
                    found.extend(each for each in members if each[0] is None or not self.is_removed(name, each[0]))
        self._all_of_one_kind(name, [entry for _, entry, _ in found])
        seen: dict[int | None, Entry] = {}
        for index, entry, _ in found:
            if index in seen:
                raise self._declared_twice(self.path_of(name, index), seen[index], entry)
            seen[index] = entry
        return found

    def _all_of_one_kind(self, name: str, entries: list[Entry]) -> None:
        """A family is of parts, of pieces or of steps, never mixed. Raises Fault for a mixed one."""
        for entry in entries:
            if type(entry.statement) is not type(entries[0].statement):
                raise self._declared_twice(self.path_of(name, None), entries[0], entry)

    def _declared_twice(self, path: str, first: Entry, second: Entry) -> Fault:
        return Fault(
            error(
                "twice-declared",
                second.span,
                f"{path} is declared twice.",
                labels=(Label(first.span, "first here"),),
                way_out="Give one of them another name.",
            )
        )

    def declared_each(self, name: str) -> list[Declared]:
        """What declares `name`, where several may share it without an index (a requirement inside `each`): they are
        numbered."""
        found = [
            entry
            for layer in self.layers
            for entry in layer.entries(name)
            if len(entry.path) == 1 and not entry.is_setting
        ]
        self._all_of_one_kind(name, found)
        if len(found) == 1:
            return [(None, found[0], found[0].scope)]
        return [(number, entry, entry.scope) for number, entry in enumerate(found, start=1)]

    def _indexed(self, entry: Entry) -> list[Declared]:
        from pastedown.geometry.evaluate import whole_number, whole_range

        family: Family | None = getattr(entry.statement, "family", None)
        if family is None or (family.index is None and not family.counter):
            return [(None, entry, entry.scope)]
        with self.work.deciding_structure():
            if family.index is not None:
                return [(whole_number(family.index, entry.scope), entry, entry.scope)]
            assert family.first is not None and family.last is not None
            numbers = whole_range(family.first, family.last, entry.scope)
            self.work.spend(family.span, WORK_OF_ONE * len(numbers))
        return [
            (number, entry, evolve(entry.scope, locals={**entry.scope.locals, family.counter: number}))
            for number in numbers
        ]

    def kind_of(self, name: str) -> type | None:
        """The class of statement that declares `name`; None for a plain fact."""
        for layer in self.layers:
            for entry in layer.entries(name):
                if len(entry.path) == 1 and not entry.is_setting:
                    return type(entry.statement)
        return None

    def is_removed(self, name: str, index: int | None = None) -> bool:
        """Whether an outer layer took `name`, or its member `index`, away with `nothing`."""
        setting = self.setting(name, index)
        return setting is not None and isinstance(setting.value, Path) and setting.value.head == "nothing"

    def has(self, name: str) -> bool:
        """Whether this part has a name, worked out or spoilt."""
        if name in self.known or self._where(name) is not None:
            return True
        return self._is_spoilt(name) or self._deciding(name) is not None

    def _deciding(self, name: str) -> Layer | None:
        """The layer that is just finding out what it says of `name`: an `each` or an `if` around it is worked out."""
        return next((layer for layer in self.layers if (layer, name) in self.work.busy), None)

    def _is_spoilt(self, name: str) -> bool:
        return any(name in layer.spoilt for layer in self.layers)

    def _where(self, name: str) -> Span | None:
        for layer in self.layers:
            for entry in layer.entries(name):
                if len(entry.path) == 1:
                    return entry.span
        return None

    def would_know(self, name: str) -> bool:
        """Whether a name stands here in an `each` or an `if` that does not come about."""
        return any(layer.declares(name) for layer in self.layers)
