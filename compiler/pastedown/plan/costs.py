"""What all that is bought costs in whole packs, and what is not in the sum for which reason."""

from collections.abc import Iterable

from attrs import frozen

from pastedown.plan.material import Material
from pastedown.plan.to_buy import ToBuy
from pastedown.quantity.quantity import Quantity


@frozen
class Costs:
    """`sums` has one amount a currency, in the order of their codes; with `is_floor` some of it is counted by an area
    alone. `unpriced` names what has no price, each size on offer by itself; `uncounted` what has one, though nothing
    says how much a pack of it holds or how far it goes."""

    sums: tuple[Quantity, ...]
    is_floor: bool
    unpriced: tuple[str, ...]
    uncounted: tuple[str, ...]


def costs(needs: Iterable[tuple[Material, ToBuy | None]]) -> Costs:
    """Of every material with what is bought of it."""
    sums: dict[str, Quantity] = {}
    floor = False
    unpriced: list[str] = []
    uncounted: list[str] = []
    for material, need in needs:
        if need is None:
            (unpriced if material.price is None else uncounted).append(material.stock)
            continue
        for name, cost in _parts(material, need):
            if cost is None:
                unpriced.append(name)
                continue
            floor = floor or need.is_floor
            currency = cost.dimension.currency
            sums[currency] = sums[currency] + cost if currency in sums else cost
    in_order = tuple(sums[currency] for currency in sorted(sums))
    return Costs(in_order, floor, tuple(dict.fromkeys(unpriced)), tuple(uncounted))


def _parts(material: Material, need: ToBuy) -> list[tuple[str, Quantity | None]]:
    if need.sizes:
        return [(each.sheet, each.cost) for each in need.sizes]
    return [(material.stock, None if material.price is None else material.price * need.packs)]
