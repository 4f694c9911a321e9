"""What the ledger of thickness tells."""

from attrs import frozen

from pastedown.quantity.quantity import Length, Quantity

# Plain words and exact values; each output writes the values in the ruler's units.
PlanText = tuple[str | Quantity, ...]


@frozen
class ThickPlace:
    """A rectangle of a part or a stack, from its outermost left edge and its outermost tail, how thick it is there, and
    what lies there, each with its thickness: pieces, and joins for their adhesive."""

    left: Length
    right: Length
    tail: Length
    head: Length
    thickness: Length
    things: tuple[tuple[str, Length], ...]


@frozen
class ThickPartTold:
    """Parts that are alike in thickness, made up: `blank` at their thickest place by themselves, `loaded` with all that
    is joined onto them or lies loose in them. `places` are those of the loaded ones, the thickest first. `unplaced`
    lies loose in them and is not counted, `loose` counts over the whole of each. `square` stands square to the rest,
    and is not counted: parts that are joined on, or the part itself where some of it does. `zones` are all places of
    the loaded ones, fit to be drawn; none where there are more than could be made out."""

    paths: tuple[str, ...]
    blank: Length
    loaded: Length
    places: tuple[ThickPlace, ...]
    unplaced: tuple[str, ...]
    square: tuple[str, ...] = ()
    loose: tuple[str, ...] = ()
    zones: tuple[ThickPlace, ...] = ()


@frozen
class Shut:
    """The design in its pose `pose`: all that lies between the two pieces `one` and `other`, which stand `least` to
    `apart` from one another. `blank` is how thick it is at its thickest place without what was put onto or into things
    that move, `loaded` with it, and `filled` at the thickest place where something was put, None where nothing is.
    `left_over` is what is left of the least room (less than nought where it is too little), `each` what that is for
    one of `count` things. `loose` counts over the whole of its part. `unplaced` is not counted, and would add
    `unplaced_thickness` if all of it lay in one place; nor are the stocks `without_caliper`."""

    pose: str
    one: str
    other: str
    least: Length
    apart: Length
    blank: Length
    loaded: Length
    filled: Length | None
    left_over: Length
    count: int
    each: Length
    places: tuple[ThickPlace, ...]
    loose: tuple[str, ...]
    unplaced: tuple[str, ...]
    unplaced_thickness: Length
    without_caliper: tuple[str, ...]


@frozen
class StackBulk:
    """Things whose thickness together the design asks for, at `path` and in `words`; `count` like things were named
    first."""

    path: str
    words: str
    count: int
    blank: bool
    thickness: Length
    places: tuple[ThickPlace, ...]


@frozen
class RoomLeft:
    """A requirement that hangs on a thickness: what is `taken` of the `room`, what is left over (less than nought where
    it is too little) and what that is for `each` of so many things. `ways` are what it takes to make it hold, cheapest
    first; `meant` is the maker's reason where it need not."""

    path: str
    taken: Length
    room: Length
    left_over: Length
    count: int
    each: Length
    holds: bool
    because: PlanText
    meant: PlanText
    ways: tuple[PlanText, ...]


@frozen
class Bulk:
    """The ledger of thickness."""

    parts: tuple[ThickPartTold, ...] = ()
    stacks: tuple[StackBulk, ...] = ()
    rooms: tuple[RoomLeft, ...] = ()
    shut: tuple[Shut, ...] = ()
