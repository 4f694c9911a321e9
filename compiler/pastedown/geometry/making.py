"""Where in the maker's own file something of a library was made."""

from attrs import field, frozen

from pastedown.quantity.quantity import Quantity
from pastedown.source import Span


@frozen
class Given:
    """A value that a part was made with: `left` says that nobody gave it and the component's own holds. `stated` is the
    fact of the maker's own file that it is, by its path, where it goes by another name there; `line` is where."""

    name: str
    value: Quantity
    left: bool
    stated: str = ""
    line: int = 0


@frozen
class Making:
    """Where the maker's own file makes what something belongs to: the part's path, its name there, and the given values
    that the something hangs on, in the order in which they are met."""

    path: str
    given: tuple[Given, ...] = ()
    span: Span = field(eq=False, repr=False, kw_only=True)
