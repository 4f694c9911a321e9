"""Cutting, scoring and folding, told for each piece."""

from collections.abc import Iterator, Mapping

from attrs import evolve

from pastedown.geometry.piece import FlatPiece
from pastedown.plan.flat_pattern import runs_in_order
from pastedown.plan.join_words import side_in_words
from pastedown.plan.names import plain_name
from pastedown.plan.plan import CutPiece, Mark, PlanText, ScoreChart
from pastedown.plan.sentence import listed_values, paragraph, sentence
from pastedown.plan.task import Origin, Task
from pastedown.plan.words import listed
from pastedown.quantity.quantity import Length, number

# How a fold goes, seen by somebody who holds the piece with its face to them.
_WAYS = (
    ("valley", "Fold towards you (valley, face inside)"),
    ("mountain", "Fold away from you (mountain, face outside)"),
)

# Of lines that are drawn on the sticky side of a tape.
_NICKS = "If a backing is peeled off it, make a tiny nick at both ends of each line as well: the lines go with it."

# What has a grain, and a back that one can write on without harm: not so sticky backs and photographs.
_SHEET_KINDS = ("card", "board", "paper", "cloth")


def piece_tasks(
    pieces: dict[str, FlatPiece], cut: tuple[CutPiece, ...], scored_apart: Mapping[str, str]
) -> list[Task]:
    """The work on every piece before it is joined to anything, in the order of the cut list. `scored_apart` has the
    paths of folds that are scored apart from the rest of their ladder, with the same words where they go together."""
    return [
        task
        for place, group in enumerate(cut)
        for task in _tasks_of([pieces[path] for path in group.paths], group, place, scored_apart)
    ]


def _tasks_of(
    pieces: list[FlatPiece], group: CutPiece, place: int, scored_apart: Mapping[str, str]
) -> list[Task]:
    name, handles = plain_name(pieces), (group.id,)
    origins = [Origin(piece.path, piece.part, piece.component, piece.name) for piece in pieces]
    tasks: list[Task] = []
    if not group.bought:
        text = cut_text(pieces, group)
        stocks = (pieces[0].stock,)
        tasks += [Task("cut", origin, text, group.id, handles, stocks, place) for origin in origins]
    for which, chart in enumerate(group.score_charts):
        for piece, origin in zip(pieces, origins, strict=True):
            for part, detail, lines in _parts_of(chart, piece, which, scored_apart):
                text = _score_text(name, part, group.face_up)
                tasks.append(Task("score", origin, text, group.id, handles, detail=detail, lines=lines))
    if group.score_charts:
        text = _fold_text(name, group.score_charts)
        tasks += [Task("fold", origin, text, group.id, handles) for origin in origins]
    return tasks


def _parts_of(
    chart: ScoreChart, piece: FlatPiece, which: int, scored_apart: Mapping[str, str]
) -> Iterator[tuple[ScoreChart, str, tuple[str, ...]]]:
    """The ladder in the parts in which it is scored, each with a word of its own and the paths of its folds; in one
    part, and without paths, where none is scored apart."""
    scores = [run for run in runs_in_order(piece) if run.scores][which].scores
    paths = [f"{piece.path}.{score.name}" for score in scores]
    together: dict[str, list[int]] = {}
    for place, path in enumerate(paths):
        together.setdefault(scored_apart.get(path, ""), []).append(place)
    if len(together) == 1:
        yield chart, chart.axis, tuple(paths) if "" not in together else ()
        return
    for places in together.values():
        numbers = listed([str(place + 1) for place in places])
        marks = tuple(chart.marks[place] for place in places)
        yield evolve(chart, marks=marks), f"{chart.axis}, lines {numbers}", tuple(paths[place] for place in places)


def cut_text(pieces: list[FlatPiece], group: CutPiece) -> PlanText:
    """How many to cut, from what, and how large. `pieces` are those of the group that are cut now."""
    return paragraph(
        _size_sentence(pieces, group),
        _grain_sentence(pieces[0], group),
        _shape_sentence(group),
        *_bend_sentences(pieces[0], group),
        _name_sentence(pieces),
    )


def _size_sentence(pieces: list[FlatPiece], group: CutPiece) -> PlanText:
    many, each = ("s", "each ") if len(pieces) > 1 else ("", "")
    name, piece = plain_name(pieces), pieces[0]
    length = _length_off_the_roll(piece)
    if length is not None:
        cut = sentence("Cut ", number(len(pieces)), f" length{many} of {group.stock} for {name}, {each}")
        return sentence(cut, length, " long.")
    cut = sentence("Cut ", number(len(pieces)), f" piece{many} for {name} from {group.stock}, {each}")
    return sentence(cut, piece.height, " from head to tail and ", piece.width, f" from {group.left} to {group.right}.")


def _length_off_the_roll(piece: FlatPiece) -> Length | None:
    """How much to cut off a roll that is just as wide as the piece; None when it is cut out otherwise."""
    if piece.stock.sheet is not None or piece.stock.roll_width is None:
        return None
    if piece.width == piece.stock.roll_width:
        return piece.height
    return piece.width if piece.height == piece.stock.roll_width else None


def _grain_sentence(piece: FlatPiece, group: CutPiece) -> PlanText:
    has_grain = piece.stock.kind in _SHEET_KINDS and piece.stock.grain != "none"
    if not has_grain or piece.grain not in ("height", "width"):
        return ()
    runs = "from head to tail" if group.grain_as_cut == "height" else "from side to side"
    across = ", though it had better run the other way: the sheets are too small for that" if group.lies_across else ""
    return (f"The grain runs {runs}{across}.",)


def _shape_sentence(group: CutPiece) -> PlanText:
    """What is cut out of the rectangle, so that it can be marked out with a ruler as well."""
    shapes = [part for cut in group.cuts for part in ("; ", cut.text)]
    return sentence("Then cut what the template shows: ", *shapes[1:], ".") if shapes else ()


def _bend_sentences(piece: FlatPiece, group: CutPiece) -> Iterator[PlanText]:
    """The edges of a panel that bends are what the neighbours are laid to. They are drawn where they will not show."""
    for chart in group.bend_charts:
        for side in ("face", "back"):
            marks = [mark for mark in chart.marks if mark.drawn_on == side]
            if marks:
                called = side_in_words(piece.stock.kind, piece.face_up, side)
                yield _bend_sentence(marks, called, chart.first_edge)
    if group.bend_charts and piece.stock.kind == "tape":
        yield (_NICKS,)


def _bend_sentence(marks: list[Mark], side: str, edge: str) -> PlanText:
    lines, not_scored = ("a line", "it is not scored") if len(marks) == 1 else ("lines", "they are not scored")
    start = sentence(f"Draw {lines} on its {side} at ", listed_values([mark.from_first for mark in marks]))
    names = listed([mark.name for mark in marks])
    return sentence(start, f" from its {edge}, along all of that edge ({names}); {not_scored}.")


def _name_sentence(pieces: list[FlatPiece]) -> PlanText:
    if pieces[0].stock.kind not in _SHEET_KINDS:
        return ()
    return (f"Pencil its name on the back of {'each' if len(pieces) > 1 else 'it'}, at the head.",)


def _score_text(name: str, chart: ScoreChart, face_up: str) -> PlanText:
    """All lines of one side before those of the other, so that the piece is turned over once."""
    sides = {"face": f"its face ({face_up})" if face_up and face_up != "face" else "its face", "back": "its back"}
    told: list[PlanText] = []
    for side, called in sides.items():
        marks = [mark.from_first for mark in chart.marks if mark.scored_from == side]
        if not marks:
            continue
        if told:
            told.append((f"Turn it over, its {chart.first_edge} still against the left stop.",))
        else:
            stop = f"its {chart.first_edge} against the left stop of the scoring board"
            told.append((f"Lay the {name} with {called} up and {stop}.",))
        lines = "lines" if len(marks) > 1 else "line"
        start = sentence("Score ", number(len(marks)), f" {lines} right across it, from its {side}, at ")
        told.append(sentence(start, listed_values(marks), "."))
    check: PlanText = ()
    if chart.marks[-1].from_first + chart.last_panel == chart.side:
        check = sentence(f"From the last line to its {chart.last_edge} there must be ", chart.last_panel, ".")
    return paragraph(*told, check)


def _fold_text(name: str, charts: tuple[ScoreChart, ...]) -> PlanText:
    folds = [
        sentence(f"{words} at ", listed_values(marks), f" from its {chart.first_edge}.")
        for chart in charts
        for kind, words in _WAYS
        if (marks := [mark.from_first for mark in chart.marks if mark.kind == kind])
    ]
    hold = f"Hold the {name} with its face towards you."
    return paragraph((hold,), *folds, ("Press each fold, then let it open again.",))
