"""The sides of a piece and the runs along them: panels laid end to end, with the folds between them.

A side is worked out without the other one, so that a height may hang on something that a width does not know.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, TypeVar

from pastedown.design.piece_names import misnamed
from pastedown.design.setting_names import PIECE_SETTINGS
from pastedown.diagnostic import Label, error
from pastedown.diagnostic.nearest_name import did_you_mean
from pastedown.geometry.evaluate import length, whole_number
from pastedown.geometry.fault import Fault, Spoilt
from pastedown.geometry.hand import cut_to, hand_of, laid
from pastedown.geometry.layer import Entry, Scope
from pastedown.geometry.piece import Panel, Run, Score
from pastedown.geometry.piece_settings import PieceSettings, written_out
from pastedown.geometry.value import PanelValue
from pastedown.quantity.quantity import NO_LENGTH, Length
from pastedown.source import Span
from pastedown.tree.expression import Expression, Path
from pastedown.tree.statement import Fold
from pastedown.tree.statement import Panel as PanelStatement
from pastedown.tree.statement import Run as RunStatement

if TYPE_CHECKING:
    from pastedown.geometry.instance import Instance

Kind = TypeVar("Kind")
AXES = ("height", "width")
_KINDS = ("mountain", "valley")


class LaidPiece(PieceSettings):
    """A piece with its sides and its runs, each worked out once, when first asked for."""

    def __init__(self, instance: Instance, name: str, index: int | None, entry: Entry, scope: Scope) -> None:
        super().__init__(instance, name, index, entry, scope)
        # What lies in a run that has been laid, by axis and by name or place, so that each is found at once.
        self._panels: dict[tuple[str, str], Panel] = {}
        self._folds: dict[tuple[str, Length], str] = {}

    def side(self, axis: str) -> Length:
        """Its height or width: as stated, or the length of the run along it."""
        return self._once(f"{axis}", lambda: self._side(axis))

    def _side(self, axis: str) -> Length:
        actual = self.instance.work.actual.sides.get((self.path, axis))
        if actual is not None:
            return actual
        setting = self.setting(axis)
        if setting is None:
            run = self.run(axis)
            if run is None:
                if any(given.label not in PIECE_SETTINGS for given in self.statement.settings):
                    raise Spoilt  # a setting was misspelt, and that has been told
                raise Fault(
                    error(
                        "size-missing",
                        self.statement.family.span,
                        f"Nothing says what the {axis} of {self.path} is.",
                        way_out=f"Add {axis}: ... or a run of panels along it.",
                    )
                )
            return run.side
        value = length(*setting)
        if value.value <= 0:
            from pastedown.geometry.ruler import ruler_of
            from pastedown.quantity.write import write

            raise Fault(
                error(
                    "out-of-range",
                    setting[0].span,
                    f"The {axis} of {self.path} comes to {write(value, ruler_of(self.instance))}, and "
                    "no paper is that small.",
                    way_out=f"Give it a {axis} above nought.",
                )
            )
        self.instance.work.note_length(value, setting[0].span)
        return cut_to(value, self.path, axis, hand_of(self.instance.work))

    def run(self, axis: str) -> Run | None:
        """The run of panels along an axis, or None where there is none."""
        return self._once(f"run {axis}", lambda: self._run(axis))

    def _run(self, axis: str) -> Run | None:
        found: list[tuple[RunStatement, Scope]] = []
        for statement, scope in self.statements():
            if isinstance(statement, RunStatement) and self._run_axis(statement) == axis:
                found.append((statement, scope))
        if len(found) > 1:
            raise Fault(
                error(
                    "twice-declared",
                    found[1][0].span,
                    f"{self.path} has two runs along its {axis}.",
                    labels=(Label(found[0][0].span, "first here"),),
                    way_out="Put all panels into one run.",
                )
            )
        if not found:
            return None
        statement, scope = found[0]
        panels, scores = self.instance.work.actual.laid((self.path, axis), *self._lay(statement, scope, axis))
        self._panels.update({(axis, panel.name): panel for panel in panels})
        self._folds.update({(axis, score.at): score.name for score in scores})
        first, last = statement.start.span.text, statement.end.span.text
        return Run(axis, first, last, first in ("head", self.edge_name("right")), panels, scores)

    def run_statement(self, axis: str) -> tuple[RunStatement, Scope] | None:
        """The words of the run along an axis, to see what it hangs on."""
        runs = ((each, scope) for each, scope in self.statements() if isinstance(each, RunStatement))
        return next(((run, scope) for run, scope in runs if self._run_axis(run) == axis), None)

    def _run_axis(self, run: RunStatement) -> str:
        ends = (run.start.span.text, run.end.span.text)
        sides = self.side_edges()
        if set(ends) == {"head", "tail"}:
            return "height"
        if set(ends) == set(sides):
            return "width"
        known = ("head", "tail", *sides)
        if any(self.instance.work.is_spoilt(edge.span) for edge in (run.start, run.end)):
            raise Spoilt
        if misnamed(self.statement) & set(ends):
            raise Spoilt
        raise Fault(
            error(
                "run-edges",
                run.start.span.to(run.end.span),
                f"A run goes from one edge to the opposite one; {self.path} has head and tail, "
                f"{sides[0]} and {sides[1]}.",
                way_out=did_you_mean(next((end for end in ends if end not in known), ""), known)
                or "Write two opposite edges, as in run tail to head.",
            )
        )

    def _lay(self, run: RunStatement, scope: Scope, axis: str) -> tuple[tuple[Panel, ...], tuple[Score, ...]]:
        """Lay panels end to end: score i lies at the sum of the panels before it."""
        panels: list[Panel] = []
        scores: list[Score] = []
        at = NO_LENGTH
        fold_open: Span | None = None
        seen: dict[str, Span] = {}
        for statement, inner in written_out(run.body, scope):
            self.instance.work.count_thing(statement.span)
            if isinstance(statement, PanelStatement | Fold):
                self._refuse_like_names(statement, inner, seen)
            if isinstance(statement, PanelStatement):
                bends, said = self._bends(statement)
                if panels and fold_open is None and not (bends or panels[-1].bends):
                    raise Fault(
                        error(
                            "fold-missing",
                            statement.span,
                            "A panel follows a panel with no fold between them.",
                            way_out="Write the fold: fold its_name: valley, or make the two one panel.",
                        )
                    )
                size = self._panel_size(statement, inner)
                panels.append(Panel(self._written(statement, inner), at, at + size, bends, said))
                at = at + size
                fold_open = None
            elif isinstance(statement, Fold):
                if not panels or fold_open is not None:
                    raise Fault(
                        error(
                            "fold-twice",
                            statement.span,
                            "A fold lies between two panels.",
                            way_out="Put a panel on each side of it.",
                        )
                    )
                kind, said = self._fold_kind(statement, inner)
                scores.append(Score(self._written(statement, inner), at, kind, statement.span, said))
                fold_open = statement.span
        if fold_open is not None or not panels:
            raise Fault(
                error(
                    "fold-twice",
                    fold_open or run.span,
                    "A run begins and ends with a panel.",
                    way_out="Add the last panel." if panels else "Add a panel.",
                )
            )
        return laid(self.path, axis, tuple(panels), tuple(scores), hand_of(self.instance.work))

    def _refuse_like_names(self, statement: PanelStatement | Fold, scope: Scope, seen: dict[str, Span]) -> None:
        name, span = self._written(statement, scope), statement.family.span
        if name in seen:
            raise Fault(
                error(
                    "twice-declared",
                    span,
                    f"{name} stands twice in this run.",
                    labels=(Label(seen[name], "first here"),) if seen[name] != span else (),
                    way_out="Give each panel and fold its own name; in each, an index: rise[k].",
                )
            )
        seen[name] = span

    def _bends(self, panel: PanelStatement) -> tuple[str, Span | None]:
        """To which side a panel bends, and the words that say so."""
        said = [setting.value.span if setting.label == "bends" else None for setting in panel.settings]
        words = [span.text if span is not None else "" for span in said]
        if not words or words == ["no"]:
            return "", None
        # A setting that is misspelt has been told; it may have been this one.
        if words[0] not in _KINDS or said[0] is None:
            return "yes", None
        return self._turned(words[0], said[0]), said[0]

    def _turned(self, kind: str, said: Span) -> str:
        """The other kind, where it is asked what the design would be with that."""
        return _KINDS[1 - _KINDS.index(kind)] if said in self.instance.work.turned else kind

    def _size_source(self, panel: PanelStatement, scope: Scope) -> tuple[Expression, Scope]:
        """The words that say how long a panel is: those of the outermost layer that speaks of it, or its own."""
        index = whole_number(panel.family.index, scope) if panel.family.index is not None else None
        for layer in self.amendments:
            entry = layer.set_to(panel.family.name, index)
            if entry is not None and entry.value is not None:
                return entry.value, entry.scope
        return panel.size, scope

    def panel_source(self, value: PanelValue) -> tuple[Expression, Scope] | None:
        """The words that say how long a panel is, for its derivation."""
        return self.panel_sources(value.axis).get(value.name)

    def panel_sources(self, axis: str) -> dict[str, tuple[Expression, Scope]]:
        """The words that say how long each panel of a run is, by its name."""
        return {
            self._written(statement, inner): self._size_source(statement, inner)
            for run, scope in self.statements()
            if isinstance(run, RunStatement) and self._run_axis(run) == axis
            for statement, inner in written_out(run.body, scope)
            if isinstance(statement, PanelStatement)
        }

    def _panel_size(self, panel: PanelStatement, scope: Scope) -> Length:
        expression, where = self._size_source(panel, scope)
        value = length(expression, where).exact
        if value.value <= 0:
            from pastedown.geometry.ruler import ruler_of
            from pastedown.quantity.write import write

            raise Fault(
                error(
                    "panel-not-positive",
                    expression.span,
                    f"The panel {panel.family.name} of {self.path} comes to {write(value, ruler_of(self.instance))}.",
                    reason="A panel has to be there to be folded.",
                    way_out="Make it longer than nought, or leave it out.",
                )
            )
        self.instance.work.note_length(value, expression.span)
        return value

    def _fold_kind(self, fold: Fold, scope: Scope) -> tuple[str, Span]:
        """Mountain or valley, and the words that say so: those of the outermost layer that speaks of the fold, or its
        own."""
        index = whole_number(fold.family.index, scope) if fold.family.index is not None else None
        for layer in self.amendments:
            entry = layer.set_to(fold.family.name, index)
            if entry is not None and isinstance(entry.value, Path):
                return self._turned(entry.value.head, entry.value.span), entry.value.span
        if fold.kind not in _KINDS:
            raise Fault(
                error(
                    "fold-kind",
                    fold.kind_span,
                    f"A fold in a run is a mountain or a valley, as seen from the face, not {fold.kind}.",
                    way_out=did_you_mean(fold.kind, _KINDS)
                    or "Write valley where the panels come towards you, mountain where they go away.",
                )
            )
        return self._turned(fold.kind, fold.kind_span), fold.kind_span

    def _written(self, statement: PanelStatement | Fold, scope: Scope) -> str:
        family = statement.family
        return family.name if family.index is None else f"{family.name}[{whole_number(family.index, scope)}]"

    def _once(self, key: str, make: Callable[[], Kind]) -> Kind:
        return self.instance.work.once((self, key), f"{self.path}.{key}", self.statement.family.span, make)
