"""Checks every statement of a recipe's own files: names, kinds, settings, what may stand where. Nothing is worked
out."""

from __future__ import annotations

from attrs import evolve

from pastedown.design import infer_call, infer_expression, infer_path
from pastedown.design.body import Guard, is_declaration, left_head
from pastedown.design.check_join import check_crease, check_join, check_place, check_pose, check_setting, check_step
from pastedown.design.check_names import check_family, check_name, check_settings
from pastedown.design.check_piece import check_piece, check_set_of_piece
from pastedown.design.inference import Inference, Where
from pastedown.design.kind import (
    KIND_OF_ALBUM_FACT,
    NOTHING,
    PLAIN_NUMBER,
    POSE,
    RULER,
    STOCK,
    TEXT,
    UNKNOWN,
    YES_NO,
    Amount,
    Kind,
    Made,
    PanelOf,
    PieceOf,
    Plain,
    Several,
    in_words,
    one_of,
)
from pastedown.design.recipe import ComponentOf, File, Makeable, VariantOf
from pastedown.design.setting_names import (
    ALBUM_FACTS,
    BUILT_IN_NAMES,
    CREASE_SETTINGS,
    JOIN_SETTINGS,
    REQUIREMENT_SETTINGS,
    STEP_SETTINGS,
)
from pastedown.design.stock import STOCK_KINDS
from pastedown.design.takes_type import TYPE_NAMES
from pastedown.design.view import View
from pastedown.diagnostic import Label, error
from pastedown.diagnostic.nearest_name import did_you_mean
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
    Statement,
    Step,
    Takes,
    Use,
    Variant,
    When,
)

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
                    _refuse_to_amend_outside(inference, path.span)
                elif path.head not in ALBUM_FACTS:
                    check_name(inference, path.head, path.head_span)
                    infer_expression.kind_of(inference, value, where)
                elif path.head != "edition":
                    sentence = f"{path.head} is a fact of an album, and outside its braces nothing heeds it."
                    way_out = "Move it into the braces of the album."
                    inference.tell(error("out-of-place", path.span, sentence, way_out=way_out))
            case Amend(path=path):
                _refuse_to_amend_outside(inference, path.span)
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
    view = inference.view_of(makeable)
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
                            way_out=f"Give it a default: takes {takes.name}: {takes.type.span.text} = ...",
                        )
                    )
    elif isinstance(makeable, VariantOf):
        _check_layer(inference, makeable.statements, inference.view_of(makeable.base), view, where)


def check_with(inference: Inference, body: tuple[Statement, ...], view: View, where: Where) -> None:
    """Check the braces of `thing with { ... }`: names on the left belong to the thing, the right is read where it is
    written."""
    inner = inference.around(view, body, where.file)
    _twice(inference, body)
    _check_layer(inference, body, view, inner, evolve(where, its=Made(inner), in_with=True))


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
                    infer_call.kind_of_amended(inference, STOCK, inner, where)
                else:
                    _refuse_amending(inference, path, kind)
            case Each(counter=counter, first=first, last=last, body=inner):
                for end in (first, last):
                    infer_expression.expect(inference, end, where, PLAIN_NUMBER, "The counter of an each")
                _check_layer(inference, inner, base, whole, where.counting(counter))
            case When(condition=condition, body=inner):
                infer_expression.expect_condition(inference, condition, where)
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
        if head in ALBUM_FACTS and whole.component.is_album and base.declaration(head) is None:
            infer_expression.expect(inference, value, where, KIND_OF_ALBUM_FACT.get(head, UNKNOWN), head)
            return
        infer_call.check_argument(inference, head, path.span, value, where, base)
        return
    _check_target(inference, path, value, whole, where)


def check_statements(inference: Inference, body: tuple[Statement, ...], view: View, where: Where) -> None:
    """Check the statements of a component's own braces."""
    for statement in body:
        if not isinstance(statement, _IN_ALBUM):
            inference.tell(error("out-of-place", statement.span, _misplaced(statement), way_out="Move it there."))
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
                    infer_call.kind_of_amended(inference, STOCK, inner, where)
                else:
                    _refuse_amending(inference, path, kind)
            case Part():
                _check_part(inference, statement, where)
            case Piece():
                check_piece(inference, statement, view, where)
            case Each(counter=counter, first=first, last=last, body=inner):
                for end in (first, last):
                    infer_expression.expect(inference, end, where, PLAIN_NUMBER, "The counter of an each")
                check_statements(inference, inner, view, where.counting(counter))
            case When(condition=condition, body=inner):
                infer_expression.expect_condition(inference, condition, where)
                check_statements(inference, inner, view, where)
            case Join():
                check_join(inference, statement, where)
            case Place():
                check_place(inference, statement, where)
            case Pose():
                check_pose(inference, statement, where)
            case Fold():
                check_crease(inference, statement, where)
            case Require():
                check_name(inference, statement.name, statement.name_span)
                infer_expression.expect_condition(inference, statement.condition, where)
                infer_expression.kind_of(inference, statement.because, where)
                check_settings(inference, statement.settings, REQUIREMENT_SETTINGS, "A requirement")
                for setting in statement.settings:
                    if setting.label == "may_be_meant":
                        infer_expression.expect(inference, setting.value, where, YES_NO, setting.label)
                    else:
                        _expect_ways_out(inference, setting.value, where)
            case Step():
                check_step(inference, statement, where)


def _expect_ways_out(inference: Inference, value: Expression, where: Where) -> None:
    for one in value.items if isinstance(value, ListOf) else (value,):
        infer_expression.expect(inference, one, where, TEXT, "A way out")


def _refuse_amending(inference: Inference, path: Path, kind: Kind) -> None:
    if kind is not UNKNOWN:
        inference.tell(
            error(
                "wrong-kind",
                path.span,
                f"Only a part or a stock can be amended, and this is {in_words(kind)}.",
                way_out="Set what belongs to it by its path, as in sheet.height = 5 in."
                if isinstance(kind, PieceOf)
                else "Change it where it is stated.",
            )
        )


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
    check_name(inference, takes.name, takes.name_span)
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
                    way_out=did_you_mean(word, allowed) or f"Write one of them, as in {setting.label}: {allowed[0]}.",
                )
            )
    if name == "choice" and len(takes.type.words) < 2:
        inference.tell(
            error(
                "unknown-type",
                takes.type.span,
                "A choice has two words at least.",
                way_out="Write them in its brackets, as in choice(top, side).",
            )
        )
    kind = infer_path.type_of(inference, takes)
    for bound in (takes.least, takes.most):
        if bound is not None:
            infer_expression.expect(
                inference, bound, where, kind if isinstance(kind, Amount) else UNKNOWN, f"A bound of {takes.name}"
            )
    if takes.default is not None:
        infer_expression.expect(inference, takes.default, where, kind, takes.name)


def _check_own_fact(inference: Inference, path: Path, value: Expression, view: View, where: Where) -> None:
    if path.trailers:
        _check_target(inference, path, value, view, where)
        return
    if path.head in ("ruler", "show") and not view.component.is_album:
        sentence = f"{path.head} is a fact of the album: in a component nothing heeds it."
        way_out = "Move it into the braces of the album; a component reads ruler.marks."
        inference.tell(error("out-of-place", path.span, sentence, way_out=way_out))
        return
    if path.head in ALBUM_FACTS:
        if path.head == "show" or path.head == "edition":
            return
        wanted = KIND_OF_ALBUM_FACT.get(path.head)
        if wanted is not None:
            infer_expression.expect(inference, value, where, wanted, path.head)
            return
    check_name(inference, path.head, path.head_span)
    infer_expression.kind_of(inference, value, where)


def _refuse_to_amend_outside(inference: Inference, span: Span) -> None:
    sentence = "Outside all braces a thing is stated as it is; it is amended where it is used."
    way_out = "State a copy, as in my_kraft = kraft with { grain = short }, or move this into the braces of an album."
    inference.tell(error("out-of-place", span, sentence, way_out=way_out))


def _target(inference: Inference, path: Path, view: View) -> Kind:
    """The kind of what a path on the left names, in the view of the part whose braces it stands in."""
    return one_of(
        infer_path.kind_of_path(inference, path, Where(view, view.component.file, _counters(view), Made(view)))
    )


def _counters(view: View) -> frozenset[str]:
    return infer_path.all_counters(view)


def _check_target(inference: Inference, path: Path, value: Expression, view: View, where: Where) -> None:
    """Check `a.b = value`: what stands before the last name has to have such a setting."""
    trailers = list(path.trailers)
    head = left_head(path)
    if len(trailers) == 1 and not isinstance(trailers[0], Dot) and not known_here(inference, view, where, head):
        _refuse_numbered_fact(inference, path, head)
        infer_expression.kind_of(inference, value, where)
        return
    if not isinstance(trailers[-1], Dot) and _target(inference, path, view) is UNKNOWN:
        return
    while trailers and not isinstance(trailers[-1], Dot):
        trailers.pop()
    if not trailers:
        infer_call.check_argument(inference, path.head, path.span, value, where, view)
        return
    last = trailers.pop()
    assert isinstance(last, Dot)
    before = Path(path.head, tuple(trailers), path.span, path.head_span)
    kind = _target(inference, before, view)
    match kind:
        case Made(view=inner):
            infer_call.check_argument(inference, last.name, last.span, value, where, inner)
            if not isinstance(path.trailers[-1], Dot) and inner.declaration(last.name) is not None:
                _expect_several(inference, inner, last, path)
        case Plain(name="stock"):
            infer_call.check_stock_field(inference, last.name, last.span, value, where)
        case Plain(name="join" | "step" | "fold" as what):
            known = {"join": JOIN_SETTINGS, "step": STEP_SETTINGS, "fold": CREASE_SETTINGS}[what]
            if last.name not in known:
                inference.tell(
                    error(
                        "unknown-setting",
                        last.span,
                        f"A {what} has no {last.name}.",
                        way_out=did_you_mean(last.name, known) or f"It has: {', '.join(known)}.",
                    )
                )
            else:
                check_setting(inference, last.name, value, where)
        case Plain(name="requirement") if last.name == "meant":
            infer_expression.expect(inference, value, where, TEXT, "Why it is meant")
        case PieceOf():
            check_set_of_piece(inference, kind, last, value, where)
        case _ if kind is not UNKNOWN:
            sentence, way_out = f"Nothing can be set of {in_words(kind)}.", _instead_of_setting(kind, path)
            inference.tell(error("wrong-kind", before.span, sentence, way_out=way_out))


def known_here(inference: Inference, view: View, where: Where, name: str) -> bool:
    """Whether a name means something in the braces of `view`, or may have stood in what could not be read."""
    found = view.declaration(name) is not None or where.file.find(name) is not None
    return found or name in inference.broken or name in (*where.counters, *BUILT_IN_NAMES, "ruler")


def _refuse_numbered_fact(inference: Inference, path: Path, name: str) -> None:
    inference.tell_name(
        error(
            "unknown-name",
            path.head_span,
            f"{path.span.text} sets one of several, and nothing here is called {name}.",
            reason="A fact has one value and no numbers; parts, pieces, joins and steps may be families.",
            way_out=f"Work it out where it is used, or give each fact a name of its own, as in {name}_1 = ...",
        )
    )


def _expect_several(inference: Inference, view: View, last: Dot, path: Path) -> None:
    """Tell of `sheet.height[2] = ...`: the index belongs to the sheet."""
    kind = infer_path.kind_in_view(inference, view, last.name, last.span)
    if kind is not UNKNOWN and not isinstance(kind, Several):
        sentence = f"An index picks one of several, and {last.name} is {in_words(kind)}."
        way_out = "Write the index behind the name of the family, as in sheet[2].height."
        inference.tell(error("wrong-kind", path.span, sentence, way_out=way_out))


def _instead_of_setting(kind: Kind, path: Path) -> str:
    if isinstance(kind, PanelOf) and not kind.is_face:
        return f"Set the panel itself, which is a length: {path.span.text.rpartition('.')[0]} = 1 in."
    if kind == RULER:
        return "State the whole ruler: ruler = inches to 1/16."
    if kind == POSE:
        return "State another pose that begins with this one, as in pose other from made_up { ... }."
    return "Leave it out. A tip and a caution belong to a join, a step or a fold in place."


def _check_part(inference: Inference, part: Part, where: Where) -> None:
    inner = check_family(inference, part, where)
    kind = one_of(infer_expression.kind_of(inference, part.value, inner))
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
            error(
                "wrong-kind",
                part.value.span,
                f"A part is made from a component, and this is {in_words(kind)}.",
                way_out="Name a component here; a fact is stated without the word part.",
            )
        )
