"""Takes a recipe's text and a way to read others; gives every file it uses, parsed and linked. Afterwards no import is
outside the design's folder, missing, or part of a ring."""

from collections.abc import Callable

from attrs import define, field

from pastedown.design.body import index_body, is_declaration, name_of, name_span
from pastedown.design.recipe import File
from pastedown.diagnostic import Diagnostic, Label, error
from pastedown.diagnostic.nearest_name import did_you_mean, meant_or_one_of, nearest_name
from pastedown.source import SourceText, Span
from pastedown.syntax.parse import parse
from pastedown.tree.statement import Fact, Statement, Use

MOST_FILES = 64
# After these, what follows may stand in other braces than it was meant to.
_UNBALANCED = ("stray-closing", "missing-closing", "mismatched-closing", "unclosed-text")


@define
class Shelf:
    """Where texts come from. `read_source` is given a name relative to the design's folder; `read_shipped` a name of
    the standard library; each gives None for what is not there."""

    grammar: str
    read_source: Callable[[str], str | None]
    read_shipped: Callable[[str], str | None]
    shipped_names: tuple[str, ...]
    loaded: dict[tuple[bool, str], File] = field(factory=dict)
    diagnostics: list[Diagnostic] = field(factory=list)


def load(shelf: Shelf, name: str, text: str) -> File:
    """Parse the design's own text and everything it uses."""
    return _read(shelf, SourceText(name, text), False, ())


def names_shipped_in(shelf: Shelf, name: str) -> list[str]:
    """The names that a file of the standard library states, sorted. Reads it without taking it into the design."""
    text = shelf.read_shipped(name)
    statements = parse(SourceText(f"{name}.album", text), shelf.grammar).statements if text is not None else ()
    stated = [name_of(each) for each in statements if is_declaration(each) or isinstance(each, Fact)]
    return sorted({each for each in stated if each and each != "edition"})


def _read(shelf: Shelf, source: SourceText, shipped: bool, ring: tuple[tuple[bool, str], ...]) -> File:
    key = (shipped, source.name)
    parsed = parse(source, shelf.grammar)
    shelf.diagnostics.extend(parsed.diagnostics)
    imports: dict[str, File] = {}
    spans: dict[str, Span] = {}
    broken = set(parsed.broken_words)
    for use in (s for s in parsed.statements if isinstance(s, Use)):
        used = _open(shelf, use, source.name, shipped, (*ring, key))
        for name, span in use.names:
            if used is None or (used.broken_words and name in used.broken_words):
                broken.add(name)
            elif name not in used.body.by_name:
                known = sorted(name for name in used.body.by_name if name != "edition")
                # The name as it is spelt here, and as it was most likely meant: neither is a second mistake.
                broken |= {name, nearest_name(name, known) or name}
                shelf.diagnostics.append(
                    error(
                        "import-not-found-name",
                        span,
                        f"There is no {name} in {used.name}.",
                        way_out=meant_or_one_of(name, known, "It offers") or "It offers nothing: it is empty.",
                    )
                )
            elif (own := _stated(parsed.statements, name)) is not None:
                shelf.diagnostics.append(
                    error(
                        "twice-declared",
                        span,
                        f"{name} is used from {used.name}, and stated here as well.",
                        labels=(Label(own, "stated here"),),
                        way_out="Keep one of the two.",
                    )
                )
            elif name in spans:
                shelf.diagnostics.append(
                    error(
                        "twice-declared",
                        span,
                        f"{name} is used from {_twice_or_two(imports[name], used)}.",
                        labels=(Label(spans[name], "first here"),),
                        way_out="Keep one of the two.",
                    )
                )
            else:
                imports[name] = used
                spans[name] = span
    file = File(
        source.name,
        source,
        parsed.statements,
        index_body(parsed.statements),
        imports,
        frozenset(broken),
        shipped,
        any(diagnostic.id in _UNBALANCED for diagnostic in parsed.diagnostics),
    )
    shelf.loaded[key] = file
    return file


def _twice_or_two(first: File, second: File) -> str:
    return f"{second.name} twice" if first is second else "two files"


def _stated(statements: tuple[Statement, ...], name: str) -> Span | None:
    """The words that state a name at the top of a file; amending what is used from another file states nothing."""
    for statement in statements:
        plain_fact = isinstance(statement, Fact) and not statement.path.trailers
        if (plain_fact or is_declaration(statement)) and name_of(statement) == name:
            return name_span(statement)
    return None


def _open(shelf: Shelf, use: Use, importer: str, from_shipped: bool, ring: tuple[tuple[bool, str], ...]) -> File | None:
    shipped = not use.quoted
    fault = _outside(use) if use.quoted else None
    if fault is None and use.quoted and from_shipped:
        fault = error(
            "import-outside",
            use.source_span,
            "A file of the standard library uses only the standard library.",
            way_out="Write its name without quotes.",
        )
    if fault is not None:
        shelf.diagnostics.append(fault)
        return None
    folder = importer.rpartition("/")[0]
    name = f"{folder}/{use.source}" if use.quoted and folder else use.source
    key = (shipped, name if use.quoted else f"{name}.album")
    if key in ring:
        path = [file for _, file in ring[ring.index(key) :]] + [key[1]]
        shelf.diagnostics.append(
            error(
                "import-cycle",
                use.source_span,
                "These files use one another in a ring: " + ", which uses ".join(path) + ".",
                reason="No file of a ring can be read before the others.",
                way_out="Move what both need into a third file.",
            )
        )
        return None
    if key in shelf.loaded:
        return shelf.loaded[key]
    if len(shelf.loaded) + len(ring) > MOST_FILES:
        shelf.diagnostics.append(
            error(
                "too-many-files",
                use.source_span,
                f"A design may use {MOST_FILES} files at most.",
                way_out="Put several components into one file.",
            )
        )
        return None
    text = shelf.read_shipped(name) if shipped else shelf.read_source(name)
    if text is None:
        shelf.diagnostics.append(_missing(shelf, use))
        return None
    return _read(shelf, SourceText(key[1], text), shipped, ring)


def _missing(shelf: Shelf, use: Use) -> Diagnostic:
    if use.quoted and (shipped := use.source.removesuffix(".album")) in shelf.shipped_names:
        return error(
            "import-missing",
            use.source_span,
            f"There is no file {use.source} beside the design; the standard library has {shipped}.",
            way_out=f"Write it without quotes: from {shipped}.",
        )
    if use.quoted:
        return error(
            "import-missing",
            use.source_span,
            f"There is no readable file {use.source} beside the design.",
            way_out="Put the file into the design's folder, or mend its name.",
        )
    return error(
        "import-missing",
        use.source_span,
        f"The standard library has no {use.source}.",
        way_out=did_you_mean(use.source, shelf.shipped_names)
        or f"It has: {', '.join(shelf.shipped_names)}. "
        'A file beside the design is written in quotes: from "house.album".',
    )


def _outside(use: Use) -> Diagnostic | None:
    parts = use.source.split("/")
    bad = (
        not use.source
        or use.source.startswith(("/", "~"))
        or "\\" in use.source
        or ":" in use.source
        or any(part in ("", ".", "..") for part in parts)
        or not use.source.isprintable()
        or len(use.source) > 200
    )
    if not bad:
        return None
    return error(
        "import-outside",
        use.source_span,
        "A file is used by its name, from the design's own folder or a folder below it.",
        reason="A recipe comes from anybody: it may read nothing but what lies beside it.",
        way_out='Copy the file beside the design and write its name alone: from "house.album".',
    )
