"""Albums of any size by one method, and all that is to come of them by arithmetic alone.

Pocket pages over the peaks of a hinge strip in a case of three boards, with a knob on either face of each page. The
numbers are worked out here from the formulas, with exact fractions and without the compiler: t is the card's caliper,
a that of the tape's film, d that of the covering, T that of the board.
"""

from __future__ import annotations

from fractions import Fraction
from math import atan, degrees

from attrs import frozen
from hypothesis import strategies as st

INCH = Fraction(127, 5)
SIXTEENTH = INCH / 16
GAPS = {
    "taped": ("case.front_tape.gap", "case.back_tape.gap"),
    "split_wrap": ("case.spine_wrap.front_gap", "case.spine_wrap.back_gap"),
    "one_wrap": ("case.wrap.front_gap", "case.wrap.back_gap"),
}


@frozen
class Album:
    """What a maker chooses. All lengths in millimetres."""

    unit: str
    ruler: str
    mark: Fraction
    case: str
    pages: int
    height: Fraction
    width: Fraction
    seam: Fraction
    peak: Fraction
    gusset: Fraction
    margin: Fraction
    joint: Fraction
    landing: Fraction
    border: Fraction
    card: Fraction
    film: Fraction
    board: Fraction
    cover: Fraction
    tape: Fraction
    cloth: Fraction
    knob: Fraction
    knob_at: Fraction
    spine: Fraction | None = None
    hinge: Fraction | None = None


def written(length: Fraction, unit: str) -> str:
    """A length in the unit; fractions of an inch as such, of a millimetre as a decimal."""
    if unit == "in":
        return f"{length / INCH} in"
    return f"{float(length):.6f} mm" if length.denominator > 1 else f"{length} mm"


def recipe(album: Album) -> str:
    """The album as a maker writes it."""
    names = ("height", "width", "seam", "peak", "gusset", "margin", "joint", "landing", "border", "card", "film", "board",
             "cover", "tape", "cloth", "knob", "knob_at")  # fmt: skip
    lengths = {name: written(getattr(album, name), album.unit) for name in names}
    front, back = GAPS[album.case]
    covering = {"taped": "tape: cloth", "split_wrap": "paper: waves", "one_wrap": "paper: waves"}[album.case]
    spine = f"hinge.block + 2 * {lengths['margin']} rounded up to ruler.marks"
    hinge = "page.height - its.stand_thickness - page.slide rounded down to ruler.marks"
    return RECIPE.format(
        **lengths,
        ruler=album.ruler,
        case=f"{album.case}_case",
        file="covers" if album.case == "taped" else "wraps",
        covering=covering,
        pages=album.pages,
        spine=spine if album.spine is None else written(album.spine, album.unit),
        hinge=hinge if album.hinge is None else written(album.hinge, album.unit),
        front=front,
        back=back,
    )


RECIPE = """edition = 1
use cardstock, chipboard, double_tape, cloth_tape, patterned_paper, glue from stocks
use pocket_page from pages
use concertina_hinge from hinges
use {case} from {file}
use cover_liner from covers
use page_inside_covers, hinge_in_page, spine_takes_hinge, pages_shut, wing_over_joint from rules
album any_size "An album of any size" {{
  ruler = {ruler}
  card = cardstock(sheet: 2 m x 2 m, caliper: {card}, grain: marked)
  grey = chipboard(sheet: 2 m x 2 m, caliper: {board}, grain: marked)
  waves = patterned_paper(sheet: 2 m x 2 m, caliper: {cover}, grain: marked, decorated: none)
  sticky = double_tape(roll_width: {tape}, caliper: {film})
  cloth = cloth_tape(roll_width: {cloth}, caliper: 0.25 mm)
  knob = stock(kind: print, height: 20 mm, width: 20 mm, caliper: {knob})
  moving_adhesive = sticky
  static_adhesive = glue
  pages = {pages}
  part page[k from 1 to pages] = pocket_page(paper: card, tape: sticky, height: {height}, width: {width},
    seam: {seam}, peak: hinge.peak)
  part hinge = concertina_hinge(paper: card, tape: sticky, peaks: pages, peak: {peak}, gusset: {gusset},
    wing: {margin} + {joint} + {landing}, height: {hinge}, page_width: page.width)
  hinge.bands_side_by_side = nothing
  part case = {case}(board: grey, {covering}, height: page.height + 2 * {border},
    width: page.width + grey.caliper + card.caliper + sticky.caliper + {border} rounded up to ruler.marks,
    spine: {spine}, joint: {joint})
  part borders = page_inside_covers(page_height: page.height, page_width: page.width, cover_height: case.height,
    cover_width: case.width, board: grey, hinge_lift: card.caliper + sticky.caliper, spine_margin: room.margin,
    joint: case.joint)
  part fits = hinge_in_page(hinge_height: hinge.height, page_height: page.height,
    stand_thickness: hinge.stand_thickness, made_hinge_height: hinge.strip.height, made_page_height: page.made_height)
  part room = spine_takes_hinge(spine: case.spine, block: hinge.block, wing: hinge.wing, joint: case.joint,
    least_margin: {margin}, least_landing: 1/4 in)
  stack = thickness(page, hinge, pose: closed)
  part shut = pages_shut(pages: pages, stack: stack, spine: case.spine, board: grey, page: thickness(page[1]),
    pitch: hinge.pitch, cover_width: case.width,
    slope: steepest(page, hinge, above: case.room, from: page[1].mouth.spine, pose: closed))
  part lining = cover_liner(paper: waves, board: grey, cover_height: case.height, cover_width: case.width,
    turn_in: case.turn_in)
  part creased = wing_over_joint(wing: hinge.wing, spine_margin: room.margin, joint: case.joint, board: grey,
    paper: card, liner_width: lining.width, liner_border: lining.border, least_landing: 1/4 in)
  tape_needed = sum(page.tape_length) + hinge.tape_length
  join lined: lining.liner.back to case.inside_front, after: front_cover_crease {{
    align lining.liner.mid_width to case.inside_front.mid_width
    align lining.liner.mid_height to case.inside_front.mid_height
  }}
  each k from 1 to pages {{
    join mount[k]: page[k].mouth to hinge.stand[k], moving: yes {{
      align page[k].mouth.spine to hinge.stand[k].spine
      align page[k].mouth.mid_height to hinge.stand[k].mid_height
    }}
    piece front_knob[k] from knob, height: 20 mm, width: 20 mm, left: near, right: far
    piece rear_knob[k] from knob, height: 20 mm, width: 20 mm, left: far, right: near
    join front_knob_on[k]: front_knob[k].back to page[k].front_face {{
      align front_knob[k].near to page[k].front_face.spine, inside: {knob_at}
      align front_knob[k].mid_height to page[k].front_face.mid_height
    }}
    join rear_knob_on[k]: rear_knob[k].back to page[k].rear_face {{
      align rear_knob[k].near to page[k].rear_face.spine, inside: {knob_at}
      align rear_knob[k].mid_height to page[k].rear_face.mid_height
    }}
  }}
  join case_in: hinge.strip.back to case.inside_spine, before: mount {{
    align hinge.strip.mid_width to case.inside_spine.mid_width
    align hinge.strip.mid_height to case.inside_spine.mid_height
  }}
  close front_wing: hinge.strip.front_wing.back to case.inside_front, after: case_in
  close back_wing: hinge.strip.back_wing.back to case.inside_back, after: case_in
  fold front_spine_crease: in_place, on: hinge.strip.front_wing, over: case.spine_board.front_edge, follows: {front}
  fold front_cover_crease: in_place, on: hinge.strip.front_wing, over: case.front_cover.spine, follows: {front}
  fold back_spine_crease: in_place, on: hinge.strip.back_wing, over: case.spine_board.back_edge, follows: {back}
  fold back_cover_crease: in_place, on: hinge.strip.back_wing, over: case.back_cover.spine, follows: {back}
  pose closed {{ case = closed }}
  pose open_at[k from 0 to pages] {{
    case = open
    hinge = open_at[k]
  }}
}}
"""


def up(length: Fraction, mark: Fraction) -> Fraction:
    return -(-length // mark) * mark


def nearest(length: Fraction, mark: Fraction) -> Fraction:
    return (length / mark + Fraction(1, 2)) // 1 * mark


def rows(zone: Fraction) -> int:
    """Rows of tape on what moves: one while it is narrower than an inch, else one to half an inch."""
    return 1 if zone < INCH else int(-(-zone // (INCH / 2)))


def numbers(album: Album) -> dict[str, Fraction]:
    """All lengths of an album by their paths, in millimetres."""
    a, t, film, n = album, album.card, album.film, album.pages
    wing = a.margin + a.joint + a.landing
    block = (n - 1) * a.gusset + n * (2 * t + film)
    spine = a.spine if a.spine is not None else up(block + 2 * a.margin, a.mark)
    margin = (spine - block) / 2
    tallest = a.height - (2 * t + 3 * film) - SIXTEENTH
    strip = a.hinge if a.hinge is not None else tallest // a.mark * a.mark
    cover_height = a.height + 2 * a.border
    cover_width = up(a.width + a.board + t + film + a.border, a.mark)
    between = spine - 2 * a.board
    bare = max(zone for zone, _ in bands(a, strip))
    stack = n * max(bare, 2 * t + 2 * a.knob)
    places = [(a.knob_at, 2 * t + 2 * a.knob), *((end, zone) for zone, end in bands(a, strip))]
    slope = max(Fraction(0), *((n * zone - between) / at for at, zone in places))
    back_rows = 2 * -(-wing // (INCH / 2)) + (n - 1) * max(1, -(-a.gusset // (INCH / 2)))
    found = {
        "hinge.wing": wing,
        "hinge.flat_width": 2 * wing + 2 * n * a.peak + (n - 1) * a.gusset,
        "hinge.strip.width": 2 * wing + 2 * n * a.peak + (n - 1) * a.gusset,
        "hinge.block": block,
        "hinge.pitch": a.gusset + 2 * t + film,
        "hinge.overlap": max(Fraction(0), a.peak - a.gusset - 2 * t - film),
        "hinge.nominal_width": 2 * wing + (n - 1) * a.gusset,
        "hinge.made_up_width": 2 * wing + block,
        "hinge.height": strip,
        "fits.tallest": tallest,
        "page[1].front_sheet.height": a.height + a.seam,
        "page[1].rear_sheet.width": a.width,
        "page[1].insert_height": a.height - SIXTEENTH,
        "page[1].insert_width": a.width - a.peak - SIXTEENTH,
        "case.spine": spine,
        "case.height": cover_height,
        "case.width": cover_width,
        "case.room": between,
        "case.flat_width": 2 * cover_width + 2 * a.joint + spine,
        "case.joint_needed": a.board + (0 if a.case == "taped" else 2 * a.cover),
        "room.margin": margin,
        "room.landing": wing - margin - a.joint,
        "borders.border": a.border,
        "borders.fore_edge_border": cover_width - a.width - a.board - t - film,
        "borders.open_border": margin + a.joint + cover_width - a.width,
        "stack": stack,
        "shut.budget": (between - SIXTEENTH) / n,
        "shut.slope": slope,
        "shut.fore_edge_opening": between + slope * cover_width,
        "tape_needed": n * 2 * a.width * rows(a.seam) + 3 * n * rows(a.peak) * strip + back_rows * strip,
    }
    turn_in = nearest(INCH if a.case == "taped" else Fraction(3, 4) * INCH, a.mark)
    rim = nearest(INCH / 8, a.mark)
    found |= {
        "lining.liner.height": (cover_height - 2 * rim) // a.mark * a.mark,
        "lining.liner.width": (cover_width - 2 * rim) // a.mark * a.mark,
        "lining.overlap": turn_in - a.board - rim,
        "creased.spine_crease": wing - margin,
        "creased.cover_crease": wing - margin - a.joint,
        "creased.hidden": rim + (cover_width - 2 * rim) // a.mark * a.mark - (wing - margin - a.joint),
    }
    if a.case == "split_wrap":
        found["case.front_wrap.height"] = cover_height + 2 * turn_in
        found["case.front_wrap.width"] = cover_width + turn_in
        found["case.spine_wrap.width"] = spine + 2 * a.joint + 2 * turn_in
    if a.case == "one_wrap":
        found["case.wrap.height"] = cover_height + 2 * turn_in
        found["case.wrap.width"] = 2 * cover_width + spine + 2 * a.joint + 2 * turn_in
    return found


def bands(a: Album, strip: Fraction) -> list[tuple[Fraction, Fraction]]:
    """How thick a page on its peak is where nothing lies on it, and how far from the spine each band reaches: the hinge
    band, the seams, and where the two cross if the strip is high enough for it."""
    found = [(4 * a.card + 3 * a.film, a.peak), (3 * a.card + a.film, a.width)]
    if (a.height - strip) / 2 < a.seam:
        found.append((5 * a.card + 4 * a.film, a.peak))
    return found


def lines(album: Album) -> list[Fraction]:
    """Where the scores of the strip lie, from its front end."""
    found = []
    for k in range(album.pages):
        foot = album.margin + album.joint + album.landing + k * (2 * album.peak + album.gusset)
        found += [foot, foot + album.peak, foot + 2 * album.peak]
    return found


def gape(album: Album) -> str:
    """The angle between the covers of the shut album."""
    return f"{degrees(2 * atan(float(numbers(album)['shut.slope']) / 2)):.2f}"


def not_met(album: Album) -> set[str]:
    """The requirements and preferences that such an album does not meet; of like pages the first stands for all."""
    a, found = album, numbers(album)
    eighth = INCH / 8
    least = min(eighth, nearest(eighth, a.mark))
    on_board = (a.cloth - a.joint) / 2
    page = max(2 * a.card + 2 * a.knob, 3 * a.card + a.film)
    fails = {
        "room.margins": found["room.margin"] < a.margin,
        "room.lands": found["room.landing"] < INCH / 4,
        "shut.shuts": found["stack"] > found["case.room"] - SIXTEENTH,
        "shut.lie_parallel": page > found["hinge.pitch"],
        "creased.slack": a.joint < a.board + a.card,
        "creased.lands": found["room.landing"] < INCH / 4,
        "creased.lined_over": found["creased.hidden"] < eighth,
        "lining.hides_turn_in": found["lining.overlap"] < eighth,
        "case.turns": a.joint < found["case.joint_needed"],
        "case.tape_holds": a.case == "taped" and on_board < INCH / 4,
        "case.spine_takes_both_tapes": a.case == "taped" and found["case.spine"] < 2 * on_board,
        "fits.slides_on": found["hinge.height"] > found["fits.tallest"],
        "fits.holds_corners": found["hinge.height"] < Fraction(9, 10) * a.height,
        "page[1].tape_on_seam": a.tape + eighth > a.seam,
        "hinge.tape_in_peak": a.tape + eighth > a.peak,
        "borders.head_and_tail": found["borders.border"] < least,
        "borders.fore_edge": found["borders.fore_edge_border"] < least,
    }
    return {path for path, failed in fails.items() if failed}


@st.composite
def albums(draw: st.DrawFn) -> Album:
    """Any album of the method: inches or millimetres, small or large, thin or thick, in any of three cases."""
    metric = draw(st.booleans())
    one, fine = (Fraction(1), draw(st.sampled_from([1, 2]))) if metric else (INCH, draw(st.sampled_from([8, 16, 32])))
    mark = one / fine

    def length(least: str, most: str) -> Fraction:
        low, high = (int(Fraction(end) * INCH // mark) for end in (least, most))
        return draw(st.integers(low + 1, high)) * mark

    def caliper(points: list[int], millimetres: list[str]) -> Fraction:
        return Fraction(draw(st.sampled_from(millimetres))) if metric else draw(st.sampled_from(points)) * INCH / 1000

    return Album(
        unit="mm" if metric else "in",
        ruler=f"{'millimetres' if metric else 'inches'} to {Fraction(1, fine)}",
        mark=mark,
        case=draw(st.sampled_from(sorted(GAPS))),
        pages=draw(st.integers(1, 8)),
        height=length("4", "11"),
        width=length("4", "11"),
        seam=length("0.375", "1.2"),
        peak=length("0.375", "1.2"),
        gusset=length("0.25", "1"),
        margin=length("0.25", "0.8"),
        joint=length("0.07", "0.4"),
        landing=length("1", "2"),
        border=length("0.07", "0.4"),
        card=caliper([8, 10, 12, 16], ["0.2", "0.25", "0.3", "0.4"]),
        film=caliper([2, 4], ["0.05", "0.1"]),
        board=caliper([46, 60, 80, 98], ["1.5", "2", "2.5", "3"]),
        cover=caliper([4, 8], ["0.1", "0.2"]),
        tape=Fraction(6) if metric else INCH / 4,
        cloth=Fraction(40) if metric else draw(st.sampled_from([1, 2])) * INCH,
        knob=caliper([10, 40, 125], ["0.25", "1", "3"]),
        # Beyond the peak, and short of the fore edge.
        knob_at=length("1.25", "3"),
        spine=length("2.5", "6") if draw(st.booleans()) else None,
        hinge=None,
    )
