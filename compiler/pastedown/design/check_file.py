"""Checks the files of a recipe: what stands at the top of each, then every component, album and variant in it."""

from __future__ import annotations

from pastedown.design import infer_expression
from pastedown.design.check_body import check_layer, check_statements
from pastedown.design.check_names import check_name
from pastedown.design.check_twice import check_twice
from pastedown.design.inference import Inference, Where
from pastedown.design.kind import (
    Made,
)
from pastedown.design.recipe import ComponentOf, File, Makeable, VariantOf
from pastedown.design.setting_names import (
    ALBUM_FACTS,
)
from pastedown.diagnostic import error
from pastedown.source import Span
from pastedown.tree.statement import (
    Album,
    Amend,
    Component,
    Fact,
    Use,
    Variant,
)


def check_file(inference: Inference, file: File) -> None:
    """Check the top of a file and every component, album and variant in it."""
    check_twice(inference, file.statements)
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
    check_twice(inference, makeable.statements)
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
        check_layer(inference, makeable.statements, inference.view_of(makeable.base), view, where)


def _refuse_to_amend_outside(inference: Inference, span: Span) -> None:
    sentence = "Outside all braces a thing is stated as it is; it is amended where it is used."
    way_out = "State a copy, as in my_kraft = kraft with { grain = short }, or move this into the braces of an album."
    inference.tell(error("out-of-place", span, sentence, way_out=way_out))
