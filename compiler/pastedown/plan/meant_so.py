"""What is not met and meant so: told at the step after which it shows, with the maker's reason."""

from collections.abc import Iterator, Sequence

from attrs import evolve

from pastedown.diagnostic.capital import capital
from pastedown.geometry.model import Model, Requirement
from pastedown.geometry.natural_order import natural_key
from pastedown.plan.plan import BuildStep, PlanText, Verdict
from pastedown.plan.sentence import sentence


def with_what_is_meant(steps: Sequence[BuildStep], model: Model) -> tuple[BuildStep, ...]:
    """The steps with a tip at the last one that has to do with a requirement which is not met and meant so. Several of
    the same words are told once."""
    tips: dict[int, dict[PlanText, None]] = {}
    for requirement in sorted(model.requirements, key=lambda each: natural_key(each.path)):
        if requirement.meant and not requirement.holds and steps:
            number = _shows_at(steps, requirement, model)
            tips.setdefault(number, {})[sentence("It is meant so: ", in_words(requirement))] = None
    return tuple(evolve(step, tips=(*step.tips, *tips.get(step.number, ()))) for step in steps)


def in_words(told: Requirement | Verdict) -> PlanText:
    """What a maker will find who builds it, and the reason why it stays so."""
    return sentence(_ended(told.because), " ", _ended(told.meant))


def _ended(text: PlanText) -> PlanText:
    """A text as a sentence of its own."""
    first, last = (text[0], text[-1]) if text else ("", "")
    begun = (capital(first), *text[1:]) if isinstance(first, str) else text
    return begun if not text or (isinstance(last, str) and last.rstrip().endswith((".", "!", "?"))) else (*begun, ".")


def _shows_at(steps: Sequence[BuildStep], requirement: Requirement, model: Model) -> int:
    """The number of the last step that has to do with it; of the last of all where none has."""
    pieces = set(_pieces_of(requirement))
    joins = {
        join.path
        for join in model.joins
        if any(face[0] in pieces for face in (*join.what.faces, *join.to.faces))
    }
    part = requirement.part

    def has_to_do(path: str) -> bool:
        if pieces:
            return path in pieces or path in joins
        return not part or path == part or path.startswith(f"{part}.")

    found = [step.number for step in steps if any(map(has_to_do, step.refers))]
    return found[-1] if found else steps[-1].number


def _pieces_of(requirement: Requirement) -> Iterator[str]:
    """The pieces whose thickness it hangs on."""
    for stack in requirement.stacks:
        yield from stack.between
        yield from (layer.what for layer in stack.layers.layers)
