"""Comments that look as if they had swallowed part of the recipe."""

import re

from pastedown.diagnostic import Diagnostic, warning
from pastedown.syntax.shortened import shortened
from pastedown.syntax.token import Token

# A fact, a brace, a declaration such as `panel flap: seam`, or a setting that is given a number or one bare word.
_CODE = re.compile(
    r"(?P<fact>(?<![\w.])[a-z][a-z0-9_]*(?:\.[a-z][a-z0-9_]*)*\s*=)"
    r"|(?P<brace>[{}])"
    r"|(?P<label>\b[a-z][a-z0-9_]*(?:\[\w+\])?\s*:(?=\s*(?:[0-9]|[a-z][a-z0-9_]*\s*(?:$|,))))"
)


def comment_hides_code(comment: Token) -> Diagnostic | None:
    """A warning if what stands in the comment would be a statement, or the end of one, outside it.

    A colon after an ordinary word is left alone unless a number or a single name follows: prose has colons too.
    """
    found = _CODE.search(comment.text)
    if found is None:
        return None
    return warning(
        "comment-hides-code",
        comment.span,
        f"This comment holds `{shortened(found[0])}`, which reads like part of the recipe.",
        reason="A comment runs to the end of its line. What a paste put on that line is left out of the album.",
        way_out="Start a new line before it if it belongs to the recipe; say it in other words, or delete it, if not.",
    )
