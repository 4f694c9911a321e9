"""Finds the kind of every expression, and tells of names that are not there and kinds that cannot meet.

Nothing is worked out: a name's kind is that of the words it was declared with. What cannot be told is UNKNOWN and silent.
"""

from __future__ import annotations

from collections.abc import Callable

from attrs import define, evolve, field, frozen

from pastedown.design.body import index_body
from pastedown.design.kind import (
    A_LENGTH,
    AN_AREA,
    LINE,
    LIST,
    NOTHING,
    PLAIN_NUMBER,
    POSE,
    RULER,
    SHEET,
    STOCK,
    STOCK_KIND_OF_FIELD,
    TEXT,
    TREATMENT,
    UNKNOWN,
    WORD,
    YES_NO,
    Amount,
    ChoiceOf,
    FaceOf,
    Kind,
    Made,
    PanelOf,
    PieceOf,
    PlaceOf,
    Plain,
    Several,
    agree,
    in_words,
    one_of,
)
from pastedown.design.piece_names import edge_names, lines_of, panels_of
from pastedown.design.recipe import File, Makeable
from pastedown.design.takes_type import DIMENSION_OF
from pastedown.design.view import View, view_of
from pastedown.diagnostic import Diagnostic, Label, error
from pastedown.diagnostic.nearest_name import did_you_mean
from pastedown.quantity.dimension import NUMBER
from pastedown.source import Span
from pastedown.tree.expression import (
    Amended,
    Arithmetic,
    Call,
    Comparison,
    Dot,
    Expression,
    ListOf,
    Literal,
    Path,
    Rounded,
    RulerMarks,
    SheetSize,
    Signed,
    Text,
)
from pastedown.tree.statement import (
    Album,
    Component,
    Fact,
    Fold,
    Join,
    Part,
    Piece,
    Place,
    Pose,
    Require,
    Statement,
    Step,
    Takes,
    Variant,
)

FUNCTION_NAMES = (
    "min",
    "max",
    "sum",
    "count",
    "whole",
    "choose",
    "stock",
    "span",
    "mitre",
    "round",
    "notch",
    "thumb_notch",
    "taper",
    "window",
    "slit",
)
_TREATMENTS = FUNCTION_NAMES[FUNCTION_NAMES.index("mitre") :]


# A name that is not there is one mistake, however often it is used.
TOLD_ONCE_A_NAME = ("unknown-name", "unknown-function", "no-such-member", "unknown-argument")


@frozen(eq=False)
class Where:
    """Where an expression stands: the part's view (None at the top of a file), the file, the counters known, and what `its`
    means."""

    view: View | None
    file: File
    counters: frozenset[str] = frozenset()
    its: Kind = UNKNOWN

    def counting(self, counter: str) -> Where:
        return evolve(self, counters=self.counters | {counter})


@define
class Inference:
    """One run over a recipe's words. `tell` keeps one message for the same words; `broken` are the names in statements that
    could not be read, of which nothing is said."""

    makeables: dict[int, Makeable]
    broken: frozenset[str] = frozenset()
    diagnostics: list[Diagnostic] = field(factory=list)
    told: set[tuple[str, int, int]] = field(factory=set)
    told_names: set[tuple[str, str] | None] = field(factory=set)
    known: dict[tuple[int, str], Kind] = field(factory=dict)
    silent: int = 0

    def tell(self, diagnostic: Diagnostic) -> Kind:
        """Report, unless something was said about these words already. Gives UNKNOWN, which is what a fault comes to."""
        span = diagnostic.span
        if self.silent or span is None:
            return UNKNOWN
        key = (span.source.name, span.start, span.end)
        name = (diagnostic.id, span.text) if diagnostic.id in TOLD_ONCE_A_NAME else None
        if key not in self.told and name not in self.told_names:
            self.diagnostics.append(diagnostic)
        self.told.add(key)
        if name is not None:
            self.told_names.add(name)
        return UNKNOWN

    # -- expressions ---------------------------------------------------------------------------------------------------

    def kind(self, expression: Expression, where: Where) -> Kind:
        """The kind of an expression where it stands."""
        match expression:
            case Literal(value=value):
                return Amount(value.dimension)
            case SheetSize():
                return SHEET
            case Text(pieces=pieces):
                for piece in pieces:
                    if not isinstance(piece, str):
                        self.kind(piece, where)
                return TEXT
            case Path():
                return self.path(expression, where)
            case Call():
                return self._call(expression, where)
            case Signed(value=inner):
                return self.amount(inner, where)
            case Arithmetic():
                return self._arithmetic(expression, where)
            case Comparison():
                return self._comparison(expression, where)
            case Rounded(value=value, mark=mark):
                return self._meet(self.amount(value, where), self.amount(mark, where), mark.span, "is rounded to")
            case RulerMarks(mark=mark):
                self.kind(mark, where)
                return RULER
            case ListOf(items=items):
                for item in items:
                    self.kind(item, where)
                return LIST
            case Amended(thing=thing, body=body):
                return self.amended(self.kind(thing, where), body, where)

    def amount(self, expression: Expression, where: Where) -> Kind:
        """The kind of an expression that has to be a quantity."""
        kind = one_of(self.kind(expression, where))
        if isinstance(kind, Amount) or kind is UNKNOWN:
            return kind
        return self.tell(
            error(
                "wrong-kind", expression.span, f"A number or a measurement belongs here, and this is {in_words(kind)}."
            )
        )

    def expect(
        self, expression: Expression, where: Where, wanted: Kind, what: str, labels: tuple[Label, ...] = ()
    ) -> None:
        """Tell when an expression is not of the kind that belongs there. `what` begins the sentence ("The height")."""
        if isinstance(wanted, ChoiceOf):
            self._expect_choice(expression, where, wanted, what, labels)
            return
        kind = one_of(self.kind(expression, where))
        if kind is UNKNOWN or wanted is UNKNOWN or kind == wanted:
            return
        if isinstance(kind, Amount) and isinstance(wanted, Amount):
            if agree(kind.dimension, wanted.dimension):
                return
            way_out = _unit_missing(expression, kind, wanted)
            self.tell(
                error(
                    "wrong-dimension",
                    expression.span,
                    f"{what} is {in_words(wanted)}, and this is {in_words(kind)}.",
                    way_out=way_out,
                    labels=labels,
                )
            )
            return
        self.tell(
            error(
                "wrong-kind",
                expression.span,
                f"{what} is {in_words(wanted)}, and this is {in_words(kind)}.",
                labels=labels,
            )
        )

    def _expect_choice(
        self, expression: Expression, where: Where, wanted: ChoiceOf, what: str, labels: tuple[Label, ...]
    ) -> None:
        if isinstance(expression, Path) and not expression.trailers:
            if expression.head in wanted.words:
                return
            found = None if where.view is None else where.view.declaration(expression.head)
            if found is None and where.file.find(expression.head) is None:
                self.tell(
                    error(
                        "unknown-choice",
                        expression.span,
                        f"{what} is {in_words(wanted)}.",
                        way_out=did_you_mean(expression.head, wanted.words),
                        labels=labels,
                    )
                )
                return
        kind = one_of(self.kind(expression, where))
        if kind is not UNKNOWN and not isinstance(kind, ChoiceOf):
            self.tell(
                error(
                    "unknown-choice",
                    expression.span,
                    f"{what} is {in_words(wanted)}, and this is {in_words(kind)}.",
                    labels=labels,
                )
            )

    def condition(self, expression: Expression, where: Where) -> None:
        """Tell when an expression is no condition."""
        kind = one_of(self.kind(expression, where))
        if kind not in (YES_NO, UNKNOWN):
            self.tell(
                error(
                    "not-a-condition",
                    expression.span,
                    f"Something that is or is not so belongs here, and this is {in_words(kind)}.",
                    way_out="Compare two things, as in sheets >= 2, or name a yes-or-no fact.",
                )
            )

    def _meet(self, left: Kind, right: Kind, span: Span, verb: str) -> Kind:
        if not isinstance(left, Amount) or not isinstance(right, Amount):
            return UNKNOWN
        if agree(left.dimension, right.dimension):
            return left
        return self.tell(
            error(
                "wrong-dimension",
                span,
                f"{in_words(left).capitalize()} {verb} {in_words(left)}, and this is {in_words(right)}.",
            )
        )

    def _arithmetic(self, expression: Arithmetic, where: Where) -> Kind:
        left, right = self.amount(expression.left, where), self.amount(expression.right, where)
        if not isinstance(left, Amount) or not isinstance(right, Amount):
            return UNKNOWN
        if expression.operator in "*/":
            joined = (
                left.dimension * right.dimension if expression.operator == "*" else left.dimension / right.dimension
            )
            return Amount(joined)
        if agree(left.dimension, right.dimension):
            return left
        first, verb, second = (left, "added to", right) if expression.operator == "+" else (right, "taken from", left)
        bare = expression.left if left == PLAIN_NUMBER else expression.right
        return self.tell(
            error(
                "wrong-dimension",
                expression.span,
                f"{in_words(first).capitalize()} cannot be {verb} {in_words(second)}.",
                way_out=_unit_missing(bare, PLAIN_NUMBER, A_LENGTH)
                if A_LENGTH in (left, right) and PLAIN_NUMBER in (left, right)
                else "",
            )
        )

    def _comparison(self, expression: Comparison, where: Where) -> Kind:
        left = one_of(self.kind(expression.left, where))
        if isinstance(left, ChoiceOf):
            self.expect(expression.right, where, left, "What it is compared with")
            return YES_NO
        if left == WORD:
            return YES_NO
        right = one_of(self.kind(expression.right, where))
        if UNKNOWN in (left, right):
            return YES_NO
        both_amounts = isinstance(left, Amount) and isinstance(right, Amount)
        if both_amounts and agree(left.dimension, right.dimension):  # type: ignore[union-attr]
            return YES_NO
        if not both_amounts and expression.operator == "is" and type(left) is type(right):
            return YES_NO
        bare = expression.left if left == PLAIN_NUMBER else expression.right
        self.tell(
            error(
                "wrong-dimension",
                expression.span,
                f"{in_words(left).capitalize()} cannot be compared with {in_words(right)}.",
                way_out=_unit_missing(bare, PLAIN_NUMBER, A_LENGTH)
                if A_LENGTH in (left, right) and PLAIN_NUMBER in (left, right)
                else "",
            )
        )
        return YES_NO

    # -- calls ---------------------------------------------------------------------------------------------------------

    def _call(self, call: Call, where: Where) -> Kind:
        name = call.called.head
        own = where.view is not None and where.view.declaration(name) is not None
        if not call.called.trailers and name in FUNCTION_NAMES and not own:
            return self._function(call, name, where)
        if (
            not call.called.trailers
            and not own
            and where.file.find(name) is None
            and name not in self.broken
        ):
            known = [*FUNCTION_NAMES, *where.file.names(), *(where.view.names() if where.view else ())]
            return self.tell(
                error(
                    "unknown-function",
                    call.called.span,
                    f"There is no component, stock or function called {name}.",
                    way_out=did_you_mean(name, known),
                )
            )
        called = self.path(call.called, where)
        if isinstance(called, Made) and called.described:
            for argument in call.arguments:
                self.argument(
                    argument.label,
                    argument.label_span or argument.span,
                    argument.value,
                    evolve(where, its=Made(called.view)),
                    called.view,
                )
            return called
        if called == STOCK:
            for argument in call.arguments:
                self.stock_field(argument.label, argument.label_span or argument.span, argument.value, where)
            return STOCK
        if called is UNKNOWN:
            return UNKNOWN
        return self.tell(
            error(
                "unknown-function",
                call.called.span,
                f"{call.called.span.text} is {in_words(called)}; nothing in brackets can follow it.",
                way_out="Brackets follow a component, a stock or a function such as min.",
            )
        )

    def argument(self, label: str, at: Span, value: Expression, where: Where, view: View) -> None:
        """Check one thing that is set of a component: its name, and the kind of its value."""
        declared = view.declaration(label) if label else None
        if declared is None:
            known = view.names()
            if not label:
                self.tell(
                    error(
                        "unknown-argument",
                        at,
                        f"{view.component.name} takes its settings by name.",
                        way_out=f"Write its name before it, as in {known[0] if known else 'height'}: {value.span.text}.",
                    )
                )
            elif label not in self.broken:
                self.tell(
                    error(
                        "unknown-argument",
                        at,
                        f"{view.component.name} takes no {label}.",
                        way_out=did_you_mean(label, known)
                        or f"It takes {', '.join(takes.name for takes in view.takes()) or 'nothing'}.",
                    )
                )
            self._quietly(value, where)
            return
        statement, file = declared
        if isinstance(value, Path) and value.head == "nothing":
            return
        if isinstance(statement, Takes):
            self.expect(value, where, self.type_of(statement), label, (Label(statement.name_span, "taken here"),))
        elif isinstance(statement, Fact):
            wanted = one_of(self.member_of_view(view, label, at))
            self.expect(
                value,
                where,
                wanted if isinstance(wanted, Amount | Plain) and wanted not in (WORD, NOTHING) else UNKNOWN,
                label,
            )
        else:
            self.kind(value, where)

    def _quietly(self, value: Expression, where: Where) -> None:
        self.silent += 1
        self.kind(value, where)
        self.silent -= 1

    def _function(self, call: Call, name: str, where: Where) -> Kind:
        if name == "stock":
            for argument in call.arguments:
                self.stock_field(argument.label, argument.label_span or argument.span, argument.value, where)
            return STOCK
        values = [(argument.label, argument.value) for argument in call.arguments]
        if name in ("span", *_TREATMENTS):
            for label, value in values:
                if label not in ("along", "pose"):
                    kind = one_of(self.kind(value, where))
                    if name != "span" and kind not in (A_LENGTH, UNKNOWN):
                        self.expect(value, where, A_LENGTH, label or "This")
            return A_LENGTH if name == "span" else TREATMENT
        if name == "choose":
            kinds = {label or "when": self.kind(value, where) for label, value in values}
            return one_of(kinds.get("yes", UNKNOWN))
        if name in ("count", "whole"):
            for _, value in values:
                self.kind(value, where)
            return PLAIN_NUMBER
        found: Kind = UNKNOWN
        for _, value in values:
            kind = one_of(self.kind(value, where))
            if isinstance(kind, Amount):
                if isinstance(found, Amount) and not agree(found.dimension, kind.dimension):
                    return self.tell(
                        error(
                            "wrong-dimension",
                            value.span,
                            f"{in_words(found).capitalize()} and {in_words(kind)} do not go together here.",
                        )
                    )
                found = kind
        return found

    def stock_field(self, label: str, at: Span, value: Expression, where: Where) -> None:
        wanted = STOCK_KIND_OF_FIELD.get(label)
        if wanted is None or label.startswith("sheet_"):
            known = [name for name in STOCK_KIND_OF_FIELD if not name.startswith("sheet_")]
            self.tell(
                error(
                    "unknown-setting",
                    at,
                    f"A stock has no {label or 'field without a name'}.",
                    way_out=did_you_mean(label, known) or f"It has: {', '.join(known)}.",
                )
            )
        elif wanted != WORD:
            self.expect(value, where, wanted, f"The {label.replace('_', ' ')} of a stock")

    def amended(self, kind: Kind, body: tuple[Statement, ...], where: Where) -> Kind:
        if isinstance(kind, Made) and kind.described:
            from pastedown.design.check_body import check_with

            check_with(self, body, kind.view, where)
            return Made(kind.view.around(index_body(body), where.file), True)
        if kind == STOCK:
            for statement in body:
                if isinstance(statement, Fact):
                    self.stock_field(statement.path.head, statement.path.span, statement.value, where)
        return kind

    # -- paths ---------------------------------------------------------------------------------------------------------

    def path(self, path: Path, where: Where) -> Kind:
        """The kind of what a path means."""
        kind = self._head(path, where)
        for trailer in path.trailers:
            if kind is UNKNOWN:
                return UNKNOWN
            if isinstance(trailer, Dot):
                kind = self._member(kind, trailer.name, trailer.span)
            elif isinstance(kind, Several):
                for value in [trailer.value] if hasattr(trailer, "value") else [trailer.first, trailer.last]:
                    self.expect(value, where, PLAIN_NUMBER, "An index")
                kind = kind.of if hasattr(trailer, "value") else kind
            else:
                return self.tell(
                    error(
                        "wrong-kind",
                        trailer.span,
                        f"An index picks one of several, and this is {in_words(kind)}.",
                        way_out="Leave the brackets out.",
                    )
                )
        return kind

    def _head(self, path: Path, where: Where) -> Kind:
        name = path.head
        if name in where.counters:
            return PLAIN_NUMBER
        if name == "its":
            return where.its
        if name in ("yes", "no"):
            return YES_NO
        if name == "nothing":
            return NOTHING
        if name == "ruler":
            return RULER
        if where.view is not None and where.view.declaration(name) is not None:
            return self.member_of_view(where.view, name, path.head_span)
        return self.of_file(where.file, name, path.head_span, where)

    def of_file(self, file: File, name: str, span: Span, where: Where) -> Kind:
        """The kind of a name declared at the top of a file."""
        found = file.find(name)
        if found is None:
            if name in self.broken:
                return UNKNOWN
            own = isinstance(where.its, Made) and where.its.view.declaration(name) is not None
            known = [*(where.view.names() if where.view else ()), *file.names(), *where.counters]
            return self.tell(
                error(
                    "unknown-name",
                    span,
                    f"Nothing here is called {name}.",
                    way_out=f"Write its.{name}: it belongs to what is being made."
                    if own
                    else did_you_mean(name, known),
                )
            )
        home, statement = found
        if isinstance(statement, Component | Album | Variant):
            makeable = self.makeables.get(id(statement))
            return UNKNOWN if makeable is None else Made(view_of(makeable), True)
        if isinstance(statement, Fact):
            return self._once((id(home), name), lambda: self.kind(statement.value, Where(None, home)))
        return UNKNOWN

    def member_of_view(self, view: View, name: str, span: Span) -> Kind:
        """The kind of a name of a part."""
        declared = view.declaration(name)
        if declared is None:
            if name in self.broken:
                return UNKNOWN
            return self.tell(
                error(
                    "no-such-member",
                    span,
                    f"{view.component.name} has no {name}.",
                    way_out=did_you_mean(name, view.names()),
                )
            )
        return self._once((id(view), name), lambda: self._declared(view, name, *declared))

    def _once(self, key: tuple[int, str], make: Callable[[], Kind]) -> Kind:
        if key not in self.known:
            self.known[key] = UNKNOWN
            self.known[key] = make()
        return self.known[key]

    def _declared(self, view: View, name: str, statement: Statement, file: File) -> Kind:
        where = Where(view, file, its=Made(view))
        match statement:
            case Takes():
                return self.type_of(statement)
            case Fact(value=value):
                return one_of(self._quiet_kind(value, _with_counters(view, name, where)))
            case Part(family=family, value=value):
                inner = (
                    evolve(where, counters=where.counters | {family.counter})
                    if family.counter
                    else _with_counters(view, name, where)
                )
                kind = self._quiet_kind(value, inner)
                if not isinstance(kind, Made):
                    return UNKNOWN
                made = kind.view
                for body, body_file in reversed(view.amendments(name)):
                    made = made.around(body, body_file)
                return self._family(statement, Made(made))
            case Piece():
                return self._family(statement, PieceOf(statement, view))
            case Place():
                return self._family(statement, PlaceOf(statement, view))
            case Pose():
                return self._family(statement, POSE)
            case Join() | Fold() | Step():
                return self._family(statement, Plain(type(statement).__name__.lower()))
            case Require():
                return Plain("requirement")
            case _:
                return UNKNOWN

    def _quiet_kind(self, value: Expression, where: Where) -> Kind:
        """The kind of a declaration's value; its faults are told where the declaration itself is checked."""
        self.silent += 1
        try:
            return self.kind(value, where)
        finally:
            self.silent -= 1

    def _family(self, statement: Part | Piece | Place | Pose | Join | Fold | Step, kind: Kind) -> Kind:
        family = statement.family
        return Several(kind) if family.index is not None or family.counter else kind

    def type_of(self, takes: Takes) -> Kind:
        """The kind that a component takes."""
        name = takes.type.name
        if name in DIMENSION_OF:
            return Amount(DIMENSION_OF[name])
        if name == "choice":
            return ChoiceOf(tuple(word.head for word in takes.type.words))
        return Plain(name) if name in ("text", "yes_no", "sheet", "stock") else UNKNOWN

    def _member(self, kind: Kind, name: str, span: Span) -> Kind:
        match kind:
            case Several(of=inner):
                found = self._member(inner, name, span)
                return UNKNOWN if found is UNKNOWN else Several(one_of(found))
            case Made(view=view, described=described):
                if described:
                    return self.tell(
                        error(
                            "no-such-member",
                            span,
                            f"{view.component.name} is not made yet: only a part has a {name}.",
                            way_out=f"Make it first: part x = {view.component.name}(...), then read x.{name}.",
                        )
                    )
                return self.member_of_view(view, name, span)
            case PieceOf() | FaceOf() | PanelOf():
                return self._of_piece(kind, name, span)
            case PlaceOf(statement=statement, view=view):
                for inside in statement.body:
                    if isinstance(inside, Fact) and inside.path.head == name:
                        return LINE
                return self._member(
                    self._quiet_kind(statement.faces[0], Where(view, view.files[-1], all_counters(view), Made(view))),
                    name,
                    span,
                )
            case Plain(name="stock"):
                if name not in STOCK_KIND_OF_FIELD:
                    return self.tell(
                        error(
                            "no-such-member",
                            span,
                            f"A stock has no {name}.",
                            way_out=did_you_mean(name, STOCK_KIND_OF_FIELD),
                        )
                    )
                return STOCK_KIND_OF_FIELD[name]
            case Plain(name="ruler") if name == "marks":
                return A_LENGTH
            case Plain(name="unknown" | "join" | "fold" | "step" | "pose"):
                return UNKNOWN
            case _:
                return self.tell(error("no-such-member", span, f"{in_words(kind).capitalize()} has no {name}."))

    def _of_piece(self, kind: PieceOf | FaceOf | PanelOf, name: str, span: Span) -> Kind:
        piece = kind if isinstance(kind, PieceOf) else kind.piece
        edges = edge_names(piece.statement)
        if name in ("height", "width") or (name == "size" and isinstance(kind, PanelOf)):
            return A_LENGTH
        if name in (*edges, "mid_height", "mid_width"):
            return LINE
        if name in ("face", "back"):
            return FaceOf(piece) if not isinstance(kind, PanelOf) else PanelOf(piece, True)
        panels, lines = panels_of(piece.statement), lines_of(piece.statement)
        if not isinstance(kind, PanelOf):
            if name == "area":
                return AN_AREA
            if name in panels:
                return Several(PanelOf(piece)) if panels[name] else PanelOf(piece)
            if name in lines:
                return Several(LINE) if lines[name] else LINE
        if (
            piece.view.amendments(piece.statement.family.name)
            or len(piece.view.placed(piece.statement.family.name)) > 1
        ):
            return UNKNOWN
        known = [
            *edges,
            "height",
            "width",
            "face",
            "back",
            "mid_height",
            "mid_width",
            *([] if isinstance(kind, PanelOf) else [*panels, *lines, "area"]),
        ]
        what = "This panel" if isinstance(kind, PanelOf) else f"The piece {piece.statement.family.name}"
        return self.tell(error("no-such-member", span, f"{what} has no {name}.", way_out=did_you_mean(name, known)))


def _with_counters(view: View, name: str, where: Where) -> Where:
    """The counters of the `each` around a declaration are known in it."""
    for placed, _ in view.placed(name):
        for guard in placed.guards:
            counter = getattr(guard, "counter", "")
            if counter:
                where = where.counting(counter)
    return where


def all_counters(view: View) -> frozenset[str]:
    return frozenset(
        counter for body in view.bodies for guard in body.repeats if (counter := getattr(guard, "counter", ""))
    )


def _unit_missing(expression: Expression, kind: Kind, wanted: Kind) -> str:
    if kind == Amount(NUMBER) and wanted == A_LENGTH:
        return f"Write the unit: {expression.span.text} in, or {expression.span.text} mm."
    return ""
