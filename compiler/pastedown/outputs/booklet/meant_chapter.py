"""What is not as it is usually asked for, and is meant so: what the maker will find, and why it stays."""

from pastedown.outputs.booklet.blocks import Block, Listing, Paragraph
from pastedown.outputs.booklet.say import said
from pastedown.plan.meant_so import in_words
from pastedown.plan.plan import Plan

_WHAT = "These are not as they are usually asked for. They were looked at and are meant so; nothing has to be done."


def meant_chapter(plan: Plan) -> tuple[Block, ...]:
    """Nothing where nothing is meant so. What several parts have in the same words is told once."""
    meant = dict.fromkeys(in_words(each) for each in plan.verdicts if each.meant and not each.holds)
    if not meant:
        return ()
    return Paragraph((_WHAT,)), Listing(tuple(said(text, plan.ruler) for text in meant))
