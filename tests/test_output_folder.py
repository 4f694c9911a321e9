"""What happens on the disk: whole or not at all, and never over a maker's own work."""

import hashlib
import json
import os
from pathlib import Path

import pytest

from pastedown.output_folder import MANIFEST, FilledFolder, FolderRefused, write_folders

FILES = {"cut_list.txt": b"24 pieces\n", "templates/strip.svg": b"<svg/>"}
OTHERS = {"cut_list.txt": b"25 pieces\n"}


def write(path: Path, files: dict[str, bytes]) -> None:
    write_folders([FilledFolder(path, files)])


def everything(folder: Path) -> dict[str, bytes | str | None]:
    """All that lies in a folder: contents of files, targets of links, None for folders."""
    found: dict[str, bytes | str | None] = {}
    for path in sorted(folder.rglob("*")):
        name = path.relative_to(folder).as_posix()
        if path.is_symlink():
            found[name] = os.readlink(path)
        else:
            found[name] = path.read_bytes() if path.is_file() else None
    return found


def test_a_folder_holds_the_files_and_a_manifest_of_their_hashes(tmp_path: Path) -> None:
    write(tmp_path / "made", FILES)
    held = everything(tmp_path / "made")
    manifest = held.pop(MANIFEST)
    assert held == {**FILES, "templates": None}
    assert isinstance(manifest, bytes)
    assert json.loads(manifest)["files"] == {name: hashlib.sha256(made).hexdigest() for name, made in FILES.items()}
    assert [path.name for path in tmp_path.iterdir()] == ["made"]


def test_an_empty_folder_is_used(tmp_path: Path) -> None:
    (tmp_path / "made").mkdir()
    write(tmp_path / "made", FILES)
    assert (tmp_path / "made" / "cut_list.txt").read_bytes() == FILES["cut_list.txt"]


def test_missing_folders_around_it_are_made(tmp_path: Path) -> None:
    write(tmp_path / "albums" / "summer" / "made", FILES)
    assert (tmp_path / "albums" / "summer" / "made" / "templates" / "strip.svg").is_file()


def test_a_folder_of_ours_is_replaced_whole(tmp_path: Path) -> None:
    write(tmp_path / "made", FILES)
    write(tmp_path / "made", OTHERS)
    held = everything(tmp_path / "made")
    assert held.keys() == {MANIFEST, "cut_list.txt"}
    assert held["cut_list.txt"] == OTHERS["cut_list.txt"]
    assert [path.name for path in tmp_path.iterdir()] == ["made"]


def test_a_changed_file_is_never_overwritten(tmp_path: Path) -> None:
    write(tmp_path / "made", FILES)
    (tmp_path / "made" / "templates" / "strip.svg").write_bytes(b"<svg>mine</svg>")
    before = everything(tmp_path)
    with pytest.raises(FolderRefused, match=r"templates/strip\.svg"):
        write(tmp_path / "made", OTHERS)
    assert everything(tmp_path) == before


@pytest.mark.parametrize("added", ["notes.txt", "templates/mine.svg", "sketches/", "templates/new/"])
def test_something_added_is_never_removed(tmp_path: Path, added: str) -> None:
    write(tmp_path / "made", FILES)
    if added.endswith("/"):
        (tmp_path / "made" / added).mkdir()
    else:
        (tmp_path / "made" / added).write_text("my own")
    before = everything(tmp_path)
    with pytest.raises(FolderRefused, match=added.rstrip("/")):
        write(tmp_path / "made", OTHERS)
    assert everything(tmp_path) == before


def test_a_missing_file_is_named(tmp_path: Path) -> None:
    write(tmp_path / "made", FILES)
    (tmp_path / "made" / "cut_list.txt").unlink()
    with pytest.raises(FolderRefused, match=r"missing now: cut_list\.txt"):
        write(tmp_path / "made", OTHERS)


def test_a_file_swapped_for_a_link_is_not_followed(tmp_path: Path) -> None:
    (tmp_path / "mine.txt").write_bytes(FILES["cut_list.txt"])
    write(tmp_path / "made", FILES)
    (tmp_path / "made" / "cut_list.txt").unlink()
    (tmp_path / "made" / "cut_list.txt").symlink_to(tmp_path / "mine.txt")
    with pytest.raises(FolderRefused, match=r"cut_list\.txt"):
        write(tmp_path / "made", OTHERS)
    assert (tmp_path / "mine.txt").read_bytes() == FILES["cut_list.txt"]


def test_a_folder_that_is_not_ours_is_refused(tmp_path: Path) -> None:
    (tmp_path / "photos").mkdir()
    (tmp_path / "photos" / "harbour.jpg").write_bytes(b"photo")
    before = everything(tmp_path)
    with pytest.raises(FolderRefused, match="did not make"):
        write(tmp_path / "photos", FILES)
    assert everything(tmp_path) == before


@pytest.mark.parametrize(
    "manifest",
    ["", "[]", "{", '{"files": []}', '{"files": {"photo.jpg": 1}}', "[" * 100_000, '{"files": {"../../photo": "0"}}'],
)
def test_a_made_up_manifest_opens_no_door(tmp_path: Path, manifest: str) -> None:
    (tmp_path / "photos").mkdir()
    (tmp_path / "photos" / MANIFEST).write_text(manifest)
    (tmp_path / "photos" / "photo.jpg").write_bytes(b"photo")
    before = everything(tmp_path)
    with pytest.raises(FolderRefused):
        write(tmp_path / "photos", FILES)
    assert everything(tmp_path) == before


def test_a_pipe_as_manifest_is_not_waited_for(tmp_path: Path) -> None:
    (tmp_path / "made").mkdir()
    os.mkfifo(tmp_path / "made" / MANIFEST)
    with pytest.raises(FolderRefused):
        write(tmp_path / "made", FILES)


@pytest.mark.parametrize("slash", ["", "/"])
def test_a_link_as_target_is_refused(tmp_path: Path, slash: str) -> None:
    (tmp_path / "elsewhere").mkdir()
    (tmp_path / "made").symlink_to(tmp_path / "elsewhere", target_is_directory=True)
    with pytest.raises(FolderRefused, match="link"):
        write(Path(f"{tmp_path / 'made'}{slash}"), FILES)
    assert not any((tmp_path / "elsewhere").iterdir())


def test_a_dangling_link_as_target_is_refused(tmp_path: Path) -> None:
    (tmp_path / "made").symlink_to(tmp_path / "nowhere")
    with pytest.raises(FolderRefused, match="link"):
        write(tmp_path / "made", FILES)
    assert not (tmp_path / "nowhere").exists()


def test_a_file_as_target_is_refused(tmp_path: Path) -> None:
    (tmp_path / "made").write_text("mine")
    with pytest.raises(FolderRefused, match="not a folder"):
        write(tmp_path / "made", FILES)
    assert (tmp_path / "made").read_text() == "mine"


@pytest.mark.parametrize("target", [".", "..", "../made"])
def test_the_folder_one_stands_in_is_refused(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, target: str) -> None:
    (tmp_path / "made" / "made").mkdir(parents=True)
    monkeypatch.chdir(tmp_path / "made" if target != ".." else tmp_path / "made" / "made")
    with pytest.raises(FolderRefused, match="stand in"):
        write(Path(target), FILES)


@pytest.mark.parametrize(
    "name",
    ["", "/etc/passwd", "../up.txt", "a/../../up.txt", "a//b", "C:up.txt", "a\\b", "two words.txt", ".hidden", "a.",
     "-rf", "line\nend", "a" * 121, "ü.txt", "a/.", MANIFEST],
)
def test_an_unsafe_file_name_writes_nothing(tmp_path: Path, name: str) -> None:
    with pytest.raises(ValueError, match="unsafe"):
        write(tmp_path / "made", {"fine.txt": b"", name: b""})
    assert not any(tmp_path.iterdir())


def test_names_that_differ_only_in_capitals_are_refused(tmp_path: Path) -> None:
    with pytest.raises(ValueError, match="two outputs"):
        write(tmp_path / "made", {"Strip.svg": b"", "strip.svg": b""})
    assert not any(tmp_path.iterdir())


@pytest.mark.parametrize("trouble", [OSError(28, "No space left on device"), KeyboardInterrupt()])
def test_a_write_that_fails_leaves_nothing_new(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, trouble: BaseException
) -> None:
    write(tmp_path / "made", FILES)
    before = everything(tmp_path)
    real = Path.write_bytes

    def fail_later(path: Path, contents: bytes) -> int:
        if path.name == "strip.svg":
            raise trouble
        return real(path, contents)

    monkeypatch.setattr(Path, "write_bytes", fail_later)
    with pytest.raises(type(trouble)):
        write_folders([FilledFolder(tmp_path / "made", FILES), FilledFolder(tmp_path / "new" / "made", FILES)])
    assert everything(tmp_path) == before


def test_the_old_folder_comes_back_if_the_new_one_cannot_take_its_place(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    write(tmp_path / "made", FILES)
    before = everything(tmp_path)
    real = os.rename

    def fail_to_swap(source: Path, target: Path) -> None:
        if source.name == "made" and source.parent.name.startswith(".pastedown-"):
            raise OSError(5, "Input/output error")
        real(source, target)

    monkeypatch.setattr(os, "rename", fail_to_swap)
    with pytest.raises(OSError, match="Input/output"):
        write(tmp_path / "made", OTHERS)
    assert everything(tmp_path) == before


@pytest.mark.parametrize("what", ["nothing", "ours"])
def test_what_comes_into_the_folder_while_the_new_one_is_written_is_not_lost(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, what: str
) -> None:
    if what == "ours":
        write(tmp_path / "made", FILES)
    real = Path.write_bytes

    def come_in_between(path: Path, contents: bytes) -> int:
        (tmp_path / "made").mkdir(exist_ok=True)
        real(tmp_path / "made" / "mine.txt", b"mine")
        return real(path, contents)

    monkeypatch.setattr(Path, "write_bytes", come_in_between)
    with pytest.raises(FolderRefused, match=r"made .*(mine\.txt|did not make)"):
        write(tmp_path / "made", OTHERS)
    held = everything(tmp_path / "made")
    assert held.pop("mine.txt") == b"mine"
    assert (set(held) == {MANIFEST, "cut_list.txt", "templates", "templates/strip.svg"}) == (what == "ours")
    assert [path.name for path in tmp_path.iterdir()] == ["made"]


def test_a_folder_already_in_place_goes_back_if_a_later_one_fails(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    write(tmp_path / "first", FILES)
    before = everything(tmp_path)
    real = os.rename

    def fail_the_last(source: Path, target: Path) -> None:
        if target.name == "third":
            raise OSError(5, "Input/output error")
        real(source, target)

    monkeypatch.setattr(os, "rename", fail_the_last)
    with pytest.raises(OSError, match="Input/output"):
        write_folders([FilledFolder(tmp_path / name, OTHERS) for name in ("first", "second", "third")])
    assert everything(tmp_path) == before


def test_the_top_of_the_disk_is_named_when_it_is_refused() -> None:
    with pytest.raises(FolderRefused, match=r"^/ is the folder"):
        write(Path("/"), FILES)


def test_one_refused_folder_holds_all_back(tmp_path: Path) -> None:
    (tmp_path / "second").mkdir()
    (tmp_path / "second" / "mine.txt").write_text("mine")
    with pytest.raises(FolderRefused):
        write_folders([FilledFolder(tmp_path / "first", FILES), FilledFolder(tmp_path / "second", FILES)])
    assert [path.name for path in tmp_path.iterdir()] == ["second"]


def test_control_characters_in_a_maker_s_file_name_are_written_out(tmp_path: Path) -> None:
    write(tmp_path / "made", FILES)
    (tmp_path / "made" / "odd\x1b[2Jname").write_text("mine")
    with pytest.raises(FolderRefused) as refused:
        write(tmp_path / "made", FILES)
    assert str(refused.value).isprintable()
