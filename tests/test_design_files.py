"""What may be read for a design, and that nothing else is opened."""

import os
from pathlib import Path

import pytest

from pastedown.design_files import LARGEST_FILE, FileRefused, read_design


def design(folder: Path, contents: bytes = b"edition = 1\n") -> str:
    folder.mkdir(exist_ok=True)
    (folder / "walk.album").write_bytes(contents)
    return str(folder / "walk.album")


def refusal(file: str) -> str:
    with pytest.raises(FileRefused) as refused:
        read_design(file)
    return str(refused.value)


def test_a_design_is_read_as_it_is(tmp_path: Path) -> None:
    text, _ = read_design(design(tmp_path, "height = 8½ in\r\n".encode()))
    assert text == "height = 8½ in\r\n"


def test_a_byte_order_mark_is_no_part_of_the_text(tmp_path: Path) -> None:
    assert read_design(design(tmp_path, b"\xef\xbb\xbfedition = 1"))[0] == "edition = 1"


@pytest.mark.parametrize(("contents", "byte"), [(b"a\xffb", 2), (b"\xef\xbb\xbfab\xc3", 6), (b"\xff\xfea\0", 1)])
def test_what_is_not_utf_8_is_told_with_its_place(tmp_path: Path, contents: bytes, byte: int) -> None:
    assert f"byte {byte} " in refusal(design(tmp_path, contents))


def test_the_largest_file_is_read_and_no_larger_one(tmp_path: Path) -> None:
    text, _ = read_design(design(tmp_path, b"#" * LARGEST_FILE))
    assert len(text) == LARGEST_FILE
    assert "too large" in refusal(design(tmp_path, b"#" * (LARGEST_FILE + 1)))


@pytest.mark.parametrize("file", ["", "nothing.album", "walk\0.album", "line\nend.album", "a" * 5000])
def test_a_missing_file_is_one_printable_sentence(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, file: str
) -> None:
    monkeypatch.chdir(tmp_path)
    assert refusal(file).isprintable()


def test_a_folder_is_not_read(tmp_path: Path) -> None:
    assert "is a folder" in refusal(str(tmp_path))


def test_pipes_and_devices_are_not_opened(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe.album")
    assert "not an ordinary file" in refusal(str(tmp_path / "pipe.album"))
    assert "not an ordinary file" in refusal("/dev/zero")


def test_an_unreadable_file_is_told(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    file = design(tmp_path)

    def forbid(*_: object) -> int:
        raise PermissionError(13, "Permission denied", file)

    monkeypatch.setattr(os, "open", forbid)
    assert refusal(file) == "walk.album could not be read: Permission denied."


def test_files_beside_the_design_and_below_are_found(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    _, reader = read_design(design(tmp_path / "walk"))
    (tmp_path / "walk" / "house.album").write_text("a = 1 in")
    (tmp_path / "walk" / "ours").mkdir()
    (tmp_path / "walk" / "ours" / "tags.album").write_text("b = 2 in")
    monkeypatch.chdir(tmp_path)
    assert reader("house.album") == "a = 1 in"
    assert reader("ours/tags.album") == "b = 2 in"
    assert reader("nothing.album") is None
    assert list(reader.troubles) == ["nothing.album"]


OUTSIDE = [
    "../secret.album", "ours/../../secret.album", "..", "/etc/hostname", "\\\\server\\share", "C:secret.album",
    "c:/secret.album", "..\\secret.album", "~/secret.album", "", " ", "a\0b", "a\nb", "a\u202eb", "file:///etc/hostname",
]


@pytest.mark.parametrize("name", OUTSIDE)
def test_a_name_that_leads_elsewhere_opens_nothing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, name: str
) -> None:
    _, reader = read_design(design(tmp_path / "walk"))
    (tmp_path / "secret.album").write_text("secret")
    (tmp_path / "walk" / "ours").mkdir()

    def no_opening(*_: object) -> int:
        raise AssertionError("something was opened")

    monkeypatch.setattr(os, "open", no_opening)
    assert reader(name) is None
    assert reader.troubles[name].isprintable()


def test_links_are_followed_inside_the_folder_and_not_out_of_it(tmp_path: Path) -> None:
    _, reader = read_design(design(tmp_path / "walk"))
    (tmp_path / "secret.album").write_text("secret")
    (tmp_path / "walk" / "house.album").write_text("a = 1 in")
    (tmp_path / "walk" / "inside.album").symlink_to("house.album")
    (tmp_path / "walk" / "outside.album").symlink_to(tmp_path / "secret.album")
    (tmp_path / "walk" / "up").symlink_to(tmp_path, target_is_directory=True)
    assert reader("inside.album") == "a = 1 in"
    assert reader("outside.album") is None
    assert reader("up/secret.album") is None
    assert "link that leads out" in reader.troubles["up/secret.album"]


def test_what_a_design_uses_is_held_to_the_same_limits(tmp_path: Path) -> None:
    _, reader = read_design(design(tmp_path))
    (tmp_path / "large.album").write_bytes(b"#" * (LARGEST_FILE + 1))
    (tmp_path / "latin.album").write_bytes(b"caf\xe9")
    (tmp_path / "folder.album").mkdir()
    os.mkfifo(tmp_path / "pipe.album")
    for name in ("large.album", "latin.album", "folder.album", "pipe.album"):
        assert reader(name) is None
    assert len(reader.troubles) == 4
