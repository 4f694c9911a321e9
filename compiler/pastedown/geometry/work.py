"""One run of working out: what was found wrong, how much work is left, and what is being worked out just now."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import contextmanager
from math import lcm
from typing import TYPE_CHECKING, NoReturn, TypeVar

from attrs import define, evolve, field

from pastedown.design.inference import DOUBTFUL_IF_UNBALANCED, TOLD_ONCE_A_NAME
from pastedown.diagnostic import Diagnostic, Label, error
from pastedown.diagnostic.nearest_name import nearest_name
from pastedown.geometry.actual import AS_DESIGNED, Actual
from pastedown.geometry.fault import Fault, Spoilt
from pastedown.quantity.quantity import Length, Quantity
from pastedown.source import SourceText, Span

if TYPE_CHECKING:
    from pastedown.design.recipe import File, Makeable
    from pastedown.geometry.hand import HandErrors
    from pastedown.geometry.instance import Instance
    from pastedown.geometry.marks import Marks, Variable
    from pastedown.geometry.model import Stack
    from pastedown.geometry.value import Value
    from pastedown.tree.expression import Expression
    from pastedown.tree.statement import Fact

Kind = TypeVar("Kind")
# Limits on recipes from strangers. Work is counted in expressions looked at, so that the verdict is the same on every
# machine.
MOST_WORK = 3_000_000
MOST_THINGS = 5_000
LONGEST_CHAIN = 2_000
DEEPEST_PARTS = 24
LONGEST_NUMBER_BITS = 2_048
LONGEST_TEXT = 20_000
# What a stock lacks is one omission, wherever it is asked for.
TOLD_ONCE_A_SENTENCE = ("caliper-missing", "stock-incomplete")
# Stands in `settled` for what failed.
_FAILED = object()
# What things cost of MOST_WORK beside the expressions looked at for them, by the time and the room that they take.
WORK_OF_ONE = 20  # one round of an `each`, one member of a family
WORK_OF_A_PART = 100
WORK_OF_A_LAYER = 40
WORK_OF_AN_ENTRY = 8  # one thing that a layer says
WORK_OF_A_FACT = 30
WORK_OF_A_READING = 8  # of one member of a family
WORK_OF_A_PIECE = 400
WORK_OF_A_CUT = 100
WORK_OF_A_SUMMAND = 8
WORK_OF_A_FOLDED_PANEL = 40
WORK_OF_A_WAIT = 15  # one thing that comes after another
WORK_OF_A_SLOT = 3
LETTERS_IN_A_STEP = 40


@define
class Chained:
    """One link of what is being worked out: the name, where it was asked for, and where it is set."""

    key: object
    words: str
    span: Span | None


@define
class Work:
    """The state of one run. Hidden behind `work_out`."""

    marks: Marks
    actual: Actual = AS_DESIGNED
    # How many members of one kind came out unlike at most, where they were asked as one.
    turns: int = 1
    # What hangs on lengths that were moved to a mark, and on which.
    moved: dict[object, set[Variable]] = field(factory=dict)
    diagnostics: list[Diagnostic] = field(factory=list)
    told: set[tuple[str, int, int]] = field(factory=set)
    told_names: set[str] = field(factory=set)
    told_sentences: set[str] = field(factory=set)
    spoilt: set[tuple[str, int, int]] = field(factory=set)
    spent: int = 0
    things: int = 0
    chain: list[Chained] = field(factory=list)
    structure: int = 0
    measured: set[object] = field(factory=set)
    asked: set[object] = field(factory=set)
    # The stacks whose thickness was asked for, and what hangs on which of them, by their numbers.
    stacks: dict[object, Stack] = field(factory=dict)
    stacked: dict[object, set[object]] = field(factory=dict)
    described: list[tuple[object, str, Span]] = field(factory=list)
    busy: set[object] = field(factory=set)
    rings: set[frozenset[str]] = field(factory=set)
    root: Instance | None = None
    makeables: dict[int, Makeable] = field(factory=dict)
    broken_words: frozenset[str] = frozenset()
    unbalanced: frozenset[str] = frozenset()
    passed: set[str] = field(factory=set)
    # What the fractions of all lengths of paper so far have in common below the line.
    below: int = 1
    settled: dict[object, object] = field(factory=dict)
    # The maker's own file, and the part whose things are being settled: a fault in another file is told with the line
    # of the own one that makes the part.
    own: SourceText | None = None
    gathering: Instance | None = None
    # What to read in the place of words of the recipe, by their identity: to ask what a design would be with it.
    instead: Mapping[int, Expression] = field(factory=dict)
    # Words that are read as their opposite, for the same question: a mountain or valley, or a side of the paper.
    turned: frozenset[Span] = frozenset()
    # How steady the hand is that builds it; None until the album was asked.
    hand: HandErrors | None = None

    def heed(self, diagnostics: Iterable[Diagnostic], unsaid: Iterable[Span] = ()) -> None:
        """Take note of what was told before: nothing more is said of the same words, and what had an error is
        spoilt; so are words that are wrong for a reason told elsewhere."""
        places = {_place(span) for span in unsaid}
        self.spoilt |= places
        self.told |= places
        for diagnostic in diagnostics:
            if diagnostic.span is not None:
                key = _place(diagnostic.span)
                self.told.add(key)
                if diagnostic.is_error:
                    self.spoilt.add(key)
                    if diagnostic.id in TOLD_ONCE_A_NAME:
                        self.told_names.add(diagnostic.span.text)

    def may_be_meant(self, name: str) -> bool:
        """Whether a word that nobody understands may have been `name`."""
        return name in self.broken_words or nearest_name(name, self.told_names | self.broken_words) is not None

    def is_spoilt(self, span: Span) -> bool:
        """Whether an error was told of exactly these words before anything was worked out."""
        return bool(self.spoilt) and _place(span) in self.spoilt

    def tell(self, diagnostic: Diagnostic) -> None:
        """Report, unless something was said about the very same words already, or of the same unknown name elsewhere:
        one mistake, one message."""
        span = diagnostic.span
        if span is not None:
            if diagnostic.id in DOUBTFUL_IF_UNBALANCED and span.source.name in self.unbalanced:
                return
            if _place(span) in self.told:
                return
            self.told.add(_place(span))
            if diagnostic.id in TOLD_ONCE_A_NAME:
                if span.text in self.told_names:
                    return
                self.told_names.add(span.text)
        if diagnostic.id in TOLD_ONCE_A_SENTENCE:
            if diagnostic.sentence in self.told_sentences:
                return
            self.told_sentences.add(diagnostic.sentence)
        self.diagnostics.append(self._with_own_line(diagnostic))

    def _with_own_line(self, diagnostic: Diagnostic) -> Diagnostic:
        """A fault told in another file than the maker's own points to where that one makes the part as well."""
        spans = (diagnostic.span, *(label.span for label in diagnostic.labels))
        if self.own is None or diagnostic.span is None or any(span.source is self.own for span in spans if span):
            return diagnostic
        part = next(filter(None, (_part_of(link.key) for link in reversed(self.chain))), self.gathering)
        made = part.made_by_hand() if part is not None else None
        if made is None:
            return diagnostic
        return evolve(diagnostic, labels=(*diagnostic.labels, Label(made.span, "made here", own=True)))

    @property
    def is_used_up(self) -> bool:
        """Whether more was asked for than is allowed. That has been told; nothing more need be looked at."""
        return self.spent > MOST_WORK

    def spend(self, span: Span, steps: int = 1) -> None:
        """Count steps of work. Raises Spoilt when the recipe asks for more than is allowed."""
        self.spent = min(self.spent + steps, MOST_WORK + 1)
        if self.is_used_up:
            self._stop(
                error(
                    "too-much-work",
                    span,
                    "This design asks for more arithmetic than a recipe may.",
                    reason=f"The limit is {MOST_WORK} steps of working out; a large album takes some forty thousand.",
                    way_out="Look for repetitions inside repetitions.",
                )
            )

    def _stop(self, diagnostic: Diagnostic) -> NoReturn:
        """Tell once that a limit is passed; what asks for more after that fails without a word."""
        if diagnostic.id not in self.passed:
            self.passed.add(diagnostic.id)
            self.tell(diagnostic)
        raise Spoilt

    @contextmanager
    def deciding_structure(self) -> Iterator[None]:
        """While counts and conditions are worked out: what there is may not hang on how it folds."""
        self.structure += 1
        try:
            yield
        finally:
            self.structure -= 1

    def measure(self, span: Span | None) -> None:
        """Note that everything being worked out hangs on a measure. Raises Fault where structure does."""
        self.measured.update(link.key for link in self.chain)
        if self.structure:
            raise Fault(
                error(
                    "structure-from-measure",
                    span,
                    "How many there are, or whether something is there, hangs on a measure of the folded piece.",
                    reason="What there is has to be settled before it can be folded and measured.",
                    way_out="Work it out from plain lengths instead, as in whole(a / b).",
                )
            )

    def hangs_on(self, variables: set[Variable]) -> None:
        """Note that everything being worked out hangs on lengths that were moved to a mark."""
        for link in self.chain:
            self.moved.setdefault(link.key, set()).update(variables)

    def hangs_on_stacks(self, stacks: Iterable[object]) -> None:
        """Note that everything being worked out hangs on how thick some things are together."""
        if stacks:
            for link in self.chain:
                self.stacked.setdefault(link.key, set()).update(stacks)

    def note_length(self, length: Length, span: Span) -> None:
        """Take note of a length of paper. Raises Spoilt where the fractions of a design have so little in common that
        sums of them would grow without end, Fault for one length that is too long by itself."""
        refuse_too_large(length, span)
        below = lcm(self.below, length.value.denominator)
        if below.bit_length() > LONGEST_NUMBER_BITS:
            self._stop(
                error(
                    "number-too-large",
                    span,
                    "The lengths of this design are fractions that have too little in common.",
                    way_out="Round them to your ruler, as in width rounded down to 1/16 in.",
                )
            )
        self.below = below

    def count_thing(self, span: Span) -> None:
        """Count a part, a piece or a panel. Raises Spoilt when there are too many."""
        self.things += 1
        if self.things > MOST_THINGS:
            self._stop(
                error(
                    "too-many-parts",
                    span,
                    f"This design comes to more than {MOST_THINGS} parts, pieces and panels.",
                    way_out="Ask for fewer here; an album has some hundred.",
                )
            )

    @contextmanager
    def working_out(self, key: object, words: str, span: Span | None) -> Iterator[None]:
        """Mark something as being worked out. Raises Fault for a ring and for a chain that is too long."""
        if key in self.busy:
            raise self.ring(key, words, span)
        if len(self.chain) >= LONGEST_CHAIN:
            raise Fault(
                error(
                    "chain-too-long",
                    span,
                    f"{words} hangs on a chain of more than {LONGEST_CHAIN} facts.",
                    way_out="State one of them as a length of its own.",
                )
            )
        self.chain.append(Chained(key, words, span))
        self.busy.add(key)
        try:
            yield
        finally:
            self.chain.pop()
            self.busy.discard(key)

    def ring(self, key: object, words: str, span: Span | None) -> Fault | Spoilt:
        """The fault of something that is asked for while it is being worked out; each ring is told of once."""
        at = next(at for at, link in enumerate(self.chain) if link.key == key)
        ring = frozenset(link.words for link in self.chain[at:])
        if ring in self.rings:
            return Spoilt()
        self.rings.add(ring)
        return Fault(_ring(self.chain[at:], words, span))

    def once(self, key: object, words: str, span: Span | None, make: Callable[[], Kind]) -> Kind:
        """Work something out when first asked for; tell its fault once and raise Spoilt from then on."""
        if key in self.settled:
            known = self.settled[key]
            if known is _FAILED:
                raise Spoilt
            if key in self.measured:
                self.measure(span)
            if key in self.moved:
                self.hangs_on(self.moved[key])
            self.hangs_on_stacks(self.stacked.get(key, ()))
            return known  # type: ignore[return-value]
        with self.working_out(key, words, span):
            try:
                value = make()
            except Fault as fault:
                self.settled[key] = _FAILED
                self.tell(fault.diagnostic)
                raise Spoilt from None
            except Spoilt:
                self.settled[key] = _FAILED
                raise
        self.settled[key] = value
        return value

    @contextmanager
    def telling(self) -> Iterator[None]:
        """Go on after a fault in the block: tell it, once."""
        try:
            yield
        except Fault as fault:
            self.tell(fault.diagnostic)
        except Spoilt:
            pass

    def file_fact(self, file: File, name: str, fact: Fact) -> Value:
        """A fact stated outside every album, worked out afresh for each design. Its braces are the file: it sees no
        part."""
        from pastedown.geometry.file_fact import work_out_file_fact

        return work_out_file_fact(self, file, name, fact)


def _part_of(key: object) -> Instance | None:
    """The part that a link of the chain belongs to: the key of one of its facts, or of one of its pieces."""
    from pastedown.geometry.instance import Instance

    owner = key[0] if isinstance(key, tuple) and key else None
    part = owner if isinstance(owner, Instance) else getattr(owner, "instance", None)
    return part if isinstance(part, Instance) else None


def refuse_too_large(number: Quantity, span: Span) -> None:
    """Raise Fault for a number with more digits than any paper needs."""
    if max(number.value.numerator.bit_length(), number.value.denominator.bit_length()) > LONGEST_NUMBER_BITS:
        raise Fault(
            error(
                "number-too-large",
                span,
                "This number grows past all paper.",
                way_out="Look for something multiplied by itself again and again.",
            )
        )


def refuse_too_many(count: int, span: Span) -> None:
    """Raise Fault when something is to be repeated more often than a design may have things."""
    if count > MOST_THINGS:
        raise Fault(
            error(
                "too-many-parts",
                span,
                f"This asks for {count} things, and a design may have {MOST_THINGS}.",
                way_out="Ask for fewer; an album has some hundred pieces.",
            )
        )


def _ring(links: list[Chained], words: str, span: Span | None) -> Diagnostic:
    walk = [f"{link.words}{_at(link.span)}" for link in links]
    sentence = f"{' needs '.join(walk[:1])} needs " + ", which needs ".join([*walk[1:], links[0].words]) + "."
    if len(links) == 1:
        sentence = f"{links[0].words} is worked out from itself."
    return error(
        "circular",
        links[0].span or span,
        sentence,
        reason="In a ring no length can be worked out first.",
        way_out="State it by something else."
        if len(links) == 1
        else "Choose one of them, and state it without the others.",
        labels=tuple(Label(link.span, "in the ring") for link in links[1:] if link.span is not None),
    )


def _place(span: Span) -> tuple[str, int, int]:
    return (span.source.name, span.start, span.end)


def _at(span: Span | None) -> str:
    return f" (line {span.line})" if span is not None else ""
