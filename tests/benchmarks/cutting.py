"""How few sheets the planner needs on a folder of instances, against the bounds and best plans written in them.

    python tests/benchmarks/cutting.py FOLDER [--group WORD] [--all] [--limit N] [--work N] [--without-libraries]
                                       [--checker check_plan.py] [--each] [--jobs N]

FOLDER holds bundles {"instances": [...]}; an instance has "name", "class", "sheet", "pieces", "rotation", "bounds" with "lower"
and "best_known", perhaps "offcuts", and "core" where it belongs to the routine set. Every plan is judged: by the judge of
the tests, and by another program if one is given, which is called as `CHECKER BUNDLE PLANS --json`.
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
from pastedown.cutting.cutting_plan import CuttingPlan  # noqa: E402
from pastedown.cutting.make_plan import make_plan  # noqa: E402
from pastedown.cutting.problem import USUAL_EFFORT, Effort, Piece, Problem, Sheet  # noqa: E402

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


def run(job: tuple[Instance, Effort]) -> Row:
    instance, effort = job
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


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__.split("\n", 1)[0])
    parser.add_argument("folder", type=Path)
    parser.add_argument("--group", default="", help="only instances whose name or class holds this word")
    parser.add_argument("--all", action="store_true", help="not only the routine set")
    parser.add_argument("--limit", type=int, default=0, help="at most so many of a class")
    parser.add_argument("--work", type=int, default=USUAL_EFFORT)
    parser.add_argument("--without-libraries", action="store_true")
    parser.add_argument("--checker", type=Path, help="another program that judges the plans")
    parser.add_argument("--each", action="store_true", help="a line for each plan, too")
    parser.add_argument("--jobs", type=int, default=1, help="plans made at the same time")
    arguments = parser.parse_args()
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
    effort = Effort(arguments.work, not arguments.without_libraries)
    rows: list[Row] = []
    with ProcessPoolExecutor(arguments.jobs) as pool:
        for row in pool.map(run, [(instance, effort) for instance in instances]):
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
