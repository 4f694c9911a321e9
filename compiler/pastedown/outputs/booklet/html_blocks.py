"""The blocks of a booklet as HTML."""

from collections.abc import Iterable, Iterator

from pastedown.outputs.booklet.blocks import (
    Block,
    Glossary,
    Listing,
    Paragraph,
    Picture,
    Pictures,
    Said,
    Section,
    StepSection,
    Table,
)
from pastedown.outputs.safe_text import xml
from pastedown.outputs.template.svg_text import decimal
from pastedown.outputs.two_systems import TwoSystems


def html_of_block(block: Block) -> Iterator[str]:
    """The block's lines."""
    match block:
        case Paragraph():
            yield _paragraph(block)
        case Listing():
            yield "<ul>"
            yield from (f"<li>{_said(entry)}</li>" for entry in block.entries)
            yield "</ul>"
        case Table():
            yield from _table(block)
        case Pictures():
            yield from _pictures(block)
        case Section():
            yield from ("<section>", f"<h3>{_said(block.title)}</h3>", *_inside(block.blocks), "</section>")
        case StepSection():
            yield from _step(block)
        case Glossary():
            yield "<dl>"
            yield from (f"<dt>{xml(word.word)}</dt><dd>{_said(word.meaning)}</dd>" for word in block.words)
            yield "</dl>"


def pictures_in(blocks: Iterable[Block]) -> Iterator[Picture]:
    """All pictures, those of sections within too."""
    for block in blocks:
        match block:
            case Pictures():
                yield from block.pictures
            case Section() | StepSection():
                yield from pictures_in(block.blocks)
            case _:
                pass


def _inside(blocks: tuple[Block, ...]) -> Iterator[str]:
    for block in blocks:
        yield from html_of_block(block)


def _said(text: Said) -> str:
    return "".join(_measure(part) if isinstance(part, TwoSystems) else xml(part) for part in text)


def _measure(value: TwoSystems) -> str:
    if not value.differ:
        return xml(value.text)
    return f'<span data-in="{xml(value.inches)}" data-mm="{xml(value.metric)}">{xml(value.text)}</span>'


def _paragraph(block: Paragraph) -> str:
    if not block.role:
        return f"<p>{_said(block.text)}</p>"
    kind = block.role.lower().replace(" ", "-")
    return f'<p class="{kind}"><span class="role">{xml(block.role)}:</span> {_said(block.text)}</p>'


def _table(block: Table) -> Iterator[str]:
    """In a frame of its own, which is what moves sideways on a narrow screen, also by keyboard."""
    yield f'<div class="wide" tabindex="0" role="region" aria-label="{xml(block.title)}"><table>'
    yield f"<caption>{xml(block.title)}</caption>"
    heads = "".join(f'<th scope="col"{_class(n, block)}>{xml(text)}</th>' for n, text in enumerate(block.columns))
    yield f"<thead><tr>{heads}</tr></thead><tbody>"
    for first, *rest in block.rows:
        cells = "".join(f"<td{_class(n, block)}>{_said(cell)}</td>" for n, cell in enumerate(rest, 1))
        yield f'<tr><th scope="row">{_said(first)}</th>{cells}</tr>'
    yield "</tbody></table></div>"


def _class(column: int, block: Table) -> str:
    return ' class="measure"' if column in block.to_the_right else ""


def _pictures(block: Pictures) -> Iterator[str]:
    yield '<div class="pictures">'
    for picture in block.pictures:
        width, height = (decimal(side.millimetres) for side in (picture.sheet.paper.width, picture.sheet.paper.height))
        yield (
            f'<figure><svg role="img" aria-label="{xml(picture.words)}" width="{width}mm" height="{height}mm" '
            f'viewBox="0 0 {width} {height}"><use href="#drawing-{xml(picture.name)}"/></svg>'
            f"{_caption(picture)}</figure>"
        )
    yield "</div>"


def _caption(picture: Picture) -> str:
    return f"<figcaption>{xml(' '.join(picture.caption))}</figcaption>" if picture.caption else ""


def _step(block: StepSection) -> Iterator[str]:
    name = f"step-{block.number}"
    yield f'<section class="step" id="{name}" aria-labelledby="{name}-title">'
    yield f'<h3 id="{name}-title">{block.number}. {_said(block.title)}</h3>'
    yield from _inside(block.blocks)
    box = f'<input type="checkbox" data-step="{block.number}">'
    yield f'<p class="done"><label>{box} Step {block.number} is done</label></p>'
    yield "</section>"
