"""Pictures of steps: everything on the sheet, no word over anything, and hidden lines hidden.

Which lines are hidden is looked at with another method than the one that draws: rays are sent from points of edges to
the eye and followed through every plate, by numpy.
"""

from itertools import combinations

import numpy
import pytest
from attrs import evolve

from outputs.template_pieces import Drawn
from outputs.test_drawings import check
from pastedown.outputs.booklet.step_picture import booklet_picture
from pastedown.outputs.pictures.frame import Frame, Vector, cross, dot, unit
from pastedown.outputs.pictures.hidden import Hider
from pastedown.outputs.pictures.lettering import MOST_WIDTH
from pastedown.outputs.pictures.places import rims
from pastedown.outputs.pictures.plate import Plate
from pastedown.outputs.pictures.posed import State
from pastedown.outputs.pictures.scene import Scene
from pastedown.outputs.pictures.solid import Edge, faces_and_edges
from pastedown.outputs.pictures.step_pictures import step_pictures
from pastedown.outputs.pictures.view import FROM_ABOVE, OBLIQUE, View
from pastedown.outputs.pictures.workshop import workshop_of
from pastedown.outputs.template.drawing import Stroke
from pastedown.outputs.to_pictures import make
from reference.through_the_compiler import plan as design_of
from test_examples import DESIGNS, plan_of

# Seen along the height, from the tail.
FROM_THE_END = View((1.0, 0.0), (0.0, 0.0), (0.0, 1.0), (0.0, -1.0, 0.0), (0.0, -1.0, 0.0))

NAMES = [name.removesuffix(".album") for name in DESIGNS]
# What fits on half a page of a booklet, and on the screen of a telephone with letters that can be read.
WIDEST, HIGHEST = MOST_WIDTH, 190.0
# Nearer than so many millimetres to a rim, two methods may differ.
RIM = 0.02


@pytest.mark.parametrize("name", NAMES)
def test_everything_lies_on_the_sheet_and_no_word_over_anything(name: str) -> None:
    for file, made in make(plan_of(name)).items():
        check(Drawn(file, made.decode()), WIDEST, HIGHEST)


@pytest.mark.parametrize("name", NAMES)
def test_letters_can_be_read_on_a_telephone(name: str) -> None:
    """11 CSS pixels high at least where a picture is as wide as the text of a screen of 375: 343 of them."""
    pictures = step_pictures(plan_of(name))
    for number in pictures.scenes:
        for sheet in (pictures.of(number), booklet_picture(pictures.scenes[number])):
            assert sheet is not None
            across = min(343.0, float(sheet.paper.width.millimetres) * 96 / 25.4)
            for words in sheet.words:
                assert words.size * across / float(sheet.paper.width.millimetres) >= 11.0, (number, words.text)


@pytest.mark.parametrize("name", NAMES)
def test_every_step_that_works_on_pieces_has_a_picture(name: str) -> None:
    plan = plan_of(name)
    pictures = step_pictures(plan)
    for step in plan.steps:
        if step.kind in ("cut", "score", "fold", "join", "close", "crease", "lay"):
            assert pictures.of(step.number) is not None, (step.number, step.title)
            assert pictures.words(step.number)


@pytest.mark.parametrize("name", ["first_snow", "market_day"])
def test_hidden_lines_are_hidden(name: str) -> None:
    """In every third picture of whole examples."""
    scenes = step_pictures(plan_of(name)).scenes
    compared = sum(compare(list(scene.plates), scene.view) for scene in list(scenes.values())[::3])
    assert compared > 500


@pytest.mark.parametrize("seed", range(8))
def test_hidden_lines_are_hidden_among_plates_that_lie_anyhow(seed: int) -> None:
    chance = numpy.random.default_rng(seed)
    plates = [tilted(chance) for _ in range(14)]
    assert compare(plates, OBLIQUE) > 100
    assert compare(plates, FROM_THE_END) > 50


def test_of_sheets_that_touch_only_the_upper_one_shows_inside() -> None:
    """Two sheets of one size on one another, and a third that hides nothing."""
    lower, upper = sheet(0.0), sheet(0.3)
    faces, edges = drawn([lower, upper], OBLIQUE)
    hider = Hider(faces)
    inside = [edge for edge in edges if edge.plate is lower and is_top(edge, lower)]
    assert len(inside) == 4
    seen = [sum(stop - begin for begin, stop in hider.visible(edge.start, edge.end)) for edge in inside]
    # At the head and on the left the upper sheet lies before it, but for its own thickness at the corners.
    assert sum(1 for part in seen if part < 0.03) == 2
    above = [edge for edge in edges if edge.plate is upper and is_top(edge, upper)]
    assert all(hider.visible(edge.start, edge.end) == [(0.0, 1.0)] for edge in above)


@pytest.mark.parametrize("turned", [False, True], ids=["to the head", "to the tail"])
def test_an_edge_below_the_seam_of_two_panels_is_hidden(turned: bool) -> None:
    """Two panels side by side over a long edge that runs along their seam, whichever way it runs."""
    axes = (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0)
    panels = [plate_of(Frame((left, 0.0, 0.3), *axes), 10.0, 20.0, 0.2) for left in (-10.0, 0.0)]
    faces, _ = drawn(panels, FROM_ABOVE)
    start, end = (0.0, -40.0, 0.0), (0.0, 60.0, 0.0)
    hidden = Hider(faces).visible(*((end, start) if turned else (start, end)))
    assert sum(stop - begin for begin, stop in hidden) == pytest.approx(0.8)


def test_plates_that_hide_one_another_in_a_ring() -> None:
    """Three bars, each over the next one: no order in which they could be painted is right."""
    bars = [bar(turn) for turn in range(3)]
    assert compare(bars, View((1.0, 0.0), (0.0, 1.0), (0.0, 0.0), (0.0, 0.0, 1.0), (0.0, 0.0, 1.0))) > 30
    faces, edges = drawn(bars, View((1.0, 0.0), (0.0, 1.0), (0.0, 0.0), (0.0, 0.0, 1.0), (0.0, 0.0, 1.0)))
    hider = Hider(faces)
    for one in bars:
        broken = [edge for edge in edges if edge.plate is one and hider.visible(edge.start, edge.end) != [(0.0, 1.0)]]
        assert broken, "every bar goes under another one"


@pytest.mark.parametrize("name", NAMES)
def test_no_two_pieces_are_in_one_place_when_all_is_made_up(name: str) -> None:
    """What is trapped opens its fold, and what comes later lies on what is there: nothing runs through anything."""
    workshop = workshop_of(plan_of(name))
    posed = workshop.posed(workshop.progress.before(10**6))
    for root in dict.fromkeys(posed.roots.values()):
        boxes = [(plate, *box(plate)) for plate in workshop.plates(posed, posed.together(root))]
        for (one, low, high), (other, start, end) in combinations(boxes, 2):
            depth = min(min(high[at], end[at]) - max(low[at], start[at]) for at in range(3))
            assert one.path == other.path or depth < 1e-6, (one.path, other.path, depth)


def test_like_plans_give_like_bytes() -> None:
    plan = plan_of("almanac")
    assert make(plan) == make(plan)


def test_what_is_kept_for_one_plan_is_not_shown_for_another() -> None:
    one, other = plan_of("almanac"), plan_of("market_day")
    first = make(one)
    assert make(other) != first
    assert make(one) == first == make(evolve(one))
    assert step_pictures(one) is step_pictures(one) is not step_pictures(evolve(one))


def test_the_step_picture_by_its_number_is_the_file() -> None:
    plan = plan_of("almanac")
    files = make(plan)
    pictures = step_pictures(plan)
    for step in plan.steps:
        svg = pictures.svg(step.number)
        assert files.get(f"pictures/step-{step.number:02}.svg") == (svg.encode() if svg is not None else None)


def test_what_stands_off_is_joined_to_its_place_by_guide_lines() -> None:
    """In every picture of a join: as many guides as the place has corners, and all of what is new off by one way."""
    plan = plan_of("harbour_walk")
    pictures = step_pictures(plan)
    joins = [step for step in plan.steps if step.kind == "join"]
    for step in joins:
        scene = pictures.scenes[step.number]
        assert scene.new
        if scene.inside:
            continue  # it slides in: looked at in test_way_in.py
        assert len(scene.guides) == 4, step.number
        ways = {tuple(round(a - b, 6) for a, b in zip(*guide, strict=True)) for guide in scene.guides}
        assert len(ways) == 1
        assert len(scene.moves) == 1


def test_more_plates_than_can_be_made_out_are_told_in_words(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("pastedown.outputs.pictures.joint_scenes.MOST_PLATES", 5)
    plan = evolve(plan_of("first_snow"))
    scene = step_pictures(plan).scenes[39]
    assert not scene.plates
    assert "a picture shows 5 at most" in scene.words


def compare(plates: list[Plate], view: View) -> int:
    """Compare what is drawn of every edge with rays; how many points were compared."""
    faces, edges = drawn(plates, view)
    hider = Hider(faces)
    rays = Rays(plates, view)
    compared = 0
    for edge, at in [(edge, at) for edge in edges for at in (0.13, 0.5, 0.81)]:
        stretches = hider.visible(edge.start, edge.end)
        is_seen = any(begin <= at <= stop for begin, stop in stretches)
        point = rays.point(edge, at)
        told = rays.is_hidden(point)
        if told is None:
            continue
        assert is_seen is not told, (edge.plate.path, edge.plate.number, edge.kind, edge.start, edge.end, at)
        compared += 1
    return compared


def drawn(plates: list[Plate], view: View) -> tuple[list, list[Edge]]:  # type: ignore[type-arg]
    faces, edges = [], []
    for plate in plates:
        some, more = faces_and_edges(plate, view, 0.0)
        faces += some
        edges += more
    return faces, edges


class Rays:
    """Rays to the eye through all plates. A ray is in a plate where it is between its planes and inside its rings, by
    the winding of the outer ring and of the openings."""

    def __init__(self, plates: list[Plate], view: View) -> None:
        self.view = view
        self.towards = numpy.array(unit(view.towards))
        self.plates = plates
        self.axes = numpy.array([(p.frame.x, p.frame.y, p.frame.z) for p in plates])
        self.origins = numpy.array([p.frame.origin for p in plates])
        self.thick = numpy.array([p.thickness for p in plates])
        corners = [numpy.array(list(p.corners())) for p in plates]
        self.middles = numpy.array([some.mean(axis=0) for some in corners])
        self.reach = numpy.array([numpy.linalg.norm(some - some.mean(axis=0), axis=1).max() for some in corners])
        self.back = numpy.linalg.inv(numpy.array([(*view.x, 0.0), (*view.y, 0.0), (*view.z, 0.0)]).T + self._nearness())

    def _nearness(self) -> numpy.ndarray:
        rows = numpy.zeros((3, 3))
        rows[2] = self.view.nearness
        return rows

    def point(self, edge: Edge, at: float) -> numpy.ndarray:
        """The point of space that a place of an edge stands for: the picture and the nearness turned back."""
        seen = numpy.array(edge.start) * (1 - at) + numpy.array(edge.end) * at
        found: numpy.ndarray = self.back @ seen
        return found

    def is_hidden(self, point: numpy.ndarray) -> bool | None:
        """Whether something lies before the point; None where a hair's breadth decides."""
        side = numpy.array(unit(cross(tuple(self.towards), (0.31, 0.77, 0.55))))
        other = numpy.cross(self.towards, side)
        answers = {
            self._meets(point + RIM * (side * a + other * b)) for a, b in ((0, 0), (1, 0), (-1, 0), (0, 1), (0, -1))
        }
        return answers.pop() if len(answers) == 1 else None

    def _meets(self, point: numpy.ndarray) -> bool:
        starts = numpy.einsum("pij,pj->pi", self.axes, point - self.origins)
        ways = numpy.einsum("pij,j->pi", self.axes, self.towards)
        away = self.middles - point
        off = numpy.linalg.norm(away - numpy.outer(away @ self.towards, self.towards), axis=1)
        for number in numpy.flatnonzero(off <= self.reach):
            plate = self.plates[number]
            (x, y, z), (dx, dy, dz) = starts[number], ways[number]
            low, high = RIM * 3, 1e6
            if abs(dz) < 1e-9:
                if not -self.thick[number] < z < 0:
                    continue
                high = 3000.0
            else:
                ends = sorted((-z / dz, (-self.thick[number] - z) / dz))
                low, high = max(low, ends[0]), min(high, ends[1])
            if low >= high:
                continue
            parts = cut_up(plate, (x, y), (dx, dy), low, high)
            if inside(plate, x + dx * parts, y + dy * parts).any():
                return True
        return False


def cut_up(
    plate: Plate, start: tuple[float, float], way: tuple[float, float], low: float, high: float
) -> numpy.ndarray:
    """The middles of the stretches into which a ray is cut by all sides of a plate."""
    cuts = [low, high]
    for ring in plate.rings:
        spots = numpy.array(ring.spots)
        sides = numpy.roll(spots, -1, axis=0) - spots
        across = way[0] * sides[:, 1] - way[1] * sides[:, 0]
        away = spots - numpy.array(start)
        with numpy.errstate(divide="ignore", invalid="ignore"):
            along = (away[:, 0] * sides[:, 1] - away[:, 1] * sides[:, 0]) / across
        cuts += [float(at) for at in along[numpy.isfinite(along)] if low < at < high]
    cuts.sort()
    found: numpy.ndarray = (numpy.array(cuts[1:]) + numpy.array(cuts[:-1])) / 2
    return found


def inside(plate: Plate, x: numpy.ndarray, y: numpy.ndarray) -> numpy.ndarray:
    """By winding numbers: a place is paper where the ring goes round it once in all."""
    turns = numpy.zeros(len(x))
    for ring in plate.rings:
        spots = numpy.array(ring.spots)
        angles = numpy.arctan2(spots[:, 1, None] - y, spots[:, 0, None] - x)
        steps = numpy.diff(numpy.concatenate([angles, angles[:1]]), axis=0)
        turns += ((steps + numpy.pi) % (2 * numpy.pi) - numpy.pi).sum(axis=0) / (2 * numpy.pi)
    found: numpy.ndarray = numpy.abs(turns) > 0.5
    return found


def sheet(height: float) -> Plate:
    return plate_of(Frame((0.0, 0.0, height), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0)), 40.0, 30.0, 0.3)


def bar(turn: int) -> Plate:
    """A bar that rises towards one end, turned about the middle by thirds of a turn."""
    angle = numpy.radians(120 * turn)
    along = unit((float(numpy.cos(angle)), float(numpy.sin(angle)), 0.2))
    across = unit(cross((0.0, 0.0, 1.0), along))
    up = cross(along, across)
    middle = (-18.0 * float(numpy.sin(angle)), 18.0 * float(numpy.cos(angle)), 0.0)
    origin = tuple(m - 50 * a - 4 * b for m, a, b in zip(middle, along, across, strict=True))
    return plate_of(Frame((origin[0], origin[1], origin[2]), along, across, up), 100.0, 8.0, 0.5)


def tilted(chance: numpy.random.Generator) -> Plate:
    along = unit(vector(chance.normal(size=3)))
    across = unit(cross(along, vector(chance.normal(size=3))))
    frame = Frame(vector(chance.uniform(-40, 40, size=3)), along, across, cross(along, across))
    width, height = (float(size) for size in chance.uniform(15, 60, size=2))
    return plate_of(frame, width, height, float(chance.uniform(0.2, 4)))


def vector(numbers: numpy.ndarray) -> Vector:
    return float(numbers[0]), float(numbers[1]), float(numbers[2])


def plate_of(frame: Frame, width: float, height: float, thickness: float) -> Plate:
    from pastedown.outputs.pictures.field_shape import Ring

    workshop = workshop_of(plan_of("almanac"))
    ring = Ring(((0.0, 0.0), (width, 0.0), (width, height), (0.0, height)), ("cut",) * 4)
    return Plate(workshop.plan.space.pieces[0], (0, 0), frame, (ring,), thickness, {})


def is_top(edge: Edge, plate: Plate) -> bool:
    """Whether an edge bounds the face: both its ends lie as near to the eye as the face does there."""
    corners = [OBLIQUE.seen(plate.frame.point(x, y, 0.0)) for ring in plate.rings for x, y in ring.spots]
    return all(any(numpy.allclose(end, corner) for corner in corners) for end in (edge.start, edge.end))


def box(plate: Plate) -> tuple[list[float], list[float]]:
    corners = list(plate.corners())
    return [min(c[at] for c in corners) for at in range(3)], [max(c[at] for c in corners) for at in range(3)]


def test_frames_stay_right_handed() -> None:
    workshop = workshop_of(plan_of("market_day"))
    posed = workshop.posed(State({}, {("binding.hinge.strip", "crest[1]"): 47.0}))
    for frames in posed.frames.values():
        for frame in frames.values():
            assert dot(cross(frame.x, frame.y), frame.z) == pytest.approx(1.0)


def test_a_scene_without_plates_is_a_sheet_of_words() -> None:
    from pastedown.outputs.pictures.picture import picture_of

    sheet_of_words = picture_of(Scene("A title", (), "Nothing.", notes=("Nothing to see.",)))
    assert [words.text for words in sheet_of_words.words] == ["A title", "Nothing to see."]


def test_what_is_small_is_drawn_larger_too() -> None:
    """The flaps that are turned in: in the inset the hatched flap is larger by the scale that the inset says, and all
    of it lies in its frame."""
    from pastedown.outputs.pictures.inset import window_of

    pictures = step_pictures(plan_of("harbour_walk"))
    shown = {}
    for number in pictures.scenes:
        sheet = pictures.of(number)
        assert sheet is not None
        frames = [spots_of(stroke) for stroke in sheet.strokes if stroke.part == "frame"]
        if frames:
            shown[number] = frames
            small, large = sorted(frames, key=lambda spots: spots[:, 0].max() - spots[:, 0].min())
            by = (large[:, 0].max() - large[:, 0].min()) / (small[:, 0].max() - small[:, 0].min())
            assert by >= 1.6
            new = [spots_of(stroke) for stroke in sheet.strokes if stroke.part == "new"]
            inside = [[spots for spots in new if is_in(spots, frame)] for frame in (small, large)]
            assert all(inside)
            sizes = [numpy.ptp(numpy.concatenate(spots)[:, 0]) for spots in inside]
            assert sizes[1] / sizes[0] == pytest.approx(by, rel=0.02)
            assert large[:, 1].min() > small[:, 1].max(), "neither lies over the other"
    kinds = {step.number: step.kind for step in plan_of("harbour_walk").steps}
    told = [kinds[number] for number in shown]
    assert told[:4] == ["close"] * 4, "two tapes, turned in at head and tail"
    assert sorted(told[4:]) == ["close", "close", *["crease"] * 4], "and the wings, at the middle of a wide case"
    assert window_of(pictures.scenes[1], 0.3, ((0.0, 0.0), (1.0, 1.0))) is None


def spots_of(stroke: Stroke) -> numpy.ndarray:
    return numpy.array([[float(x) for x in spot] for move in stroke.moves for spot in (move.start, move.end)])


def is_in(spots: numpy.ndarray, frame: numpy.ndarray) -> bool:
    return bool((spots >= frame.min(axis=0) - 0.01).all() and (spots <= frame.max(axis=0) + 0.01).all())


@pytest.mark.parametrize("name", ["seed_diary", "almanac"])
def test_arrows_and_folds_are_long_enough_to_be_made_out(name: str) -> None:
    """No arrow is hardly more than its head, and no fold is a stub."""
    pictures = step_pictures(plan_of(name))
    arrows = folds = 0
    for number in pictures.scenes:
        sheet = pictures.of(number)
        assert sheet is not None
        for stroke in sheet.strokes:
            length = numpy.abs(numpy.diff(spots_of(stroke), axis=0)).sum()
            if stroke.part == "arrow":
                arrows += 1
                assert length > 6, number
            elif stroke.part in ("valley", "mountain", "mark"):
                folds += 1
                assert length > 1.9, number
    assert arrows > 20
    assert folds > 20


def test_what_is_measured_is_shown_and_what_is_done_says_how_it_is_drawn() -> None:
    plan = plan_of("seed_diary")
    scenes = step_pictures(plan).scenes
    shown = {}
    for step in plan.steps:
        if step.kind in ("check", "do") and step.number in scenes:
            scene = scenes[step.number]
            shown[step.title[0]] = [each.level for each in scene.dimensions], scene.notes[0]
    measured = "The arrows show what is measured."
    assert shown == {
        "Read case": ([True], measured),
        "Read the width of the hinge": ([True], measured),
        "Read the height of the page": ([False], measured),
        "Close case": ([], "Drawn in the pose closed of the case, with what is made so far."),
    }


def test_a_step_is_shown_in_the_pose_that_it_names() -> None:
    """Both covers of a case stand square on its spine, and an arrow ends on the rim of each."""
    plan = plan_of("harbour_walk")
    (step,) = (step for step in plan.steps if step.title == ("Close case",))
    scene = step_pictures(plan).scenes[step.number]
    standing = {plate.path for plate in scene.plates if abs(plate.frame.z[0]) > 0.999}
    assert {"case.front_cover", "case.back_cover"} <= standing
    assert {plate.path for number, plate in enumerate(scene.plates) if number in scene.new} == {
        "case.front_cover",
        "case.back_cover",
    }
    assert len(scene.moves) == 2
    for way in scene.moves:
        first, last = way[0], way[-1]
        assert last[2] > first[2] + 10
        assert abs(first[0]) > abs(last[0]) or first[0] < last[0]
        assert min(dot(gap, gap) for plate in scene.plates for gap in to_rims(plate, last)) < 1e-6
    before = step_pictures(evolve(plan, steps=tuple(evolve(one, shown="") for one in plan.steps))).scenes[step.number]
    assert not before.moves
    assert {abs(plate.frame.z[2]) for plate in before.plates if plate.path == "case.front_cover"} == {1.0}


def to_rims(plate: Plate, at: Vector) -> list[Vector]:
    """From a point to the middles of the sides of a plate's face."""
    piece = plate.piece
    found = []
    for x, y in rims(piece, plate.number):
        middle = plate.frame.point(x, y, 0.0)
        found.append((middle[0] - at[0], middle[1] - at[1], middle[2] - at[2]))
    return found


def test_what_nothing_holds_lies_beside_what_it_belongs_to() -> None:
    """A card of the design itself beside the largest thing there is; one of a part that has no place for it beside that
    part, and half way into the place where there is one."""
    body = """
        ruler = inches to 1/16
        kraft = cardstock(sheet: 12 in x 12 in, caliper: 12 pt, grain: marked)
        sticky = double_tape(roll_width: 1/4 in, caliper: 4 pt)
        part page[k from 1 to 2] = pocket_page(paper: kraft, tape: sticky, height: 7 in, width: 5 1/2 in)
        page[2] with {
          piece ticket from kraft, height: 4 in, width: 3 in, loose: yes
          piece poster from kraft, height: 4 in, width: 6 in, loose: yes
        }
        piece marker from kraft, height: 6 in, width: 1 in, loose: yes
    """
    plan = design_of(body, "use pocket_page from pages\nuse cardstock, double_tape from stocks")
    scenes = {scene.title.partition(": ")[2]: scene for scene in step_pictures(plan).scenes.values()}
    for title, own, home in (
        ("Put in page poster (page 2)", "page[2].poster", {"page[2].front_sheet", "page[2].rear_sheet"}),
        ("Put in marker", "marker", {"page[1].front_sheet", "page[1].rear_sheet"}),
    ):
        scene = scenes[title]
        assert {plate.path for plate in scene.plates} == {own, *home}
        assert {scene.plates[number].path for number in scene.new} == {own}
        around, laid = (
            [corner for plate in scene.plates if (plate.path == own) is mine for corner in plate.corners()]
            for mine in (False, True)
        )
        assert max(x for x, _, _ in around) < min(x for x, _, _ in laid), "beside it"
        for axis in (1, 2):
            assert min(c[axis] for c in around) == pytest.approx(min(c[axis] for c in laid)), "on the same table"
    assert "It goes into page 2; nothing holds it there." in scenes["Put in page poster (page 2)"].notes
    scene = scenes["Put in page ticket (page 2)"]
    assert scene.names[1][1] == "page 2"
    assert scene.notes[1] == "Drawn half way into the largest place in page 2 that takes it."
    ((start, end),) = scene.moves
    (card,), pages = (
        [plate for number, plate in enumerate(scene.plates) if (number in scene.new) is new] for new in (True, False)
    )
    rim = [corner[0] for plate in pages for corner in plate.corners()]
    side = max(rim) if start[0] > end[0] else min(rim)
    across = [corner[0] for corner in card.corners()]
    assert max(across) - min(across) == pytest.approx(3 * 25.4)
    assert abs(sum(across) / len(across) - side) == pytest.approx(0.0, abs=0.01), "half of it is in"


def test_a_loose_card_goes_into_the_page_that_stands_in_the_book() -> None:
    """The book lies as in the step before; the card comes down between the sheets of its page, past its flap."""
    plan = plan_of("seed_diary")
    scenes = step_pictures(plan).scenes
    last = max(scenes)
    scene = scenes[last]
    assert scene.title.endswith("Put in label card (page 2)")
    assert scene.names == (("page[2].label.card", "label card"), ("page[2].front_sheet", "page 2"))
    ((start, end),) = scene.moves
    assert end[2] < start[2] and end[:2] == pytest.approx(start[:2])
    frames = {plate.path: plate.frame for plate in scene.plates if plate.path.startswith("case.spine")}
    before = {plate.path: plate.frame for plate in scenes[last - 1].plates if plate.path.startswith("case.spine")}
    assert frames and {path: frame.z for path, frame in frames.items()} == {p: f.z for p, f in before.items()}


def test_what_is_drawn_on_the_back_is_shown_with_its_back_up() -> None:
    plan = plan_of("seed_diary")
    scenes = step_pictures(plan).scenes
    for step in plan.steps:
        if step.kind == "cut":
            on_back = "Draw lines on its back" in "".join(str(part) for part in step.text)
            assert on_back == (step.pieces[0] in ("case-back-tape", "case-front-tape"))
            scene = scenes[step.number]
            assert {plate.frame.z[2] > 0 for plate in scene.plates} == {not on_back}
            assert ("its back up" in scene.words) == on_back
            assert scene.notes[0].startswith("Its back is up") == on_back
