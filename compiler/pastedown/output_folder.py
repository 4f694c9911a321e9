"""Writes the outputs of a design into a folder of their own: whole, or not at all.

Takes file names and bytes, gives folders on disk. Afterwards a folder holds exactly those files and a manifest of their
hashes, by which the next run knows the folder as its own and sees whether the maker has put work into it since.
"""

import hashlib
import json
import os
import re
import shutil
import stat
import tempfile
from collections.abc import Iterable, Iterator, Mapping, Sequence
from pathlib import Path

from attrs import frozen

from pastedown.diagnostic.visible_text import visible

MANIFEST = ".pastedown.json"
_MANIFEST_LIMIT = 4_000_000
_NAME_PART = re.compile(r"[A-Za-z0-9_][A-Za-z0-9_-]*(\.[A-Za-z0-9_-]+)*")
_LONGEST_PART = 120
# In the folder in which a target is prepared: the new one, and the old one while it is being replaced.
_MADE, _BEFORE = "made", "before"


class FolderRefused(Exception):
    """The folder is not one that may be written to; nothing was touched. The text says why and what to do."""


@frozen
class FilledFolder:
    """A folder to be written: `files` maps file names, with `/` for folders inside it, to contents."""

    path: Path
    files: Mapping[str, bytes]


def write_folders(folders: Sequence[FilledFolder]) -> None:
    """Writes all the folders whole, or none of them.

    Raises FolderRefused if one of them is not empty and not ours and unchanged; OSError when the disk fails; ValueError
    for an unsafe file name. Whatever is raised, the folders that were there before are left as they were.
    """
    targets = [FilledFolder(_settled(asked.path), asked.files) for asked in folders]
    for target in targets:
        _check_names(target.files)
        may_write(target.path)
    wanting = _wanting_folders(target.path.parent for target in targets)
    staging: list[Path] = []
    try:
        for folder in wanting:
            folder.mkdir(exist_ok=True)  # another run may have made it meanwhile
        for target in targets:
            staging.append(_stage(target))
        _put_in_place([(workshop, target.path) for workshop, target in zip(staging, targets, strict=True)])
    finally:
        for workshop in staging:
            # What could not be put back stays where it can be found.
            if not os.path.lexists(workshop / _BEFORE):
                shutil.rmtree(workshop, ignore_errors=True)
        for folder in reversed(wanting):
            _remove_if_empty(folder)


def may_write(path: Path) -> None:
    """Raises FolderRefused unless `path` is free, an empty folder, or a folder of ours that nobody has changed."""
    path = _settled(path)
    if path == Path.cwd() or path in Path.cwd().parents:
        named = visible(path.name or os.sep)
        raise FolderRefused(f"{named} is the folder you stand in. Go one folder up, or choose another with --to.")
    if os.path.lexists(path):
        _check_ours(path, visible(path.name))


def _check_ours(path: Path, named: str) -> None:
    """Raises FolderRefused for anything but an empty folder and a folder of ours that nobody has changed."""
    kind = path.lstat().st_mode
    if stat.S_ISLNK(kind):
        raise FolderRefused(f"{named} is a link to another place. Name a folder instead.")
    if not stat.S_ISDIR(kind):
        raise FolderRefused(f"{named} is there already and is not a folder. Choose another name with --to.")
    if any(path.iterdir()):
        _check_unchanged(path, named)


def _check_unchanged(path: Path, named: str) -> None:
    recorded = _read_manifest(path)
    if recorded is None:
        raise FolderRefused(
            f"{named} holds files that pastedown did not make. Choose another folder with --to, or an empty one."
        )
    found = dict(_contents(path))
    found.pop(MANIFEST, None)
    changed = sorted(name for name, made in recorded.items() if name in found and not _has_hash(found[name], made))
    missing = sorted(recorded.keys() - found.keys())
    added = sorted(found.keys() - recorded.keys())
    faults = [
        f"{what} {_some(names)}"
        for what, names in (("you changed", changed), ("you added", added), ("missing now:", missing))
        if names
    ]
    if faults:
        raise FolderRefused(
            f"{named} is not as pastedown left it: {'; '.join(faults)}. Nothing was touched. Move your work "
            "elsewhere and remove the folder, or choose another one with --to."
        )


def _some(names: Sequence[str]) -> str:
    first = ", ".join(visible(name) for name in names[:5])
    return first if len(names) <= 5 else f"{first} and {len(names) - 5} more"


def _read_manifest(path: Path) -> dict[str, str] | None:
    file = path / MANIFEST
    try:
        if not stat.S_ISREG(file.lstat().st_mode) or file.lstat().st_size > _MANIFEST_LIMIT:
            return None
        held = json.loads(file.read_bytes())
    except (FileNotFoundError, ValueError, RecursionError):
        return None
    listed = held.get("files") if isinstance(held, dict) else None
    if not isinstance(listed, dict) or not all(isinstance(made, str) for made in listed.values()):
        return None
    return listed


def _contents(folder: Path) -> Iterator[tuple[str, Path]]:
    """Everything below `folder` that is not a folder with something in it, by name; links are not followed."""
    waiting = [("", os.fspath(folder))]
    while waiting:
        inside, at = waiting.pop()
        for entry in os.scandir(at):
            if entry.is_dir(follow_symlinks=False) and any(os.scandir(entry.path)):
                waiting.append((f"{inside}{entry.name}/", entry.path))
            else:
                yield inside + entry.name, Path(entry.path)


def _has_hash(file: Path, recorded: str) -> bool:
    if not stat.S_ISREG(file.lstat().st_mode):
        return False
    with file.open("rb") as stream:
        return hashlib.file_digest(stream, "sha256").hexdigest() == recorded


def _check_names(files: Iterable[str]) -> None:
    seen: set[str] = set()
    for name in sorted(files):
        parts = name.split("/")
        if any(len(part) > _LONGEST_PART or not _NAME_PART.fullmatch(part) for part in parts):
            raise ValueError(f"an output asked for the unsafe file name {name!r}")
        # Some file systems take "Strip.svg" and "strip.svg" for the same file.
        if name.casefold() in seen:
            raise ValueError(f"two outputs asked for the file name {name!r}")
        seen.add(name.casefold())


def _settled(path: Path) -> Path:
    """The path with its parent's links followed, but not its own."""
    if path.name in ("", ".."):
        return Path(os.path.realpath(path))
    return Path(os.path.realpath(path.parent)) / path.name


def _wanting_folders(folders: Iterable[Path]) -> list[Path]:
    """The folders that have to be made first, the outermost first."""
    wanting = {outer for folder in folders for outer in (folder, *folder.parents) if not outer.exists()}
    return sorted(wanting, key=lambda folder: len(folder.parts))


def _remove_if_empty(folder: Path) -> None:
    if folder.is_dir() and not any(folder.iterdir()):
        folder.rmdir()


def _stage(target: FilledFolder) -> Path:
    """Writes everything into a fresh folder beside the target, so that putting it in place is one renaming."""
    workshop = Path(tempfile.mkdtemp(prefix=".pastedown-", dir=target.path.parent))
    try:
        made = workshop / _MADE
        made.mkdir()
        for name, contents in target.files.items():
            file = made / name
            file.parent.mkdir(parents=True, exist_ok=True)
            file.write_bytes(contents)
        (made / MANIFEST).write_bytes(_manifest(target.files))
    except BaseException:
        shutil.rmtree(workshop, ignore_errors=True)
        raise
    return workshop


def _manifest(files: Mapping[str, bytes]) -> bytes:
    hashes = {name: hashlib.sha256(files[name]).hexdigest() for name in sorted(files)}
    return (json.dumps({"made_by": "pastedown", "files": hashes}, indent=1) + "\n").encode()


def _put_in_place(swaps: Sequence[tuple[Path, Path]]) -> None:
    """Swaps every workshop's new folder in for its target; if one of them cannot be, all the old ones are put back.

    A target is looked at once more when it has been moved aside: work that came into it while the new one was being
    written is not lost. What was moved aside is removed only when all are in place.
    """
    try:
        for workshop, target in swaps:
            if os.path.lexists(target):
                os.rename(target, workshop / _BEFORE)
                _check_ours(workshop / _BEFORE, visible(target.name))
            os.rename(workshop / _MADE, target)
    except BaseException:
        for workshop, target in swaps:
            _put_back(workshop, target)
        raise
    for workshop, _ in swaps:
        shutil.rmtree(workshop / _BEFORE, ignore_errors=True)


def _put_back(workshop: Path, target: Path) -> None:
    made, before = workshop / _MADE, workshop / _BEFORE
    if not made.exists() and target.exists():
        os.rename(target, made)
    if os.path.lexists(before) and not os.path.lexists(target):
        os.rename(before, target)
