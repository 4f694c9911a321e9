"""Lays the maker's own files out anew: each whole, or not at all."""

from __future__ import annotations

import os
import stat
import sys
import tempfile
from contextlib import suppress
from pathlib import Path

from attrs import frozen

from pastedown import shipped_files
from pastedown.design_files import LARGEST_FILE, FileRefused, decoded, read_design
from pastedown.diagnostic import Diagnostic
from pastedown.diagnostic.visible_text import visible
from pastedown.source import SourceText
from pastedown.syntax.tidy import tidy

STANDARD_INPUT = "-"
_ITS_NAME = "standard input"


@frozen
class TidyFile:
    """A file as it was and in its usual layout. With `errors` it could not be read, and both are the same."""

    file: str
    before: str
    after: str
    errors: tuple[Diagnostic, ...]

    @property
    def shown(self) -> str:
        """The file as the maker named it."""
        return _ITS_NAME if self.file == STANDARD_INPUT else self.file

    @property
    def changes(self) -> bool:
        return self.before != self.after

    def put_in_place(self) -> None:
        """Replaces the file by its usual layout, under its name and with its permissions; a link stays a link.

        Raises FileRefused, with the file left as it is, if it is write-protected or was changed since it was read;
        OSError when the disk fails, with the file left as it is too.
        """
        target = Path(os.path.realpath(self.file))
        named = visible(target.name)
        if not os.access(target, os.W_OK):
            raise FileRefused(f"{named} is write-protected, so it was left as it is.")
        held = target.stat()
        descriptor, draft = tempfile.mkstemp(prefix=".pastedown-", dir=target.parent)
        try:
            with open(descriptor, "wb") as stream:
                stream.write(self.after.encode())
            _give_permissions(draft, held)
            if read_design(self.file)[0] != self.before:
                raise FileRefused(f"{named} was changed by another program meanwhile, so it was left as it is.")
            os.replace(draft, target)
        except BaseException:
            Path(draft).unlink(missing_ok=True)
            raise


def tidy_file(file: str) -> TidyFile:
    """What `file` becomes; nothing is written. Raises FileRefused for a file that is no ordinary text or too large."""
    return _tidied(file, os.path.basename(file), read_design(file)[0])


def tidy_standard_input() -> TidyFile:
    """The same for what arrives on the input stream."""
    held = sys.stdin.buffer.read(LARGEST_FILE + 1) if sys.stdin is not None else b""
    return _tidied(STANDARD_INPUT, _ITS_NAME, decoded(held, _ITS_NAME))


def _tidied(file: str, name: str, text: str) -> TidyFile:
    made = tidy(SourceText(name, text), str(shipped_files.grammar_path()))
    if len(made.text.encode()) > LARGEST_FILE:
        raise FileRefused(f"{visible(name)} would be too large for a design, so it was left as it is.")
    return TidyFile(file, text, made.text, made.errors)


def _give_permissions(draft: str, held: os.stat_result) -> None:
    """The same owner where that is allowed, and the same permissions."""
    made = os.stat(draft)
    if hasattr(os, "chown") and (made.st_uid, made.st_gid) != (held.st_uid, held.st_gid):
        # Only the administrator may give files away; the text is the maker's all the same.
        with suppress(PermissionError):
            os.chown(draft, held.st_uid, held.st_gid)
    os.chmod(draft, stat.S_IMODE(held.st_mode))
