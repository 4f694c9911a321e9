"""Derives a measurement: what it was worked out from, down to the lines where something was chosen or bought.

Values are worked out once and kept; a derivation reads the same expressions again and asks for the values it finds in
them.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from fractions import Fraction

from attrs import define, evolve, field, frozen

from pastedown.design.stock import Stock
from pastedown.diagnostic import Diagnostic, error
from pastedown.geometry.bond import bonded_gaps
from pastedown.geometry.describe import describe
from pastedown.geometry.evaluate import length
from pastedown.geometry.fault import Fault, Spoilt
from pastedown.geometry.follow import follow
from pastedown.geometry.instance import Instance
from pastedown.geometry.lay_piece import AXES
from pastedown.geometry.layer import Scope
from pastedown.geometry.make_join import Named
from pastedown.geometry.make_piece import PieceMaker
from pastedown.geometry.measure import measure_span
from pastedown.geometry.measurements import origin_of
from pastedown.geometry.paths import paths_in
from pastedown.geometry.piece import Panel, Run
from pastedown.geometry.ruler import ruler_of
from pastedown.geometry.thickest_place import thickest_place, thicknesses_in
from pastedown.geometry.value import FamilyValue, LineValue, PanelValue, Reference, TextValue, Word
from pastedown.quantity.quantity import NO_LENGTH, Length, Quantity, number
from pastedown.quantity.write import write
from pastedown.source import SourceText, Span
from pastedown.tree.expression import Call, Dot, Expression, Index, Literal, Path
from pastedown.tree.statement import Part, Takes

MOST_LINES = 400
# So many parts are offered at most for a name that the design itself does not have.
MOST_OFFERED = 4


@frozen
class Derivation:
    """One value and what it came from. `origin` is chosen, fixed, default, derived, rounded, stock or counted; `words`
    is the expression as written, `place` its file and line. `told_above` means that its own derivation stands further
    up; `times` is how often it goes into the sum above it."""

    path: str
    value: Quantity | str | bool
    origin: str
    words: str
    place: str
    parts: tuple[Derivation, ...] = ()
    told_above: bool = False
    times: int = 1


@define
class _Deriver:
    told: set[str] = field(factory=set)
    lines: int = 0

    def value_of(self, value: object, path: Path, scope: Scope) -> Derivation | None:
        """The derivation of what a path in an expression means; None for what is no measurement."""
        owner = _owner(path, scope)
        match value:
            case FamilyValue(items=items) if items:
                return self.value_of(items[0][1], path, scope)
            case Stock() | Instance() | PieceMaker() | LineValue() | PanelValue():
                return None
        name = path.trailers[-1].name if path.trailers and isinstance(path.trailers[-1], Dot) else path.head
        if isinstance(owner, Instance):
            return self.fact(owner, name)
        if isinstance(owner, PieceMaker) and name in AXES:
            return self.side(owner, name)
        if isinstance(owner, PanelValue):
            return self.panel(owner)
        if isinstance(owner, Stock):
            return self._leaf(f"{owner.name}.{name}", value, "stock", path.span)
        if path.head in scope.locals and not path.trailers:
            return None
        found = scope.file.find(path.head)
        if found is not None:
            statement = found[1]
            return self._leaf(path.span.text, value, origin_of(getattr(statement, "value", None)), statement.span)
        return None

    def _leaf(self, path: str, value: object, origin: str, span: Span) -> Derivation | None:
        plain = _plain(value)
        return None if plain is None else Derivation(path, plain, origin, span.text, _place(span))

    def fact(self, instance: Instance, name: str) -> Derivation | None:
        """The derivation of a fact of a part."""
        value = _plain(instance.lookup(name, instance.span))
        if value is None:
            return None
        path = instance.path_of(name, None)
        setting = instance.setting(name)
        if setting is not None and setting.value is not None:
            origin = "fixed" if setting.fixed else origin_of(setting.value)
            return self._moved(instance, self._of_expression(path, value, origin, setting.value, setting.scope))
        _, entry, scope = instance.declared(name)[0]
        takes = entry.statement
        assert isinstance(takes, Takes) and takes.default is not None
        return self._moved(instance, self._of_expression(path, value, "default", takes.default, scope))

    def _moved(self, instance: Instance, derivation: Derivation) -> Derivation:
        """The derivation of what was moved to a mark of the ruler says what it was before."""
        move = instance.work.marks.moves.get(derivation.path)
        if move is None:
            return derivation
        written = write(move.written, ruler_of(instance))
        words = derivation.words if derivation.words == written else f"{derivation.words}, which is {written}"
        return evolve(derivation, origin="rounded", words=f"{words}, and goes to a mark of the ruler")

    def side(self, piece: PieceMaker, axis: str) -> Derivation | None:
        """The derivation of a side of a piece: its setting, or the panels along it."""
        path = f"{piece.path}.{axis}"
        setting = piece.setting(axis)
        if setting is not None:
            return self._of_expression(path, piece.side(axis), origin_of(setting[0]), *setting)
        run = piece.run(axis)
        assert run is not None
        return self._sum_of_panels(path, piece, run, len(run.panels))

    def score(self, line: LineValue) -> Derivation | None:
        """The derivation of a score's place: the panels before it, from the run's first edge."""
        run = line.piece.run(line.axis)
        assert run is not None
        at = next(score.at for score in run.scores if score.name == line.fold)
        before = sum(1 for panel in run.panels if panel.end <= at)
        return self._sum_of_panels(f"{line.piece.path}.{line.fold}", line.piece, run, before)

    def _sum_of_panels(self, path: str, piece: PieceMaker, run: Run, count: int) -> Derivation | None:
        if path in self.told:
            return None
        self.told.add(path)
        panels = run.panels[:count]
        words = " + ".join(panel.name for panel in panels[:6]) + (f" + ... ({count} panels)" if count > 6 else "")
        names: dict[str, str] = {}
        for panel in panels:
            names.setdefault(panel.name.partition("[")[0], panel.name)
        parts = [self.panel(PanelValue(piece, run.axis, name)) for name in names.values()]
        total = panels[-1].end
        return Derivation(
            path, total, "derived", f"{words}, from {run.first_edge}", _place(piece.statement.family.span), _kept(parts)
        )

    def reading(self, step: Reference) -> Derivation | None:
        """The derivation of what a ruler should read at a step; None for a step that reads nothing."""
        entry, scope = step.instance.declaration(step)
        setting = Named(step.instance, step.name, step.index, entry, scope).setting("reads")
        if setting is None:
            return None
        return self._of_expression(step.path, length(*setting), origin_of(setting[0]), *setting)

    def panel(self, value: PanelValue) -> Derivation | None:
        """The derivation of a panel's size."""
        piece = value.piece
        found = piece.panel_source(value)
        if found is None:
            return None
        return self._of_expression(f"{piece.path}.{value.name}", piece.panel(value).size, origin_of(found[0]), *found)

    def _of_expression(
        self, path: str, value: Quantity | str | bool, origin: str, expression: Expression, scope: Scope
    ) -> Derivation:
        self.lines += 1
        place, words = _place(expression.span), " ".join(expression.span.text.split())
        if isinstance(expression, Literal):
            return Derivation(path, value, origin, words, place)
        if path in self.told or self.lines > MOST_LINES:
            return Derivation(path, value, origin, words, place, (), True)
        self.told.add(path)
        return Derivation(path, value, origin, words, place, _kept(self._parts(expression, scope)))

    def _parts(self, expression: Expression, scope: Scope) -> Iterator[Derivation | None]:
        if isinstance(expression, Call) and expression.called.head == "span":
            yield from self._span_parts(expression, scope)
            return
        for call in thicknesses_in(expression):
            place = _place(call.span)
            for what, thick in thickest_place(call, scope):
                yield Derivation(what, thick, "stock", "lies at the thickest place", place)
        for path in paths_in(expression):
            try:
                yield self.value_of(follow(path, scope), path, scope)
            except (Fault, Spoilt):
                continue

    def _span_parts(self, call: Call, scope: Scope) -> Iterator[Derivation | None]:
        """The panels that lie along the measure, and what the turned folds add."""
        measured = measure_span(call, scope)
        piece, run, section = measured.first.piece, measured.run, measured.section
        if run is None or section is None:
            yield self.side(piece, measured.first.axis)
            return
        ends = sorted((measured.first.at, measured.last.at), key=lambda at: at.value)
        from_first = [run.side - at for at in reversed(ends)] if run.reversed else ends
        between = [panel for panel in run.panels if from_first[0] <= panel.start and panel.end <= from_first[1]]
        # Behind a fold that is shut the panels run the other way, and with them the measure may.
        forward = sum((section.lying[panel.name][0] * panel.size.value for panel in between), Fraction(0)) >= 0
        way = 1 if forward else -1
        lying = [panel for panel in between if section.lying[panel.name][0] == way]
        families: dict[str, list[Panel]] = {}
        for panel in lying:
            families.setdefault(f"{panel.name.partition('[')[0]} {panel.size.value}", []).append(panel)
        for alike in families.values():
            told = self.panel(PanelValue(piece, run.axis, alike[0].name))
            yield told if told is None else evolve(told, times=len(alike))
        flat = sum((panel.size for panel in lying), NO_LENGTH)
        if measured.length != flat:
            yield self._in_folds(piece, run, from_first, measured.length - flat)

    def _in_folds(self, piece: PieceMaker, run: Run, ends: list[Length], value: Length) -> Derivation:
        """What the turned folds add: the thickness of the paper as often as it lies there, and of what bonds it."""
        stock, place = piece.stock(), _place(piece.statement.stock.span)
        gaps = bonded_gaps(piece, run)
        bonded = [gaps[score.name] for score in run.scores if score.name in gaps and ends[0] <= score.at <= ends[1]]
        left = value - sum(bonded, NO_LENGTH)
        layers = left.value / stock.caliper.value if stock.caliper is not None else None
        words = f"every turned fold takes up the caliper of {stock.words}"
        parts: list[Derivation] = []
        if layers is not None and layers.denominator == 1 and layers >= 0 and stock.caliper is not None:
            if layers:
                caliper = Derivation(f"{stock.words}.caliper", stock.caliper, "stock", "as it is bought", place)
                parts.append(evolve(caliper, times=int(layers)))
            for thick in sorted(set(bonded), key=lambda gap: gap.value):
                bond = Derivation("the adhesive in a fold", thick, "stock", "its caliper, as it is bought", place)
                parts.append(evolve(bond, times=bonded.count(thick)))
        if bonded:
            words += " and of the adhesive in it"
        return Derivation(f"{piece.path}, paper in its folds", value, "derived", words, place, tuple(parts))


def derive(root: Instance, measurement: str) -> tuple[Derivation | None, tuple[Diagnostic, ...]]:
    """The derivation of a measurement by its path, such as "sheet.height" or "strip.crest[2]"."""
    path, fault = read_path(measurement)
    if path is None:
        return None, (fault,) if fault is not None else ()
    scope = Scope(root, root.component.file, {}, root)
    told_before = len(root.work.diagnostics)
    try:
        value = follow(path, scope)
        derivation = _derivation(value, path, scope)
    except Fault as problem:
        elsewhere = _in_parts(root, path.head) if problem.diagnostic.id == "unknown-name" else ""
        asked = _as_asked(problem.diagnostic)
        return None, (evolve(asked, way_out=elsewhere) if elsewhere else asked,)
    except Spoilt:
        told = root.work.diagnostics[told_before:]
        return None, tuple(_as_asked(each) for each in told) or (_not_worked_out(measurement),)
    if derivation is None:
        return None, (
            error(
                "unknown-measurement",
                None,
                f"{measurement} is {describe(value)}, and only measurements can be derived.",
                way_out=_what_can_follow(value),
            ),
        )
    return derivation, ()


def _in_parts(root: Instance, name: str) -> str:
    """The question for one of the parts that have what the design itself does not: "Did you mean `box.lid`?"."""
    found: list[str] = []
    for part in root.names():
        try:
            made = root.lookup(part, root.span) if root.kind_of(part) is Part and not root.is_removed(part) else None
        except (Fault, Spoilt):
            continue
        first = made.items[0][1] if isinstance(made, FamilyValue) and made.items else made
        if isinstance(first, Instance) and first.has(name):
            found.append(f"`{first.path}.{name}`")
    return f"Did you mean {' or '.join(found[:MOST_OFFERED])}?" if found else ""


def _what_can_follow(value: object) -> str:
    names = value.names() if isinstance(value, Instance | PieceMaker) else []
    return f"Add a dot and one of: {', '.join(names)}." if names else "Ask for a length, a count or another fact."


def _derivation(value: object, path: Path, scope: Scope) -> Derivation | None:
    deriver = _Deriver()
    if isinstance(value, FamilyValue) and value.items:
        value = value.items[0][1]
    if isinstance(value, LineValue) and value.fold:
        return deriver.score(value)
    if isinstance(value, PanelValue):
        return deriver.panel(value)
    if isinstance(value, Reference) and value.kind == "step":
        return deriver.reading(value)
    return deriver.value_of(value, path, scope)


def _as_asked(diagnostic: Diagnostic) -> Diagnostic:
    """A fault about what was typed on the command line, which is no place in a recipe."""
    return evolve(diagnostic, id="unknown-measurement", span=None, labels=())


def _not_worked_out(measurement: str) -> Diagnostic:
    return error(
        "unknown-measurement",
        None,
        f"{measurement} could not be worked out.",
        way_out="Mend what the messages above say, then ask again.",
    )


def read_path(text: str) -> tuple[Path | None, Diagnostic | None]:
    """A measurement as typed on the command line: names with dots and indexes."""
    source = SourceText("the measurement asked for", text)
    whole = Span(source, 0, len(text))
    if len(text) > 200 or not re.fullmatch(
        r"\s*[a-z][a-z0-9_]*(\[\d{1,6}\])*(\.[a-z][a-z0-9_]*(\[\d{1,6}\])*)*\s*", text
    ):
        return None, error(
            "unknown-measurement",
            None,
            "A measurement is named by its path.",
            way_out="Write it as in sheet[2].height; the file album.json lists them all.",
        )
    parts = re.findall(r"[a-z][a-z0-9_]*|\[\d+\]", text)
    trailers = tuple(
        Index(Literal(number(part[1:-1]), whole), whole) if part.startswith("[") else Dot(part, whole)
        for part in parts[1:]
    )
    return Path(parts[0], trailers, whole, whole), None


def _owner(path: Path, scope: Scope) -> object:
    """The value that the last name of a path belongs to."""
    trailers = list(path.trailers)
    while trailers and not isinstance(trailers[-1], Dot):
        trailers.pop()
    if not trailers:
        return scope.part if scope.part is not None and scope.part.has(path.head) else None
    value = follow(Path(path.head, tuple(trailers[:-1]), path.span, path.head_span), scope)
    if isinstance(value, FamilyValue) and value.items:
        value = value.items[0][1]
    return value


def _plain(value: object) -> Quantity | str | bool | None:
    match value:
        case Quantity() | bool():
            return value
        case Word(text=text):
            return text
        case TextValue(pieces=pieces):
            return "".join(piece for piece in pieces if isinstance(piece, str))
        case FamilyValue(items=items) if items:
            return _plain(items[0][1])
        case _:
            return None


def _place(span: Span) -> str:
    return f"{span.source.name}, line {span.line}"


def _kept(parts: Iterable[Derivation | None]) -> tuple[Derivation, ...]:
    seen: list[Derivation] = []
    for part in parts:
        if part is not None and all(part.path != other.path for other in seen):
            seen.append(part)
    return tuple(seen)
