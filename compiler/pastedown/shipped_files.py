"""Finds the grammar and the standard library, wherever the package was installed.

In a wheel they lie inside the package as `_grammar` and `_stdlib`; in a checkout and in an editable install they are
the folders `grammar` and `stdlib` beside `compiler`.
"""

import re
from pathlib import Path

# Not importlib.resources.files: importing it takes longer than finding every file.
_PACKAGE = Path(__file__).resolve().parent
_STDLIB_NAME = re.compile(r"[a-z][a-z0-9_]*")


def _shipped_folder(name: str) -> Path:
    for folder in (_PACKAGE / f"_{name}", _PACKAGE.parent.parent / name):
        if folder.is_dir():
            return folder
    raise FileNotFoundError(f"This installation of pastedown lacks its {name} folder; install it again.")


def grammar_path() -> Path:
    """The folder of the `.lark` files. Raises FileNotFoundError when the installation is incomplete."""
    return _shipped_folder("grammar")


def stdlib_names() -> tuple[str, ...]:
    """The names that `use ... from NAME` finds in the standard library, sorted."""
    return tuple(sorted(file.stem for file in _shipped_folder("stdlib").glob("*.album")))


def stdlib_source(name: str) -> str | None:
    """The text of the standard library file `name`, or None if there is none of that name.

    Only plain names are looked up, so no name leads out of the standard library.
    """
    if not _STDLIB_NAME.fullmatch(name):
        return None
    file = _shipped_folder("stdlib") / f"{name}.album"
    return file.read_text(encoding="utf-8") if file.is_file() else None
