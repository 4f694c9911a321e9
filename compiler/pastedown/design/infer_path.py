"""The kind of what a path means, name by name, and what is told of names that are not there."""

from __future__ import annotations

from attrs import evolve

from pastedown.design import infer_expression, infer_piece
from pastedown.design.inference import Inference, Where
from pastedown.design.kind import (
    A_LENGTH,
    LINE,
    NOTHING,
    PLAIN_NUMBER,
    POSE,
    RULER,
    STOCK,
    STOCK_KIND_OF_FIELD,
    UNKNOWN,
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
    in_words,
    one_of,
)
from pastedown.design.recipe import File
from pastedown.design.takes_type import DIMENSION_OF
from pastedown.design.view import View
from pastedown.diagnostic import error
from pastedown.diagnostic.capital import capital
from pastedown.diagnostic.nearest_name import did_you_mean, meant_or_one_of
from pastedown.source import Span
from pastedown.tree.expression import (
    Dot,
    Expression,
    Path,
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

# Names that are known everywhere.
WORDS_WITH_A_MEANING = ("its", "yes", "no", "nothing", "ruler")
# Words that mean something in one fact only, and how it is written.
_WORDS_OF_FACTS = {
    "inches": "It is a word of two facts only: ruler = inches to 1/16, and show = inches.",
    "metric": "It is a word of one fact only: show = metric.",
    "both": "It is a word of one fact only: show = both.",
    "millimetres": "It is a word of one fact only: ruler = millimetres to 1.",
}


def kind_of_path(inference: Inference, path: Path, where: Where) -> Kind:
    """The kind of what a path means."""
    kind = _head(inference, path, where)
    for trailer in path.trailers:
        if kind is UNKNOWN:
            return UNKNOWN
        if isinstance(trailer, Dot):
            kind = _member(inference, kind, trailer.name, trailer.span)
        elif isinstance(kind, Several):
            for value in [trailer.value] if hasattr(trailer, "value") else [trailer.first, trailer.last]:
                infer_expression.expect(inference, value, where, PLAIN_NUMBER, "An index")
            kind = kind.of if hasattr(trailer, "value") else kind
        else:
            return inference.tell(
                error(
                    "wrong-kind",
                    trailer.span,
                    f"An index picks one of several, and this is {in_words(kind)}.",
                    way_out="Leave the brackets out.",
                )
            )
    return kind


def _head(inference: Inference, path: Path, where: Where) -> Kind:
    name = path.head
    inference.read.add(name)
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
        return kind_in_view(inference, where.view, name, path.head_span)
    return _kind_in_file(inference, where.file, name, path.head_span, where)


def _kind_in_file(inference: Inference, file: File, name: str, span: Span, where: Where) -> Kind:
    """The kind of a name declared at the top of a file."""
    found = file.find(name)
    if found is None:
        home = where.view.component if where.view is not None else None
        if name in inference.broken or inference.is_said(span, home) or inference.is_said(span):
            inference.note_lack(name, home)
            return UNKNOWN
        own = isinstance(where.its, Made) and where.its.view.declaration(name) is not None
        known = inference.to_choose_from(
            lambda: [
                *(where.view.names() if where.view else ()),
                *file.names(),
                *where.counters,
                *WORDS_WITH_A_MEANING,
            ]
        )
        way_out = (
            inference.offered.use_of(name)
            or did_you_mean(name, known)
            or f"State it, as in {name} = ..., or mend its spelling."
        )
        if own:
            way_out = f"Write its.{name}: it belongs to what is being made."
        elif name in _WORDS_OF_FACTS:
            way_out = _WORDS_OF_FACTS[name]
        inference.tell_name(error("unknown-name", span, f"Nothing here is called {name}.", way_out=way_out))
        inference.note_lack(name, home)
        return UNKNOWN
    declared_in, statement = found
    if isinstance(statement, Component | Album | Variant):
        makeable = inference.makeables.get(id(statement))
        return UNKNOWN if makeable is None else Made(inference.view_of(makeable), True)
    if isinstance(statement, Fact):
        return inference.once(
            (declared_in, name), lambda: infer_expression.kind_of(inference, statement.value, Where(None, declared_in))
        )
    return UNKNOWN


def kind_in_view(inference: Inference, view: View, name: str, span: Span) -> Kind:
    """The kind of a name of a part."""
    declared = view.declaration(name)
    if declared is None:
        if name in inference.broken or inference.is_said(span, view.component):
            return UNKNOWN
        return inference.tell_name(
            error(
                "no-such-member",
                span,
                f"{view.component.name} has no {name}.",
                way_out=meant_or_one_of(name, view.names(), "It has")
                or "It is empty: whatever it is to have has to be stated in its braces.",
            ),
            view.component,
        )
    return inference.once((view, name), lambda: _declared(inference, view, name, *declared))


def _declared(inference: Inference, view: View, name: str, statement: Statement, file: File) -> Kind:
    where = Where(view, file, its=Made(view))
    match statement:
        case Takes():
            return type_of(inference, statement)
        case Fact(value=value):
            return one_of(quiet_kind(inference, value, _with_counters(view, name, where)))
        case Part(family=family, value=value):
            inner = (
                evolve(where, counters=where.counters | {family.counter})
                if family.counter
                else _with_counters(view, name, where)
            )
            kind = quiet_kind(inference, value, inner)
            if not isinstance(kind, Made):
                return UNKNOWN
            if any(_sets_anew(placed.statement, name) for placed, _ in view.placed(name)):
                return _family(inference, statement, UNKNOWN)  # each may be another component: told when worked out
            made = kind.view
            for body, body_file in reversed(view.amendments(name)):
                made = inference.around(made, body, body_file)
            for said, said_file in reversed(view.set_below(name)):
                made = inference.replacing_parts(made, said, said_file)
            return _family(inference, statement, Made(made))
        case Piece():
            return _family(inference, statement, PieceOf(statement, view))
        case Place():
            return _family(inference, statement, PlaceOf(statement, view))
        case Pose():
            return _family(inference, statement, POSE)
        case Join() | Fold() | Step():
            return _family(inference, statement, Plain(type(statement).__name__.lower()))
        case Require():
            return Plain("requirement")
        case _:
            return UNKNOWN


def _sets_anew(statement: Statement, name: str) -> bool:
    """Whether a statement makes a part, or one of a family, from something else: `sheet[2] = other(...)`."""
    if not isinstance(statement, Fact) or statement.path.head != name:
        return False
    taken_away = isinstance(statement.value, Path) and statement.value.head == "nothing"
    return not taken_away and not any(isinstance(trailer, Dot) for trailer in statement.path.trailers)


def quiet_kind(inference: Inference, value: Expression, where: Where) -> Kind:
    """The kind of a declaration's value; its faults are told where the declaration itself is checked."""
    inference.silent += 1
    try:
        return infer_expression.kind_of(inference, value, where)
    finally:
        inference.silent -= 1


def _family(inference: Inference, statement: Part | Piece | Place | Pose | Join | Fold | Step, kind: Kind) -> Kind:
    family = statement.family
    return Several(kind) if family.index is not None or family.counter else kind


def type_of(inference: Inference, takes: Takes) -> Kind:
    """The kind that a component takes."""
    name = takes.type.name
    if name in DIMENSION_OF:
        return Amount(DIMENSION_OF[name])
    if name == "choice":
        return ChoiceOf(tuple(word.head for word in takes.type.words))
    return Plain(name) if name in ("text", "yes_no", "sheet", "stock") else UNKNOWN


def _member(inference: Inference, kind: Kind, name: str, span: Span) -> Kind:
    match kind:
        case Several(of=inner):
            found = _member(inference, inner, name, span)
            return UNKNOWN if found is UNKNOWN else Several(one_of(found))
        case Made(view=view, described=described):
            if described:
                return inference.tell_unmade(
                    error(
                        "no-such-member",
                        span,
                        f"{view.component.name} is not made yet: only a part has a {name}.",
                        way_out=f"Make it first: part x = {view.component.name}(...), then read x.{name}.",
                    ),
                    view.component.name,
                )
            return kind_in_view(inference, view, name, span)
        case PieceOf() | FaceOf() | PanelOf():
            return infer_piece.kind_in_piece(inference, kind, name, span)
        case PlaceOf():
            return _line_of_place(inference, kind, name, span)
        case Plain(name="stock"):
            if name not in STOCK_KIND_OF_FIELD:
                return inference.tell_name(
                    error(
                        "no-such-member",
                        span,
                        f"A stock has no {name}.",
                        way_out=meant_or_one_of(name, STOCK_KIND_OF_FIELD, "It has"),
                    ),
                    STOCK,
                )
            return STOCK_KIND_OF_FIELD[name]
        case Plain(name="ruler") if name == "marks":
            return A_LENGTH
        case Plain(name="unknown" | "join" | "fold" | "step"):
            return UNKNOWN
        case _:
            return inference.tell_name(
                error(
                    "no-such-member",
                    span,
                    f"{capital(in_words(kind))} has no {name}.",
                    way_out=f"Leave .{name} out, or read it of a part, a piece or a panel.",
                ),
                kind,
            )


def _line_of_place(inference: Inference, place: PlaceOf, name: str, span: Span) -> Kind:
    """A line of a place: its own, or else that of its first side, which may be another place."""
    own = tuple(fact.path.head for fact in place.statement.body if isinstance(fact, Fact))
    if name in own:
        return LINE
    view = place.view
    where = Where(view, view.files[-1], all_counters(view), Made(view))
    side = one_of(quiet_kind(inference, place.statement.faces[0], where))
    if isinstance(side, PieceOf | FaceOf | PanelOf):
        return infer_piece.kind_in_piece(inference, side, name, span, place.statement.family.name, own)
    key = (view, f"{place.statement.family.name}.{name}")
    return inference.once(key, lambda: _member(inference, side, name, span))


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
