"""What may import what, who may touch the world, and which words the compiler may not know.

Modules are found by path and read as text, never imported, so that a fault in one hides no verdict on another.
"""

import ast
import io
import re
import sys
import tokenize
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest

PACKAGE = Path(__file__).parent.parent / "compiler" / "pastedown"

# A stage, and what it may import besides itself. The order is that of the pipeline.
MAY_IMPORT: dict[str, set[str]] = {
    "source": set(),
    "quantity": set(),
    "diagnostic": {"source", "quantity"},
    "tree": {"source", "quantity"},
    "syntax": {"source", "quantity", "diagnostic", "tree"},
    "design": {"source", "quantity", "diagnostic", "tree", "syntax"},
    "geometry": {"source", "quantity", "diagnostic", "tree", "design"},
    "fit": {"source", "quantity", "diagnostic", "design", "geometry"},
    "cutting": {"quantity"},
    "plan": {"source", "quantity", "diagnostic", "design", "geometry", "fit", "cutting"},
    "outputs": {"quantity", "plan"},
    "slip": {"source", "quantity", "diagnostic", "tree", "design", "geometry", "fit", "outputs"},
    "shipped_files": set(),
    "compile": {
        "source", "quantity", "diagnostic", "tree", "syntax", "design", "geometry", "fit", "plan", "slip", "mend",
        "shipped_files",
    },
    "__init__": {"compile", "diagnostic"},
    "design_files": {"diagnostic"},
    "output_folder": {"diagnostic"},
    "terminal": {"diagnostic"},
    "make_folders": {"compile", "diagnostic", "output_folder", "outputs", "plan"},
    "new_file": {"diagnostic", "design_files"},
    "mend": {"source", "quantity", "diagnostic", "tree", "design", "geometry", "fit"},
    "tidy_files": {"source", "diagnostic", "syntax", "shipped_files", "design_files"},
    "arguments": {"terminal"},
    "command": {
        "arguments", "compile", "diagnostic", "design_files", "fit", "make_folders", "output_folder", "mend", "new_file", "outputs", "plan",
        "slip",
        "terminal", "tidy_files",
    },
    "__main__": {"command"},
}
# Within design/, the parser is called only where texts become designs.
PARSER_IN_DESIGN = {"design/files.py", "design/from_syntax.py"}

LIBRARIES = {"attrs": None, "lark": "syntax", "cairosvg": "outputs", "cairocffi": "outputs", "numpy": "cutting", "highspy": "cutting"}

# Of Python's own library: what reaches the network, other programs, the clock or chance, or runs what it reads.
NEVER = {
    "asyncio", "ctypes", "datetime", "dbm", "ftplib", "http", "imaplib", "locale", "marshal", "multiprocessing",
    "pickle", "platform", "poplib", "random", "runpy", "secrets", "select", "shelve", "smtplib", "socket",
    "socketserver", "sqlite3", "ssl", "subprocess", "telnetlib", "time", "urllib", "uuid", "webbrowser", "xmlrpc",
}

# The only modules that touch files, streams or the process.
TOUCH_THE_WORLD = {
    "arguments.py", "command.py", "design_files.py", "make_folders.py", "new_file.py", "output_folder.py", "shipped_files.py",
    "terminal.py", "tidy_files.py",
}
# These read what was shipped with them: a data file of the package, or the grammar at the path they are handed.
READ_THEIR_OWN = {"diagnostic/catalogue.py", "outputs/to_json.py", "syntax/language.py", "syntax/tables.py"}
# What else a module may use of what is forbidden, and what for.
ALLOWED = {
    ("compile.py", "sys"): "long chains of facts need a deep stack",
    ("syntax/language.py", "pathlib"): "the grammar is handed over by its path",
    ("syntax/tables.py", "pathlib"): "the grammar is handed over by its path",
    ("syntax/tables.py", "pickle"): "only lark's own answer of the line before is read with it, never a file",
}
WORLD_MODULES = {"argparse", "glob", "os", "pathlib", "shutil", "signal", "sys", "tempfile"}
WORLD_CALLS = {"__import__", "breakpoint", "compile", "eval", "exec", "input", "open", "print"}
WORLD_METHODS = {
    "FileIO", "hardlink_to", "iterdir", "mkdir", "open", "read_bytes", "read_text", "rename", "rmdir", "symlink_to",
    "touch", "unlink", "write_bytes", "write_text",
}

ALBUM_WORDS = {
    "accordion", "chipboard", "concertina", "cover", "covers", "endpaper", "flange", "flap", "flaps",
    "gusset", "gussets", "hinge", "hinges", "liner", "liners", "page", "pages", "peak", "peaks", "photo", "photos",
    "pocket", "pockets", "sleeve", "sleeves", "spine", "spines", "wing", "wings",
}
# Where one of those words means something else.
OTHER_MEANINGS = {
    ("quantity/weight.py", "cover"): "the basis weight of cover paper",
    ("design/kind.py", "cover"): "the basis weight of cover paper",
    ("geometry/stock_value.py", "cover"): "the basis weight of cover paper",
    ("outputs/plain_text.py", "page"): "what plain text is printed on",
    ("outputs/booklet/leaf.py", "page"): "what the sheets of a booklet are counted in",
    ("outputs/pdf_file.py", "page"): "what cairo calls a sheet of a document",
}


def modules() -> list[str]:
    return sorted(path.relative_to(PACKAGE).as_posix() for path in PACKAGE.rglob("*.py"))


@cache
def source_of(module: str) -> str:
    return (PACKAGE / module).read_text(encoding="utf-8")


@cache
def parsed(module: str) -> ast.Module:
    return ast.parse(source_of(module), module)


def stage_of(module: str) -> str:
    return module.split("/")[0].removesuffix(".py")


def imports(module: str) -> Iterator[str]:
    """Every dotted name that a module imports, wherever in it: also inside functions and for annotations only."""
    package = ["pastedown", *module.split("/")[:-1]]
    for node in ast.walk(parsed(module)):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            start = ".".join(package[: len(package) - node.level + 1]) if node.level else ""
            name = ".".join(filter(None, (start, node.module)))
            yield from (f"{name}.{alias.name}" for alias in node.names)
        elif isinstance(node, ast.Constant) and re.fullmatch(r"pastedown(\.\w*)+", str(node.value)):
            # import_module("pastedown...") and its kin name what they load in a text.
            yield str(node.value)


def test_every_stage_is_in_the_table() -> None:
    assert {stage_of(module) for module in modules()} <= MAY_IMPORT.keys()


def test_the_table_has_no_ring() -> None:
    done: list[str] = []
    while len(done) < len(MAY_IMPORT):
        ready = [stage for stage, needs in MAY_IMPORT.items() if stage not in done and needs <= set(done)]
        assert ready, "stages import one another in a ring"
        done += ready


@pytest.mark.parametrize("module", modules())
def test_a_stage_imports_only_what_the_table_says(module: str) -> None:
    stage = stage_of(module)
    ours = {name.split(".")[1] for name in imports(module) if name.startswith("pastedown.")}
    assert ours <= MAY_IMPORT[stage] | {stage}
    if stage == "design" and module not in PARSER_IN_DESIGN:
        assert "syntax" not in ours


@pytest.mark.parametrize("module", modules())
def test_libraries_stay_where_they_belong(module: str) -> None:
    others = {name.split(".")[0] for name in imports(module)} - {"pastedown", "__future__"}
    foreign = others - sys.stdlib_module_names
    assert foreign <= LIBRARIES.keys()
    assert all(LIBRARIES[library] in (None, stage_of(module)) for library in foreign)
    assert not {name for name in others & NEVER if (module, name) not in ALLOWED}


@pytest.mark.parametrize("module", [module for module in modules() if module not in TOUCH_THE_WORLD | {"__main__.py"}])
def test_the_core_touches_no_file_and_prints_nothing(module: str) -> None:
    worldly = {name.split(".")[0] for name in imports(module)} & WORLD_MODULES
    assert not {name for name in worldly if (module, name) not in ALLOWED}
    called = [node.func for node in ast.walk(parsed(module)) if isinstance(node, ast.Call)]
    assert not {call.id for call in called if isinstance(call, ast.Name)} & WORLD_CALLS
    if module not in READ_THEIR_OWN:
        assert not {call.attr for call in called if isinstance(call, ast.Attribute)} & WORLD_METHODS


def words_of(module: str) -> Iterator[tuple[int, str]]:
    """The words in names and texts, with their lines; docstrings and comments are free to speak of albums."""
    tree = parsed(module)
    prose = {
        id(node.value) for holder in ast.walk(tree) for node in ast.iter_child_nodes(holder)
        if isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant) and isinstance(node.value.value, str)
    }
    for node in ast.walk(tree):
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and id(node) not in prose:
            yield from ((node.lineno, word) for word in re.findall(r"[A-Za-z]+", node.value))
    for token in tokenize.generate_tokens(io.StringIO(source_of(module)).readline):
        if token.type == tokenize.NAME:
            yield from ((token.start[0], word) for word in re.findall(r"[A-Z]?[a-z]+|[A-Z]+", token.string))


@pytest.mark.parametrize("module", modules())
def test_the_compiler_knows_paper_and_no_albums(module: str) -> None:
    found = {
        (line, word.lower()) for line, word in words_of(module)
        if word.lower() in ALBUM_WORDS and (module, word.lower()) not in OTHER_MEANINGS
    }
    assert not found


@pytest.mark.parametrize(("module", "word"), OTHER_MEANINGS)
def test_no_exception_is_left_over(module: str, word: str) -> None:
    assert word in {found.lower() for _, found in words_of(module)}


@pytest.mark.parametrize(("module", "name"), ALLOWED)
def test_no_allowance_is_left_over(module: str, name: str) -> None:
    assert name in {imported.split(".")[0] for imported in imports(module)}


def test_the_rules_catch_what_they_are_for(monkeypatch: pytest.MonkeyPatch) -> None:
    text = (
        '"""A hinge may be named here."""\nfrom pastedown.outputs import to_json\nimport socket\n'
        'def hinge_peak(): print("spine"); open("x")\nload("pastedown.plan.plan")\n'
    )
    monkeypatch.setattr(sys.modules[__name__], "source_of", lambda module: text)
    parsed.cache_clear()
    try:
        assert set(imports("fit/made_up.py")) == {"pastedown.outputs.to_json", "socket", "pastedown.plan.plan"}
        assert {word for _, word in words_of("fit/made_up.py")} & ALBUM_WORDS == {"hinge", "peak", "spine"}
    finally:
        parsed.cache_clear()
