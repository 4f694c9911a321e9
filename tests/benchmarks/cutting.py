"""How few sheets the planner needs on a folder of instances, against the bounds and best plans written in them.

    python tests/benchmarks/cutting.py FOLDER [--group WORD] [--all] [--limit N] [--work N] [--without-libraries]
                                       [--checker check_plan.py] [--each] [--jobs N] [--plain-settings]
    python tests/benchmarks/cutting.py --scaling [--work N] [--without-libraries]

FOLDER holds bundles {"instances": [...]}; an instance has "name", "class", "sheet", "pieces", "rotation", "bounds" with "lower"
and "best_known", perhaps "offcuts", and "core" where it belongs to the routine set. Every plan is judged: by the judge of
the tests, and by another program if one is given, which is called as `CHECKER BUNDLE PLANS --json`. With
--plain-settings the table also shows how often plain column generation would set the fence, where it comes to as many
sheets (this takes numpy and highspy). --scaling needs no folder: made-up albums of 10 to 10,000 pieces, and kits from 1 to 5,000.
"""

import argparse
import json
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterable
from concurrent.futures import ProcessPoolExecutor
from pathlib import Path
from typing import Any

from attrs import frozen

ROOT = Path(__file__).resolve().parent.parent.parent
# Instead of this folder, where this very file would be found for the folder of the judge.
sys.path[:1] = [str(ROOT / "compiler"), str(ROOT / "tests")]

from cutting.judge import Refused, judge  # noqa: E402
from pastedown.cutting.bound import by_area  # noqa: E402
from pastedown.cutting.budget import USUAL_EFFORT, Budget  # noqa: E402
from pastedown.cutting.cutting_plan import CuttingPlan  # noqa: E402
from pastedown.cutting.first_plan import first_plan  # noqa: E402
from pastedown.cutting.make_plan import make_plan  # noqa: E402
from pastedown.cutting.pool import cost_of, gather_layouts, settings_in  # noqa: E402
from pastedown.cutting.problem import Effort, Piece, Problem, Sheet  # noqa: E402
from pastedown.cutting.search import Search  # noqa: E402
from pastedown.cutting.task import read  # noqa: E402
from pastedown.cutting.whole import trimmed  # noqa: E402

Instance = dict[str, Any]


@frozen
class Row:
    """One plan: what was asked, what came out, and how long it took, in seconds of the processor."""

    name: str
    group: str
    sheets: int
    bound: int
    lower: int
    best_known: int
    settings: int
    patterns: int
    seconds: float
    refused: str
    written: dict[str, Any]
    plain_settings: int = 0

    @property
    def one_album(self) -> bool:
        """Of the craft instances, whether it is one design and not several mixed."""
        return self.name.startswith("craft-d")


def problem_of(instance: Instance) -> Problem:
    rotation = instance.get("rotation", False)
    turns = rotation if isinstance(rotation, list) else [rotation] * len(instance["pieces"])
    sheets = [Sheet("new", *instance["sheet"])]
    sheets += [Sheet(f"offcut {n}", w, h, on_hand=c) for n, (w, h, c) in enumerate(instance.get("offcuts") or [])]
    pieces = [
        Piece(str(number), width, height, count, bool(turn))
        for number, ((width, height, count), turn) in enumerate(zip(instance["pieces"], turns, strict=True))
    ]
    return Problem(tuple(sheets), tuple(pieces))


def group_of(instance: Instance) -> str:
    parts = instance["class"].split("-")
    if parts[0] == "craft":
        return f"craft {parts[-1]}"
    return f"{parts[0]} {'oriented' if parts[-1] == 'O' else 'turnable'}"


def written(instance: Instance, plan: CuttingPlan) -> dict[str, Any]:
    """The plan as the instances' own format has it."""
    sheets = []
    for pattern in plan.patterns:
        source: str | int = "new" if pattern.sheet.name == "new" else int(pattern.sheet.name.split()[1])
        for run in pattern.runs:
            placed = [
                [block.x, block.y, block.width, block.height, index, turned]
                for index, turned, block in zip(run.pieces, run.turned, pattern.pieces, strict=True)
            ]
            sheets.append({"from": source, "copies": run.times, "placed": placed})
    return {"instance": instance["name"], "sheets": sheets}


def plain_settings(problem: Problem, effort: Effort, cost: int) -> int:
    """How often plain column generation would set the fence: layouts of the linear programme, whole amounts of them
    chosen for fewest sheets alone, as they come. 0 where that takes another number of sheets than the plan."""
    from pastedown.cutting.columns import generate, grids_for
    from pastedown.cutting.with_libraries import select

    task, _ = read(problem)
    state = Search(task, Budget(effort.work), None)
    budget = Budget(effort.work)
    state.pool.add_all(first_plan(task, budget)[0])
    found = generate(task, grids_for(task, budget), state.pool, budget, by_area(task))
    select(state, found.layouts, 400, effort.work)
    choice = gather_layouts(trimmed(task, state.best or ()))
    return settings_in(task, choice) if state.best is not None and cost_of(task, choice) == cost else 0


def run(job: tuple[Instance, Effort, bool]) -> Row:
    instance, effort, plain = job
    problem = problem_of(instance)
    start = time.process_time()
    plan = make_plan(problem, effort)
    seconds = time.process_time() - start
    refused = ""
    try:
        judge(problem, plan)
    except Refused as reason:
        refused = str(reason)
    bounds = instance["bounds"]
    return Row(
        instance["name"], group_of(instance), plan.new_sheets, plan.least_sheets or 0, bounds["lower"],
        bounds["best_known"], plan.settings, len(plan.patterns), seconds, refused, written(instance, plan),
        plain_settings(problem, effort, plan.new_sheets) if plain else 0,
    )


def check_outside(checker: Path, instances: list[Instance], rows: Iterable[Row]) -> list[dict[str, Any]]:
    with tempfile.TemporaryDirectory() as folder:
        bundle, plans = Path(folder) / "bundle.json", Path(folder) / "plans.json"
        bundle.write_text(json.dumps({"instances": instances}), encoding="utf-8")
        plans.write_text(json.dumps({"plans": [row.written for row in rows]}), encoding="utf-8")
        done = subprocess.run(
            [sys.executable, str(checker), str(bundle), str(plans), "--json"], capture_output=True, text=True, check=False
        )
    return [json.loads(line) for line in done.stdout.splitlines() if line.startswith("{")]


def print_table(rows: list[Row]) -> None:
    print(f"{'group':20}{'plans':>6}{'sheets':>9}{'bounds':>9}{'% over':>8}{'best known':>11}{'extra':>6}"
          f"{'proven':>7}{'settings':>9}{'mean s':>8}{'most s':>8}")
    groups = dict.fromkeys(row.group for row in rows)
    for group in [*groups, ""]:
        of = [row for row in rows if group in ("", row.group)]
        sheets, lower = sum(row.sheets for row in of), sum(max(row.lower, row.bound) for row in of)
        best, seconds = sum(row.best_known for row in of), [row.seconds for row in of]
        print(
            f"{group or 'all':20}{len(of):6}{sheets:9}{lower:9}{100 * (sheets / lower - 1) if lower else 0:8.3f}"
            f"{best:11}{sheets - best:+6}{sum(row.sheets == row.bound for row in of):7}"
            f"{sum(row.settings for row in of):9}{sum(seconds) / len(of):8.2f}{max(seconds):8.2f}"
        )
        alike = [row for row in of if row.plain_settings]
        for some, which in ((alike, ""), ([row for row in alike if row.one_album], " of one album")):
            if some:
                own, plain = sum(row.settings for row in some), sum(row.plain_settings for row in some)
                print(f"{'':20}{len(some):6} plans{which} on as many sheets as plain column generation: settings {own} "
                      f"against {plain}")


# A design in the making: sheets, mats, tags and strips in sixteenths of an inch on sheets of 12 by 12 in.
_ALBUM = ((120, 88, 6), (116, 92, 6), (140, 108, 1), (112, 88, 2), (108, 84, 6), (104, 76, 3), (58, 36, 9), (24, 150, 4))
_SIXTEENTHS = 192


def made_up(kinds: int, copies: int) -> Problem:
    """So many kinds of pieces, each so many times as often as the album has it; sizes differ by a sixteenth from one
    round of the album to the next."""
    pieces = []
    for number in range(kinds):
        width, height, count = _ALBUM[number % len(_ALBUM)]
        smaller = number // len(_ALBUM)
        size = max(width - smaller, 8), max(height - 2 * smaller, 8)
        pieces.append(Piece(str(number), *size, count * copies, number % 3 == 0))
    return Problem((Sheet("new", _SIXTEENTHS, _SIXTEENTHS),), tuple(pieces))


def print_scaling(effort: Effort) -> int:
    failed = 0
    print(f"{'':24}{'pieces':>8}{'sheets':>8}{'bound':>8}{'patterns':>9}{'settings':>9}{'seconds':>9}")
    cases = [(f"{kinds} kinds", kinds, copies) for kinds, copies in ((3, 1), (8, 1), (24, 1), (24, 10), (48, 40), (64, 34))]
    cases += [(f"{copies} kits of 8 kinds", 8, copies) for copies in (1, 5, 25, 100, 500, 1000, 5000)]
    for name, kinds, copies in cases:
        problem = made_up(kinds, copies)
        start = time.process_time()
        plan = make_plan(problem, effort)
        seconds = time.process_time() - start
        try:
            judge(problem, plan)
        except Refused as reason:
            failed += 1
            name += f" REFUSED: {reason}"
        total = sum(piece.count for piece in problem.pieces)
        print(f"{name:24}{total:8}{plan.new_sheets:8}{plan.least_sheets or 0:8}{len(plan.patterns):9}{plan.settings:9}"
              f"{seconds:9.2f}", flush=True)
    return failed


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__.split("\n", 1)[0])
    parser.add_argument("folder", type=Path, nargs="?")
    parser.add_argument("--scaling", action="store_true", help="made-up problems that grow, instead of a folder")
    parser.add_argument("--plain-settings", action="store_true", help="settings of the fence without the last stages, too")
    parser.add_argument("--group", default="", help="only instances whose name or class holds this word")
    parser.add_argument("--all", action="store_true", help="not only the routine set")
    parser.add_argument("--limit", type=int, default=0, help="at most so many of a class")
    parser.add_argument("--work", type=int, default=USUAL_EFFORT)
    parser.add_argument("--without-libraries", action="store_true")
    parser.add_argument("--checker", type=Path, help="another program that judges the plans")
    parser.add_argument("--each", action="store_true", help="a line for each plan, too")
    parser.add_argument("--jobs", type=int, default=1, help="plans made at the same time")
    arguments = parser.parse_args()
    effort = Effort(arguments.work, not arguments.without_libraries)
    if arguments.scaling:
        return 1 if print_scaling(effort) else 0
    if arguments.folder is None:
        parser.error("name a folder of instances, or ask for --scaling")
    instances: list[Instance] = []
    counted: dict[str, int] = {}
    for path in sorted(arguments.folder.glob("*.json")):
        for instance in json.loads(path.read_text(encoding="utf-8"))["instances"]:
            wanted = arguments.all or instance.get("core", True)
            if not wanted or not any(arguments.group in instance[key] for key in ("name", "class")):
                continue
            counted[instance["class"]] = counted.get(instance["class"], 0) + 1
            if not arguments.limit or counted[instance["class"]] <= arguments.limit:
                instances.append(instance)
    rows: list[Row] = []
    with ProcessPoolExecutor(arguments.jobs) as pool:
        for row in pool.map(run, [(instance, effort, arguments.plain_settings) for instance in instances]):
            rows.append(row)
            if arguments.each or row.refused:
                print(
                    f"{row.name}: sheets {row.sheets}, bound {row.bound} (written {row.lower}), best known "
                    f"{row.best_known}, patterns {row.patterns}, settings {row.settings}, {row.seconds:.2f} s"
                    f"{' REFUSED: ' + row.refused if row.refused else ''}", flush=True,
                )
    if not rows:
        print("no instances")
        return 2
    print_table(rows)
    failed = sum(bool(row.refused) for row in rows)
    if arguments.checker:
        reports = check_outside(arguments.checker, instances, rows)
        invalid = [report for report in reports if not report["valid"]]
        failed += len(invalid) + (len(rows) - len(reports))
        print(f"{arguments.checker.name}: {len(reports) - len(invalid)} of {len(rows)} plans valid, fence settings "
              f"{sum(report.get('fence_settings', 0) for report in reports)}")
        for report in invalid:
            print(f"  {report['instance']}: {report['reason']}")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
