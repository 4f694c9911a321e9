"""Short ways to link a recipe in the tests of this stage."""

from collections.abc import Callable

from pastedown.design.files import Shelf
from pastedown.design.from_syntax import link
from pastedown.design.recipe import Recipe
from pastedown.diagnostic import Diagnostic
from pastedown.shipped_files import grammar_path, stdlib_names, stdlib_source


def linked(
    text: str, read_source: Callable[[str], str | None] = lambda _: None, name: str = "recipe.album"
) -> tuple[Recipe, tuple[Diagnostic, ...]]:
    """The recipe and what linking tells of it. `text` goes without its edition."""
    shelf = Shelf(str(grammar_path() / "album.lark"), read_source, stdlib_source, stdlib_names())
    return link(shelf, name, f"edition = 1\n{text}")


def ids(text: str, read_source: Callable[[str], str | None] = lambda _: None) -> list[str]:
    """The ids of what linking tells."""
    return [each.id for each in linked(text, read_source)[1]]
