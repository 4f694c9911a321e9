"""What the standard library offers to those who have not asked for it: a name that is nowhere stated may only lack its
`use`."""

from attrs import define

from pastedown.design.files import Shelf, names_shipped_in
from pastedown.diagnostic.nearest_name import nearest_name


@define
class Offered:
    """The names that the files of the standard library state. They are read when the first name is looked for."""

    shelf: Shelf | None = None
    _homes: dict[str, str] | None = None

    def use_of(self, name: str) -> str:
        """How to use exactly this name, as a sentence; empty if no file of the library states it."""
        home = self._names().get(name)
        return f"Write `use {name} from {home}` at the top of the file." if home else ""

    def use_of_nearest(self, name: str) -> str:
        """The same for the name that was most likely meant; empty if none is near."""
        nearest = nearest_name(name, self._names())
        return self.use_of(nearest).replace("Write", f"If `{nearest}` is meant, write", 1) if nearest else ""

    def _names(self) -> dict[str, str]:
        if self._homes is None:
            self._homes = {}
            if self.shelf is not None:
                for home in self.shelf.shipped_names:
                    for name in names_shipped_in(self.shelf, home):
                        self._homes.setdefault(name, home)
        return self._homes
