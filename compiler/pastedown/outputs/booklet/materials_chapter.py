"""What is bought, and the tools that the steps ask for."""

from collections.abc import Iterator

from pastedown.outputs.booklet.blocks import Block, Listing, Paragraph, Said, Section, Table
from pastedown.outputs.booklet.say import said, sized
from pastedown.outputs.bought_words import bought, grains_of, in_packs
from pastedown.outputs.two_systems import TwoSystems, told_in_two_systems
from pastedown.plan.material import Material
from pastedown.plan.plan import Plan, PlanArc
from pastedown.plan.to_buy import ToBuy, to_buy
from pastedown.quantity.ruler import Ruler

_NOTE = (
    "The amount is what the pieces themselves take. What is to be bought holds the spare pieces that the design asks "
    "for, and no more: buy one more of whatever you have not worked with before."
)
# What is bought comes first: on a narrow screen the last columns are moved into sight.
_COLUMNS = ("Material", "To buy", "Amount", "Kind", "Size", "Notes")

# What each kind of work takes. Common practice, no source.
_TOOLS: dict[str, tuple[str, ...]] = {
    "cut": (
        "a knife with fresh blades, a metal rule with a guard and a cutting mat, or a trimmer",
        "a pencil, and a square or a set square",
    ),
    "score": ("a scoring board with a stop, or a rule and a bone folder on a cutting mat",),
    "fold": ("a bone folder",),
    "crease": ("a bone folder",),
    "join": ("scrap paper to keep the table clean",),
    "close": ("scrap paper to keep the table clean",),
}
_TOOLS_OF_KINDS = {
    "glue": "a brush for the glue, waste paper and a weight",
    "tape": "something smooth and hard to rub tape down with",
}
_ROUND = "a corner cutter, a punch or a compass for round cuts"


def materials_chapter(plan: Plan) -> tuple[Block, ...]:
    """A table of materials and a list of tools."""
    rows = tuple(
        row for material in plan.materials for row in _rows(material, to_buy(material, plan.pieces), plan.ruler)
    )
    table = Table("What to buy or have at hand", _COLUMNS, rows, frozenset((1, 2)))
    tools = [(f"{tool[0].upper()}{tool[1:]}",) for tool in dict.fromkeys(_tools(plan))]
    # The lengths of the design lie on these marks.
    ruler: Said = ("A ruler marked every ", *sized(plan.ruler.marks, plan.ruler))
    shop = Section(("Materials",), (Paragraph((_NOTE,)), table) if rows else (Paragraph(("Nothing is needed.",)),))
    return (shop, Section(("Tools",), (Listing((ruler, *tools) if tools else ()),)))


def _rows(material: Material, need: ToBuy | None, ruler: Ruler) -> Iterator[tuple[Said, ...]]:
    """One row; of a stock on offer in several sizes one for each that is bought, with the amount in the first."""
    if need is None or not need.sizes:
        yield _row(material, need, ruler)
        return
    amount, notes = sized(material.amount, ruler), tuple(_notes(material, need, ruler))
    for each in need.sizes:
        size = (*sized(each.width, ruler), " x ", *sized(each.height, ruler))
        some = in_packs(each.used, "sheet", each.packs, each.pack)
        yield (each.sheet,), (some,), amount, (material.kind,), size, notes
        amount, notes = (), ()


def _row(material: Material, need: ToBuy | None, ruler: Ruler) -> tuple[Said, ...]:
    return (
        (material.stock,),
        (told_in_two_systems(lambda one: bought(material, need, one), ruler),),
        sized(material.amount, ruler),
        (material.kind,),
        said(material.size, ruler),
        tuple(_notes(material, need, ruler)),
    )


def _notes(material: Material, need: ToBuy | None, ruler: Ruler) -> Iterator[str | TwoSystems]:
    notes: list[Said] = []
    if material.use:
        notes.append(("for ", *said(material.use, ruler)))
    if material.caliper is not None:
        notes.append((*sized(material.caliper, ruler), " thick"))
    if material.weight is not None:
        notes.append(sized(material.weight, ruler))
    if grains := grains_of(material, need):
        notes.append((grains,))
    for number, note in enumerate(notes):
        yield from (*(("; ",) if number else ()), *note)


def _tools(plan: Plan) -> Iterator[str]:
    for step in plan.steps:
        yield from _TOOLS.get(step.kind, ())
    for material in plan.materials:
        if material.kind in _TOOLS_OF_KINDS:
            yield _TOOLS_OF_KINDS[material.kind]
    paths = [path for piece in plan.pieces for path in (piece.outline, *piece.inner_cuts)]
    if any(isinstance(move, PlanArc) for path in paths for move in path.moves):
        yield _ROUND
