"""Text from strangers, made safe to show: nothing hidden, nothing that moves the cursor, nothing that is markup.

The lists of characters are written out here, not asked of `unicodedata`, so that every Python gives the same bytes.
"""

import re
from html import escape

# Line breaks and tabs: all end up as one space, so that a text stays on the line it was put on. U+0085, U+2028 and
# U+2029 are line breaks too (The Unicode Standard, section 5.8, newline guidelines).
_BREAKS = re.compile("[\t\n\x0b\x0c\r\x85\u2028\u2029]+")

# Controls, marks that turn the direction of writing or show nothing at all, tag characters, halves of surrogate pairs,
# and code points that are no characters. The two joiners U+200C and U+200D are left alone: several scripts are spelled
# with them.
HIDDEN = re.compile(
    "["
    "\x00-\x1f\x7f-\x9f\xad\u061c\u180e\u200b\u200e\u200f\u2028-\u202e\u2060-\u206f\ufeff\ufff9-\ufffb"
    "\ud800-\udfff\ufdd0-\ufdef"
    "\U000e0000-\U000e007f"
    + "".join(f"{chr(plane * 0x10000 + 0xFFFE)}{chr(plane * 0x10000 + 0xFFFF)}" for plane in range(17))
    + "]"
)

_CONTROL_PICTURES = 0x2400
_DELETE = 0x7F
_PICTURE_OF_DELETE = "\u2421"


def plain(text: str) -> str:
    """The text on one line, with every hidden character shown: escape as its picture U+241B, others as "[U+202E]"."""
    return HIDDEN.sub(_shown, _BREAKS.sub(" ", text))


def xml(text: str) -> str:
    """The text as `plain` shows it, fit for an XML element or attribute: & < > " ' are escaped, and nothing is
    left that XML 1.0 (section 2.2, Char) does not allow."""
    return escape(plain(text), quote=True)


def _shown(match: re.Match[str]) -> str:
    code = ord(match[0])
    if code < 0x20:
        return chr(_CONTROL_PICTURES + code)
    if code == _DELETE:
        return _PICTURE_OF_DELETE
    return f"[U+{code:04X}]"
