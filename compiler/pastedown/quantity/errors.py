"""How the errors of the hand enter an exact amount: an affine form, kept as the sums it was worked out by.

What is cut, scored, folded or placed by hand lies a little off where it should. Each such error is a term of its own,
with a name and a half-width: it lies between minus and plus so much. An amount that is worked out from made lengths
remembers which terms went into it, with what factor and sign, so that an error that enters twice counts twice and one
that cancels does not count at all. Terms are written out only where somebody asks for them: adding two amounts costs
the same however many terms they have.
"""

from __future__ import annotations

from fractions import Fraction

from attrs import frozen

# Factors with more binary digits than this are no measure of paper; their sums are given up.
LONGEST_FACTOR_BITS = 8_192


@frozen(eq=False)
class Errors:
    """Either one named term (`half_width`, in the units of the amount it belongs to) or a sum of others, each with
    its factor."""

    name: str
    half_width: Fraction
    parts: tuple[tuple[Fraction | int, Errors], ...] = ()

    def terms(self) -> dict[str, Fraction]:
        """Every term by name: factor times half-width, with its sign, in the amount's own units. Terms that cancel are
        left out. Raises OverflowError where a factor has grown past all sense."""
        factors: dict[int, Fraction] = {id(self): Fraction(1)}
        found: dict[str, Fraction] = {}
        for each in reversed(self._inner_first()):
            factor = factors.pop(id(each))
            if max(factor.numerator.bit_length(), factor.denominator.bit_length()) > LONGEST_FACTOR_BITS:
                raise OverflowError(each.name)
            if not each.parts:
                found[each.name] = found.get(each.name, Fraction(0)) + factor * each.half_width
            for inner_factor, inner in each.parts:
                factors[id(inner)] = factors.get(id(inner), Fraction(0)) + factor * inner_factor
        return {name: amount for name, amount in sorted(found.items()) if amount}

    def size(self) -> int:
        """How many sums and terms it is made of: what writing it out costs."""
        return len(self._inner_first())

    def _inner_first(self) -> list[Errors]:
        """Every sum and term it is made of, once, each behind all that it is made of. Not by calling itself: sums are
        nested as deep as facts hang on one another."""
        order: list[Errors] = []
        seen: set[int] = set()
        waiting: list[tuple[Errors, bool]] = [(self, False)]
        while waiting:
            each, is_open = waiting.pop()
            if is_open:
                order.append(each)
            elif id(each) not in seen:
                seen.add(id(each))
                waiting.append((each, True))
                waiting.extend((inner, False) for _, inner in each.parts)
        return order


def one_error(name: str, half_width: Fraction) -> Errors | None:
    """A single term; None for one that is nought."""
    return Errors(name, half_width) if half_width else None


def combined(*parts: tuple[Fraction | int, Errors | None]) -> Errors | None:
    """A sum of errors, each times its exact factor; None where none is left."""
    kept = tuple((factor, errors) for factor, errors in parts if errors is not None and factor)
    if not kept:
        return None
    if len(kept) == 1 and kept[0][0] == 1:
        return kept[0][1]
    return Errors("", Fraction(0), kept)
