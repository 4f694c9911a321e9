"""Pictures of steps that bring things together: joining, closing and creasing, and what is done to parts as they are.

As experiments with assembly instructions showed to work (Agrawala and others, Designing Effective Step-by-Step Assembly
Instructions, SIGGRAPH 2003; Heiser and others, 2004): one picture for each major action, what is new stands apart from
where it goes and is joined to it by guide lines, and the view is kept unless it would hide the place: then the work is
turned over, and the picture says so.
"""

from __future__ import annotations

from attrs import define, field, frozen

from pastedown.outputs.pictures.fold_ways import FOLDED_PART
from pastedown.outputs.pictures.frame import Vector, dot, plus, times
from pastedown.outputs.pictures.joint_notes import lines_of, notes_of, seen_otherwise, shown_at_once, times_done
from pastedown.outputs.pictures.places import (
    MOVED,
    UP,
    UPRIGHT,
    area,
    differs,
    distance,
    middle_of,
    moved_by,
    outward_of,
    rims,
    span,
)
from pastedown.outputs.pictures.plate import Plate
from pastedown.outputs.pictures.posed import Posed, State
from pastedown.outputs.pictures.reading_dimension import reading_dimension
from pastedown.outputs.pictures.scene import Scene
from pastedown.outputs.pictures.seats import panel_of, pressed, pushed_in, seat_of, way_off
from pastedown.outputs.pictures.shown_pose import (
    part_of_pose,
    state_in_pose,
    ways_into,
    words_of_pose,
)
from pastedown.outputs.pictures.sight import hidden_by, passed_through, view_of
from pastedown.outputs.pictures.tape_places import tape_of
from pastedown.outputs.pictures.view import OBLIQUE
from pastedown.outputs.pictures.way_in import way_in
from pastedown.outputs.pictures.whole_scenes import run_through
from pastedown.outputs.pictures.workshop import MOST_PLATES, Workshop
from pastedown.plan.plan import BuildStep
from pastedown.plan.space import Contact, Face
from pastedown.plan.words import is_of_part, last_name, spoken

_STEPS = 10


@frozen
class _Bench:
    """What lies on the table: the pose, whether it was turned over since the last picture, and the root."""

    posed: Posed
    over: bool
    turned_now: bool


@define
class JointScenes:
    """The pictures of a plan's steps that are about several pieces, in the order of the steps: which side of a thing
    is up is kept from one picture to the next."""

    workshop: Workshop
    _over: dict[str, bool] = field(factory=dict)

    @property
    def turned_over(self) -> tuple[str, ...]:
        """What lies turned over after the last picture, by the piece on which it stands."""
        return tuple(path for path, is_over in self._over.items() if is_over)

    def joined(self, step: BuildStep, title: str) -> Scene | None:
        """What is joined stands apart from where it goes."""
        contact = self._contact(step)
        if contact is None:
            return None
        what, to = contact.pairs[0]
        before = self.workshop.posed(self.workshop.progress.before(step.number))
        if before.roots[what.piece] == before.roots[to.piece]:
            return self.closed(step, title)
        state = self._with(step, contact)
        after = self.workshop.posed(state)
        if after.roots[what.piece] != after.roots[to.piece]:
            return None
        outward = outward_of(after, to)
        away = way_off(self.workshop, after, contact, to)
        bench = self._bench(state, after.roots[to.piece], away)
        posed = bench.posed
        away = way_off(self.workshop, posed, contact, to)
        new_pieces, old_pieces = before.together(what.piece), before.together(to.piece)
        new_plates = self.workshop.plates(posed, new_pieces)
        old_plates = self.workshop.plates(posed, old_pieces)
        way_out = self._way_in(contact, posed, old_plates, new_plates)
        if way_out is not None and seat_of(self.workshop, posed, what, to):
            return self._slid_in(step, title, bench, old_plates, new_plates, way_out)
        outward = outward_of(posed, to)
        view = view_of(outward) if abs(dot(away, outward)) > UPRIGHT else OBLIQUE
        seat = seat_of(self.workshop, posed, what, to)
        gone = hidden_by(posed, to, outward, seat, old_plates, view)
        off = times(away, distance(new_plates, away, self.workshop.pieces[to.piece], to, outward, posed))
        if abs(dot(away, UP)) < UPRIGHT:
            gone |= passed_through(posed, to, new_plates, off, old_plates)
        old_plates = [plate for plate in old_plates if plate.path not in gone]
        moved = [moved_by(plate, off) for plate in new_plates]
        self._remember(before, posed)
        way = tuple(plus(middle_of(seat), times(off, part)) for part in (1.0, 0.05)) if seat else ()
        notes = notes_of(self.workshop, step, bench.turned_now, bench.posed, to)
        tape = tape_of(self.workshop, contact, posed, posed, (*old_plates, *moved), view)
        return self._scene(
            title,
            [*old_plates, *moved],
            new=frozenset(range(len(old_plates), len(old_plates) + len(moved))),
            words=f"Picture of step {step.number}: the {self.workshop.name(what.piece)} stands off from the "
            f"{self.workshop.name(to.piece)}; lines and an arrow lead to where it goes.",
            guides=tuple((plus(corner, off), corner) for corner in seat),
            seats=(seat,) if seat else (),
            sticky=tape.outlines,
            moves=(way,) if way else (),
            names=(
                (what.piece, self.workshop.name(what.piece)),
                (to.piece, self.workshop.name(to.piece)),
                *tape.names,
            ),
            notes=(*seen_otherwise(view, len(gone)), *notes, *tape.notes),
            view=view,
            lines=lines_of(self.workshop, step),
        )

    def _way_in(self, contact: Contact, posed: Posed, old: list[Plate], new: list[Plate]) -> Vector | None:
        """How what nothing holds comes out again of where it lies; None where something holds it, or where it is laid
        on from above."""
        what, to = contact.pairs[0]
        if contact.thickness or not self.workshop.pieces[what.piece].loose or not old or not new:
            return None
        return way_in(posed.frames[to.piece][to.field], outward_of(posed, to), new, old)

    def _slid_in(
        self, step: BuildStep, title: str, bench: _Bench, old: list[Plate], new: list[Plate], way: Vector
    ) -> Scene:
        """What slides into a place between others: half of it is in, an arrow leads on and dots tell where it ends."""
        contact = self._contact(step)
        assert contact is not None
        what, to = contact.pairs[0]
        self._remember(self.workshop.posed(self.workshop.progress.before(step.number)), bench.posed)
        moved = [moved_by(plate, way) for plate in new]
        seat = seat_of(self.workshop, bench.posed, what, to)
        return self._scene(
            title,
            [*old, *moved],
            new=frozenset(range(len(old), len(old) + len(moved))),
            words=f"Picture of step {step.number}: the {self.workshop.name(what.piece)}, half way into the "
            f"{self.workshop.name(to.piece)}; an arrow shows how it goes on.",
            inside=(seat,),
            moves=(pushed_in(seat, way),),
            names=((what.piece, self.workshop.name(what.piece)), (to.piece, self.workshop.name(to.piece))),
            notes=("Drawn half way in.", *notes_of(self.workshop, step, bench.turned_now, bench.posed, to)),
            lines=lines_of(self.workshop, step),
        )

    def closed(self, step: BuildStep, title: str) -> Scene | None:
        """What is closed stands partly open; arrows show how it shuts."""
        contact = self._contact(step)
        if contact is None:
            return None
        what, to = contact.pairs[0]
        progress = self.workshop.progress
        before = progress.before(step.number)
        made = {**before.made, **{path: step.number for path in step.refers if path in progress.made_at}}
        turned = progress.turned_by(step.number)
        closed = State(made, {**before.angles, **turned})
        after = self.workshop.posed(closed)
        root = after.roots[what.piece]
        if root != after.roots[to.piece]:
            return None
        half = State(made, {**before.angles, **{key: angle * FOLDED_PART for key, angle in turned.items()}})
        bench = self._bench(closed, root, self._clear_of_table(after, half, to))
        pieces = bench.posed.together(what.piece)
        over = self.turned_over
        opened = self.workshop.posed(half, over)
        plates = self.workshop.plates(opened, pieces)
        new = frozenset(
            number
            for number, plate in enumerate(plates)
            if differs(plate.frame, bench.posed.frames[plate.path].get(plate.number))
        )
        at_once = shown_at_once(self.workshop, step, pieces)
        moves = self._ways(step, State(made, before.angles), turned, over)
        names = [(what.piece, self.workshop.name(what.piece))]
        names += [(to.piece, self.workshop.name(to.piece))] if to.piece != what.piece else []
        tape = tape_of(self.workshop, contact, bench.posed, opened, plates, OBLIQUE)
        names += tape.names
        if not new:
            panel = panel_of(self.workshop, what)
            new = frozenset(n for n, plate in enumerate(plates) if plate.path == what.piece and plate.number in panel)
            moves = pressed(self.workshop, opened, what, to)
        return self._scene(
            title,
            plates,
            new=new,
            words=f"Picture of step {step.number}: the {self.workshop.name(what.piece)}, partly open; arrows show how "
            "it is brought together.",
            moves=moves,
            sticky=tape.outlines,
            names=tuple(names),
            notes=(*notes_of(self.workshop, step, bench.turned_now, bench.posed, to, at_once), *tape.notes),
            lines=lines_of(self.workshop, step),
        )

    def creased(self, step: BuildStep, title: str) -> Scene | None:
        """A crease made in place, on what it lies on."""
        faces = {path: face for path, face in self.workshop.plan.space.creases if path in step.refers}
        if not faces:
            return None
        face = next(iter(faces.values()))
        state = self.workshop.progress.before(step.number)
        posed = self.workshop.posed(state)
        bench = self._bench(state, posed.roots[face.piece], outward_of(posed, face))
        plates = self.workshop.plates(bench.posed, bench.posed.together(face.piece))
        panels = panel_of(self.workshop, face)
        return self._scene(
            title,
            plates,
            new=frozenset(n for n, plate in enumerate(plates) if plate.path == face.piece and plate.number in panels),
            words=f"Picture of step {step.number}: the {self.workshop.name(face.piece)} where it is creased.",
            names=((face.piece, self.workshop.name(face.piece)), *((path, spoken(last_name(path))) for path in faces)),
            notes=notes_of(self.workshop, step, bench.turned_now, bench.posed, face),
            lines=lines_of(self.workshop, step) | frozenset(faces),
            creased=frozenset(faces),
        )

    def as_it_is(self, step: BuildStep, title: str) -> Scene | None:
        """What a check or a maker's own step is about: the part it was written in, as far as it is made, or what is to
        be seen in the pose that it names."""
        shown = self._in_pose(step, title) if step.shown else None
        if shown is not None:
            return shown
        path = step.refers[0] if step.refers else ""
        part = path.rpartition(".")[0]
        state = self.workshop.progress.before(step.number)
        posed = self.workshop.posed(state, self.turned_over)
        own = [
            piece.path
            for piece in self.workshop.plan.space.pieces
            if not part or piece.part == part or piece.part.startswith(f"{part}.")
        ]
        together = [posed.together(root) for root in dict.fromkeys(posed.roots[path] for path in own)]
        loose = {piece.path for piece in self.workshop.plan.space.pieces if piece.loose}
        if not together or (not part and len({posed.roots[path] for path in own if path not in loose}) > 1):
            # What is about the whole design before it is put together is about no thing that could be shown.
            return None
        pieces = max(together, key=len)
        plates = self.workshop.plates(posed, pieces)
        measured = reading_dimension(plates, step.reading, self.workshop.plan.ruler) if step.reading else None
        told = "The arrows show what is measured." if measured else "Drawn as it lies before this step."
        return self._scene(
            title,
            plates,
            words=f"Picture of step {step.number}: {part or 'the work'} as it lies before it.",
            dimensions=(measured,) if measured else (),
            notes=(told, *times_done(step)),
            lines=lines_of(self.workshop, step),
        )

    def _in_pose(self, step: BuildStep, title: str) -> Scene | None:
        """The part of a pose in that pose, with arrows for what turned. None where a pose has it run through itself:
        there paper gives way, and where it lies is not known."""
        before = self.workshop.progress.before(step.number)
        state = state_in_pose(self.workshop, step.shown, before)
        own = [one.path for one in self.workshop.plan.space.pieces if is_of_part(one.path, part_of_pose(step.shown))]
        if state is None or not own:
            return None
        posed = self.workshop.posed(state)
        root = max(dict.fromkeys(posed.roots[path] for path in own), key=lambda one: len(posed.together(one)))
        standing = self.workshop.plates(posed, posed.together(root))
        heights = [corner[2] for plate in standing for corner in plate.corners()]
        stands = max(heights, default=0.0) + min(heights, default=0.0)
        bench = self._bench(state, root, (0.0, 0.0, 1.0 if stands >= 0 else -1.0))
        pieces = bench.posed.together(root)
        plates = self.workshop.plates(bench.posed, pieces)
        if run_through(plates):
            return None
        over = self.turned_over
        ways = ways_into(self.workshop, before, state, pieces, over)
        measured = reading_dimension(plates, step.reading, self.workshop.plan.ruler) if step.reading else None
        told = f"Drawn in {words_of_pose(step.shown)}, with what is made so far."
        return self._scene(
            title,
            plates,
            words=f"Picture of step {step.number}: the work in {words_of_pose(step.shown)}, with what is made so far.",
            new=frozenset(number for number, plate in enumerate(plates) if plate.path in ways),
            moves=tuple(ways.values()),
            dimensions=(measured,) if measured else (),
            notes=(told, *notes_of(self.workshop, step, bench.turned_now, bench.posed, None)),
            lines=lines_of(self.workshop, step),
        )

    def _scene(self, title: str, plates: list[Plate], **rest: object) -> Scene:
        if len(plates) > MOST_PLATES:
            words = f"Not drawn: the step has {len(plates)} plates to show, and a picture shows {MOST_PLATES} at most."
            return Scene(title=title, plates=(), words=words, notes=(words,))
        return Scene(title=title, plates=tuple(plates), **rest)  # type: ignore[arg-type]

    def _contact(self, step: BuildStep) -> Contact | None:
        return next((self.workshop.contacts[path] for path in step.refers if path in self.workshop.contacts), None)

    def _with(self, step: BuildStep, contact: Contact) -> State:
        """The state once the first of a step's joins is made."""
        progress = self.workshop.progress
        before = progress.before(step.number)
        return State({**before.made, contact.path: step.number}, {**before.angles, **progress.turned_by(step.number)})

    def _bench(self, state: State, root: str, wanted: Vector) -> _Bench:
        """The work with a direction of it pointing up: kept as it lies unless that points down."""
        was = self._over.get(root, False)
        up = dot(wanted, UP) * (1.0 if not was else -1.0)
        now = not was if up < -UPRIGHT else was
        self._over[root] = now
        over = self.turned_over
        return _Bench(self.workshop.posed(state, over), now, now != was)

    def _clear_of_table(self, after: Posed, half: State, to: Face) -> Vector:
        """What has to be up for what moves to keep clear of the table; where nothing rises, the place it goes to."""
        posed = self.workshop.posed(half)
        rise = 0.0
        for plate in self.workshop.plates(posed, posed.together(to.piece)):
            if differs(plate.frame, after.frames[plate.path].get(plate.number)):
                heights = [corner[2] for corner in plate.corners()]
                rise += sum(heights) / len(heights) * area(plate)
        if abs(rise) > MOVED:
            return (0.0, 0.0, 1.0 if rise > 0 else -1.0)
        return outward_of(after, to)

    def _remember(self, before: Posed, posed: Posed) -> None:
        """What is joined lies as the whole does from now on."""
        for path, root in before.roots.items():
            if path == root and posed.roots[path] != path:
                self._over.pop(path, None)

    def _ways(
        self, step: BuildStep, state: State, turned: dict[tuple[str, str], float], over: tuple[str, ...]
    ) -> tuple[tuple[Vector, ...], ...]:
        """How what is closed moves, from where it is drawn to where it ends."""
        ways = []
        parts = [FOLDED_PART + (1 - FOLDED_PART) * number / _STEPS for number in range(_STEPS + 1)]
        poses = []
        for part in parts:
            angles = {**state.angles, **{key: angle * part for key, angle in turned.items()}}
            poses.append(self.workshop.posed(State(state.made, angles), over))
        first = self._contact(step)
        if first is None:
            return ()
        found = []
        for face in first.pairs[0]:
            piece = self.workshop.pieces[face.piece]
            for rim in rims(piece, face.field):
                found.append(tuple(posed.frames[face.piece][face.field].point(*rim, 0.0) for posed in poses))
        longest = max(found, key=span)
        if span(longest) > MOVED:
            ways.append(longest)
        return tuple(ways)
