"""Every command and code block of the documents runs or parses, and every link leads somewhere."""

import json
import os
import re
import shlex
import shutil
import subprocess
import sys
import tomllib
from collections.abc import Iterator
from pathlib import Path

import pytest
from attrs import frozen

from pastedown.compile import compile_design
from pastedown.diagnostic import Severity

ROOT = Path(__file__).parent.parent
DOCUMENTS = sorted(
    [path for path in (ROOT / "README.md", ROOT / "DEVELOPERS.md") if path.exists()]
    + list((ROOT / "compiler" / "pastedown").glob("*/README.md"))
)
KINDS = {"sh", "album", "json", "toml", "python", "text"}
PASTEDOWN = ".venv/bin/pastedown"
# Commands that the continuous integration runs as they stand; here they only have to be there.
RUN_BY_CI = {"first command", "test command"}
# Commands for developers that change nothing and are run by no other test; what they start has to exist.
STARTS = {".venv/bin/python": None, ".venv/bin/ruff": None, ".venv/bin/mypy": None, ".ci/run": ROOT / ".ci" / "run"}

# A block, and the comment right above it that says what is to become of it.
BLOCK = re.compile(r"(?:^<!-- (?P<mark>[^\n]*) -->\n)?^```(?P<kind>\w*)\n(?P<text>.*?)^```$", re.MULTILINE | re.DOTALL)
LINK = re.compile(r"\]\((?P<to>[^)\s]+)\)")


@frozen
class Block:
    """A code block: in which document and line, of which kind, with which mark above it."""

    document: str
    line: int
    kind: str
    mark: str
    text: str

    def __str__(self) -> str:
        return f"{self.document}:{self.line}"


def blocks() -> Iterator[Block]:
    for path in DOCUMENTS:
        text = path.read_text(encoding="utf-8")
        for found in BLOCK.finditer(text):
            line = text.count("\n", 0, found.start()) + 1
            yield Block(
                path.relative_to(ROOT).as_posix(), line, found["kind"], found["mark"] or "", found["text"]
            )


def of_kind(*kinds: str) -> list[Block]:
    return [block for block in blocks() if block.kind in kinds]


def commands() -> list[tuple[Block, str]]:
    """The commands of all shell blocks but those that are run by the continuous integration, one a line."""
    return [
        (block, line)
        for block in of_kind("sh") if block.mark not in RUN_BY_CI
        for line in block.text.replace("\\\n", "").splitlines() if line.strip() and not line.startswith("#")
    ]


def test_every_block_is_of_a_kind_that_is_tested() -> None:
    assert [str(block) for block in blocks() if block.kind not in KINDS] == []


def test_the_readme_has_the_commands_that_the_continuous_integration_runs() -> None:
    marks = [block.mark for block in of_kind("sh") if block.document == "README.md" and block.mark]
    assert sorted(marks) == sorted(RUN_BY_CI)
    script = (ROOT / ".ci" / "run").read_text(encoding="utf-8")
    assert all(f'readme_commands "{mark}"' in script for mark in RUN_BY_CI)


@pytest.mark.parametrize("block", of_kind("sh"), ids=str)
def test_shell_blocks_are_whole_commands(block: Block) -> None:
    subprocess.run(["bash", "-n", "-c", block.text], check=True, capture_output=True)


@pytest.fixture(scope="module")
def checkout(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A place where commands may write, with the files that they name."""
    folder = tmp_path_factory.mktemp("checkout")
    shutil.copytree(ROOT / "examples", folder / "examples")
    return folder


@pytest.mark.parametrize(("block", "command"), commands(), ids=str)
def test_commands_run(checkout: Path, block: Block, command: str) -> None:
    program, *arguments = shlex.split(command, comments=True)
    if program == PASTEDOWN:
        done = subprocess.run(
            [sys.executable, "-m", "pastedown", *arguments], cwd=checkout, capture_output=True, text=True,
            env={**os.environ, "PYTHONPATH": str(ROOT / "compiler")},
        )
        assert done.returncode == 0, done.stderr
        return
    assert program in STARTS, f"{block}: nothing tests the command {program}"
    script = STARTS[program]
    assert script is None or script.is_file()
    for argument in arguments:
        assert "/" not in argument or (ROOT / argument).exists(), f"{block}: {argument} is not there"


@pytest.mark.parametrize("block", of_kind("album"), ids=str)
def test_album_blocks_compile_unless_they_are_said_to_be_refused(block: Block) -> None:
    compiled = compile_design("block.album", block.text, lambda name: None)
    faults = [one.sentence for one in compiled.diagnostics if one.severity is Severity.ERROR]
    if block.mark == "refused":
        assert faults
    else:
        assert not faults


def test_other_blocks_parse() -> None:
    for block in of_kind("json"):
        json.loads(block.text)
    for block in of_kind("toml"):
        tomllib.loads(block.text)
    for block in of_kind("python"):
        compile(block.text, str(block), "exec")


@pytest.mark.parametrize("document", DOCUMENTS, ids=lambda path: path.relative_to(ROOT).as_posix())
def test_links_lead_somewhere(document: Path) -> None:
    text = BLOCK.sub("", document.read_text(encoding="utf-8"))
    for link in LINK.finditer(text):
        target = link["to"].split("#")[0]
        assert ":" not in target, f"{target} leaves the project"
        assert (document.parent / target).exists(), f"{target} is not there"


READMES = sorted((ROOT / "compiler" / "pastedown").glob("*/README.md"))


@pytest.mark.parametrize("readme", READMES, ids=lambda path: path.parent.name)
def test_a_folder_s_readme_names_only_files_that_are_there(readme: Path) -> None:
    named = re.findall(r"`(\w+\.py|\w+/)`", readme.read_text(encoding="utf-8"))
    places = (readme.parent, readme.parent.parent, ROOT)
    assert [name for name in named if not any((place / name).exists() for place in places)] == []


def test_every_stage_has_a_readme_of_one_screen() -> None:
    stages = [path.parent for path in (ROOT / "compiler" / "pastedown").glob("*/__init__.py")]
    lengths = {stage.name: len((stage / "README.md").read_text(encoding="utf-8").splitlines()) for stage in stages}
    assert {name: length for name, length in lengths.items() if length > 40} == {}
