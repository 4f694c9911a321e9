"""Takes a place where the grammar could not go on. Gives what to tell the maker about it.

The usual slips have a sentence of their own, tried in order; the rest are told what was expected and what was found.
"""

from collections.abc import Sequence

from pastedown.diagnostic import Diagnostic, error
from pastedown.source import Span
from pastedown.syntax.expected_words import expected_words, found_words
from pastedown.syntax.language import Language, Unexpected
from pastedown.syntax.shortened import shortened
from pastedown.syntax.stop import UNREAD, Stop
from pastedown.syntax.token import Token
from pastedown.syntax.usual_slips import USUAL_SLIPS

_HOW_STATEMENTS_BEGIN = (
    "A statement begins with `name =` or with a word such as `part`, `piece` or `join`; sums are joined by `+ - * /`."
)


def explain(tokens: Sequence[Token], stop: Unexpected, language: Language) -> Diagnostic:
    """What is wrong with a piece of a file, given where reading it stopped."""
    place = Stop(tokens, stop.at, stop.expected, language)
    for slip in USUAL_SLIPS:
        found = slip(place)
        if found is not None:
            return found
    return _anything_else(place)


def bad_slot(tokens: Sequence[Token], stop: Unexpected, language: Language, slot: Span) -> Diagnostic:
    """What is wrong with the slot of a text; `slot` has its braces."""
    found = explain(tokens, stop, language)
    way_out = "" if found.way_out == _HOW_STATEMENTS_BEGIN else found.way_out
    return error(
        "bad-slot",
        found.span or slot,
        f"The slot `{shortened(slot.text)}` cannot be read: {_in_a_sentence(found.sentence)}",
        reason="What stands between braces in a text is worked out and put in its place: one measure, name or sum.",
        way_out=way_out or "Write one name or one sum, or double the braces if they are to be printed.",
        labels=found.labels,
    )


def _anything_else(stop: Stop) -> Diagnostic:
    wanted = expected_words(stop.expected, stop.language.spelling)
    token, before = stop.token, stop.before
    if token is None and before is not None:
        return error(
            "unexpected-word",
            before.span,
            f"After {found_words(before)} something is missing" + (f": {wanted}." if wanted else "."),
            reason=UNREAD,
            way_out=f"Write {wanted} after it." if wanted else "Finish the statement.",
        )
    if token is None or before is None:
        return stop.unexpected("No statement begins so.", _HOW_STATEMENTS_BEGIN)
    if not wanted:
        sentence = f"{_capital(found_words(token))} cannot follow {found_words(before)}."
        return stop.unexpected(sentence, _HOW_STATEMENTS_BEGIN)
    return stop.unexpected(
        f"After {found_words(before)} stands {found_words(token)}, where {wanted} was expected.",
        f"Write {wanted} after {found_words(before)}.",
    )


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]


def _in_a_sentence(sentence: str) -> str:
    return sentence[:1].lower() + sentence[1:]
