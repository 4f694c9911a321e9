"""Requirements that the recipe itself states: told with both numbers, by how much they fail, and the ways out."""

from collections.abc import Iterator
from fractions import Fraction
from functools import partial

from pastedown.diagnostic import Diagnostic, error, note, warning
from pastedown.fit.alike import the_same_goes_for
from pastedown.fit.made_here import made_here
from pastedown.geometry.model import Model, Requirement
from pastedown.geometry.stagger import stagger
from pastedown.quantity.dimension import LENGTH
from pastedown.quantity.enough import at_least, more_than
from pastedown.quantity.quantity import Quantity
from pastedown.quantity.rounding import is_on_mark, round_to
from pastedown.quantity.ruler import Ruler
from pastedown.quantity.write import is_written_whole, write, write_text

_HAS_TO_BE = {">=": "at least", "<=": "at most", ">": "more than", "<": "less than", "is": ""}


def look(model: Model) -> Iterator[Diagnostic]:
    """Every requirement that does not hold; what is only preferred is a warning. One that fails alike in several like
    parts is told once."""
    alike: dict[tuple[object, ...], list[Requirement]] = {}
    for requirement in model.requirements:
        if not requirement.holds:
            alike.setdefault(_as_told(requirement), []).append(requirement)
    for requirement, *others in alike.values():
        if requirement.meant:
            yield _told_as_meant(requirement, model.ruler, [other.path for other in others])
            continue
        tell = partial(error, missing=_missing(requirement)) if requirement.strict else warning
        yield tell(
            "requirement-fails" if requirement.strict else "preference-fails",
            requirement.span,
            failed_in_words(requirement, model.ruler) + the_same_goes_for([other.path for other in others]),
            reason=write_text(requirement.because, model.ruler),
            way_out=_way_out(requirement, model.ruler),
            labels=made_here(model.ruler, requirement.made),
        )


def _told_as_meant(requirement: Requirement, ruler: Ruler, others: list[str]) -> Diagnostic:
    return note(
        "meant",
        requirement.span,
        failed_in_words(requirement, ruler) + the_same_goes_for(others) + " It is meant so.",
        reason=write_text(requirement.meant, ruler),
        way_out="Nothing has to be done. " + _way_out(requirement, ruler),
    )


def _missing(requirement: Requirement) -> Fraction | None:
    left, right = requirement.left, requirement.right
    if not isinstance(left, Quantity) or not isinstance(right, Quantity):
        return None
    return abs(left.value - right.value)


def _as_told(requirement: Requirement) -> tuple[object, ...]:
    span = requirement.span
    words = (requirement.because, requirement.ways_out, requirement.meant)
    return span.source.name, span.start, span.end, requirement.left, requirement.right, words


def failed_in_words(requirement: Requirement, ruler: Ruler) -> str:
    """That a requirement is not met, with both its sides."""
    operator = requirement.operator
    left, right = _measured(requirement.left, ruler), _limit(requirement.right, operator, ruler)
    if requirement.stacks:
        # Thickness is read off a caliper, which has no marks.
        left, right = _value(requirement.left, ruler), _value(requirement.right, ruler)
    verb = "has to be" if requirement.strict or requirement.meant else "had better be"
    wanted = f"{_HAS_TO_BE[operator]} {right}".strip()
    if requirement.left_words == left:
        named = left
    elif _is_short(requirement):
        assert isinstance(requirement.left, Quantity)
        named = f"{requirement.left_words} runs over by {_measured(-requirement.left, ruler)} and"
    else:
        named = f"{requirement.left_words} is {left} and"
    return f"{requirement.path} is not met: {named} {verb} {wanted.rstrip(',')}."


def _is_short(requirement: Requirement) -> bool:
    """Whether a length is less than none at all: what it measures runs over."""
    left = requirement.left
    return requirement.operator in (">=", ">") and isinstance(left, Quantity) and _is_below_nought(left)


def _is_below_nought(value: Quantity) -> bool:
    return value.dimension == LENGTH and value.value < 0


def _measured(value: Quantity | str | bool, ruler: Ruler) -> str:
    """A value, with the mark nearest to it where the ruler cannot show it."""
    near = _mark(value, "nearest", ruler)
    return _value(value, ruler) if near is None else _beside(_value(value, ruler), f"nearest mark {near}")


def _limit(value: Quantity | str | bool, operator: str, ruler: Ruler) -> str:
    """A value, with the last mark that is within it where the ruler cannot show it."""
    near = _mark(value, {">=": "up", ">": "up", "<=": "down", "<": "down"}.get(operator, "nearest"), ruler)
    return _value(value, ruler) if near is None else _beside(_value(value, ruler), f"{near} by the ruler")


def _beside(written: str, more: str) -> str:
    """Both, where what is written may end in brackets itself."""
    return f"{written}, {more}," if written.endswith(")") else f"{written} ({more})"


def _mark(value: Quantity | str | bool, way: str, ruler: Ruler) -> str | None:
    """The mark of the ruler for a length that lies between two, where there is one."""
    if not isinstance(value, Quantity) or value.dimension != LENGTH or is_on_mark(value, ruler.marks):
        return None
    mark = round_to(value, way, ruler.marks)
    return write(mark, ruler) if mark.value > 0 and is_written_whole(mark, ruler) else None


def _way_out(requirement: Requirement, ruler: Ruler) -> str:
    moved = stagger(requirement, ruler.marks)
    ways = [write_text(way, ruler) for way in (*((moved,) if moved is not None else ()), *requirement.ways_out)]
    if ways:
        return "\n".join(ways)
    left, right = requirement.left, requirement.right
    if not isinstance(left, Quantity) or not isinstance(right, Quantity):
        return f"Let {requirement.left_words} be {_value(right, ruler)}."
    if requirement.operator == "is":
        wanted = write(right, ruler) if is_written_whole(right, ruler) else requirement.right_words
        return f"Let {requirement.left_words} be {wanted}."
    return _change(requirement, left, right, ruler)


def _change(requirement: Requirement, left: Quantity, right: Quantity, ruler: Ruler) -> str:
    """How much more or less it takes, rounded to the safe side: who makes this change meets the requirement."""
    rises = requirement.operator in (">=", ">")
    missing = right - left if rises else left - right
    enough = (at_least if requirement.operator in (">=", "<=") else more_than)(missing, ruler)
    amount = write(enough, ruler)
    # A number is no name that could be changed.
    left_named, right_named = (not words[:1].isdigit() for words in (requirement.left_words, requirement.right_words))
    if not left_named and not right_named:
        return "Change one of its two numbers, or take the requirement away."
    if not left_named:
        return f"It takes {amount} {'less' if rises else 'more'} in {requirement.right_words}."
    other = f", or a change of {requirement.right_words}" if right_named else ""
    return f"It takes {amount} {'more' if rises else 'less'} in {requirement.left_words}{other}."


def _value(value: Quantity | str | bool, ruler: Ruler) -> str:
    if isinstance(value, Quantity):
        return write(value, ruler)
    if isinstance(value, bool):
        return "yes" if value else "no"
    return value
