"""Batches of like tasks told as the numbered steps that a maker follows."""

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from itertools import groupby

from pastedown.diagnostic.capital import capital
from pastedown.geometry.natural_order import without_indexes
from pastedown.geometry.piece import FlatPiece
from pastedown.plan.cautions import usual_cautions
from pastedown.plan.names import members, owner_and_name, plain_name
from pastedown.plan.order import Batch
from pastedown.plan.piece_tasks import cut_text
from pastedown.plan.plan import BuildStep, CutPiece, PlanText, StepAction
from pastedown.plan.sentence import paragraph, sentence
from pastedown.plan.task import Task
from pastedown.plan.words import spoken
from pastedown.quantity.quantity import number

# Names of measurements that begin with one of these say what is measured.
_MEASURING = ("check", "measure", "read")
_VERBS = {"cut": "Cut ", "score": "Score ", "fold": "Fold "}


def build_steps(
    batches: Sequence[Batch], cut: tuple[CutPiece, ...], pieces: dict[str, FlatPiece]
) -> tuple[BuildStep, ...]:
    """One step for each batch, numbered from 1 in the order given."""
    family_sizes = Counter(_family(task) for batch in batches for task in batch)
    groups = {group.id: group for group in cut}
    places = {group.id: place for place, group in enumerate(cut)}
    cautioned: set[PlanText] = set()
    tipped: set[PlanText] = set()
    steps = []
    heads = [_head(batch) for batch in batches]
    all_of_which = [_which(head, family_sizes) for head in heads]
    titles = _titles(heads, all_of_which)

    def told(batch: Batch, which: str) -> PlanText:
        return _cut_text(batch, groups, pieces, which) if batch[0].kind == "cut" else _text(batch, which)

    for place, batch in enumerate(batches, start=1):
        head, which, title = heads[place - 1], all_of_which[place - 1], titles[place - 1]
        handles = sorted({handle for task in batch for handle in task.pieces}, key=places.__getitem__)
        gathered = [like for like in _alike(batch) if like != head] if head != batch else []
        step = BuildStep(
            number=place,
            kind=head[0].kind,
            title=(title,),
            text=told(head, which),
            times=len(head),
            pieces=tuple(handles),
            reading=head[0].reading,
            tips=_new_tips((head, *gathered), tipped),
            cautions=_new_cautions(batch, cautioned),
            refers=tuple(task.path for task in batch),
            shown=head[0].shown,
            actions=tuple(StepAction(told(like, _which(like, family_sizes)), like[0].reading) for like in gathered),
        )
        steps.append(step)
    return tuple(steps)


def _head(batch: Batch) -> Batch:
    """The written step that gathers the rest of its batch; the whole batch where there is none."""
    return tuple(task for task in batch if task.path == task.heading) or batch


def _alike(batch: Batch) -> list[Batch]:
    """The batch in stretches of work that is told once each, in its order."""
    return [tuple(tasks) for _, tasks in groupby(batch, key=lambda task: task.same_work)]


def _titles(batches: Sequence[Batch], all_of_which: Sequence[str]) -> list[str]:
    """The titles of all steps. Different work under one title has a fuller one where that tells it apart, or says what
    it is called besides."""
    plain = [_title(batch) for batch in batches]
    alike = _called(batches, plain, all_of_which)
    fuller = [
        batch[0].fuller or title if len(alike[title, which]) > 1 else title
        for batch, title, which in zip(batches, plain, all_of_which, strict=True)
    ]
    still_alike = _called(batches, fuller, all_of_which)
    told_apart = [
        f"{title}{_what_it_is_called(batch[0])}" if len(still_alike[title, which]) > 1 else title
        for batch, title, which in zip(batches, fuller, all_of_which, strict=True)
    ]
    return [title + (f" ({which})" if which else "") for title, which in zip(told_apart, all_of_which, strict=True)]


def _called(
    batches: Sequence[Batch], titles: Sequence[str], all_of_which: Sequence[str]
) -> dict[tuple[str, str], set[str]]:
    """What all the work under each title is called besides."""
    alike: dict[tuple[str, str], set[str]] = {}
    for batch, title, which in zip(batches, titles, all_of_which, strict=True):
        alike.setdefault((title, which), set()).add(_what_it_is_called(batch[0]))
    return alike


def _what_it_is_called(task: Task) -> str:
    """The direction in which something is scored, or the maker's own name for a join: what the title leaves out."""
    if task.detail:
        return f" along its {task.detail}"
    return f": {spoken(without_indexes(task.origin.name))}" if task.title else ""


def _title(batch: Batch) -> str:
    first = batch[0]
    if first.title:
        return first.title
    origins = [task.origin for task in batch]
    if first.kind in _VERBS:
        return _VERBS[first.kind] + plain_name(origins)
    *owner, name = map(spoken, owner_and_name(origins))
    # "read case" says already that it is about the case.
    said = [one for one in owner if f" {one} " not in f" {name} "]
    verb, _, measured = name.partition(" ")
    if first.kind == "check" and said and measured and verb in _MEASURING:
        return f"{capital(verb)} the {measured} of the {said[0]}"
    # What is done comes first, then what it is done to.
    return capital(": ".join([name, *said[::-1]]))


def _family(task: Task) -> tuple[str, str, str]:
    return task.kind, task.detail, without_indexes(task.path)


def _which(batch: Batch, family_sizes: dict[tuple[str, str, str], int]) -> str:
    """Which members of the family are meant, in words; "" where that goes without saying."""
    families = {_family(task) for task in batch}
    whole = len(families) == 1 and family_sizes[families.pop()] == len(batch)
    paths = [task.path for task in batch]
    if whole and len(batch) > 1:
        return ""
    if whole and "[" not in (paths[0] if batch[0].kind in _VERBS else batch[0].origin.part):
        return ""
    return members(paths)


def _text(batch: Batch, which: str) -> PlanText:
    told_apart = any(task.text != batch[0].text for task in batch)
    turn = ", taking the numbers in turn" if told_apart else ""
    if which:
        again: PlanText = (f"Do this for {which}{turn}.",)
    elif len(batch) > 1:
        again = sentence("Repeat for all ", number(len(batch)), f"{turn}.")
    else:
        again = ()
    return paragraph(*_prepared(batch), batch[0].text, again)


def _prepared(batch: Batch) -> Iterator[PlanText]:
    """What is done first, once where it is alike for all; else for which of them each is."""
    alike: dict[PlanText, list[str]] = {}
    for task in batch:
        alike.setdefault(task.prepared, []).append(task.path)
    for text, paths in alike.items():
        last = text[-1] if text else ""
        if len(alike) > 1 and isinstance(last, str) and last:
            yield (*text[:-1], f"{last.removesuffix('.')}, for {members(paths)}.")
        else:
            yield text


def _cut_text(batch: Batch, groups: dict[str, CutPiece], pieces: dict[str, FlatPiece], which: str) -> PlanText:
    """Cutting tells its number in its first sentence, not by saying it again."""
    told = cut_text([pieces[task.path] for task in batch], groups[batch[0].pieces[0]])
    use: PlanText = (f"{'They are' if len(batch) > 1 else 'It is'} for {which}.",) if which else ()
    return paragraph(told, use)


def _new_tips(stretches: Iterable[Batch], tipped: set[PlanText]) -> tuple[PlanText, ...]:
    """The tips that no step before it gave. Like work may be told in several steps, and what helps with it helps from
    the first one on."""
    new = [tip for tip in dict.fromkeys(tip for like in stretches for tip in like[0].tips) if tip not in tipped]
    tipped.update(new)
    return tuple(new)


def _new_cautions(batch: Batch, cautioned: set[PlanText]) -> tuple[PlanText, ...]:
    """The maker's own cautions on this step, and before them the usual ones that were not given yet."""
    usual = dict.fromkeys(caution for task in batch for caution in usual_cautions(task))
    new = [caution for caution in usual if caution not in cautioned]
    cautioned.update(new)
    return (*new, *dict.fromkeys(caution for like in _alike(batch) for caution in like[0].cautions))
