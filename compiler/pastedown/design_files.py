"""Reads the maker's own files: the design, and the files beside it that it uses.

A design may come from a stranger, so nothing is opened before it is known to be an ordinary file in the right place,
and no more is read than a design may hold.
"""

import codecs
import os
import re
import stat
from pathlib import Path

from attrs import field, frozen

from pastedown.diagnostic.visible_text import visible

# A design of 10,000 lines takes about half of this.
LARGEST_FILE = 2_000_000
_DRIVE = re.compile(r"[A-Za-z]:")


class FileRefused(Exception):
    """A file that cannot be read as a design. The text is a sentence that names the file and says why."""


@frozen
class NearbyFiles:
    """Reads the files that a design uses, from its own folder and below, and remembers why one was not read.

    `folder` is the folder of the design, with links followed. `troubles` maps the name as written to the sentence.
    """

    folder: Path
    troubles: dict[str, str] = field(factory=dict, init=False)

    def __call__(self, name: str) -> str | None:
        """The text of the file called `name` in the design, or None when it is not to be had."""
        try:
            return _read_inside(self.folder, name)
        except FileRefused as refused:
            self.troubles[name] = str(refused)
            return None


def read_design(file: str) -> tuple[str, NearbyFiles]:
    """The text of the design in `file`, and the reader for what it uses. Raises FileRefused."""
    path = Path(file)
    text = _read_text(path, path.name or file)
    return text, NearbyFiles(Path(os.path.realpath(path.parent)))


def _read_inside(folder: Path, name: str) -> str:
    refused = _why_not_beside(name)
    if refused:
        raise FileRefused(f"{visible(name)} was not read: {refused}.")
    path = Path(os.path.realpath(folder / name))
    if not path.is_relative_to(folder):
        raise FileRefused(f"{visible(name)} was not read: it is a link that leads out of the design's folder.")
    return _read_text(path, name)


def _why_not_beside(name: str) -> str:
    """Why a name cannot be one of a file in the design's folder or below; empty when it can."""
    parts = re.split(r"[/\\]", name)
    if not all(letter.isprintable() for letter in name) or not name.strip():
        return "that is not a file name"
    if name[0] in "/\\~" or _DRIVE.match(name):
        return "a design uses files of its own folder only, never one named from the top of the disk"
    if ".." in parts:
        return "a design uses files of its own folder only, never one above it"
    if "\\" in name or ":" in name:
        return 'folders are separated by "/", and a name has neither "\\" nor ":"'
    return ""


def _read_text(path: Path, name: str) -> str:
    try:
        held = _read_limited(path, name)
    except (OSError, ValueError) as trouble:
        reason = trouble.strerror if isinstance(trouble, OSError) and trouble.strerror else "that is not a file name"
        raise FileRefused(f"{visible(name)} could not be read: {reason}.") from trouble
    return decoded(held, name)


def decoded(held: bytes, name: str) -> str:
    """The text that the bytes of a file stand for. Raises FileRefused if there are too many, or they are no UTF-8."""
    if len(held) > LARGEST_FILE:
        raise FileRefused(f"{visible(name)} is larger than {LARGEST_FILE // 1_000_000} MB, too large for a design.")
    try:
        return held.removeprefix(codecs.BOM_UTF8).decode("utf-8")
    except UnicodeDecodeError as trouble:
        bom = len(codecs.BOM_UTF8) if held.startswith(codecs.BOM_UTF8) else 0
        raise FileRefused(
            f"{visible(name)} is not plain text in UTF-8: byte {bom + trouble.start + 1} is no part of a letter. "
            "Save it again as UTF-8 text."
        ) from trouble


def _read_limited(path: Path, name: str) -> bytes:
    """The bytes of an ordinary file, at most one more than a design may hold. Devices and pipes are found out before
    anything waits for them."""
    _demand_ordinary(os.stat(path).st_mode, name)
    descriptor = os.open(path, os.O_RDONLY | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0))
    with open(descriptor, "rb") as stream:
        _demand_ordinary(os.fstat(descriptor).st_mode, name)
        return stream.read(LARGEST_FILE + 1)


def _demand_ordinary(mode: int, name: str) -> None:
    if stat.S_ISDIR(mode):
        raise FileRefused(f"{visible(name)} is a folder. Name the design's file, which ends in .album.")
    if not stat.S_ISREG(mode):
        raise FileRefused(f"{visible(name)} is not an ordinary file, so it was not opened.")
