"""Requirements that the recipe itself states: told with both numbers, by how much they fail, and the ways out."""

from collections.abc import Iterator

from pastedown.diagnostic import Diagnostic, error, warning
from pastedown.fit.alike import the_same_goes_for
from pastedown.geometry.model import Model, Requirement, WorkedText
from pastedown.quantity.quantity import Quantity
from pastedown.quantity.ruler import Ruler
from pastedown.quantity.write import write

_HAS_TO_BE = {">=": "at least", "<=": "at most", ">": "more than", "<": "less than", "is": ""}


def look(model: Model) -> Iterator[Diagnostic]:
    """Every requirement that does not hold; what is only preferred is a warning. One that fails alike in several like
    parts is told once."""
    alike: dict[tuple[object, ...], list[Requirement]] = {}
    for requirement in model.requirements:
        if not requirement.holds:
            alike.setdefault(_as_told(requirement), []).append(requirement)
    for requirement, *others in alike.values():
        tell = error if requirement.strict else warning
        yield tell(
            "requirement-fails" if requirement.strict else "preference-fails",
            requirement.span,
            failed_in_words(requirement, model.ruler) + the_same_goes_for([other.path for other in others]),
            reason=_written(requirement.because, model.ruler),
            way_out=_way_out(requirement, model.ruler),
        )


def _as_told(requirement: Requirement) -> tuple[object, ...]:
    span = requirement.span
    words = (requirement.because, requirement.ways_out)
    return span.source.name, span.start, span.end, requirement.left, requirement.right, words


def failed_in_words(requirement: Requirement, ruler: Ruler) -> str:
    """That a requirement is not met, with both its sides."""
    left, right = _value(requirement.left, ruler), _value(requirement.right, ruler)
    verb = "has to be" if requirement.strict else "had better be"
    wanted = f"{_HAS_TO_BE[requirement.operator]} {right}".strip()
    named = requirement.left_words if requirement.left_words == left else f"{requirement.left_words} is {left} and"
    return f"{requirement.path} is not met: {named} {verb} {wanted}."


def _way_out(requirement: Requirement, ruler: Ruler) -> str:
    ways = [_written(way, ruler) for way in requirement.ways_out]
    if ways:
        return " Or: ".join(ways)
    left, right = requirement.left, requirement.right
    if isinstance(left, Quantity) and isinstance(right, Quantity):
        missing = left - right if left.value > right.value else right - left
        more = "more" if requirement.operator in (">=", ">") else "less"
        other = "" if requirement.right_words[:1].isdigit() else f", or a change of {requirement.right_words}"
        return f"It takes {write(missing, ruler)} {more} in {requirement.left_words}{other}."
    return f"Let {requirement.left_words} be {_value(right, ruler)}."


def _value(value: Quantity | str | bool, ruler: Ruler) -> str:
    if isinstance(value, Quantity):
        return write(value, ruler)
    if isinstance(value, bool):
        return "yes" if value else "no"
    return value


def _written(text: WorkedText, ruler: Ruler) -> str:
    return "".join(piece if isinstance(piece, str) else write(piece, ruler) for piece in text)
