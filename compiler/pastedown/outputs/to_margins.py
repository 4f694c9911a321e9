"""The margins: what fails first at the table, by how much it holds on paper and what hands may take of it."""

from collections.abc import Iterator
from fractions import Fraction

from pastedown.outputs.csv_text import csv_file, exact_inches, exact_millimetres
from pastedown.outputs.in_words import measure, prose, sentence
from pastedown.outputs.json_value import (
    FORMAT_VERSION,
    Json,
    json_decimal,
    json_file,
    json_length,
    json_ruler,
    json_text,
    json_value,
)
from pastedown.outputs.plain_text import Column, heading, table, text_file, wrapped
from pastedown.outputs.reading_words import with_nearer_limits
from pastedown.plan.plan import Margin, Plan, SaferNumber
from pastedown.plan.words import of_family
from pastedown.quantity.decimals import rounded_decimal
from pastedown.quantity.dimension import LENGTH
from pastedown.quantity.quantity import Quantity
from pastedown.quantity.ruler import Ruler

MARGINS_FORMAT = "pastedown-margins"

_NOTE = (
    "What has the lowest score fails first. Worst is what all errors of the hand together may take of a margin, rss "
    "their root-sum-square, score the margin counted in that. One in says of how many single things one fails, and "
    "album of how many albums one has at least one that fails among all its like things; never stands where not even "
    "all errors at their worst take the margin, and rarely for fewer than one in a million. Both take for granted that "
    "errors are independent, centred and anywhere within their limits with the same chance (JCGM 100:2008, 4.3.7), and "
    "their sum spread normally. An error that all like things have in common, such as that of the one strip they go "
    "on, counts once for all of them, any other for each thing by itself."
)
_COLUMNS = (
    Column("rank", 4, to_the_right=True),
    Column("requirement", 30),
    Column("margin", 14, measures=True),
    Column("worst", 14, measures=True),
    Column("rss", 14, measures=True),
    Column("score", 7, to_the_right=True),
    Column("one in", 7, to_the_right=True),
    Column("album", 7, to_the_right=True),
)
_CSV_TITLES = (
    "rank", "requirement", "alike", "compares", "strict", "margin", "worst case", "root-sum-square", "margin in",
    "worst case in", "root-sum-square in", "margin mm", "worst case mm", "root-sum-square mm", "score", "fails once in",
    "things", "album fails once in", "errors", "change", "score after the change",
)  # fmt: skip


def make(plan: Plan) -> dict[str, bytes]:
    """margins.txt, margins.csv and margins.json"""
    rows = [_csv_row(rank, margin, plan.ruler) for rank, margin in enumerate(plan.margins, start=1)]
    return {
        "margins.txt": text_file(_text(plan)),
        "margins.csv": csv_file(_CSV_TITLES, rows),
        "margins.json": json_file(_json(plan)),
    }


def _text(plan: Plan) -> list[str]:
    lines = [*heading(f"Margins: {plan.title}"), ""]
    if not plan.margins:
        return [*lines, *wrapped("No requirement of this design compares what is made by hand.")]
    rows = [_row(rank, margin, plan.ruler) for rank, margin in enumerate(plan.margins, start=1)]
    lines += [*wrapped(_NOTE), "", *table(_COLUMNS, rows)]
    for rank, margin in enumerate(plan.margins, start=1):
        lines += ["", *_details(rank, margin, plan)]
    return lines


def _row(rank: int, margin: Margin, ruler: Ruler) -> tuple[str, ...]:
    return (
        str(rank),
        margin.path,
        measure(margin.nominal, ruler),
        measure(margin.worst, ruler),
        measure(margin.rss, ruler),
        _score(margin.score),
        _how_rare(margin.one_in, margin),
        _how_rare(margin.album_one_in, margin),
    )


def _how_rare(one_in: int | None, margin: Margin) -> str:
    if margin.never:
        return "never"
    return "rarely" if one_in is None else str(one_in)


def _details(rank: int, margin: Margin, plan: Plan) -> list[str]:
    """What is compared and why, what it hangs on, where a ruler shows it, and the number that helps most."""
    ruler = plan.ruler
    first = f"{rank:>3}. "
    indent = " " * len(first)
    kind = "" if margin.strict else " (only preferred)"
    lines = wrapped(f"{margin.path}: {margin.words}{kind}", first=first)
    if len(margin.alike) > 1:
        lines += wrapped(f"The same goes for {len(margin.alike) - 1} more.", first=indent)
    if margin.one_in is not None and margin.things > 1:
        album = f"one album in about {margin.album_one_in} has one that does"
        lines += wrapped(
            f"One in about {margin.one_in} fails; of {margin.things} such things in an album, {album}.", first=indent
        )
    lines += wrapped(sentence(prose(margin.because, ruler)), first=indent)
    lines += wrapped(f"It hangs on: {'; '.join(_errors(margin, ruler))}.", first=indent)
    lines += [line for shown in _shown(margin, plan) for line in wrapped(shown, first=indent)]
    if margin.change is not None:
        safer = f"Safer: {_change(margin.change, ruler)}. Score then {_score(margin.change.score)}."
        lines += wrapped(safer, first=indent)
    elif margin.never:
        lines += wrapped("It needs nothing safer: not even all errors at their worst take this margin.", first=indent)
    return lines


def _shown(margin: Margin, plan: Plan) -> Iterator[str]:
    """The steps at which a ruler shows it before anything else fails, with the last reading at which it holds, or that
    the step allows where that is nearer."""
    family = of_family(margin.path)
    for step in plan.steps:
        for reading in map(with_nearer_limits, step.readings):
            least, most = reading.least or reading.bears_least, reading.most or reading.bears_most
            band = reading.all_holds
            below = reading.below, "less", least, "below", band.least, band.below
            above = reading.above, "more", most, "above", band.most, band.above
            for path, word, end, side, all_hold, lost in (below, above):
                if path == family and end is not None:
                    last = measure(end, plan.ruler)
                    before = f"; {side} {measure(all_hold, plan.ruler)} {lost} is lost before" if all_hold else ""
                    yield f"The ruler shows it at step {step.number}: it may read no {word} than {last}{before}."


def _errors(margin: Margin, ruler: Ruler) -> list[str]:
    return [f"{name} {measure(_size(amount), ruler)}" for name, amount in margin.errors]


def _size(amount: Quantity) -> Quantity:
    return amount if amount.value >= 0 else -amount


def _change(change: SaferNumber, ruler: Ruler) -> str:
    return f"{change.path} {measure(change.value, ruler)} instead of {measure(change.before, ruler)}"


def _score(score: Fraction) -> str:
    return rounded_decimal(score, 2)


def _csv_row(rank: int, margin: Margin, ruler: Ruler) -> tuple[str | int, ...]:
    amounts = (margin.nominal, margin.worst, margin.rss)
    change = margin.change
    return (
        rank,
        margin.path,
        len(margin.alike),
        margin.words,
        "yes" if margin.strict else "no",
        *(measure(amount, ruler) for amount in amounts),
        *(exact_inches(amount) if amount.dimension == LENGTH else "" for amount in amounts),
        *(exact_millimetres(amount) if amount.dimension == LENGTH else "" for amount in amounts),
        rounded_decimal(margin.score, 4),
        _how_rare(margin.one_in, margin),
        margin.things,
        _how_rare(margin.album_one_in, margin),
        "; ".join(_errors(margin, ruler)),
        "" if change is None else _change(change, ruler),
        "" if change is None else rounded_decimal(change.score, 4),
    )


def _json(plan: Plan) -> Json:
    return {
        "format": MARGINS_FORMAT,
        "format_version": FORMAT_VERSION,
        "name": plan.name,
        "title": plan.title,
        "ruler": json_ruler(plan.ruler),
        "margins": [_json_margin(margin, plan.ruler) for margin in plan.margins],
    }


def _json_margin(margin: Margin, ruler: Ruler) -> Json:
    change = margin.change
    return {
        "path": margin.path,
        "alike": list(margin.alike),
        "compares": margin.words,
        "strict": margin.strict,
        "because": json_text(margin.because, ruler),
        "nominal": json_value(margin.nominal, ruler),
        "worst": json_value(margin.worst, ruler),
        "rss": json_value(margin.rss, ruler),
        "score": _json_score(margin.score),
        "fails_one_in": margin.one_in,
        "never_fails": margin.never,
        "things": margin.things,
        "album_fails_one_in": margin.album_one_in,
        "errors": [{"name": name, "amount": json_value(amount, ruler)} for name, amount in margin.errors],
        "change": None if change is None else _json_change(change, ruler),
    }


def _json_change(change: SaferNumber, ruler: Ruler) -> Json:
    return {
        "path": change.path,
        "before": json_length(change.before, ruler),
        "value": json_length(change.value, ruler),
        "score": _json_score(change.score),
    }


def _json_score(score: Fraction) -> int | float:
    return json_decimal(Fraction(round(score * 10_000), 10_000))
