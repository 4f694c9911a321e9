"""Runs the command line as a maker does, in a process of its own, for the tests of the whole."""

import json
import os
import subprocess
import sys
from pathlib import Path

from attrs import frozen

ROOT = Path(__file__).parent.parent
# Far beyond what any machine needs: it only ends a run that hangs.
HANGS = 120

# A sound design, and the line of its stock for designs that are written round it.
KRAFT = "kraft = stock(kind: card, sheet: 12 in x 12 in, caliper: 12 pt, grain: long)"
GOOD = f"""\
edition = 1
{KRAFT}
album card "One card" {{
  ruler = inches to 1/16
  height = 6 in "finished"
  piece leaf from kraft, height: height, width: 4 1/4 in, grain: height
}}
"""

_MEASURE = """
import json, resource, subprocess, sys
done = subprocess.run([sys.executable, "-m", "pastedown", *sys.argv[1:]], capture_output=True)
memory = resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss
print(json.dumps([done.returncode, done.stdout.decode(), done.stderr.decode(), memory]))
"""


@frozen
class Done:
    """How a run of the command line ended."""

    code: int
    out: str
    err: str


def environment(**changes: str) -> dict[str, str]:
    """The environment for a run of this checkout."""
    return {**os.environ, "PYTHONPATH": str(ROOT / "compiler"), **changes}


def run(*arguments: str | Path, cwd: Path, **changes: str) -> Done:
    """Runs pastedown in the folder `cwd`, with `changes` to the environment. A traceback fails the test."""
    done = subprocess.run(
        [sys.executable, "-m", "pastedown", *map(str, arguments)], cwd=cwd, capture_output=True, timeout=HANGS,
        env=environment(**changes),
    )
    out, err = done.stdout.decode(), done.stderr.decode()
    assert "Traceback" not in err
    return Done(done.returncode, out, err)


def run_measured(*arguments: str, cwd: Path) -> tuple[Done, float]:
    """Also gives the largest memory of the run in MB; by way of a small process, because a process that has just been
    split off counts the memory of the one it came from."""
    done = subprocess.run(
        [sys.executable, "-c", _MEASURE, *arguments], cwd=cwd, capture_output=True, text=True, check=True,
        timeout=HANGS, env=environment(),
    )
    code, out, err, memory = json.loads(done.stdout)
    # ru_maxrss is in kilobytes on Linux and in bytes on macOS.
    return Done(code, out, err), memory / (1_000_000 if sys.platform == "darwin" else 1_000)


def files_in(folder: Path) -> dict[str, bytes]:
    """All files below a folder with their contents."""
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in folder.rglob("*") if path.is_file()}
