"""Makes the outputs of compiled designs and writes each design into a folder of its own."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from pathlib import Path

from attrs import evolve, field, frozen

from pastedown.compile import MadeDesign
from pastedown.diagnostic.visible_text import visible
from pastedown.output_folder import FilledFolder, may_write, write_folders
from pastedown.outputs.every_output import EVERY_OUTPUT, Output
from pastedown.outputs.missing_library import FilesWanting, MissingLibrary
from pastedown.outputs.template.seen_from_back import plan_from_back
from pastedown.plan.find_pose import find_pose, no_such_pose
from pastedown.plan.material import PlanningEffort
from pastedown.plan.plan import Plan

MOST_NAMES_SHOWN = 3


class PoseRefused(Exception):
    """A design has no such pose. The text is a sentence for the maker."""


@frozen
class Made:
    """What was written for one design. `files` has the names by output; `wanting` says what was left
    out or is lacking, and why."""

    design: str
    folder: Path
    files: Mapping[str, tuple[str, ...]]
    wanting: tuple[str, ...]

    @property
    def words(self) -> str:
        """For the maker: the folder, and the first files of each output."""
        widest = max((len(output) for output in self.files), default=0)
        lines = [f"{self.design} is in {visible(str(self.folder))}"]
        for output, names in self.files.items():
            more = f" and {len(names) - MOST_NAMES_SHOWN} more" if len(names) > MOST_NAMES_SHOWN else ""
            lines.append(f"  {output:{widest}}  {', '.join(names[:MOST_NAMES_SHOWN])}{more}")
        return "\n".join(lines)


@frozen
class _Worked:
    """The contents of one folder before it is written."""

    files: dict[str, bytes] = field(factory=dict)
    by_output: dict[str, tuple[str, ...]] = field(factory=dict)
    wanting: list[str] = field(factory=list)


def _silent(words: str) -> None:
    """For who does not want to be told how far the work is."""


def make_folders(
    designs: Sequence[MadeDesign],
    outputs: Iterable[Output],
    to: str | None,
    *,
    mirrored: bool = False,
    poses: Sequence[str] = (),
    tell: Callable[[str], None] = _silent,
) -> tuple[Made, ...]:
    """Writes each design's outputs: one design into `to` itself, several into folders within it. Without `to`, the
    folders stand where the command is run. All of them are written, or none. `mirrored` templates show the pieces
    from their backs. With `poses` only these are shown, by outputs that show poses. `tell` is told before each output
    what is being made.

    Raises PoseRefused where a design has not all of these poses, and FolderRefused and OSError as `write_folders` does;
    each design must have a plan.
    """
    posed = [_in_poses(design, poses) for design in designs]
    folders = [_folder_for(design, designs, to) for design in designs]
    for folder in folders:
        may_write(folder)
    chosen = tuple(outputs)
    worked = [_work(design, chosen, mirrored, tell) for design in posed if design.plan is not None]
    write_folders([FilledFolder(folder, made.files) for folder, made in zip(folders, worked, strict=True)])
    return tuple(
        Made(design.name, folder, made.by_output, tuple(made.wanting))
        for design, folder, made in zip(designs, folders, worked, strict=True)
    )


def make_kits(
    designs: Sequence[MadeDesign], copies: int, to: str | None, *, work: int | None, libraries: bool,
    tell: Callable[[str], None],
) -> tuple[Made, ...]:
    """Writes what so many kits of each design need, into folders as `make_folders` does and with its errors. `work` and
    `libraries` say how hard to look for few sheets; None is as hard as is usual. `tell` is told what is being planned.
    Raises ValueError for more copies than can be planned."""
    from pastedown.outputs.to_kits import make
    from pastedown.plan.kits import USUAL_FOR_KITS

    folders = [_folder_for(design, designs, to, "kits") for design in designs]
    for folder in folders:
        may_write(folder)
    effort = PlanningEffort(USUAL_FOR_KITS if work is None else work, libraries, tell)
    made = [make(design.plan, copies, effort) for design in designs if design.plan is not None]
    write_folders([FilledFolder(folder, files) for folder, files in zip(folders, made, strict=True)])
    return tuple(
        Made(design.name, folder, {"kits": tuple(sorted(files))}, ())
        for design, folder, files in zip(designs, folders, made, strict=True)
    )


def choose_outputs(only: str | None) -> tuple[Output, ...] | str:
    """The outputs named in `only`, in the order of the table; all of them for None; or the first name that is none."""
    if only is None:
        return EVERY_OUTPUT
    asked = [name.strip() for name in only.split(",")]
    known = {output.name for output in EVERY_OUTPUT}
    unknown = [name for name in asked if name not in known]
    return unknown[0] if unknown else tuple(output for output in EVERY_OUTPUT if output.name in asked)


def _in_poses(design: MadeDesign, asked: Sequence[str]) -> MadeDesign:
    if design.plan is None or not asked:
        return design
    found = []
    for name in asked:
        pose = find_pose(design.plan, name)
        if pose is None:
            raise PoseRefused(no_such_pose(design.plan, name))
        found.append(pose)
    return evolve(design, plan=evolve(design.plan, poses=tuple(dict.fromkeys(found))))


def _folder_for(design: MadeDesign, designs: Sequence[MadeDesign], to: str | None, what: str = "made") -> Path:
    own_name = f"{design.name}-{what}"
    if to is None:
        return Path(own_name)
    return Path(to) if len(designs) == 1 else Path(to) / own_name


def _telling(plan: Plan, tell: Callable[[str], None]) -> Plan:
    """The plan, with somebody to be told while its sheets are planned."""
    return evolve(plan, materials=tuple(evolve(each, effort=evolve(each.effort, tell=tell)) for each in plan.materials))


def _work(design: MadeDesign, outputs: Sequence[Output], mirrored: bool, tell: Callable[[str], None]) -> _Worked:
    assert design.plan is not None
    worked, posed = _Worked(), _telling(design.plan, tell)
    plan = evolve(posed, poses=()) if posed.poses else posed
    from_back = plan_from_back(plan) if mirrored else plan
    for number, output in enumerate(outputs, 1):
        tell(f"{design.name}: {output.name}, {number} of {len(outputs)}")
        try:
            files = output.make(from_back if output.may_mirror else posed if output.may_pose else plan)
        except MissingLibrary as missing:
            # Several outputs may want the same library; one sentence is enough.
            if str(missing) not in worked.wanting:
                worked.wanting.append(str(missing))
            continue
        if isinstance(files, FilesWanting) and files.wanting not in worked.wanting:
            worked.wanting.append(files.wanting)
        taken = worked.files.keys() & files.keys()
        if taken:
            raise ValueError(f"the output {output.name} takes the file name {min(taken)} of another output")
        worked.files.update(files)
        worked.by_output[output.name] = tuple(sorted(files))
    return worked
