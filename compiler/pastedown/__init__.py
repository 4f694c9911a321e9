"""Pastedown: a language for handmade albums, and its compiler."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable

    from pastedown.diagnostic import Diagnostic

__all__ = ["check"]


def check(text: str, read_source: Callable[[str], str | None] | None = None) -> tuple[Diagnostic, ...]:
    """Judge a recipe and give everything there is to tell of it. `read_source` reads the files it uses; without it
    there are none. Never raises for a fault of the recipe's."""
    from pastedown.compile import compile_design

    return compile_design("recipe.album", text, read_source or (lambda _: None)).diagnostics
