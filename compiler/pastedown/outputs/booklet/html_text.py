"""The booklet as one HTML file that asks nothing of any other place: styles, script and drawings are inside.

A Content-Security-Policy in the file itself forbids every request; its one style sheet and its one script are let in
by their hashes (CSP level 3, sections 2.3.1 and 6.7). All texts go through `xml`, so none of them becomes markup.
"""

import hashlib
from base64 import b64encode
from collections.abc import Iterator
from pkgutil import get_data

from pastedown.outputs.booklet.blocks import Booklet, Chapter
from pastedown.outputs.booklet.html_blocks import html_of_block, pictures_in
from pastedown.outputs.booklet.html_drawing import symbol_of
from pastedown.outputs.safe_text import xml

# Where the style sheet wants the stamp: at the foot of every printed sheet.
_STAMP = "RELEASE-STAMP"
_UNITS = (("own", "as designed"), ("in", "inches"), ("mm", "millimetres"))


def html_of(booklet: Booklet) -> bytes:
    """The file, in UTF-8."""
    return "".join(f"{line}\n" for line in _lines(booklet)).encode()


def _lines(booklet: Booklet) -> Iterator[str]:
    # The stamp is made of small letters, figures, dots and blanks alone: nothing that a style sheet would heed.
    style, script = _shipped("booklet.css").replace(_STAMP, booklet.stamp), _shipped("booklet.js")
    title, stamp = xml(booklet.title) or "Untitled", xml(booklet.stamp)
    yield from (
        "<!DOCTYPE html>",
        '<html lang="en-GB">',
        "<head>",
        '<meta charset="utf-8">',
        f'<meta http-equiv="Content-Security-Policy" content="{_policy(style, script)}">',
        '<meta name="viewport" content="width=device-width, initial-scale=1">',
        '<meta name="referrer" content="no-referrer">',
        f"<title>{title}</title>",
        f"<style>{style}</style>",
        "</head>",
        f'<body data-stamp="{stamp}">',
        '<a class="skip" href="#steps">Skip to the steps</a>',
        "<header>",
        f"<h1>{title}</h1>",
        f'<p class="stamp">Release word and fingerprint: {stamp}</p>',
        *_controls(),
        *_contents(booklet),
        "</header>",
        "<main>",
    )
    for chapter in booklet.chapters:
        yield from _chapter(chapter)
    yield from (
        "</main>",
        f'<footer><p class="stamp">{title}. Release word and fingerprint: {stamp}</p></footer>',
        *_drawings(booklet),
        '<dialog id="enlarged" aria-label="Enlarged drawing"><button type="button">Close</button>'
        ' <button type="button">Larger</button>'
        '<div class="large" tabindex="0" role="region" aria-label="Drawing"></div></dialog>',
        f"<script>{script}</script>",
        "</body>",
        "</html>",
    )


def _shipped(name: str) -> str:
    """A file that stands beside this module. Raises FileNotFoundError where it was not installed."""
    found = get_data("pastedown.outputs.booklet", name)
    if found is None:
        raise FileNotFoundError(name)
    return found.decode().replace("\r\n", "\n")


def _policy(style: str, script: str) -> str:
    return (
        f"default-src 'none'; style-src '{_hash(style)}'; script-src '{_hash(script)}'; base-uri 'none'; "
        "form-action 'none'"
    )


def _hash(text: str) -> str:
    return f"sha256-{b64encode(hashlib.sha256(text.encode()).digest()).decode()}"


def _controls() -> Iterator[str]:
    """Shown by the script alone: without it they would do nothing."""
    yield '<div class="controls" id="controls" hidden>'
    yield "<fieldset><legend>Show lengths</legend>"
    for value, words in _UNITS:
        checked = " checked" if value == "own" else ""
        yield f'<label><input type="radio" name="units" value="{value}"{checked}> {words}</label>'
    yield "</fieldset>"
    yield '<p id="progress" role="status"></p>'
    yield "</div>"


def _contents(booklet: Booklet) -> Iterator[str]:
    yield '<nav aria-label="Contents"><ol>'
    for chapter in booklet.chapters:
        yield f'<li><a href="#{chapter.name}">{xml(chapter.title)}</a></li>'
    yield "</ol></nav>"


def _chapter(chapter: Chapter) -> Iterator[str]:
    yield f'<section id="{chapter.name}" aria-labelledby="{chapter.name}-title">'
    yield f'<h2 id="{chapter.name}-title">{xml(chapter.title)}</h2>'
    for block in chapter.blocks:
        yield from html_of_block(block)
    yield "</section>"


def _drawings(booklet: Booklet) -> Iterator[str]:
    """Every drawing once; the figures use it by its name."""
    pictures = {picture.name: picture for chapter in booklet.chapters for picture in pictures_in(chapter.blocks)}
    yield '<svg class="symbols" aria-hidden="true" focusable="false"><defs>'
    for name, picture in pictures.items():
        yield symbol_of(picture.sheet, f"drawing-{name}")
    yield "</defs></svg>"
