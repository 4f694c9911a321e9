"""Checks every statement of a recipe's own files: names, kinds, settings, what may stand where. Nothing is worked out."""

from __future__ import annotations

from attrs import evolve

from pastedown.design.body import Guard, index_body, is_declaration, left_head
from pastedown.design.infer import FUNCTION_NAMES, Inference, Where
from pastedown.design.kind import (
    A_LENGTH,
    LINE,
    NOTHING,
    PLAIN_NUMBER,
    POSE,
    STOCK,
    TEXT,
    TREATMENT,
    UNKNOWN,
    YES_NO,
    Amount,
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
from pastedown.design.piece_names import edge_names
from pastedown.design.recipe import ComponentOf, File, Makeable, VariantOf
from pastedown.design.stock import STOCK_KINDS
from pastedown.design.takes_type import TYPE_NAMES
from pastedown.design.view import View, view_of
from pastedown.diagnostic import Label, error
from pastedown.diagnostic.nearest_name import did_you_mean
from pastedown.quantity.dimension import ANGLE
from pastedown.source import Span
from pastedown.tree.expression import Dot, Expression, ListOf, Path
from pastedown.tree.statement import (
    Album,
    Align,
    Amend,
    Component,
    Each,
    Fact,
    Fold,
    Join,
    Panel,
    Part,
    Piece,
    Place,
    Pose,
    Require,
    Run,
    Setting,
    Statement,
    Step,
    Takes,
    Use,
    Variant,
    When,
)

BUILT_IN_NAMES = ("its", "yes", "no", "nothing", *FUNCTION_NAMES)
_ALBUM_FACTS = ("title", "ruler", "show", "about", "moving_adhesive", "static_adhesive", "edition")
_JOIN_SETTINGS = ("by", "moving", "turned", "after", "before", "tip", "caution")
_STEP_SETTINGS = ("after", "before", "reads", "least", "most", "tip", "caution")
_CREASE_SETTINGS = ("on", "over", "follows", "after", "before", "tip", "caution")
_PIECE_SETTINGS = ("height", "width", "grain", "against_grain", "left", "right", "face", "loose")
_WORDS_OF_SETTING = {
    "grain": ("height", "width", "any"),
    "against_grain": ("refuse", "warn"),
    "loose": ("yes", "no"),
    "bends": ("yes", "no"),
}
_IN_ALBUM = (Takes, Fact, Amend, Part, Piece, Each, When, Join, Place, Pose, Fold, Require, Step)


def check_file(inference: Inference, file: File) -> None:
    """Check the top of a file and every component, album and variant in it."""
    _twice(inference, file.statements)
    where = Where(None, file)
    for statement in file.statements:
        match statement:
            case Component() | Album() | Variant():
                makeable = inference.makeables.get(id(statement))
                if makeable is not None:
                    _check_makeable(inference, makeable)
            case Fact(path=path, value=value):
                if path.trailers:
                    _check_amended_path(inference, statement, where)
                elif path.head not in ("edition", "title"):
                    _check_name(inference, path.head, path.head_span)
                    if path.head not in _ALBUM_FACTS or path.head not in ("show",):
                        inference.kind(value, where)
            case Amend(path=path, body=body):
                inference.amended(inference.path(path, where), body, where)
            case Use():
                pass
            case _:
                inference.tell(
                    error(
                        "out-of-place",
                        statement.span,
                        "This belongs into the braces of an album or a component.",
                        way_out='Write album my_album "Its title" { ... } around it.',
                    )
                )


def _check_makeable(inference: Inference, makeable: Makeable) -> None:
    view = view_of(makeable)
    where = Where(view, makeable.file, its=Made(view))
    _twice(inference, makeable.statements)
    if isinstance(makeable, ComponentOf):
        check_statements(inference, makeable.statements, view, where)
        if makeable.is_album:
            for takes in view.takes():
                if takes.default is None:
                    inference.tell(
                        error(
                            "missing-argument",
                            takes.name_span,
                            f"An album is made as it stands, so {takes.name} needs a value here.",
                            way_out=f"Write {takes.name} = ..., or give it a default.",
                        )
                    )
    elif isinstance(makeable, VariantOf):
        _check_layer(inference, makeable.statements, view_of(makeable.base), view, where)


def check_with(inference: Inference, body: tuple[Statement, ...], view: View, where: Where) -> None:
    """Check the braces of `thing with { ... }`: names on the left belong to the thing, the right is read where it is written."""
    inner = view.around(index_body(body), where.file)
    _twice(inference, body)
    _check_layer(inference, body, view, inner, evolve(where, its=Made(inner)))


def _check_layer(inference: Inference, body: tuple[Statement, ...], base: View, whole: View, where: Where) -> None:
    for statement in body:
        match statement:
            case Fact(path=path, value=value):
                _check_setting_of(inference, base, whole, path, value, where)
            case Amend(path=path, body=inner):
                kind = _target(inference, path, whole)
                if isinstance(kind, Made):
                    check_with(inference, inner, kind.view, where)
                elif kind == STOCK:
                    inference.amended(STOCK, inner, where)
            case Each(counter=counter, first=first, last=last, body=inner):
                for end in (first, last):
                    inference.expect(end, where, PLAIN_NUMBER, "Each counts with whole numbers: this")
                _check_layer(inference, inner, base, whole, where.counting(counter))
            case When(condition=condition, body=inner):
                inference.condition(condition, where)
                _check_layer(inference, inner, base, whole, where)
            case _:
                check_statements(inference, (statement,), whole, where)


def _check_setting_of(
    inference: Inference, base: View, whole: View, path: Path, value: Expression, where: Where
) -> None:
    head = left_head(path)
    if not path.trailers or (head != path.head and len(path.trailers) == 1):
        if head == "show":
            return
        if head in _ALBUM_FACTS and whole.component.is_album and base.declaration(head) is None:
            inference.kind(value, where)
            return
        inference.argument(head, path.span, value, where, base)
        return
    _check_target(inference, path, value, whole, where)


def check_statements(inference: Inference, body: tuple[Statement, ...], view: View, where: Where) -> None:
    """Check the statements of a component's own braces."""
    for statement in body:
        if not isinstance(statement, _IN_ALBUM):
            inference.tell(error("out-of-place", statement.span, _misplaced(statement)))
            continue
        match statement:
            case Takes():
                _check_takes(inference, statement, where)
            case Fact(path=path, value=value):
                _check_own_fact(inference, path, value, view, where)
            case Amend(path=path, body=inner):
                kind = _target(inference, path, view)
                if isinstance(kind, Made):
                    check_with(inference, inner, kind.view, where)
                elif kind == STOCK:
                    inference.amended(STOCK, inner, where)
                elif kind is not UNKNOWN:
                    inference.tell(
                        error(
                            "wrong-kind",
                            path.span,
                            f"Only a part or a stock can be amended, and this is {in_words(kind)}.",
                        )
                    )
            case Part():
                _check_part(inference, statement, where)
            case Piece():
                _check_piece(inference, statement, view, where)
            case Each(counter=counter, first=first, last=last, body=inner):
                for end in (first, last):
                    inference.expect(end, where, PLAIN_NUMBER, "Each counts with whole numbers: this")
                check_statements(inference, inner, view, where.counting(counter))
            case When(condition=condition, body=inner):
                inference.condition(condition, where)
                check_statements(inference, inner, view, where)
            case Join():
                _check_join(inference, statement, where)
            case Place():
                _check_place(inference, statement, where)
            case Pose():
                _check_pose(inference, statement, where)
            case Fold():
                _check_crease(inference, statement, where)
            case Require():
                _check_name(inference, statement.name, statement.name_span)
                inference.condition(statement.condition, where)
                inference.kind(statement.because, where)
                _check_settings(inference, statement.settings, ("way_out",), "A requirement")
                for setting in statement.settings:
                    inference.kind(setting.value, where)
            case Step():
                _check_step(inference, statement, where)


def _misplaced(statement: Statement) -> str:
    match statement:
        case Component() | Album() | Variant() | Use():
            return "This stands at the top of a file, outside all braces."
        case Run():
            return "A run stands in the braces of a piece."
        case Panel():
            return "A panel stands in a run."
        case Align():
            return "An alignment stands in the braces of a join or a close."
        case _:
            return "This does not belong here."


def _check_name(inference: Inference, name: str, span: Span) -> None:
    if name in BUILT_IN_NAMES:
        inference.tell(
            error(
                "reserved-word",
                span,
                f"{name} has a meaning of its own in the language.",
                way_out=f"Call it something else, such as my_{name}.",
            )
        )


def _twice(inference: Inference, body: tuple[Statement, ...]) -> None:
    """Tell of names that are declared twice in the same braces (without an `if` between them) and facts set twice."""
    seen: dict[str, Span] = {}

    def look(inner: tuple[Statement, ...], in_if: bool) -> None:
        for statement in inner:
            if isinstance(statement, Guard):
                look(statement.body, in_if or isinstance(statement, When))
                continue
            key, span = _declared_key(statement)
            if not key or in_if:
                continue
            if key in seen:
                inference.tell(
                    error(
                        "twice-declared",
                        span,
                        f"{key} is stated twice in the same braces.",
                        labels=(Label(seen[key], "first here"),),
                        way_out="Keep one of them, or give the other a name of its own.",
                    )
                )
            seen.setdefault(key, span)

    look(body, False)


def _declared_key(statement: Statement) -> tuple[str, Span]:
    from pastedown.design.body import name_of, name_span

    if isinstance(statement, Fact):
        return "".join(statement.path.span.text.split()), statement.path.span
    if is_declaration(statement):
        family = getattr(statement, "family", None)
        indexed = family is not None and family.index is not None
        return ("" if indexed else name_of(statement) or ""), name_span(statement)
    return "", statement.span


def _check_takes(inference: Inference, takes: Takes, where: Where) -> None:
    _check_name(inference, takes.name, takes.name_span)
    name = takes.type.name
    if name not in TYPE_NAMES:
        inference.tell(
            error(
                "unknown-type",
                takes.type.span,
                f"A component cannot take a {name}.",
                way_out=did_you_mean(name, TYPE_NAMES) or f"It takes one of: {', '.join(TYPE_NAMES)}.",
            )
        )
        return
    for setting in takes.type.settings:
        allowed = {"mark": ("up", "down", "nearest"), "kind": STOCK_KINDS}.get(setting.label)
        word = setting.value.head if isinstance(setting.value, Path) else ""
        if allowed is None:
            inference.tell(
                error(
                    "unknown-setting",
                    setting.label_span,
                    f"A {name} has no {setting.label}.",
                    way_out="A length has mark: up, down or nearest; a stock has kind.",
                )
            )
        elif word not in allowed:
            inference.tell(
                error(
                    "unknown-choice",
                    setting.value.span,
                    f"{setting.label} is one of {', '.join(allowed)}.",
                    way_out=did_you_mean(word, allowed),
                )
            )
    if name == "choice" and len(takes.type.words) < 2:
        inference.tell(
            error("unknown-type", takes.type.span, "A choice has two words at least, as in choice(top, side).")
        )
    kind = inference.type_of(takes)
    for bound in (takes.least, takes.most):
        if bound is not None:
            inference.expect(bound, where, kind if isinstance(kind, Amount) else UNKNOWN, f"A bound of {takes.name}")
    if takes.default is not None:
        inference.expect(takes.default, where, kind, takes.name)


def _check_own_fact(inference: Inference, path: Path, value: Expression, view: View, where: Where) -> None:
    if path.trailers:
        _check_target(inference, path, value, view, where)
        return
    if path.head in _ALBUM_FACTS:
        if path.head == "show" or path.head == "edition":
            return
        wanted = {"title": TEXT, "about": TEXT, "moving_adhesive": STOCK, "static_adhesive": STOCK}.get(path.head)
        if wanted is not None:
            inference.expect(value, where, wanted, path.head)
            return
    _check_name(inference, path.head, path.head_span)
    inference.kind(value, where)


def _check_amended_path(inference: Inference, fact: Fact, where: Where) -> None:
    kind = inference.path(Path(fact.path.head, (), fact.path.head_span, fact.path.head_span), where)
    if kind == STOCK and isinstance(fact.path.trailers[0], Dot):
        inference.stock_field(fact.path.trailers[0].name, fact.path.trailers[0].span, fact.value, where)


def _target(inference: Inference, path: Path, view: View) -> Kind:
    """The kind of what a path on the left names, in the view of the part whose braces it stands in."""
    return one_of(inference.path(path, Where(view, view.component.file, _counters(view), Made(view))))


def _counters(view: View) -> frozenset[str]:
    from pastedown.design.infer import all_counters

    return all_counters(view)


def _check_target(inference: Inference, path: Path, value: Expression, view: View, where: Where) -> None:
    """Check `a.b = value`: what stands before the last name has to have such a setting."""
    trailers = list(path.trailers)
    while trailers and not isinstance(trailers[-1], Dot):
        trailers.pop()
    if not trailers:
        inference.argument(path.head, path.span, value, where, view)
        return
    last = trailers.pop()
    assert isinstance(last, Dot)
    before = Path(path.head, tuple(trailers), path.span, path.head_span)
    kind = _target(inference, before, view)
    match kind:
        case Made(view=inner, described=False):
            inference.argument(last.name, last.span, value, where, inner)
        case Made(view=inner):
            inference.argument(last.name, last.span, value, where, inner)
        case Plain(name="stock"):
            inference.stock_field(last.name, last.span, value, where)
        case Plain(name="join" | "step" | "fold" as what):
            known = {"join": _JOIN_SETTINGS, "step": _STEP_SETTINGS, "fold": _CREASE_SETTINGS}[what]
            if last.name not in known:
                inference.tell(
                    error(
                        "unknown-setting",
                        last.span,
                        f"A {what} has no {last.name}.",
                        way_out=did_you_mean(last.name, known) or f"It has: {', '.join(known)}.",
                    )
                )
            elif last.name in ("tip", "caution"):
                inference.expect(value, where, TEXT, last.name)
        case PieceOf():
            if last.name in ("height", "width"):
                inference.expect(value, where, A_LENGTH, f"The {last.name}")
        case PanelOf() | FaceOf() | PlaceOf() | Several():
            pass
        case _ if kind is not UNKNOWN and kind != LINE and kind != POSE:
            inference.tell(error("wrong-kind", before.span, f"Nothing can be set of {in_words(kind)}."))


def _check_part(inference: Inference, part: Part, where: Where) -> None:
    inner = _family(inference, part, where)
    kind = one_of(inference.kind(part.value, inner))
    if isinstance(kind, Made):
        if not kind.described:
            inference.tell(
                error(
                    "wrong-kind",
                    part.value.span,
                    "This part is made already; a part is made from a component.",
                    way_out="Name a component here.",
                )
            )
        return
    if kind is not UNKNOWN and kind != NOTHING:
        inference.tell(
            error("wrong-kind", part.value.span, f"A part is made from a component, and this is {in_words(kind)}.")
        )


def _family(inference: Inference, statement: Part | Piece | Join | Place | Pose | Fold | Step, where: Where) -> Where:
    family = statement.family
    _check_name(inference, family.name, family.span)
    if family.index is not None:
        inference.expect(family.index, where, PLAIN_NUMBER, "An index")
    if family.first is not None and family.last is not None:
        for end in (family.first, family.last):
            inference.expect(end, where, PLAIN_NUMBER, "A family counts with whole numbers: this")
        return where.counting(family.counter)
    return where


def _check_settings(inference: Inference, settings: tuple[Setting, ...], known: tuple[str, ...], what: str) -> None:
    seen: dict[str, Span] = {}
    for setting in settings:
        if setting.label not in known:
            inference.tell(
                error(
                    "unknown-setting",
                    setting.label_span,
                    f"{what} has no {setting.label}.",
                    way_out=did_you_mean(setting.label, known) or f"It has: {', '.join(known)}.",
                )
            )
        elif setting.label in seen:
            inference.tell(
                error(
                    "twice-declared",
                    setting.label_span,
                    f"{setting.label} is given twice.",
                    labels=(Label(seen[setting.label], "first here"),),
                    way_out="Keep one of them.",
                )
            )
        seen.setdefault(setting.label, setting.label_span)


def _check_piece(inference: Inference, piece: Piece, view: View, where: Where) -> None:
    inner = _family(inference, piece, where)
    inference.expect(piece.stock, inner, STOCK, "What a piece is cut from")
    treated = {statement.path.head for statement in piece.body if isinstance(statement, Fact)}
    _check_settings(inference, piece.settings, (*_PIECE_SETTINGS, *treated), "A piece")
    for setting in piece.settings:
        if setting.label in ("height", "width"):
            inference.expect(setting.value, inner, A_LENGTH, f"The {setting.label}")
        elif setting.label in _WORDS_OF_SETTING:
            _expect_word(inference, setting)
        elif setting.label == "face":
            inference.expect(setting.value, inner, TEXT, "The face")
    _check_in_piece(inference, piece.body, piece, inner)


def _expect_word(inference: Inference, setting: Setting) -> None:
    allowed = _WORDS_OF_SETTING[setting.label]
    word = setting.value.head if isinstance(setting.value, Path) and not setting.value.trailers else ""
    if word not in allowed:
        inference.tell(
            error(
                "unknown-choice",
                setting.value.span,
                f"{setting.label} is one of {', '.join(allowed)}.",
                way_out=did_you_mean(word, allowed),
            )
        )


def _check_in_piece(inference: Inference, body: tuple[Statement, ...], piece: Piece, where: Where) -> None:
    for statement in body:
        match statement:
            case Run(start=start, end=end, body=inner):
                known = edge_names(piece)
                for edge in (start, end):
                    if edge.span.text not in known:
                        inference.tell(
                            error(
                                "run-edges",
                                edge.span,
                                f"{piece.family.name} has no edge called {edge.span.text}.",
                                way_out=did_you_mean(edge.span.text, known) or f"Its edges are {', '.join(known)}.",
                            )
                        )
                _check_in_run(inference, inner, where)
            case Fact(value=value):
                if not (isinstance(value, Path) and value.head == "nothing"):
                    inference.expect(value, where, TREATMENT, "What is set in the braces of a piece")
            case Each(counter=counter, first=first, last=last, body=inner):
                for bound in (first, last):
                    inference.expect(bound, where, PLAIN_NUMBER, "Each counts with whole numbers: this")
                _check_in_piece(inference, inner, piece, where.counting(counter))
            case When(condition=condition, body=inner):
                inference.condition(condition, where)
                _check_in_piece(inference, inner, piece, where)
            case _:
                inference.tell(
                    error(
                        "out-of-place",
                        statement.span,
                        "In the braces of a piece stand its runs and what is cut into it.",
                    )
                )


def _check_in_run(inference: Inference, body: tuple[Statement, ...], where: Where) -> None:
    for statement in body:
        match statement:
            case Panel(size=size, settings=settings, family=family):
                if family.index is not None:
                    inference.expect(family.index, where, PLAIN_NUMBER, "An index")
                inference.expect(size, where, A_LENGTH, "The size of a panel")
                _check_settings(inference, settings, ("bends",), "A panel")
                for setting in settings:
                    if setting.label == "bends":
                        _expect_word(inference, setting)
            case Fold(kind=kind, kind_span=span, family=family, settings=settings):
                if family.index is not None:
                    inference.expect(family.index, where, PLAIN_NUMBER, "An index")
                if kind not in ("mountain", "valley"):
                    inference.tell(
                        error(
                            "fold-kind",
                            span,
                            f"A fold in a run is a mountain or a valley, as seen from the face, not {kind}.",
                            way_out=did_you_mean(kind, ("mountain", "valley")),
                        )
                    )
                _check_settings(inference, settings, (), "A fold in a run")
            case Each(counter=counter, first=first, last=last, body=inner):
                for end in (first, last):
                    inference.expect(end, where, PLAIN_NUMBER, "Each counts with whole numbers: this")
                _check_in_run(inference, inner, where.counting(counter))
            case When(condition=condition, body=inner):
                inference.condition(condition, where)
                _check_in_run(inference, inner, where)
            case _:
                inference.tell(error("out-of-place", statement.span, "In a run stand only panels and folds."))


def _expect_side(inference: Inference, path: Path, where: Where) -> None:
    kind = one_of(inference.path(path, where))
    if kind is UNKNOWN or isinstance(kind, PlaceOf | FaceOf) or (isinstance(kind, PanelOf) and kind.is_face):
        return
    way_out = (
        f"Say which side: {path.span.text}.face or {path.span.text}.back."
        if isinstance(kind, PieceOf | PanelOf)
        else ""
    )
    inference.tell(
        error(
            "wrong-kind",
            path.span,
            f"A side of the paper or a place belongs here, and this is {in_words(kind)}.",
            way_out=way_out,
        )
    )


def _expect_line(inference: Inference, path: Path, where: Where) -> None:
    kind = one_of(inference.path(path, where))
    if kind is not UNKNOWN and kind != LINE:
        inference.tell(
            error(
                "wrong-kind",
                path.span,
                f"A line belongs here (an edge, a middle or a fold), and this is {in_words(kind)}.",
            )
        )


def _check_named_settings(inference: Inference, settings: tuple[Setting, ...], where: Where) -> None:
    for setting in settings:
        match setting.label:
            case "by":
                inference.expect(setting.value, where, STOCK, "What holds a join")
            case "moving" | "turned":
                inference.expect(setting.value, where, YES_NO, setting.label)
            case "tip" | "caution":
                inference.expect(setting.value, where, TEXT, setting.label)
            case "reads" | "least" | "most":
                inference.expect(setting.value, where, A_LENGTH, setting.label)
            case "after" | "before":
                for one in setting.value.items if isinstance(setting.value, ListOf) else (setting.value,):
                    inference.kind(one, where)
            case "over":
                if isinstance(setting.value, Path):
                    _expect_line(inference, setting.value, where)
            case "on" | "follows":
                inference.kind(setting.value, where)


def _check_join(inference: Inference, join: Join, where: Where) -> None:
    inner = _family(inference, join, where)
    _expect_side(inference, join.what, inner)
    _expect_side(inference, join.to, inner)
    _check_settings(inference, join.settings, _JOIN_SETTINGS, "A join")
    _check_named_settings(inference, join.settings, inner)
    if join.doc is not None:
        inference.kind(join.doc, inner)
    for statement in join.body:
        if not isinstance(statement, Align):
            inference.tell(
                error(
                    "out-of-place",
                    statement.span,
                    "In the braces of a join stand only its alignments: align line to line.",
                )
            )
            continue
        _expect_line(inference, statement.what, inner)
        _expect_line(inference, statement.to, inner)
        _check_settings(inference, statement.settings, ("inside",), "An alignment")
        for setting in statement.settings:
            inference.expect(setting.value, inner, A_LENGTH, setting.label)


def _check_place(inference: Inference, place: Place, where: Where) -> None:
    inner = _family(inference, place, where)
    for path in place.faces:
        _expect_side(inference, path, inner)
    for statement in place.body:
        if isinstance(statement, Fact) and isinstance(statement.value, Path):
            _expect_line(inference, statement.value, inner)
        else:
            inference.tell(
                error(
                    "out-of-place",
                    statement.span,
                    "In the braces of a place stand only its lines, as in front = sheet.left.",
                )
            )


def _check_pose(inference: Inference, pose: Pose, where: Where) -> None:
    inner = _family(inference, pose, where)
    if pose.base is not None:
        kind = one_of(inference.path(pose.base, inner))
        if kind is not UNKNOWN and kind != POSE:
            inference.tell(error("wrong-kind", pose.base.span, f"A pose belongs here, and this is {in_words(kind)}."))
    _check_in_pose(inference, pose.body, inner)


def _check_in_pose(inference: Inference, body: tuple[Statement, ...], where: Where) -> None:
    for statement in body:
        match statement:
            case Fact(path=path, value=value):
                kind = one_of(inference.path(path, where))
                if kind is UNKNOWN or isinstance(kind, Made):
                    continue
                if kind != LINE and not isinstance(kind, PanelOf):
                    inference.tell(
                        error(
                            "pose-angle",
                            path.span,
                            f"A pose turns folds and the parts that have poses; this is {in_words(kind)}.",
                        )
                    )
                elif isinstance(value, Path) and not value.trailers:
                    if value.head not in ("flat", "square", "shut"):
                        inference.tell(
                            error(
                                "pose-angle",
                                value.span,
                                f"A fold is flat, square or shut, not {value.head}.",
                                way_out=did_you_mean(value.head, ("flat", "square", "shut")),
                            )
                        )
                else:
                    inference.expect(value, where, Amount(ANGLE), "The angle of a fold")
            case Each(counter=counter, first=first, last=last, body=inner):
                for end in (first, last):
                    inference.expect(end, where, PLAIN_NUMBER, "Each counts with whole numbers: this")
                _check_in_pose(inference, inner, where.counting(counter))
            case When(condition=condition, body=inner):
                inference.condition(condition, where)
                _check_in_pose(inference, inner, where)
            case _:
                inference.tell(
                    error(
                        "out-of-place",
                        statement.span,
                        "In a pose stand only the angles of folds, as in strip.crest = shut.",
                    )
                )


def _check_crease(inference: Inference, fold: Fold, where: Where) -> None:
    inner = _family(inference, fold, where)
    if fold.kind != "in_place":
        inference.tell(
            error(
                "fold-kind",
                fold.kind_span,
                f"Outside a run a fold is made in place, not {fold.kind}.",
                way_out=f"Write fold {fold.family.name}: in_place, on: ..., over: ...; mountains and valleys stand in a run.",
            )
        )
        return
    _check_settings(inference, fold.settings, _CREASE_SETTINGS, "A fold in place")
    _check_named_settings(inference, fold.settings, inner)


def _check_step(inference: Inference, step: Step, where: Where) -> None:
    inner = _family(inference, step, where)
    inference.kind(step.text, inner)
    _check_settings(inference, step.settings, _STEP_SETTINGS, "A step")
    _check_named_settings(inference, step.settings, inner)
