"""Finds the one fold, bend or side of the paper that was written the wrong way round, where much else fails for it.

A mountain where a valley is meant takes all that lies beyond it to the other side: closings miss, pieces run through
one another, readings are off, and nothing of that names the fold. So each of the folds on the ways down from what fails
is turned the other way, by itself, then all of one piece together; where sides look away from one another, so is each
side that joins and closings on these ways name. Each time the design is worked out and judged as a whole. What takes
away everything that was seen in space, and brings in nothing else, is told as what the rest follows from.

Only the maker's own words are turned, never those of the standard library. Only a design that fails in space is tried
at all, in at most MOST_TRIED designs and MOST_WORK steps of work.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping

from attrs import evolve, frozen

from pastedown.design.recipe import File
from pastedown.diagnostic import Diagnostic, Label, error
from pastedown.fit.in_poses import SEEN_IN_SPACE
from pastedown.fit.on_marks import Judged
from pastedown.geometry.model import Join, Model
from pastedown.geometry.natural_order import natural_key
from pastedown.geometry.piece import FlatPiece
from pastedown.geometry.pose import FLAT
from pastedown.mend.state import how_often, speaks_of
from pastedown.source import SourceText, Span

MOST_TRIED = 16
MOST_WORK = 1_800_000
# So many words are told that would do, each by itself, and so many further places are shown.
MOST_TOLD = 2
MOST_SHOWN = 4
_OTHER = {"mountain": "valley", "valley": "mountain", "face": "back", "back": "face"}
# What one error of each kind is called where it is only counted.
_COUNTED = {
    "runs-through": ("pair of pieces in one place", "pairs of pieces in one place"),
    "close-misses": ("closing that misses", "closings that miss"),
    "close-looks-away": ("closing that looks away", "closings that look away"),
    "join-misses": ("join beside its paper", "joins beside their paper"),
    "too-tight": ("tube that is too tight", "tubes that are too tight"),
    "reading-range": ("reading out of its range", "readings out of their range"),
}
_Key = tuple[str, Span | None]


@frozen
class _Turn:
    """Words to be read as their opposite, all together. `called` says what they are of, `now` and `then` what they say
    and would say."""

    spans: tuple[Span, ...]
    called: str
    now: str
    then: str

    @property
    def is_side(self) -> bool:
        return self.now.endswith((".face", ".back"))


@frozen(eq=False)
class _Helps:
    """A turn, and the errors and all else that is told with it."""

    turn: _Turn
    errors: frozenset[_Key]
    told: frozenset[_Key]


def with_its_root(judged: Judged) -> Judged:
    """The design with what its faults in space follow from told first, where that is one thing written the wrong way
    round. What follows from it is left untold, unless that might have another cause."""
    failing = [each for each in judged.diagnostics if each.is_error and each.id in SEEN_IN_SPACE]
    # That two things are in one place may well be for want of room.
    if not failing or (len(failing) == 1 and failing[0].id == "runs-through"):
        return judged
    model = judged.worked_out.model
    if model is None or judged.worked_out.broken_off:
        return judged
    turns = _turns(judged, model, failing)[: how_often(judged, MOST_TRIED, MOST_WORK)]
    helping = list(_helping(judged, turns))
    if not helping:
        return judged
    gone = [each for each in judged.diagnostics if each.is_error and _key(each) not in helping[0].errors]
    if len(gone) == 1:
        ways = "\n".join(_way_out(helps, judged) for helps in helping)
        told = tuple(evolve(each, way_out=ways) if each is gone[0] else each for each in judged.diagnostics)
        return evolve(judged, diagnostics=told)
    is_sure = any(each.id != "runs-through" for each in gone)
    root = _told(helping, gone, judged, is_sure)
    kept = [each for each in judged.diagnostics if not is_sure or _key(each) in helping[0].told]
    return evolve(judged, diagnostics=(root, *kept))


def told_root(judged: Judged) -> Diagnostic | None:
    """What is told in the place of all that follows from it, so that no number is to blame; None where nothing is."""
    if any(each.id in SEEN_IN_SPACE for each in judged.diagnostics):
        return None
    return next((each for each in judged.diagnostics if each.id == "wrong-way-round"), None)


def _helping(judged: Judged, turns: list[_Turn]) -> Iterator[_Helps]:
    """The first turns with which nothing fails in space, and nothing else that did not fail before."""
    before = _errors(judged.diagnostics)
    told = 0
    for turn in turns:
        # Where one fold does, nobody has turned all of them.
        if told and not turn.now:
            continue
        trial = evolve(judged.trial, turned=frozenset(turn.spans))
        after = trial.judged(0, chosen=dict(judged.chosen))
        errors = _errors(after.diagnostics)
        if after.worked_out.broken_off or any(id in SEEN_IN_SPACE for id, _ in errors) or not errors <= before:
            continue
        yield _Helps(turn, errors, frozenset(map(_key, after.diagnostics)))
        told += 1
        if told == MOST_TOLD:
            return


def _turns(judged: Judged, model: Model, failing: list[Diagnostic]) -> list[_Turn]:
    """What may be the wrong way round, the likeliest first: what most of that which fails stands on."""
    own = _own_sources(judged.trial.recipe.file)
    ways = _Ways(model)
    turned = _turned_somewhere(model)
    passed = Counter(path for each in failing for path in ways.down_from(each))
    pieces = sorted(
        (piece for piece in model.pieces if piece.path in passed),
        key=lambda piece: (-passed[piece.path], natural_key(piece.path)),
    )
    folds = {piece.path: list(_folds_of(piece, turned, own)) for piece in pieces}
    found = [*(turn for each in folds.values() for turn in each), *_whole_pieces(folds)]
    if any(each.id in ("close-looks-away", "join-misses") for each in failing):
        spans = {each.span for each in failing}
        joins = [join for join in model.joins if join.closes and join.span in spans]
        joins += [ways.carried[piece.path] for piece in pieces if piece.path in ways.carried]
        found += [turn for join in joins for turn in _sides_of(join, own)]
    # Like parts are made by the same words.
    return list({turn.spans: turn for turn in reversed(found)}.values())[::-1]


class _Ways:
    """The ways down from what fails to what it stands on."""

    def __init__(self, model: Model) -> None:
        self.model = model
        self.carried: dict[str, Join] = {}
        for join in model.joins:
            if not join.closes:
                self.carried.setdefault(join.what.faces[0][0], join)

    def down_from(self, told: Diagnostic) -> dict[str, None]:
        """The paths of the pieces that an error is about, and of all below them."""
        found: dict[str, None] = {}
        for path in self._named(told):
            while path not in found:
                found[path] = None
                if path not in self.carried:
                    break
                path = self.carried[path].to.faces[0][0]
        return found

    def _named(self, told: Diagnostic) -> Iterator[str]:
        for join in self.model.joins:
            if join.span == told.span:
                yield from (face[0] for face in (*join.what.faces, *join.to.faces))
        said = told.sentence
        yield from (each.path for each in self.model.pieces if each.path in said and speaks_of(said, each.path))


def _folds_of(piece: FlatPiece, turned: set[tuple[str, str]], own: set[SourceText]) -> Iterator[_Turn]:
    """The folds and the bending panels of a piece that are turned in some pose, by the words that say which way."""
    for run in piece.runs:
        said = [(each.said, each.name, each.kind) for each in run.scores]
        said += [(each.said, each.name, each.bends) for each in run.panels]
        said_of = Counter(span for span, _, _ in said)
        for span, name, kind in said:
            if span is not None and span.source in own and (piece.path, name) in turned:
                named = name if said_of[span] == 1 else name.partition("[")[0]
                yield _Turn((span,), f"{piece.path}.{named}", kind, _OTHER[kind])


def _whole_pieces(folds: Mapping[str, list[_Turn]]) -> Iterator[_Turn]:
    """All folds of one piece together: as it is folded where face is taken for back."""
    for path, turns in folds.items():
        spans = tuple(dict.fromkeys(span for turn in turns for span in turn.spans))
        if len(spans) > 1:
            yield _Turn(spans, path, "", "")


def _turned_somewhere(model: Model) -> set[tuple[str, str]]:
    angles = (model.made_up, *(pose.angles for pose in model.poses))
    return {turned for each in angles for turned, angle in each.items() if angle != FLAT}


def _sides_of(join: Join, own: set[SourceText]) -> Iterator[_Turn]:
    """Each side of a join that names face or back, and both together."""
    found: list[_Turn] = []
    for side in (join.what, join.to):
        begin, _, end = side.path.rpartition(".")
        if side.span is not None and side.span.source in own and end in ("face", "back"):
            found.append(_Turn((side.span,), join.path, side.path, f"{begin}.{_OTHER[end]}"))
    yield from found
    if len(found) == 2:
        one, other = found
        both = (f"{one.now} to {other.now}", f"{one.then} to {other.then}")
        yield _Turn((*one.spans, *other.spans), join.path, *both)


def _own_sources(file: File) -> set[SourceText]:
    """The texts of a recipe that are no standard library."""
    found: set[SourceText] = set()
    waiting = [file]
    while waiting:
        one = waiting.pop()
        if not one.shipped and one.source not in found:
            found.add(one.source)
            waiting.extend(one.imports.values())
    return found


def _told(helping: list[_Helps], gone: list[Diagnostic], judged: Judged, is_sure: bool) -> Diagnostic:
    turn = helping[0].turn
    count = "both faults that were found" if len(gone) == 2 else f"all {len(gone)} faults that were found"
    if turn.is_side:
        sentence = f"{turn.called}: with {turn.then} for {turn.now}, {count} would be gone."
    elif not turn.now:
        sentence = f"{turn.called}: with each mountain a valley and each valley a mountain, {count} would be gone."
    else:
        sentence = f"{turn.called} is folded as a {turn.now}: as a {turn.then}, {count} would be gone."
    places = list(dict.fromkeys(each.span for each in gone if each.span is not None and each.span not in turn.spans))
    untold = f" Left untold until it is mended: {_counted(gone)}." if is_sure else ""
    told = error(
        "wrong-way-round",
        turn.spans[0],
        sentence,
        reason="What is the wrong way round takes all that lies beyond it to the other side: on the table it does not "
        f"close, or it jams.{untold}",
        way_out="\n".join(_way_out(helps, judged) for helps in helping),
        labels=[
            *(Label(span, "and this") for span in turn.spans[1:]),
            *(Label(span, "fails with it") for span in places[:MOST_SHOWN]),
        ],
    )
    return evolve(told, is_cause=True)


def _way_out(helps: _Helps, judged: Judged) -> str:
    turn, span = helps.turn, helps.turn.spans[0]
    where = "" if span.source is judged.trial.recipe.file.source else f" of {span.source.name}"
    came_of_it = "and only what is told beside this is left" if helps.errors else "and everything passes"
    if not turn.now:
        lines = sorted({each.line for each in turn.spans})
        named = f"lines {', '.join(map(str, lines[:-1]))} and {lines[-1]}" if len(lines) > 1 else f"line {lines[0]}"
        return (
            f"write valley for each mountain of {turn.called} and mountain for each valley, {named}{where} "
            f"(tried, {came_of_it})"
        )
    now = turn.now if turn.is_side else f"the {turn.now} of {turn.called}"
    return f"write {turn.then} for {now}, line {span.line}{where} (tried, {came_of_it})"


def _counted(gone: list[Diagnostic]) -> str:
    """How many errors of which kinds, in words."""
    found = Counter(_COUNTED.get(each.id, ("other fault", "other faults")) for each in gone)
    words = [f"{count} {one if count == 1 else many}" for (one, many), count in found.items()]
    return f"{', '.join(words[:-1])} and {words[-1]}" if len(words) > 1 else words[0]


def _key(each: Diagnostic) -> _Key:
    return each.id, each.span


def _errors(diagnostics: Iterable[Diagnostic]) -> frozenset[_Key]:
    return frozenset(_key(each) for each in diagnostics if each.is_error)
