"""How long pastedown takes on this machine, and how much memory.

    python tests/benchmarks/run.py [--runs N]

Prints a table of medians of whole processes, interpreter start included, so that nothing is left out. Every case is run
once before it is measured, and byte code is kept in a folder of its own: the first start after a change is slower. It
judges nothing; figures of two machines do not compare.
"""

import argparse
import json
import os
import platform
import statistics
import subprocess
import sys
import tempfile
from collections.abc import Sequence
from pathlib import Path

from attrs import frozen

ROOT = Path(__file__).resolve().parent.parent.parent
sys.path.insert(0, str(ROOT / "tests"))

from benchmarks.designs import design_of  # noqa: E402

HEAVY = ("lark", "attrs", "cairosvg", "argparse", "json", "xml", "importlib.metadata", "pastedown.outputs")

# Starts a command from a small process, because a process that has just been split off counts its parent's memory.
MEASURE = """
import json, os, resource, subprocess, sys, time
start = time.perf_counter()
code = subprocess.run(json.loads(sys.argv[1]), stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL).returncode
taken = time.perf_counter() - start
print(json.dumps([code, taken, resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss]))
"""


@frozen
class Measured:
    """Medians of one case: seconds of a whole process, its largest memory in MB, its exit code."""

    seconds: float
    megabytes: float
    code: int


def measure(command: Sequence[str], runs: int, environment: dict[str, str], folder: Path) -> Measured:
    taken: list[tuple[int, float, int]] = []
    for _ in range(runs + 1):
        done = subprocess.run(
            [sys.executable, "-I", "-c", MEASURE, json.dumps(command)],
            env=environment, cwd=folder, check=True, capture_output=True, text=True,
        )
        taken.append(tuple(json.loads(done.stdout)))
    counted = taken[1:]
    # ru_maxrss is in kilobytes on Linux and in bytes on macOS.
    unit = 1_000_000 if sys.platform == "darwin" else 1_000
    return Measured(
        statistics.median(seconds for _, seconds, _ in counted),
        statistics.median(memory for _, _, memory in counted) / unit,
        counted[-1][0],
    )


def cases(folder: Path) -> list[tuple[str, list[str]]]:
    """What is measured: its name and its command. The designs it needs are written into `folder`."""
    for lines in (200, 1_000, 10_000):
        (folder / f"lines_{lines}.album").write_text(design_of(lines), encoding="utf-8")
    python, pastedown = [sys.executable, "-c"], [sys.executable, "-m", "pastedown"]
    example = str(ROOT / "examples" / "harbour_walk.album")
    return [
        ("bare interpreter", [*python, "pass"]),
        ("importing lark and attrs", [*python, "import lark, attrs"]),
        ("pastedown --help", [*pastedown, "--help"]),
        ("check of 200 lines", [*pastedown, "check", "lines_200.album"]),
        ("check of 1,000 lines", [*pastedown, "check", "lines_1000.album"]),
        ("check of 10,000 lines", [*pastedown, "check", "lines_10000.album"]),
        ("check of an example", [*pastedown, "check", example]),
        ("make of an example", [*pastedown, "make", example, "--to", "made"]),
    ]


def as_installed(folder: Path) -> dict[str, str]:
    """The environment of a maker, not of a developer: byte code is kept, and the library by which lark checks grammars
    more strictly, which takes longer than all the rest, is not to be had."""
    (folder / "hidden").mkdir()
    (folder / "hidden" / "interegular.py").write_text("raise ImportError\n", encoding="utf-8")
    path = os.pathsep.join((str(folder / "hidden"), str(ROOT / "compiler")))
    environment = {**os.environ, "PYTHONPATH": path, "PYTHONPYCACHEPREFIX": str(folder / "cache")}
    environment.pop("PYTHONDONTWRITEBYTECODE", None)
    return environment


def heavy_modules(design: str, environment: dict[str, str], folder: Path) -> str:
    """Which of the modules that are slow to import a check of a design loads."""
    ask = (
        "import sys; from pastedown.command import main; main(['check', sys.argv[1]]);"
        f"print([name for name in {HEAVY!r} if name in sys.modules], file=sys.stderr)"
    )
    done = subprocess.run(
        [sys.executable, "-c", ask, design], env=environment, cwd=folder, check=True, capture_output=True, text=True
    )
    return done.stderr.splitlines()[-1]


def main() -> None:
    parser = argparse.ArgumentParser(description="Measures pastedown on this machine.")
    parser.add_argument("--runs", type=int, default=7, help="how often each case is run (7)")
    runs = parser.parse_args().runs
    with tempfile.TemporaryDirectory() as place:
        folder = Path(place)
        environment = as_installed(folder)
        print(f"Python {platform.python_version()}, {os.cpu_count()} cores, medians of {runs} runs")
        print(f"{'case':26} {'ms':>8} {'times bare':>11} {'MB':>7} {'exit':>5}")
        bare = 0.0
        for name, command in cases(folder):
            took = measure(command, runs, environment, folder)
            bare = bare or took.seconds
            times = took.seconds / bare
            print(f"{name:26} {took.seconds * 1000:8.0f} {times:11.1f} {took.megabytes:7.0f} {took.code:5}")
        print("a check loads:", heavy_modules("lines_200.album", environment, folder))


if __name__ == "__main__":
    main()
