"""An album whose pages are too thick for its spine, with numbers worked out by hand: four landscape pages, each with a
patterned mat, a photograph on a card mat and an ornament on either face, and a card with two photographs in its pocket.
"""

USES = """
use pocket_page from pages
use concertina_hinge from hinges
use taped_case from covers
use pages_shut, section_in_covers from rules
use side_flap, magnet_pair from decorations
use cardstock, board_80_point, double_tape, cloth_tape, glue, patterned_paper, photo_print from stocks
"""


def album(ornaments: str, *, spine: str = "1 1/2 in", more: str = "") -> str:
    """The body of the album. `ornaments` joins what stands on the pages: `ornament[k]` on the front, and
    `rear_ornament[k]` on the rear."""
    return f"""
ruler = inches to 1/16
kraft = cardstock(sheet: 12 in x 12 in, caliper: 12 pt, grain: marked)
sticky = double_tape(roll_width: 1/4 in, caliper: 4 pt)
grey = board_80_point(sheet: 12 in x 24 in, grain: long)
cloth = cloth_tape(roll_width: 1 1/2 in, caliper: 10 pt)
waves = patterned_paper(sheet: 12 in x 12 in, caliper: 8 pt, grain: marked)
snapshot = photo_print(height: 3 1/2 in, width: 5 in, caliper: 10 pt)
button = stock(kind: print, height: 2 in, width: 2 in, caliper: 1/8 in)
moving_adhesive = sticky
static_adhesive = glue
pages = 4
part page[k from 1 to pages] = pocket_page(paper: kraft, tape: sticky, height: 6 in, width: 8 in, peak: hinge.peak)
part hinge = concertina_hinge(paper: kraft, tape: sticky, peaks: pages, peak: 1/2 in, gusset: 1/4 in, wing: 2 in,
  height: 5 3/4 in)
part case = taped_case(board: grey, tape: cloth, joint: 1/8 in, height: 6 1/4 in, width: 8 1/2 in, spine: {spine})
each k from 1 to pages {{
  join mount[k]: page[k].mouth to hinge.stand[k], by: sticky, moving: yes {{
    align page[k].mouth.spine to hinge.stand[k].spine
    align page[k].mouth.mid_height to hinge.stand[k].mid_height
  }}
  piece pattern[k] from waves, height: 5 in, width: 7 in
  join pattern_on[k]: pattern[k].back to page[k].front_face, by: sticky {{
    align pattern[k].mid_width to page[k].front_face.mid_width
    align pattern[k].mid_height to page[k].front_face.mid_height
  }}
  piece rear_pattern[k] from waves, height: 5 in, width: 7 in
  join rear_pattern_on[k]: rear_pattern[k].back to page[k].rear_face, by: sticky {{
    align rear_pattern[k].mid_width to page[k].rear_face.mid_width
    align rear_pattern[k].mid_height to page[k].rear_face.mid_height
  }}
  piece mat[k] from kraft, height: 4 in, width: 6 in
  join mat_on[k]: mat[k].back to pattern[k].face, by: sticky {{
    align mat[k].mid_width to pattern[k].mid_width   align mat[k].mid_height to pattern[k].mid_height
  }}
  piece rear_mat[k] from kraft, height: 4 in, width: 6 in
  join rear_mat_on[k]: rear_mat[k].back to rear_pattern[k].face, by: sticky {{
    align rear_mat[k].mid_width to rear_pattern[k].mid_width   align rear_mat[k].mid_height to rear_pattern[k].mid_height
  }}
  piece photo[k] from snapshot, height: 3 1/2 in, width: 5 in
  join photo_on[k]: photo[k].back to mat[k].face, by: sticky {{
    align photo[k].mid_width to mat[k].mid_width   align photo[k].mid_height to mat[k].mid_height
  }}
  piece rear_photo[k] from snapshot, height: 3 1/2 in, width: 5 in
  join rear_photo_on[k]: rear_photo[k].back to rear_mat[k].face, by: sticky {{
    align rear_photo[k].mid_width to rear_mat[k].mid_width   align rear_photo[k].mid_height to rear_mat[k].mid_height
  }}
  piece insert[k] from kraft, height: 5 1/2 in, width: 7 in, loose: yes
  join insert_in[k]: insert[k].back to page[k].front_sheet.body.back, by: nothing {{
    align insert[k].mid_height to page[k].front_face.mid_height
    align insert[k].right to page[k].front_sheet.fore_edge
  }}
  piece front_print[k] from snapshot, height: 3 1/2 in, width: 5 in
  join front_print_on[k]: front_print[k].back to insert[k].face, by: sticky {{
    align front_print[k].mid_height to insert[k].mid_height   align front_print[k].mid_width to insert[k].mid_width
  }}
  piece back_print[k] from snapshot, height: 3 1/2 in, width: 5 in
  join back_print_on[k]: back_print[k].back to insert[k].back, by: sticky {{
    align back_print[k].mid_height to insert[k].mid_height   align back_print[k].mid_width to insert[k].mid_width
  }}
}}
{ornaments}
join case_in: hinge.strip.back to case.inside_spine, before: mount {{
  align hinge.strip.mid_width to case.inside_spine.mid_width
  align hinge.strip.mid_height to case.inside_spine.mid_height
}}
close front_wing: hinge.strip.front_wing.back to case.inside_front, after: case_in
close back_wing: hinge.strip.back_wing.back to case.inside_back, after: case_in
fold front_crease: in_place, on: hinge.strip.front_wing, over: case.spine_board.front_edge, follows: case.front_tape.gap
fold back_crease: in_place, on: hinge.strip.back_wing, over: case.spine_board.back_edge, follows: case.back_tape.gap
pose closed {{ case = closed }}
stack = thickness(page, hinge, pose: closed)
blank = thickness(page.front_sheet.body, page.rear_sheet.body, state: blank, over: page[1].front_face)
part shut = pages_shut(pages: pages, stack: stack, blank: thickness(page, hinge, pose: closed, state: blank),
  spine: case.spine, board: grey, cover_width: case.width, page: thickness(page[1]), pitch: hinge.pitch,
  slope: steepest(page, hinge, above: case.room, from: page[1].mouth.spine, pose: closed))
{more}
"""


def ornament(k: str, inside: str, *, rear: bool = False, by: str = "glue") -> str:
    """An ornament an eighth of an inch thick, so far from the spine edge of its page."""
    name, face = ("rear_ornament", "rear_face") if rear else ("ornament", "front_face")
    return f"""
  piece {name}[{k}] from button, height: 2 in, width: 2 in
  join {name}_on[{k}]: {name}[{k}].back to page[{k}].{face}, by: {by} {{
    align {name}[{k}].{"right" if rear else "left"} to page[{k}].{face}.spine, inside: {inside}
    align {name}[{k}].mid_height to page[{k}].{face}.mid_height
  }}
"""


ON_BOTH_FACES = f"each k from 1 to pages {{ {ornament('k', '4 in')} {ornament('k', '4 in', rear=True)} }}"
ON_ONE_FACE = f"each k from 1 to pages {{ {ornament('k', '4 in')} }}"
STAGGERED = "\n".join(
    ornament(str(k), "4 in" if k % 2 else "1 1/2 in", rear=rear) for k in range(1, 5) for rear in (False, True)
)
TAPED = "each k from 1 to pages {{ {} {} }}".format(
    ornament("k", "4 in", by="sticky"), ornament("k", "4 in", rear=True, by="sticky")
)
