"""The margins of a design: by how much each requirement on what is made holds, what fails first standing first."""

from fractions import Fraction

from pastedown.geometry.model import Model, Requirement, Safer
from pastedown.geometry.natural_order import natural_key
from pastedown.plan.plan import Margin, SaferNumber
from pastedown.quantity.quantity import Quantity
from pastedown.quantity.spread import Spread


def margins(model: Model) -> tuple[Margin, ...]:
    """One entry for each kind of requirement that compares what hands make, the lowest score first."""
    alike: dict[object, list[tuple[Requirement, Spread]]] = {}
    for requirement in model.requirements:
        if requirement.margin is not None:
            alike.setdefault(requirement.likeness, []).append((requirement, requirement.margin))
    ranked = sorted(alike.values(), key=lambda group: (group[0][1].order, natural_key(group[0][0].path)))
    return tuple(_margin(*group[0], tuple(requirement.path for requirement, _ in group)) for group in ranked)


def _margin(requirement: Requirement, margin: Spread, paths: tuple[str, ...]) -> Margin:
    score = margin.score
    assert score is not None
    return Margin(
        path=requirement.path,
        alike=paths,
        words=f"{requirement.left_words} {requirement.operator} {requirement.right_words}",
        strict=requirement.strict,
        nominal=margin.nominal,
        worst=margin.worst,
        # To a millionth of the model's units, so that what is written of it is exact.
        rss=Quantity(Fraction(round(margin.rss.value * 1_000_000), 1_000_000), margin.rss.dimension),
        score=score,
        one_in=margin.one_in,
        errors=margin.terms,
        change=_safer(requirement.change),
        because=requirement.because,
    )


def _safer(change: Safer | None) -> SaferNumber | None:
    return None if change is None else SaferNumber(change.path, change.before, change.value, change.score)
