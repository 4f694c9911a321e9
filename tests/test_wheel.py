"""What is in the built wheel, and that an installation from it finds the grammar and the standard library."""

import os
import shutil
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

from pastedown.shipped_files import grammar_path, stdlib_names, stdlib_source

ROOT = Path(__file__).parent.parent
PLACES = {"compiler/pastedown": "pastedown", "grammar": "pastedown/_grammar", "stdlib": "pastedown/_stdlib"}
ASK = (
    "from pastedown.shipped_files import *; print(grammar_path()); print(*stdlib_names());"
    "print(*sorted(f.name for f in grammar_path().iterdir())); print(len(stdlib_source(stdlib_names()[0])))"
)


def build(root: Path, target: str, folder: Path) -> Path:
    """Builds with what is installed, so that nothing is fetched."""
    subprocess.run(
        [sys.executable, "-m", "hatchling", "build", "-t", target, "-d", str(folder)],
        cwd=root, check=True, capture_output=True,
    )
    [built] = folder.iterdir()
    return built


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return build(ROOT, "wheel", tmp_path_factory.mktemp("wheel"))


def shipped() -> dict[str, bytes]:
    """Every file of the checkout that belongs into the wheel, by its name there."""
    return {
        f"{place}/{path.relative_to(ROOT / folder).as_posix()}": path.read_bytes()
        for folder, place in PLACES.items()
        for path in (ROOT / folder).rglob("*")
        if path.is_file() and path.suffix != ".pyc"
    }


def test_the_wheel_holds_every_shipped_file_and_nothing_else(wheel: Path) -> None:
    with zipfile.ZipFile(wheel) as held:
        names = {name for name in held.namelist() if ".dist-info/" not in name}
        assert names == shipped().keys()
        assert {name: held.read(name) for name in names} == shipped()
        tops = {name.split("/")[0] for name in held.namelist()}
    assert len(tops) == 2
    assert "pastedown" in tops


def test_the_wheel_of_the_source_archive_is_the_same(wheel: Path, tmp_path: Path) -> None:
    (tmp_path / "archive").mkdir()
    archive = build(ROOT, "sdist", tmp_path / "archive")
    shutil.unpack_archive(archive, tmp_path / "unpacked")
    [unpacked] = (tmp_path / "unpacked").iterdir()
    (tmp_path / "again").mkdir()
    assert build(unpacked, "wheel", tmp_path / "again").read_bytes() == wheel.read_bytes()


def test_an_installation_finds_its_files(wheel: Path, tmp_path: Path) -> None:
    with zipfile.ZipFile(wheel) as held:
        held.extractall(tmp_path / "installed")
    # -P and a foreign folder keep the checkout out of the way.
    asked = subprocess.run(
        [sys.executable, "-P", "-c", ASK], cwd=tmp_path, check=True, capture_output=True, text=True,
        env={**os.environ, "PYTHONPATH": str(tmp_path / "installed")},
    )
    place, names, grammar, length = asked.stdout.splitlines()
    assert Path(place) == tmp_path / "installed" / "pastedown" / "_grammar"
    assert names.split() == list(stdlib_names())
    assert set(grammar.split()) == {path.name for path in (ROOT / "grammar").iterdir()}
    assert int(length) == len(stdlib_source(stdlib_names()[0]) or "")


def test_the_checkout_is_read_in_place() -> None:
    assert grammar_path() == ROOT / "grammar"
    assert stdlib_names() == tuple(sorted(path.stem for path in (ROOT / "stdlib").glob("*.album")))
    for name in stdlib_names():
        assert stdlib_source(name) == (ROOT / "stdlib" / f"{name}.album").read_text(encoding="utf-8")


@pytest.mark.parametrize(
    "name", ["", "nothing", "../stdlib/pages", "pages.album", "/etc/hostname", "Pages", "pages\n", "a\0"]
)
def test_only_plain_names_are_looked_up(name: str) -> None:
    assert stdlib_source(name) is None
