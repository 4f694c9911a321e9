"""How large the zones are on which two faces stick: what the amount of tape or glue is told from."""

from attrs import frozen

from pastedown.geometry.model import Join
from pastedown.geometry.piece import FlatPiece
from pastedown.quantity.quantity import Length, Quantity


@frozen
class Zone:
    """The largest rectangle that two panels could share with their heads pointing alike. Both sides are lengths."""

    height: Length
    width: Length

    @property
    def long_side(self) -> Length:
        return max(self.height, self.width)

    @property
    def area(self) -> Quantity:
        return self.height * self.width


def bonded_zones(join: Join, pieces: dict[str, FlatPiece]) -> tuple[Zone, ...]:
    """One zone for each pair of faces that meet; a face without a partner has none.

    How far the two faces really overlap hangs on how they are aligned, so this is an estimate from their sizes alone.
    """
    zones = []
    for (one_path, one_panel, _), (other_path, other_panel, _) in zip(join.what.faces, join.to.faces, strict=False):
        one, other = _extent(pieces[one_path], one_panel), _extent(pieces[other_path], other_panel)
        zones.append(Zone(min(one.height, other.height), min(one.width, other.width)))
    return tuple(zones)


def _extent(piece: FlatPiece, panel_name: str) -> Zone:
    """A panel reaches right across its piece; without a panel the whole piece is meant."""
    for run in piece.runs:
        for panel in run.panels:
            if panel.name == panel_name:
                return Zone(piece.height, panel.size) if run.axis == "width" else Zone(panel.size, piece.width)
    return Zone(piece.height, piece.width)
