"""Everything that the pictures of one plan have in common: the pieces, their shapes, and when what is done."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from attrs import field, frozen

from pastedown.outputs.pictures.field_shape import FieldShapes
from pastedown.outputs.pictures.frame import AT_THE_ORIGIN, TURNED_OVER, Frame
from pastedown.outputs.pictures.latest import kept_for_the_latest
from pastedown.outputs.pictures.plate import Plate, plates_of
from pastedown.outputs.pictures.posed import Posed, State, pose
from pastedown.outputs.pictures.progress import Progress, progress_of
from pastedown.plan.plan import CutPiece, Plan
from pastedown.plan.space import Contact, SpatialPiece

# A picture shows so many plates at most; of more nothing could be made out.
MOST_PLATES = 400
# So many poses are kept; a choice.
_MOST_KNOWN = 40


@frozen(eq=False)
class Workshop:
    """The pieces of a plan at hand. `tapes` are the names of the tapes by the joints for which they are laid."""

    plan: Plan
    shapes: FieldShapes
    progress: Progress
    pieces: Mapping[str, SpatialPiece]
    cut: Mapping[str, CutPiece]
    contacts: Mapping[str, Contact]
    tapes: Mapping[str, str]
    _known: dict[object, Posed] = field(factory=dict, init=False, repr=False)

    def posed(self, state: State, turned_over: Iterable[str] = ()) -> Posed:
        """The pieces in a state; those that stand on the named ones lie turned over. A state is often asked for again
        before long: it is worked out once then."""
        laid: dict[str, Frame] = dict.fromkeys(turned_over, TURNED_OVER)
        key = (tuple(sorted(state.made.items())), tuple(sorted(state.angles.items())), state.thicker, frozenset(laid))
        if key not in self._known:
            if len(self._known) >= _MOST_KNOWN:
                del self._known[next(iter(self._known))]
            self._known[key] = pose(self.plan.space, state, laid)
        return self._known[key]

    def plates(self, posed: Posed, paths: Iterable[str]) -> list[Plate]:
        return plates_of(posed, self.plan.space, self.shapes, paths)

    def name(self, path: str) -> str:
        """What a maker calls this one piece, whatever is cut like it."""
        return self.pieces[path].name

    def piece(self, path: str) -> CutPiece:
        return self.cut[self.pieces[path].handle]


@kept_for_the_latest
def workshop_of(plan: Plan) -> Workshop:
    """Everything for the pictures of a plan."""
    return Workshop(
        plan=plan,
        shapes=FieldShapes(plan.pieces),
        progress=progress_of(plan.space, plan.steps),
        pieces={piece.path: piece for piece in plan.space.pieces},
        cut={piece.id: piece for piece in plan.pieces},
        contacts={contact.path: contact for contact in plan.space.contacts},
        tapes={bond.path: bond.stock for bond in plan.bonds if bond.adhesive == "tape" and bond.stock},
    )


def laid(turned_over: bool) -> Frame:
    """How a piece lies on the table that stands on nothing."""
    return TURNED_OVER if turned_over else AT_THE_ORIGIN
