"""A join being made: which sides meet, where, held by what."""

from __future__ import annotations

from typing import TYPE_CHECKING

from attrs import evolve

from pastedown.design.brackets import word_of
from pastedown.design.stock import Stock
from pastedown.diagnostic import error
from pastedown.geometry import model
from pastedown.geometry.describe import describe
from pastedown.geometry.evaluate import evaluate, length, single, text_value, truth
from pastedown.geometry.fault import Fault
from pastedown.geometry.follow import each_of, follow
from pastedown.geometry.layer import Entry, Layer, Scope
from pastedown.geometry.place import faces_at
from pastedown.geometry.value import FaceValue, LineValue, TextValue
from pastedown.geometry.work import WORK_OF_A_READING, WORK_OF_A_WAIT, WORK_OF_ONE
from pastedown.quantity.quantity import NO_LENGTH, Length
from pastedown.tree.expression import Expression, ListOf, Path, Text
from pastedown.tree.statement import Align, Fold, Join, Setting, Step

if TYPE_CHECKING:
    from pastedown.geometry.instance import Instance


class Named:
    """Something with a name, settings, a tip and a caution that outer layers may set: a join, a step, a crease."""

    def __init__(self, instance: Instance, name: str, index: int | None, entry: Entry, scope: Scope) -> None:
        self.instance = instance
        self.name = name
        self.path = instance.path_of(name, index)
        self.scope = scope
        self.span = entry.span
        self.amendments: list[Layer] = instance.layers_below(name, index, instance)
        statement = entry.statement
        assert isinstance(statement, Join | Fold | Step)
        self.settings: tuple[Setting, ...] = statement.settings
        instance.work.spend(entry.span, WORK_OF_ONE)

    def setting(self, label: str) -> tuple[Expression, Scope] | None:
        """What the outermost layer, or the statement itself, says of one of its settings."""
        for layer in self.amendments:
            entry = layer.set_to(label)
            if entry is not None and entry.value is not None:
                return entry.value, entry.scope
        for setting in self.settings:
            if setting.label == label:
                return setting.value, self.scope
        return None

    def text(self, label: str) -> model.WorkedText:
        """A setting that is a text; nothing where it is not given."""
        setting = self.setting(label)
        if setting is None:
            return ()
        value = single(evaluate(*setting), setting[0].span)
        if not isinstance(value, TextValue):
            raise Fault(
                error(
                    "wrong-kind",
                    setting[0].span,
                    f"{label} is a text in quotes, and this is {describe(value)}.",
                    way_out='Write it in quotes: "...".',
                )
            )
        return value.pieces

    def yes(self, label: str) -> bool:
        """A setting that is yes or no; no where it is not given."""
        setting = self.setting(label)
        return setting is not None and truth(*setting)

    def paths(self, label: str) -> tuple[str, ...]:
        """The paths of what a setting such as `after:` names, every member of a family by itself."""
        setting = self.setting(label)
        if setting is None:
            return ()
        expression, scope = setting
        wanted = expression.items if isinstance(expression, ListOf) else (expression,)
        found: list[str] = []
        for one in wanted:
            if not isinstance(one, Path):
                raise Fault(
                    error(
                        "wrong-kind",
                        one.span,
                        f"{label} names a join, a step, a piece or a part.",
                        way_out=f"Write its name: {label}: seam, or several: {label}: [seam, mount].",
                    )
                )
            if _was_taken_away(one, scope):
                continue
            things = each_of(follow(one, scope))
            self.instance.work.spend(one.span, WORK_OF_A_WAIT * len(things))
            for value in things:
                path = getattr(value, "path", None)
                if label == "scores" and isinstance(value, LineValue) and value.fold:
                    path = f"{value.piece.path}.{value.fold}"
                if path is None:
                    raise Fault(
                        error(
                            "wrong-kind",
                            one.span,
                            f"{label} names a join, a step, a piece or a part, and this is {describe(value)}.",
                            way_out="Name the join that makes it, or the piece that it belongs to.",
                        )
                    )
                found.append(path)
        return tuple(found)


def _was_taken_away(path: Path, scope: Scope) -> bool:
    """Whether a variant set what a path names to nothing: then nothing has to wait for it."""
    part = scope.part
    return part is not None and not path.trailers and part.kind_of(path.head) is not None and part.is_removed(path.head)


class JoinMaker(Named):
    """One join or closing of one part."""

    def __init__(self, instance: Instance, name: str, index: int | None, entry: Entry, scope: Scope) -> None:
        super().__init__(instance, name, index, entry, scope)
        assert isinstance(entry.statement, Join)
        self.statement = entry.statement

    def by(self) -> Stock | None:
        """The adhesive: as named, or by the rule of the trade from what the album offers, or unknown. None also for
        what lies there without any."""
        setting = self.setting("by")
        if self.lies_there():
            return None
        if setting is not None:
            value = single(evaluate(*setting), setting[0].span)
            if not isinstance(value, Stock) or not value.is_adhesive:
                what = f"{value.words} is {value.kind}" if isinstance(value, Stock) else f"this is {describe(value)}"
                raise Fault(
                    error(
                        "wrong-kind",
                        setting[0].span,
                        f"A join is held by tape or glue, and {what}.",
                        way_out="Name a stock of the kind tape or glue.",
                    )
                )
            return value
        return self._offered("moving_adhesive" if self.moving() else "static_adhesive")

    def _offered(self, fact: str) -> Stock | None:
        root = self.instance.work.root or self.instance
        offered = root.fact_or_none(fact)
        if isinstance(offered, Stock) and not offered.is_adhesive:
            setting = root.setting(fact)
            raise Fault(
                error(
                    "wrong-kind",
                    setting.span if setting is not None else self.span,
                    f"{fact} is tape or glue, and {offered.name} is {offered.kind}.",
                    way_out="Name a stock of the kind tape or glue.",
                )
            )
        return offered if isinstance(offered, Stock) else None

    def moving(self) -> bool:
        return self.yes("moving")

    def lies_there(self) -> bool:
        """Whether nothing holds it, and it only lies where the join says."""
        setting = self.setting("by")
        return setting is not None and word_of(setting[0]) == "nothing"

    def _held_by(self, by: Stock | None) -> str:
        if self.lies_there():
            return "nothing"
        usual = "tape" if self.moving() else "glue"
        return by.kind if by is not None else usual

    def make(self) -> model.Join:
        """The join with everything worked out. Raises Fault at its first fault."""
        what, to = self._faces(self.statement.what), self._faces(self.statement.to)
        itself = self.setting("by") is None and any(face.piece.stock().kind == "tape" for face in (*what, *to))
        by = None if itself else self.by()
        return model.Join(
            path=self.path,
            part=self.instance.path,
            component=self.instance.component.name,
            name=self.name,
            closes=self.statement.closes,
            what=side(self.statement.what, what),
            to=side(self.statement.to, to),
            alignments=self._alignments(),
            by=by,
            adhesive="itself" if itself else self._held_by(by),
            moving=self.moving(),
            doc=self._doc(),
            tip=self.text("tip"),
            caution=self.text("caution"),
            after=self.paths("after"),
            before=self.paths("before"),
            span=self.span,
        )

    def _doc(self) -> model.WorkedText:
        doc: Text | None = self.statement.doc
        return text_value(doc, self.scope).pieces if doc is not None else ()

    def _faces(self, path: Path) -> tuple[FaceValue, ...]:
        faces = faces_at(path, self.scope)
        if path.span in self.instance.work.turned:
            faces = tuple(evolve(face, side="back" if face.side == "face" else "face") for face in faces)
        self.instance.work.spend(path.span, WORK_OF_A_READING * len(faces))
        if not faces:
            raise Fault(
                error(
                    "empty-family",
                    path.span,
                    f"There is no {path.span.text} here at all, so nothing can be joined.",
                    way_out="Make one at least, or put the join into an if.",
                )
            )
        return faces

    def _alignments(self) -> tuple[model.Alignment, ...]:
        from pastedown.geometry.follow import line_at

        found: list[model.Alignment] = []
        for statement in self.statement.body:
            if not isinstance(statement, Align):
                raise Fault(
                    error(
                        "wrong-kind",
                        statement.span,
                        "In the braces of a join stand only its alignments: align line to line.",
                        way_out="Move it out of these braces.",
                    )
                )
            what, to = line_at(statement.what, self.scope), line_at(statement.to, self.scope)
            if what.axis != to.axis and not self.yes("turned"):
                raise Fault(
                    error(
                        "align-axis",
                        statement.span,
                        f"{what.words} has its place along the {what.axis}, and {to.words} along the "
                        f"{to.axis}: they cannot meet.",
                        way_out="Align two lines that lie the same way.",
                    )
                )
            found.append(
                model.Alignment(
                    what.words,
                    to.words,
                    self._inside(statement),
                    what.axis,
                    line_of(what),
                    line_of(to),
                    statement.span,
                )
            )
        return tuple(found)

    def _inside(self, align: Align) -> Length:
        for setting in align.settings:
            if setting.label == "inside":
                return length(setting.value, self.scope).exact
            raise Fault(
                error(
                    "unknown-setting",
                    setting.label_span,
                    f"An alignment has no {setting.label}.",
                    way_out="It takes inside: a length.",
                )
            )
        return NO_LENGTH


def line_of(line: LineValue) -> model.Line:
    is_middle = line.words == f"{line.piece.path}.mid_{line.axis}"
    return model.Line(line.piece.path, line.axis, line.at, is_middle)


def side(path: Path, faces: tuple[FaceValue, ...]) -> model.Side:
    """The side of a join as the model holds it."""
    return model.Side(path.span.text, tuple((face.piece.path, face.panel, face.side) for face in faces), path.span)
