"""What `make` and `slip` say while they work: to somebody at a terminal, and to nobody else."""

import os
import pty
import re
import struct
import subprocess
import sys
import termios
from fcntl import ioctl
from pathlib import Path

from running import GOOD, HANGS, environment, run

# A carriage return and "erase in line", ECMA-48.
ERASED = "\r\x1b[K"


def at_a_terminal(here: Path, *arguments: str, columns: int = 80, **changes: str) -> tuple[int, str]:
    """The exit code, and all that came to a terminal on the error stream; the output stream is a pipe."""
    ours, theirs = pty.openpty()
    ioctl(theirs, termios.TIOCSWINSZ, struct.pack("HHHH", 24, columns, 0, 0))
    settings = environment(**{"TERM": "xterm", **changes})
    process = subprocess.Popen(
        [sys.executable, "-m", "pastedown", *arguments], cwd=here, stdout=subprocess.DEVNULL, stderr=theirs, env=settings,
    )
    os.close(theirs)
    told = b""
    # The terminal's end reads as an error once the process is gone.
    try:
        while some := os.read(ours, 4096):
            told += some
    except OSError:
        pass
    code = process.wait(HANGS)
    os.close(ours)
    return code, told.decode()


def left_on_screen(told: str) -> str:
    """What a terminal shows in the end: what stands behind the last erasure of every line."""
    return "\n".join(line.rsplit(ERASED, 1)[-1] for line in told.replace("\r\n", "\n").split("\n"))


def test_a_line_tells_each_output_and_is_erased(tmp_path: Path) -> None:
    (tmp_path / "good.album").write_text(GOOD, encoding="utf-8")
    code, told = at_a_terminal(tmp_path, "make", "good.album", "--only", "cut-list,steps,materials")
    assert code == 0
    shown = [words for words in told.split(ERASED) if words]
    assert shown == ["card: cut-list, 1 of 3", "card: steps, 2 of 3", "card: materials, 3 of 3"]
    assert "\n" not in told
    assert left_on_screen(told) == ""


def test_a_slip_tells_that_it_is_being_looked_into(tmp_path: Path) -> None:
    (tmp_path / "good.album").write_text(GOOD, encoding="utf-8")
    piece = re.search(r"piece ([a-z_]+)", GOOD)
    assert piece is not None
    code, told = at_a_terminal(tmp_path, "slip", "good.album", f"{piece[1]}.height at 1 in")
    assert code in (0, 1)
    shown = [words for words in told.split(ERASED) if words]
    assert shown[0] == "card: worked out with what was done and what may mend it, 1"
    assert left_on_screen(told) == ""


def test_a_line_is_never_wider_than_the_terminal(tmp_path: Path) -> None:
    (tmp_path / "good.album").write_text(GOOD, encoding="utf-8")
    _, told = at_a_terminal(tmp_path, "make", "good.album", "--only", "cut-list,steps", columns=12)
    assert max(map(len, re.split(re.escape(ERASED), told))) == 11
    assert left_on_screen(told) == ""


def test_a_failure_is_told_on_a_clean_line(tmp_path: Path) -> None:
    (tmp_path / "good.album").write_text(GOOD, encoding="utf-8")
    # The folder to write into turns out to be a file only when it is written.
    (tmp_path / "taken").write_text("", encoding="utf-8")
    code, told = at_a_terminal(tmp_path, "make", "good.album", "--only", "steps", "--to", "taken/folder")
    assert code == 3
    assert ERASED in told
    assert left_on_screen(told).startswith("pastedown: ")


def test_nothing_is_told_in_pipes_and_where_nothing_can_be_erased(tmp_path: Path) -> None:
    (tmp_path / "good.album").write_text(GOOD, encoding="utf-8")
    done = run("make", "good.album", "--only", "steps", cwd=tmp_path)
    assert (done.code, done.err) == (0, "")
    assert "\r" not in done.out
    assert at_a_terminal(tmp_path, "make", "good.album", "--only", "steps", TERM="dumb") == (0, "")
