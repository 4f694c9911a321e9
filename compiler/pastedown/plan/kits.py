"""Kits: so many copies of a design, what is bought and cut for all of them, and what goes into each.

Takes the plan of one, gives the plan of all: pieces and amounts so many times. What comes off a roll goes into a kit in
one piece, unless no roll is long enough; spares are rounded up over all kits, one part at a time.
"""

from collections.abc import Iterator
from math import ceil

from attrs import evolve, frozen

from pastedown.cutting.budget import USUAL_EFFORT
from pastedown.plan.costs import costs
from pastedown.plan.lying import cut_from
from pastedown.plan.material import Material, PlanningEffort
from pastedown.plan.plan import CutPiece, Plan, PlanText
from pastedown.plan.rolls import first_fit, least_by_count
from pastedown.plan.sheets import sheet_plan
from pastedown.plan.to_buy import to_buy
from pastedown.quantity.dimension import MASS, NUMBER
from pastedown.quantity.quantity import NO_LENGTH, Length, Quantity

MOST_KITS = 10_000
# What many kits cost is worth as much work as a plan ever gets.
USUAL_FOR_KITS = USUAL_EFFORT
# Of joins that want nothing to hold them.
_NO_STOCK = ("", "itself", "nothing")


@frozen
class KitItem:
    """Something that goes into each kit: pieces of an entry of the cut list (`id` is not empty), or what comes off a
    roll or is bought by the amount. `in_one` is the length that is cut off a roll in one piece for each kit, spare
    length included; None where it is not a length, or no roll is long enough for it. What is `bought_whole`
    may be `trimmed`: smaller than it is bought."""

    id: str
    name: str
    count: int
    stock: str
    height: Length | None = None
    width: Length | None = None
    bought_whole: bool = False
    amount: Quantity | None = None
    in_one: Length | None = None
    trimmed: bool = False


@frozen
class Kits:
    """`one` is the plan of a kit, `all` that of all `copies`, `items` what goes into each. `costs` are sums of what is
    bought for all kits, one a currency; `unpriced` and `uncounted` are in none, as `Costs` says. `mass` is that
    of all that can be weighed in one kit, `unweighed` the stocks that cannot. `uncovered` says what no kit holds,
    and why."""

    copies: int
    one: Plan
    all: Plan
    items: tuple[KitItem, ...]
    costs: tuple[Quantity, ...]
    unpriced: tuple[str, ...]
    uncounted: tuple[str, ...]
    cost_is_floor: bool
    mass: Quantity | None
    unweighed: tuple[str, ...]
    uncovered: tuple[PlanText, ...]
    cautions: tuple[str, ...]


def kits(plan: Plan, copies: int, effort: PlanningEffort) -> Kits:
    """Raises ValueError for fewer than one or more than `MOST_KITS` copies."""
    if not 1 <= copies <= MOST_KITS:
        raise ValueError(f"{copies} kits are not from 1 to {MOST_KITS}")
    pieces = tuple(evolve(piece, count=piece.count * copies) for piece in plan.pieces)
    materials = tuple(evolve(_for_all(material, copies), effort=effort) for material in plan.materials)
    title = f"{plan.title}, {copies} {'kit' if copies == 1 else 'kits'}"
    everything = evolve(plan, title=title, pieces=pieces, materials=materials)
    needs = [(material, to_buy(material, pieces)) for material in materials]
    paid = costs(needs)
    masses = [material.mass for material in plan.materials if material.mass and material.mass.dimension == MASS]
    return Kits(
        copies=copies,
        one=plan,
        all=everything,
        items=tuple(_items(plan)),
        costs=paid.sums,
        unpriced=paid.unpriced,
        uncounted=paid.uncounted,
        cost_is_floor=paid.is_floor,
        mass=sum(masses[1:], masses[0]) if masses else None,
        unweighed=tuple(each.stock for each in plan.materials if each.mass is None or each.mass.dimension != MASS),
        uncovered=tuple(_uncovered(plan, everything)),
        cautions=tuple(dict.fromkeys(each.caution for each in plan.materials if each.caution)),
    )


def spool(material: Material) -> Length | None:
    """The length that one kit takes off a roll in one, spare length included; None for what is on no roll, and where
    no roll is long enough."""
    if not material.strips:
        return None
    length = sum(material.strips, start=NO_LENGTH) * (1 + material.spare)
    whole = material.roll_length
    return length if whole is None or length <= whole else None


def _for_all(material: Material, copies: int) -> Material:
    several = evolve(
        material,
        pieces=material.pieces * copies,
        amount=material.amount * copies,
        mass=None if material.mass is None else material.mass * copies,
        sheets_at_least=_sheets_at_least(material, copies),
        use=(),
        zones=material.zones * copies,
    )
    if not material.strips:
        return several
    length, whole = spool(material), material.roll_length
    if length is not None:
        floor = material.least_length
        return evolve(
            several,
            strips=(length,) * copies,
            amount=length * copies,
            spare=material.spare * 0,
            least_length=None if floor is None else floor * (1 + material.spare) * copies,
            least_rolls=material.least_rolls * copies,
        )
    # Joined rolls: each kit takes whole loads of a roll, and the spare of it. Loads of other strips might be fewer.
    assert whole is not None
    by_count = least_by_count(material.strips, whole)
    floor = material.least_length
    return evolve(
        several,
        strips=tuple(first_fit(material.strips, whole)) * copies,
        least_length=several.amount if floor is None else floor * copies,
        least_rolls=(by_count if floor is None else material.least_rolls) * copies,
    )


def _sheets_at_least(material: Material, copies: int) -> int | None:
    if material.sheets_at_least is None or material.sheet is None:
        return None
    sheet = material.sheet[0] * material.sheet[1]
    return ceil((material.amount * copies / sheet).value) if material.amount.dimension == sheet.dimension else None


def _items(plan: Plan) -> Iterator[KitItem]:
    """Nothing twice: where a kit gets its length off the roll in one, the pieces that are cut from it are named there.
    """
    for material in plan.materials:
        own = cut_from(material, plan.pieces)
        if not own or (material.strips and (spool(material) is not None or material.zones)):
            name = f"{material.kind} for {_listed(own)}" if own else material.kind
            yield KitItem("", name, 1, material.stock, amount=material.amount, in_one=spool(material))
            continue
        for piece in own:
            whole = material.sheet is None and not material.strips and material.amount.dimension == NUMBER
            sides = {piece.height, piece.width}
            trimmed = whole and sides != {side for side in material.size if isinstance(side, Quantity)}
            yield KitItem(
                piece.id, piece.name, piece.count, piece.stock, piece.height, piece.width, whole, trimmed=trimmed
            )


def _listed(pieces: list[CutPiece]) -> str:
    return ", ".join(f"{piece.count} x {piece.id}" for piece in pieces)


def _uncovered(plan: Plan, everything: Plan) -> Iterator[PlanText]:
    for material in everything.materials:
        own = cut_from(material, everything.pieces)
        cutting = sheet_plan(material, everything.pieces)
        by_id = {piece.id: piece for piece in own}
        if cutting is not None:
            missing = [(each.index, each.piece.count) for each in cutting.misfits]
            for index, count in (*missing, *cutting.short):
                called = _called(by_id[cutting.problem.pieces[index].label])
                yield (f"{called}: no sheet of {material.stock} holds {count} of them.",)
        elif to_buy(material, everything.pieces) is None:
            holds = "how long a roll is" if material.strips else "how much of it a sheet, a roll or a pack holds"
            yield (f"{material.stock}: all kits take ", material.amount, f", and nothing says {holds}.")
    for material in plan.materials:
        if material.strips and spool(material) is None:
            length = sum(material.strips, start=NO_LENGTH) * (1 + material.spare)
            assert material.roll_length is not None
            yield (
                f"{material.stock}: a kit takes ", length, " and a roll is ", material.roll_length,
                " long, so that no kit has it in one piece.",
            )  # fmt: skip
    glued = sorted({bond.adhesive for bond in plan.bonds if bond.adhesive not in _NO_STOCK and not bond.stock})
    for adhesive in glued:
        yield (f"{adhesive}: the design names no stock for it, so no kit holds any.",)


def _called(piece: CutPiece) -> str:
    return piece.id if piece.name == piece.id else f"{piece.id} ({piece.name})"
