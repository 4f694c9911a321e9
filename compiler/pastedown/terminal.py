"""What the command line says, and how it ends: streams, colours, and failures told without a traceback."""

import io
import os
import signal
import sys
import threading
import traceback
from pathlib import Path
from types import FrameType
from typing import NoReturn, Self, TextIO

_LONGEST_REASON = 300
_USUAL_COLUMNS = 80


def say(text: str) -> None:
    """Prints what was asked for."""
    _print(text, sys.stdout)


def say_exactly(text: str) -> None:
    """Prints a file: nothing is added at its end."""
    _print(text, sys.stdout, end="")


def complain(text: str) -> None:
    """Prints what went wrong or needs attention."""
    _print(text, sys.stderr)


def wants_colour() -> bool:
    """Whether complaints may be coloured: on a terminal that has colours, unless the maker does without (NO_COLOR)."""
    plain = "NO_COLOR" in os.environ or os.environ.get("TERM") == "dumb"
    return sys.stderr is not None and sys.stderr.isatty() and not plain


class ProgressLine:
    """One line on a terminal that says what is being done, and that leaves nothing behind. Where complaints go into a
    file or a pipe, or the terminal cannot erase, nothing is said at all.

    Takes back what it wrote by a carriage return and "erase in line" (ECMA-48, 8.3.41).
    """

    def __init__(self) -> None:
        self._stream = sys.stderr if _can_erase(sys.stderr) else None
        self._shown = False

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_: object) -> None:
        """Work that goes on in another thread after it was stopped writes nothing any more."""
        self.erase()
        self._stream = None

    def show(self, words: str) -> None:
        """Puts these words in the place of those before, cut off at the width of the terminal: a line that wrapped
        could not be taken back."""
        if self._stream is not None:
            room = _columns(self._stream) - 1
            # Before it is written, so that what was begun is erased whatever happens.
            self._shown = True
            _print(f"\r\x1b[K{words[:room]}", self._stream, end="")

    def erase(self) -> None:
        """Leaves the line as it was found."""
        if self._shown:
            self._shown = False
            _print("\r\x1b[K", self._stream, end="")


def _can_erase(stream: TextIO | None) -> bool:
    return stream is not None and stream.isatty() and os.environ.get("TERM") != "dumb"


def _columns(stream: TextIO) -> int:
    """How wide the terminal is; where it does not say, as wide as terminals have been since the first ones."""
    try:
        return os.get_terminal_size(stream.fileno()).columns or _USUAL_COLUMNS
    except OSError:
        return _USUAL_COLUMNS


def prepare_process() -> None:
    """The same bytes on every machine's streams, and a stop request that lets half-written folders be cleared away."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(encoding="utf-8", errors="backslashreplace")
    if threading.current_thread() is threading.main_thread():
        signal.signal(signal.SIGTERM, _stop)


def outside_failure(fault: OSError) -> str:
    """What to say when the disk or the machine failed."""
    from pastedown.diagnostic.visible_text import visible

    where = f" ({visible(str(fault.filename))})" if fault.filename is not None else ""
    return f"pastedown: this failed outside the design: {fault.strerror or 'no reason given'}{where}."


def apology(fault: Exception) -> str:
    """What to say when pastedown itself failed. With PASTEDOWN_DEBUG=1 it is the traceback."""
    from pastedown.diagnostic.visible_text import visible

    if os.environ.get("PASTEDOWN_DEBUG") == "1":
        return "".join(traceback.format_exception(fault)).rstrip("\n")
    places = [frame for frame in traceback.extract_tb(fault.__traceback__) if "pastedown" in frame.filename]
    place = f" in {Path(places[-1].filename).name}, line {places[-1].lineno}" if places else ""
    words = visible(" ".join(str(fault).split()))[:_LONGEST_REASON]
    return (
        "pastedown: sorry, this is a fault in pastedown, not in your design. No folder was left half written. Please "
        f"report it with your design, the command you typed and these words: {type(fault).__name__}{place}: {words}. "
        "With PASTEDOWN_DEBUG=1 set, the same command shows more."
    )


def _print(text: str, stream: TextIO | None, end: str = "\n") -> None:
    """Prints; a reader that has gone away (`| head`) changes neither the work nor the exit code."""
    try:
        print(text, end=end, file=stream, flush=True)
    except BrokenPipeError:
        if stream is not None:
            os.dup2(os.open(os.devnull, os.O_WRONLY), stream.fileno())


def _stop(signal_number: int, frame: FrameType | None) -> NoReturn:
    raise KeyboardInterrupt
