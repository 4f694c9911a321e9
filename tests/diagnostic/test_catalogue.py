"""Every diagnostic is explained, and every explanation is true: its example is told off, and mended it is not."""

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from pastedown import check
from pastedown.compile import compile_design, slips, why
from pastedown.diagnostic import Diagnostic, Severity
from pastedown.diagnostic.catalogue import CATALOGUE, explain
from pastedown.diagnostic.draw import ROOM
from pastedown.diagnostic.entry import Entry, Example

COMPILER = Path(__file__).resolve().parents[2] / "compiler"
# What makes a diagnostic, or a fault that becomes one, with its id as the first thing said.
MAKERS = ("error", "warning", "note", "LiteralError")
COMMAND = re.compile(
    r"# pastedown (?:make \w+\.album --design (?P<design>\w+)|why \w+\.album (?P<measurement>[\w.\[\]]+)"
    r'|slip \w+\.album "(?P<slip>[^"]+)")\n'
)
# Ids that no recipe can bring about, because the grammar lets no such words through.
OUT_OF_REACH = {"unreadable-quantity"}
KEBAB = re.compile(r"[a-z]+(-[a-z]+)*")

ENTRIES = [pytest.param(entry, id=id) for id, entry in CATALOGUE.items()]


def told(example: Example) -> tuple[Diagnostic, ...]:
    """What is told of an example. A command that has more to say stands in a comment above the recipe."""
    recipe, read_source = example.recipe(), example.files().get
    command = COMMAND.match(recipe)
    if command is None:
        return check(recipe, read_source)
    compiled = compile_design("recipe.album", recipe, read_source, design=command["design"])
    if command["slip"] is not None:
        return *compiled.diagnostics, *slips(compiled.designs[0], [command["slip"]])[1]
    if command["measurement"] is None:
        return compiled.diagnostics
    return *compiled.diagnostics, *why(compiled.designs[0], command["measurement"])[1]


@pytest.mark.parametrize("entry", ENTRIES)
def test_the_example_is_told_off_for_this_alone(entry: Entry) -> None:
    assert {diagnostic.id for diagnostic in told(entry.failing)} == {entry.id}


@pytest.mark.parametrize("entry", ENTRIES)
def test_mended_there_is_nothing_to_tell(entry: Entry) -> None:
    assert [diagnostic for diagnostic in told(entry.mended) if diagnostic.severity is not Severity.NOTE] == []
    assert entry.id not in {diagnostic.id for diagnostic in told(entry.mended)}


@pytest.mark.parametrize("entry", ENTRIES)
def test_mending_changes_little(entry: Entry) -> None:
    """What stands in both must be most of the recipe, or the example does not show what to mend."""
    failing, mended = entry.failing.text.split("\n"), entry.mended.text.split("\n")
    assert entry.failing != entry.mended
    assert len(set(failing) - set(mended)) <= 6


def trees() -> Iterator[ast.AST]:
    for path in sorted(COMPILER.rglob("*.py")):
        yield ast.parse(path.read_text(encoding="utf-8"))


def strings(node: ast.AST) -> set[str]:
    return {one.value for one in ast.walk(node) if isinstance(one, ast.Constant) and isinstance(one.value, str)}


def ids_made(tree: ast.AST) -> set[str]:
    found: set[str] = set()
    for call in ast.walk(tree):
        if isinstance(call, ast.Call) and call.args:
            name = call.func.id if isinstance(call.func, ast.Name) else getattr(call.func, "attr", "")
            if name in MAKERS:
                found |= strings(call.args[0])
    return found


def test_every_id_the_compiler_uses_has_an_entry() -> None:
    used = set().union(*map(ids_made, trees()))
    assert len(used) > 50, "the search finds the calls"
    assert used - set(CATALOGUE) == OUT_OF_REACH


def test_every_entry_is_of_an_id_the_compiler_uses() -> None:
    said = set().union(*map(strings, trees()))
    assert set(CATALOGUE) - said == set()


def test_every_error_and_warning_has_a_way_out() -> None:
    calls = [call for tree in trees() for call in ast.walk(tree) if isinstance(call, ast.Call)]
    told = [call for call in calls if isinstance(call.func, ast.Name) and call.func.id in ("error", "warning")]
    assert len(told) > 100, "the search finds the calls"
    bare = [ast.unparse(call) for call in told if "way_out" not in {keyword.arg for keyword in call.keywords}]
    assert bare == []


def test_ids_are_kebab_case_and_sorted() -> None:
    assert list(CATALOGUE) == sorted(CATALOGUE)
    assert all(KEBAB.fullmatch(id) for id in CATALOGUE)


def test_explain_says_everything() -> None:
    entry = CATALOGUE["against-grain"]
    text = explain("against-grain")
    assert text is not None
    lines = text.split("\n")
    assert lines[:2] == [entry.id, entry.title]
    headings = [line for line in lines if line.endswith(":") and not line.startswith(" ")]
    assert headings == [
        "What it looks for:", "Why it matters at the table:", "Example:", "Mended:", "Source of the limit:",
    ]  # fmt: skip
    for line in entry.failing.text.splitlines():
        assert f"    {line}".rstrip() in lines
    flowing = " ".join(text.split())
    assert entry.what in flowing and entry.why in flowing and entry.source in flowing


def test_explain_shows_the_files_beside() -> None:
    text = explain("import-cycle")
    assert text is not None and text.count("    --- house.album\n    edition = 1\n") == 2


@pytest.mark.parametrize("id", CATALOGUE)
def test_explanations_fit_a_terminal(id: str) -> None:
    text = explain(id)
    assert text is not None
    assert all(len(line) <= ROOM + 20 for line in text.split("\n"))
    assert text == text.strip()


def test_nothing_is_known_of_other_ids() -> None:
    assert explain("no-such-id") is None
