"""Writes one new file: whole, or not at all, and never in the place of another."""

from __future__ import annotations

import os
import tempfile
from pathlib import Path

from pastedown.design_files import FileRefused
from pastedown.diagnostic.visible_text import visible


def write_new_file(name: str, text: str) -> None:
    """A new file of that name. Raises FileRefused where there is one already or no folder for it, OSError where the
    disk fails; then nothing is left behind."""
    target = Path(name)
    if os.path.lexists(target):
        raise FileRefused(f"{visible(name)} is there already, so it was left as it is. Give a new name.")
    if not target.parent.is_dir():
        raise FileRefused(f"There is no folder {visible(str(target.parent))} to write {visible(target.name)} into.")
    descriptor, draft = tempfile.mkstemp(prefix=".pastedown-", dir=target.parent)
    try:
        with open(descriptor, "wb") as stream:
            stream.write(text.encode())
        os.chmod(draft, 0o666 & ~_mask())
        try:
            # Unlike a renaming, a link never takes the place of what somebody else has put there meanwhile.
            os.link(draft, target)
        except FileExistsError:
            raise FileRefused(f"{visible(name)} is there already, so it was left as it is. Give a new name.") from None
    finally:
        Path(draft).unlink(missing_ok=True)


def _mask() -> int:
    mask = os.umask(0)
    os.umask(mask)
    return mask
