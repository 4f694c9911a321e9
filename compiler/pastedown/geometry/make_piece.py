"""A piece being made, and what can be read of it: its sides, lines and panels, each by its name."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from pastedown.design.body import Guard
from pastedown.design.piece_names import misnamed
from pastedown.diagnostic import error
from pastedown.diagnostic.nearest_name import meant_or_one_of
from pastedown.geometry.fault import Fault, Spoilt
from pastedown.geometry.lay_piece import AXES, LaidPiece
from pastedown.geometry.layer import Entry, Scope
from pastedown.geometry.piece import Panel, Run
from pastedown.geometry.value import FaceValue, FamilyValue, LineValue, PanelValue
from pastedown.quantity.quantity import NO_LENGTH, Length
from pastedown.source import Span
from pastedown.tree.statement import Fold, Statement
from pastedown.tree.statement import Panel as PanelStatement
from pastedown.tree.statement import Run as RunStatement

if TYPE_CHECKING:
    from pastedown.geometry.instance import Instance
    from pastedown.geometry.value import Value


class PieceMaker(LaidPiece):
    """One piece of one part, on its way to becoming a FlatPiece: what can be read of it."""

    def __init__(self, instance: Instance, name: str, index: int | None, entry: Entry, scope: Scope) -> None:
        super().__init__(instance, name, index, entry, scope)
        self._families: dict[tuple[str, str], Value] = {}
        self._names_in_runs: dict[str, set[str]] = {}

    def names(self) -> list[str]:
        """Every name that can follow a dot after this piece."""
        known = {
            "height",
            "width",
            "area",
            "face",
            "back",
            "head",
            "tail",
            "mid_height",
            "mid_width",
            self.edge_name("left"),
            self.edge_name("right"),
        }
        for axis in AXES:
            run = self.run(axis)
            if run is not None:
                names = [*(panel.name for panel in run.panels), *(score.name for score in run.scores)]
                known |= {name.partition("[")[0] for name in names}
        return sorted(known)

    def member(self, name: str, span: Span) -> Value:
        """What `.name` means after this piece."""
        if name in AXES:
            return self.side(name)
        if name == "area":
            return self.side("height") * self.side("width")
        if name in ("face", "back"):
            return FaceValue(self, "", "", name)
        line = self._edge(name)
        if line is not None:
            return line
        found = self._of_runs(name)
        if found is None and name in misnamed(self.statement):
            raise Spoilt
        if found is None:
            raise Fault(
                error(
                    "no-such-member",
                    span,
                    f"{self.path} has no {name}.",
                    way_out=meant_or_one_of(name, self.names(), "It has"),
                )
            )
        return found

    def _edge(self, name: str) -> LineValue | None:
        words = f"{self.path}.{name}"
        match name:
            case "tail":
                return LineValue(self, "height", words, NO_LENGTH)
            case "head":
                return LineValue(self, "height", words, self.side("height"))
            case "mid_height":
                return LineValue(self, "height", words, self.side("height") / 2)
            case "mid_width":
                return LineValue(self, "width", words, self.side("width") / 2)
        if name == self.edge_name("left"):
            return LineValue(self, "width", words, NO_LENGTH)
        if name == self.edge_name("right"):
            return LineValue(self, "width", words, self.side("width"))
        return None

    def _of_runs(self, name: str) -> Value | None:
        for axis in AXES:
            if not self._run_names(axis, name):
                continue
            run = self.run(axis)
            assert run is not None
            if (axis, name) not in self._families:
                self._families.update(((axis, each), value) for each, value in self._families_of(run))
            return self._families[axis, name]
        return None

    def _families_of(self, run: Run) -> Iterator[tuple[str, Value]]:
        """The panels and folds of a run by the name they go by, a single one where it has no index."""
        families: dict[str, list[tuple[int | None, Value]]] = {}
        for panel in run.panels:
            found = families.setdefault(panel.name.partition("[")[0], [])
            found.append((_index(panel.name), PanelValue(self, run.axis, panel.name)))
        for score in run.scores:
            line = self._line(run, score.at, f"{self.path}.{score.name}", score.name)
            families.setdefault(score.name.partition("[")[0], []).append((_index(score.name), line))
        for name, items in families.items():
            if len(items) == 1 and items[0][0] is None:
                yield name, items[0][1]
            else:
                yield name, FamilyValue(f"{self.path}.{name}", tuple((index or 0, value) for index, value in items))

    def _run_names(self, axis: str, name: str) -> bool:
        """Whether a run along `axis` has a panel or fold called `name`, told without working out any length."""
        if axis not in self._names_in_runs:
            runs = [run for run, _ in self.statements() if isinstance(run, RunStatement)]
            along = [run for run in runs if self._run_axis(run) == axis]
            self._names_in_runs[axis] = {found for run in along for found in _names_in(run.body)}
        return name in self._names_in_runs[axis]

    def _line(self, run: Run, at: Length, words: str, fold: str) -> LineValue:
        return LineValue(self, run.axis, words, run.side - at if run.reversed else at, fold)

    def panel(self, value: PanelValue) -> Panel:
        """The laid panel a panel value means."""
        self.run(value.axis)
        return self._panels[value.axis, value.name]

    def panel_member(self, value: PanelValue, name: str, span: Span) -> Value:
        """What `.name` means after a panel: its size, its sides, its edges."""
        panel = self.panel(value)
        if name in ("size", value.axis):
            return panel.size
        if name in AXES:
            return self.side(name)
        if name in ("face", "back"):
            return FaceValue(self, value.axis, value.name, name)
        line = self._panel_edge(value, panel, name)
        if line is None and name in misnamed(self.statement):
            raise Spoilt
        if line is None:
            run = self.run(value.axis)
            assert run is not None
            along = ("head", "tail", "mid_height") if value.axis == "width" else (*self.side_edges(), "mid_width")
            known = (run.first_edge, run.last_edge, "size", "face", "back", f"mid_{value.axis}", *along)
            raise Fault(
                error(
                    "no-such-member",
                    span,
                    f"The panel {value.name} has no {name}.",
                    way_out=meant_or_one_of(name, known, "It has"),
                )
            )
        return line

    def _panel_edge(self, value: PanelValue, panel: Panel, name: str) -> LineValue | None:
        run = self.run(value.axis)
        assert run is not None
        words = f"{self.path}.{value.name}.{name}"
        for edge, at in ((run.first_edge, panel.start), (run.last_edge, panel.end)):
            if name == edge:
                return self._line(run, at, words, self._folds.get((value.axis, at), ""))
        if name == f"mid_{value.axis}":
            return self._line(run, (panel.start + panel.end) / 2, words, "")
        other = self._edge(name)
        return other if other is not None and other.axis != value.axis else None

    def face_member(self, value: FaceValue, name: str, span: Span) -> Value:
        """What `.name` means after one side of the paper: the lines are those of the paper itself."""
        if not value.panel:
            return self.member(name, span)
        return self.panel_member(PanelValue(self, value.axis, value.panel), name, span)


def _names_in(body: tuple[Statement, ...]) -> Iterator[str]:
    for statement in body:
        if isinstance(statement, Guard):
            yield from _names_in(statement.body)
        elif isinstance(statement, PanelStatement | Fold):
            yield statement.family.name


def _index(name: str) -> int | None:
    return int(name.partition("[")[2][:-1]) if "[" in name else None
