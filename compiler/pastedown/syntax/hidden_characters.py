"""Characters that cannot be seen but change what is seen: controls, and those that turn the direction of writing."""

import re

from pastedown.diagnostic import Diagnostic, error
from pastedown.source import SourceText, Span

# C0 and C1 controls except tab and line ends; the twelve of the Unicode property Bidi_Control; halves of surrogate
# pairs and the two non-characters, which no output could hold.
_HIDDEN = re.compile(
    "[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x84\x86-\x9f"
    "\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069\ud800-\udfff\ufffe\uffff]"
)


def visible(character: str) -> str:
    """A character by its number, as in U+202E."""
    return f"U+{ord(character):04X}"


def is_hidden(character: str) -> bool:
    return _HIDDEN.fullmatch(character) is not None


def hidden_characters(source: SourceText) -> list[Diagnostic]:
    """One diagnostic for each hidden character, at the first place where it stands."""
    first: dict[str, int] = {}
    for match in _HIDDEN.finditer(source.text):
        first.setdefault(match[0], match.start())
    return [_hidden(source, character, at) for character, at in first.items()]


def _hidden(source: SourceText, character: str, at: int) -> Diagnostic:
    times = source.text.count(character)
    often = "" if times == 1 else f" It stands in this file {times:,} times; this is the first."
    return error(
        "control-character",
        Span(source, at, at + 1),
        f"Here stands {visible(character)}, a hidden character that is no letter.{often}",
        reason="Such characters can make a text look different from what it says.",
        way_out="Delete it: put the cursor behind it and press the key that deletes backwards, or type the line anew.",
    )
