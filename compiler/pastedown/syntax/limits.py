"""How much a recipe may hold. Recipes come from strangers: past these limits a file is refused and not read further.

All are limits of this compiler; a hand-written album of a hundred parts keeps to a hundredth of each.
"""

from pastedown.diagnostic import Diagnostic, Label, error
from pastedown.source import SourceText, Span

MOST_LETTERS = 2_000_000
MOST_TOKENS = 100_000
# Operations that wait for one another, brackets included: a sum of so many terms in a row.
MOST_JOINED = 256
# Reading a slot of a text takes about as long as reading so many words.
TOKENS_OF_A_SLOT = 6
MOST_NESTED = 64
# A file can hold many more mistakes than anybody would read; those beyond are left for the next run.
MOST_DIAGNOSTICS = 1_000


def too_long_file(source: SourceText) -> Diagnostic:
    return error(
        "too-long-file",
        Span(source, 0, 0),
        f"This file has {len(source.text):,} characters, and a file may have up to {MOST_LETTERS:,}.",
        reason="Nothing of it has been read.",
        way_out="Divide it into several files, and name in each what it uses from the others with `use`.",
    )


def too_long_layout(source: SourceText, letters: int) -> Diagnostic:
    return error(
        "too-long-file",
        Span(source, 0, 0),
        f"In the usual layout this file would have {letters:,} characters, and a file may have up to {MOST_LETTERS:,}.",
        reason="Nothing of it has been changed.",
        way_out="Divide it into several files, and name in each what it uses from the others with `use`.",
    )


def too_many_tokens(span: Span) -> Diagnostic:
    return error(
        "too-many-tokens",
        span,
        f"This file has more than {MOST_TOKENS:,} words, numbers and marks.",
        reason="It is read no further than here, and nothing is made from it.",
        way_out="Divide it into several files, or write what repeats as a component or with `each`.",
    )


def too_long_sum(span: Span) -> Diagnostic:
    return error(
        "too-long-sum",
        span,
        f"This is the {MOST_JOINED + 1}th sign in one sum, and a sum may have up to {MOST_JOINED}.",
        reason="The file is read no further than here, and nothing is made from it.",
        way_out="Give parts of the sum names of their own, `name = ...`, or write `sum(...)`.",
    )


def too_deep(span: Span, outermost: Span) -> Diagnostic:
    return error(
        "too-deep",
        span,
        f"This is the {MOST_NESTED + 1}th bracket inside another, and {MOST_NESTED} may be open at once.",
        reason="The file is read no further than here, and nothing is made from it.",
        way_out="Close some of them, or give what is inside a name of its own: `name = ...`.",
        labels=(Label(outermost, "the outermost was opened here"),),
    )
