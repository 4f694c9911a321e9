"""The kind of a value, told from the words alone before anything is worked out."""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING

from attrs import frozen

from pastedown.design.piece_names import lines_of, panels_of
from pastedown.design.setting_names import HAND_FACTS
from pastedown.design.stock import WORDS_OF_STOCK
from pastedown.quantity.dimension import ANGLE, AREA, GRAMMAGE, LENGTH, MONEY, NUMBER, Dimension
from pastedown.tree.statement import Piece, Place

if TYPE_CHECKING:
    from pastedown.design.view import View


@frozen
class Amount:
    """A quantity of one dimension."""

    dimension: Dimension


@frozen
class Plain:
    """A kind that is told by its name alone: "text", "yes_no", "sheet", "stock", "line" ..."""

    name: str


@frozen
class ChoiceOf:
    """One of a few words."""

    words: tuple[str, ...]


@frozen(eq=False)
class Made:
    """A part, and what can be read of it. `described` ones are not made yet: nothing can be read of them."""

    view: View
    described: bool = False


@frozen(eq=False)
class PieceOf:
    """A piece by its declaration, in the view of the part it belongs to. `panels` and `folds` are those of its runs by
    name, and whether they have an index."""

    statement: Piece
    view: View

    @cached_property
    def panels(self) -> dict[str, bool]:
        return panels_of(self.statement)

    @cached_property
    def folds(self) -> dict[str, bool]:
        return lines_of(self.statement)


@frozen(eq=False)
class PanelOf:
    """A panel, or one side of it, of a piece."""

    piece: PieceOf
    is_face: bool = False


@frozen(eq=False)
class FaceOf:
    """One side of a whole piece."""

    piece: PieceOf


@frozen(eq=False)
class PlaceOf:
    """A place by its declaration."""

    statement: Place
    view: View


@frozen(eq=False)
class ListOfKind:
    """A list, and the kind of what is in it."""

    of: Kind


@frozen(eq=False)
class Several:
    """A family: reading it without an index means all of them."""

    of: Kind


Kind = Amount | Plain | ChoiceOf | Made | PieceOf | PanelOf | FaceOf | PlaceOf | ListOfKind | Several

# What cannot be told, or was told about already: never a reason for a message.
UNKNOWN = Plain("unknown")
TEXT, YES_NO, SHEET, STOCK, RULER, LINE, TREATMENT, POSE, NOTHING, JOIN = (
    Plain(name)
    for name in ("text", "yes_no", "sheet", "stock", "ruler", "line", "treatment", "pose", "nothing", "join")
)
PLAIN_NUMBER, A_LENGTH, AN_AREA = Amount(NUMBER), Amount(LENGTH), Amount(AREA)

KIND_OF_ALBUM_FACT: dict[str, Kind] = {
    "title": TEXT,
    "about": TEXT,
    "ruler": RULER,
    "moving_adhesive": STOCK,
    "static_adhesive": STOCK,
    **dict.fromkeys(HAND_FACTS, A_LENGTH),
}

STOCK_KIND_OF_FIELD: dict[str, Kind] = {
    **dict.fromkeys(("roll_width", "roll_length", "height", "width", "caliper", "sheet_long", "sheet_short"), A_LENGTH),
    "weight": Amount(GRAMMAGE),
    "price": Amount(MONEY),
    "pack": PLAIN_NUMBER,
    "sheet": SHEET,
    "name": TEXT,
    "caution": TEXT,
    **{field: ChoiceOf(words) for field, words in WORDS_OF_STOCK.items()},
    "trim": A_LENGTH,
    **dict.fromkeys(("cut_at_once", "spare", "on_hand"), PLAIN_NUMBER),
    **dict.fromkeys(("offcuts", "also"), UNKNOWN),
    "coverage": AN_AREA,
}


def one_of(kind: Kind) -> Kind:
    """What a family holds; any other kind as it is."""
    return kind.of if isinstance(kind, Several) else kind


def in_words(kind: Kind) -> str:
    """ "a length", "a part", "a stock" ... for messages."""
    match kind:
        case Amount(dimension=dimension):
            return dimension.words
        case ChoiceOf(words=words):
            return f"one of {', '.join(words)}"
        case Made(described=described):
            return "a component that is not made yet" if described else "a part"
        case PieceOf():
            return "a piece"
        case PanelOf(is_face=is_face):
            return "a side of the paper" if is_face else "a panel"
        case FaceOf():
            return "a side of the paper"
        case PlaceOf():
            return "a place"
        case ListOfKind():
            return "a list"
        case Several(of=inner):
            return in_words(inner)
        case Plain(name=name):
            return _IN_WORDS.get(name, f"a {name}")


def like(left: Kind, right: Kind) -> bool:
    """Whether two values may stand for one another, as the outcomes of a choice or the items of a list do."""
    if UNKNOWN in (left, right) or NOTHING in (left, right):
        return True
    if isinstance(left, Amount) and isinstance(right, Amount):
        return agree(left.dimension, right.dimension)
    return left == right if isinstance(left, Plain) and isinstance(right, Plain) else type(left) is type(right)


def example_of(kind: Kind) -> str:
    """How a value of a kind is written, for the way out of a message; nothing where no example would help."""
    match kind:
        case Amount(dimension=dimension):
            bare = Dimension(dimension.length, dimension.mass, dimension.angle, dimension.money)
            return _EXAMPLES.get(bare, "")
        case Plain(name=name):
            return _PLAIN_EXAMPLES.get(name, "")
        case ChoiceOf(words=words):
            return f"Write one of {', '.join(words)}."
        case _:
            return ""


_IN_WORDS = {
    "yes_no": "yes or no",
    "sheet": "a sheet size",
    "nothing": "nothing",
    "treatment": "a cut such as mitre(1/4 in)",
}
_PLAIN_EXAMPLES = {
    "text": 'Write it in quotes: "...".',
    "yes_no": "Write yes or no.",
    "sheet": "Write 12 in x 12 in.",
    "stock": "Name a stock, such as the kraft of kraft = stock(kind: card, sheet: 12 in x 12 in).",
    "line": "Name an edge, a middle or a fold, as in sheet.head or sheet.mid_width.",
    "ruler": "Write inches to 1/16, or millimetres to 1.",
    "join": "Name the join that places it, as in skew(mount[1]).",
    "pose": "Name a pose: it is declared as in pose made_up { ... }.",
    "treatment": "Write mitre, round, notch, thumb_notch, taper, window or slit; other facts stand outside the piece.",
}
_EXAMPLES = {
    NUMBER: "Write a number without a unit, as in 4.",
    LENGTH: "Write a length with its unit, as in 1/2 in or 12 mm.",
    ANGLE: "Write an angle, as in 45 deg.",
    GRAMMAGE: "Write a grammage, as in 216 gsm, or a basis weight with its basic size, as in 80 lb cover.",
    MONEY: "Write an amount with the three letters of its currency, as in 12.50 EUR.",
}


def agree(left: Dimension, right: Dimension) -> bool:
    """Whether two dimensions may meet; money of a currency that is not known yet meets any money."""
    if left == right:
        return True
    same_but_currency = (left.length, left.mass, left.angle, left.money) == (
        right.length,
        right.mass,
        right.angle,
        right.money,
    )
    return same_but_currency and not (left.currency and right.currency)
