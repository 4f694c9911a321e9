"""A piece being made: its sides, runs, panels and lines, each worked out once, when first asked for.

A side is worked out without the other one, so that a height may hang on something that a width does not know.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import TYPE_CHECKING, TypeVar

from pastedown.design.body import Guard
from pastedown.design.piece_names import misnamed, wrong_edge_name
from pastedown.design.setting_names import PIECE_SETTINGS
from pastedown.design.stock import Stock
from pastedown.diagnostic import Label, error
from pastedown.diagnostic.nearest_name import did_you_mean, meant_or_one_of
from pastedown.geometry.describe import describe
from pastedown.geometry.evaluate import evaluate, length, single, whole_number
from pastedown.geometry.fault import Fault, Spoilt
from pastedown.geometry.hand import cut_to, hand_of, laid
from pastedown.geometry.layer import Entry, Layer, Scope, expand, set_twice
from pastedown.geometry.piece import Panel, Run, Score
from pastedown.geometry.value import FaceValue, FamilyValue, LineValue, PanelValue
from pastedown.geometry.work import WORK_OF_A_PIECE, WORK_OF_AN_ENTRY
from pastedown.quantity.quantity import NO_LENGTH, Length
from pastedown.source import Span
from pastedown.tree.expression import Call, Expression, Path
from pastedown.tree.statement import Fact, Fold, Statement
from pastedown.tree.statement import Panel as PanelStatement
from pastedown.tree.statement import Piece as PieceStatement
from pastedown.tree.statement import Run as RunStatement

if TYPE_CHECKING:
    from pastedown.geometry.instance import Instance
    from pastedown.geometry.value import Value

Kind = TypeVar("Kind")
AXES = ("height", "width")
_KINDS = ("mountain", "valley")


class PieceMaker:
    """One piece of one part, on its way to becoming a FlatPiece."""

    def __init__(self, instance: Instance, name: str, index: int | None, entry: Entry, scope: Scope) -> None:
        assert isinstance(entry.statement, PieceStatement)
        self.instance = instance
        self.name = name
        self.statement = entry.statement
        self.scope = scope
        self.path = instance.path_of(name, index)
        self.amendments: list[Layer] = instance.layers_below(name, index, instance)
        self._statements: tuple[tuple[Statement, Scope], ...] | None = None
        self._facts: dict[str, list[tuple[Fact, Scope]]] | None = None
        # What lies in a run that has been laid, by axis and by name or place, so that each is found at once.
        self._panels: dict[tuple[str, str], Panel] = {}
        self._folds: dict[tuple[str, Length], str] = {}
        self._families: dict[tuple[str, str], Value] = {}
        self._names_in_runs: dict[str, set[str]] = {}
        instance.work.count_thing(entry.span)
        instance.work.spend(entry.span, WORK_OF_A_PIECE)

    # -- settings ------------------------------------------------------------------------------------------------------

    def setting(self, label: str) -> tuple[Expression, Scope] | None:
        """What the outermost layer, or the piece itself, says of one of its settings."""
        return next(self._said(label), None)

    def cut(self, name: str) -> tuple[Expression, Scope] | None:
        """What is cut into an edge, into a corner or inside; None where `name` was only given to an edge."""
        said = self._said(name)
        return next((each for each in said if name not in ("left", "right") or _is_of_a_cut(each[0])), None)

    def _said(self, label: str) -> Iterator[tuple[Expression, Scope]]:
        for layer in self.amendments:
            entry = layer.set_to(label)
            if entry is not None and entry.value is not None:
                yield entry.value, entry.scope
        for setting in self.statement.settings:
            if setting.label == label:
                yield setting.value, self.scope
        own = self.facts.get(label, ())
        if len(own) > 1:
            raise set_twice(label, own[0][0].path.span, own[1][0].path.span)
        for fact, scope in own:
            yield fact.value, scope

    @property
    def facts(self) -> dict[str, list[tuple[Fact, Scope]]]:
        """The facts in its braces by name: what is cut into it."""
        if self._facts is None:
            self._facts = {}
            for statement, scope in self.statements():
                if isinstance(statement, Fact) and not statement.path.trailers:
                    self._facts.setdefault(statement.path.head, []).append((statement, scope))
        return self._facts

    def word(self, label: str, allowed: tuple[str, ...], default: str) -> str:
        """A setting that is one of a few words."""
        setting = self.setting(label)
        if setting is None:
            return default
        expression = setting[0]
        word = expression.head if isinstance(expression, Path) and not expression.trailers else ""
        if word not in allowed:
            raise Fault(
                error(
                    "unknown-choice",
                    expression.span,
                    f"{label} is one of {', '.join(allowed)}.",
                    way_out=did_you_mean(word, allowed) or f"Write one of them, such as {allowed[0]}.",
                )
            )
        return word

    def edge_name(self, side: str) -> str:
        """What the maker calls the left or the right edge."""
        expression = next((said for said, _ in self._said(side) if not _is_of_a_cut(said)), None)
        if expression is None:
            return side
        fault = wrong_edge_name(side, expression)
        if fault is not None:
            raise Fault(fault)
        assert isinstance(expression, Path)
        return expression.head

    def side_edges(self) -> tuple[str, str]:
        """What the maker calls the two edges beside head and tail."""
        return self.edge_name("left"), self.edge_name("right")

    def stock(self) -> Stock:
        """The stock it is cut from."""
        setting = self.setting("stock")
        expression, scope = setting if setting is not None else (self.statement.stock, self.scope)
        value = single(evaluate(expression, scope), expression.span)
        if not isinstance(value, Stock):
            raise Fault(
                error(
                    "wrong-kind",
                    expression.span,
                    f"A piece is cut from a stock, and this is {describe(value)}.",
                    way_out="Name a stock, such as the kraft of kraft = stock(kind: card, sheet: 12 in x 12 in).",
                )
            )
        return value

    def statements(self) -> tuple[tuple[Statement, Scope], ...]:
        """The statements in its braces, `each` written out and `if` decided."""
        if self._statements is None:
            self._statements = tuple(_written_out(self.statement.body, self.scope))
            self.instance.work.spend(self.statement.span, WORK_OF_AN_ENTRY * len(self._statements))
        return self._statements

    # -- sides and runs ------------------------------------------------------------------------------------------------

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
        for statement, inner in _written_out(run.body, scope):
            self.instance.work.count_thing(statement.span)
            if isinstance(statement, PanelStatement | Fold):
                self._refuse_like_names(statement, inner, seen)
            if isinstance(statement, PanelStatement):
                bends = self._bends(statement)
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
                panels.append(Panel(self._written(statement, inner), at, at + size, bends))
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
                kind = self._fold_kind(statement, inner)
                scores.append(Score(self._written(statement, inner), at, kind, statement.span))
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

    def _bends(self, panel: PanelStatement) -> str:
        words = [setting.value.span.text if setting.label == "bends" else "" for setting in panel.settings]
        if not words or words == ["no"]:
            return ""
        # A setting that is misspelt has been told; it may have been this one.
        return words[0] if words[0] in ("valley", "mountain") else "yes"

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
            for statement, inner in _written_out(run.body, scope)
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

    def _fold_kind(self, fold: Fold, scope: Scope) -> str:
        index = whole_number(fold.family.index, scope) if fold.family.index is not None else None
        for layer in self.amendments:
            entry = layer.set_to(fold.family.name, index)
            if entry is not None and isinstance(entry.value, Path):
                return entry.value.head
        if fold.kind not in _KINDS:
            raise Fault(
                error(
                    "fold-kind",
                    fold.kind_span,
                    f"A fold in a run is a mountain or a valley, as seen from the face, not {fold.kind}.",
                    way_out=did_you_mean(fold.kind, _KINDS)
                    or "Write valley for a fold towards you, mountain for one away from you.",
                )
            )
        return fold.kind

    def _written(self, statement: PanelStatement | Fold, scope: Scope) -> str:
        family = statement.family
        return family.name if family.index is None else f"{family.name}[{whole_number(family.index, scope)}]"

    # -- what can be said of it ----------------------------------------------------------------------------------------

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

    def _once(self, key: str, make: Callable[[], Kind]) -> Kind:
        return self.instance.work.once((self, key), f"{self.path}.{key}", self.statement.family.span, make)


def _is_of_a_cut(expression: Expression) -> bool:
    """Whether words about an edge say what is cut into it; else they are its name."""
    return isinstance(expression, Call) or (isinstance(expression, Path) and expression.head == "nothing")


def _names_in(body: tuple[Statement, ...]) -> Iterator[str]:
    for statement in body:
        if isinstance(statement, Guard):
            yield from _names_in(statement.body)
        elif isinstance(statement, PanelStatement | Fold):
            yield statement.family.name


def _index(name: str) -> int | None:
    return int(name.partition("[")[2][:-1]) if "[" in name else None


def _written_out(body: tuple[Statement, ...], scope: Scope) -> Iterator[tuple[Statement, Scope]]:
    for statement in body:
        if isinstance(statement, Guard):
            for inner in expand((statement,), scope):
                yield from _written_out(statement.body, inner)
        else:
            yield statement, scope
