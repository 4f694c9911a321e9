"""What slides into a pocket is drawn half way in, along the one way that is free, and is pushed on by its arrow."""

import pytest

from outputs.test_pictures import box
from pastedown.compile import compile_design
from pastedown.outputs.pictures.frame import Vector, minus
from pastedown.outputs.pictures.places import moved_by
from pastedown.outputs.pictures.plate import Plate
from pastedown.outputs.pictures.posed import State
from pastedown.outputs.pictures.scene import Scene
from pastedown.outputs.pictures.step_pictures import step_pictures
from pastedown.outputs.pictures.way_in import way_in
from pastedown.outputs.pictures.workshop import workshop_of
from pastedown.plan.plan import Plan
from test_examples import plan_of

# By so much, in millimetres, sheets may seem to run through one another.
PLAY = 0.05


def scene_of(plan: Plan) -> Scene:
    (step,) = (step for step in plan.steps if str(step.title[0]).startswith("Lay "))
    return step_pictures(plan).scenes[step.number]


def run_through(one: Plate, others: list[Plate]) -> bool:
    low, high = box(one)
    return any(
        all(min(high[at], end[at]) - max(low[at], start[at]) > PLAY for at in range(3))
        for start, end in map(box, others)
    )


@pytest.mark.parametrize("name", ["harbour_walk", "market_day", "orchard_year_harvest"])
def test_a_card_is_drawn_half_way_in_and_its_way_on_is_free(name: str) -> None:
    scene = scene_of(plan_of(name))
    old = [plate for number, plate in enumerate(scene.plates) if number not in scene.new]
    (card,) = (scene.plates[number] for number in scene.new)
    ((start, end),) = scene.moves
    (seat,) = scene.inside
    on = minus(end, start)
    assert on[2] < 0 and abs(on[0]) < 1e-9 and abs(on[1]) < 1e-9, "the pages stand, and their fore edge is up"
    # It lies where it goes once it has gone on by the height that is out, and touches nothing on its way.
    lowest = min(corner[2] for corner in card.corners())
    left = lowest - min(corner[2] for corner in seat)
    assert left > 30
    assert not any(run_through(moved_by(card, (0.0, 0.0, -left * part / 8)), old) for part in range(9))
    # Half of it is out of the page, whose fore edge the card comes to.
    top = max(corner[2] for corner in card.corners())
    page = [plate for plate in old if plate.path == scene.names[1][0] and holds(plate, seat)]
    rim = max(corner[2] for plate in page for corner in plate.corners())
    assert top - rim == pytest.approx((top - lowest) / 2, abs=0.01)
    assert end[2] > top - 5, "the arrow stands above the card and does not cross it"


def holds(plate: Plate, seat: tuple[Vector, ...]) -> bool:
    return all(abs(plate.frame.coordinates(corner)[2]) < 2 * plate.thickness for corner in seat)


POCKET = """edition = 1
album probe {{
  ruler = inches to 1/16
  card = stock(kind: card, sheet: 12 in x 12 in, caliper: 12 pt, grain: marked)
  sticky = stock(kind: tape, roll_width: 1/4 in, caliper: 4 pt)
  piece leaf from card, height: 5 in, left: west, right: east {{
    run west to east {{ panel under: 4 in   fold turn: valley   panel over: 4 in }}
  }}
  piece note from card, height: 3 in, width: 3 in, loose: yes
  join note_in: note.back to leaf.under.face, by: nothing {{
    align note.mid_height to leaf.mid_height   align note.left to leaf.west, inside: 1/2 in
  }}
  pose made_up {{ leaf.turn = {turn} }}
}}
"""


def laid(turn: str) -> Vector | None:
    plan = compile_design("probe.album", POCKET.format(turn=turn), lambda _: None).designs[0].plan
    assert plan is not None
    workshop = workshop_of(plan)
    angles = {key: float(angle) for key, angle in plan.space.made_up.angles.items()}
    posed = workshop.posed(State({"note_in": 1}, angles))
    frame = posed.frames["leaf"][0, 0]
    return way_in(frame, frame.z, workshop.plates(posed, ["note"]), workshop.plates(posed, ["leaf"]))


def test_a_fold_bars_the_way_and_what_lies_open_has_none() -> None:
    """In a folder a sheet goes in from any side but that of the fold, and from the nearest of them."""
    way = laid("shut")
    assert way is not None
    assert way[0] == pytest.approx(-(0.5 + 1.5) * 25.4), "half an inch lies between it and the open edge"
    assert way[1] == way[2] == 0.0
    assert laid("flat") is None, "nothing lies over it: it is laid there from above"
