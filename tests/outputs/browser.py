"""A browser without a window, spoken to by way of two pipes, so that no library and no port is needed.

What it understands is the Chrome DevTools Protocol: JSON messages, each ended by a nought byte, read by the browser on
file descriptor 3 and written on 4 ("--remote-debugging-pipe").
"""

import json
import os
import shutil
import subprocess
from fcntl import F_DUPFD, fcntl
from functools import partial
from pathlib import Path
from select import select
from typing import Any

BROWSER = next(filter(None, map(shutil.which, ("chromium", "chromium-browser", "google-chrome"))), None)
NO_BROWSER = "no Chromium here; on Debian the package chromium has one"
# Where no name can be resolved, a request would be an error on the console besides.
FLAGS = ("--headless", "--no-sandbox", "--disable-gpu", "--host-resolver-rules=MAP * ~NOTFOUND")
# Far longer than any answer takes, in seconds: it only ends a run that hangs.
_HANGS = 100

KEYS = {
    "Tab": (9, ""), "Enter": (13, "\r"), " ": (32, " "), "Escape": (27, ""), "ArrowDown": (40, ""), "ArrowUp": (38, ""),
}  # fmt: skip


def _as_three_and_four(reads: int, writes: int) -> None:
    # First out of the way, since one of them may be 3 or 4 itself.
    for pipe, number in [(fcntl(pipe, F_DUPFD, 10), number) for pipe, number in ((reads, 3), (writes, 4))]:
        os.dup2(pipe, number)


class Browser:
    """One page in one browser. `events` are all messages that came unasked."""

    def __init__(self, profile: Path) -> None:
        assert BROWSER is not None
        reads, self._to = os.pipe()
        self._from, writes = os.pipe()
        self._process = subprocess.Popen(
            [BROWSER, *FLAGS, "--remote-debugging-pipe", f"--user-data-dir={profile}", "about:blank"],
            preexec_fn=partial(_as_three_and_four, reads, writes), pass_fds=(3, 4), stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
        )  # fmt: skip
        os.close(reads)
        os.close(writes)
        self._number, self._session, self._read = 0, "", b""
        self.events: list[dict[str, Any]] = []
        pages = self.ask("Target.getTargets")["targetInfos"]
        target = next(each["targetId"] for each in pages if each["type"] == "page")
        self._session = self.ask("Target.attachToTarget", targetId=target, flatten=True)["sessionId"]
        for domain in ("Page", "Runtime", "Log", "Network"):
            self.ask(f"{domain}.enable")

    def close(self) -> None:
        self._session = ""
        self.ask("Browser.close")
        os.close(self._to)
        self._process.wait(30)
        os.close(self._from)

    def ask(self, method: str, **how: Any) -> dict[str, Any]:
        """One command and its answer."""
        self._number += 1
        message = {"id": self._number, "method": method, "params": how}
        if self._session:
            message["sessionId"] = self._session
        os.write(self._to, json.dumps(message).encode() + b"\0")
        while True:
            told = self._next()
            if told.get("id") == self._number:
                assert "error" not in told, told
                answer: dict[str, Any] = told["result"]
                return answer
            self.events.append(told)

    def open(self, file: Path) -> None:
        """Opens a file and waits until it is loaded."""
        before = len(self.events)
        self.ask("Page.navigate", url=file.as_uri())
        while not any(each["method"] == "Page.loadEventFired" for each in self.events[before:]):
            self.events.append(self._next())

    def run(self, script: str) -> Any:
        """What a line of JavaScript gives, promises waited for. It is not bound by the page's own policy."""
        told = self.ask("Runtime.evaluate", expression=script, awaitPromise=True, returnByValue=True)
        assert "exceptionDetails" not in told, told["exceptionDetails"]
        return told["result"].get("value")

    def press(self, key: str, shift: bool = False) -> None:
        """A key pressed and let go, as by a hand."""
        code, text = KEYS[key]
        how = {"key": key, "code": key, "windowsVirtualKeyCode": code, "modifiers": 8 if shift else 0}
        self.ask("Input.dispatchKeyEvent", type="keyDown", text=text, **how)
        self.ask("Input.dispatchKeyEvent", type="keyUp", **how)

    def as_wide_as(self, width: int, height: int) -> None:
        """A screen of a telephone, in pixels as CSS counts them."""
        self.ask("Emulation.setDeviceMetricsOverride", width=width, height=height, deviceScaleFactor=2, mobile=True)

    def said(self, *methods: str) -> list[dict[str, Any]]:
        return [each["params"] for each in self.events if each["method"] in methods]

    def _next(self) -> dict[str, Any]:
        while b"\0" not in self._read:
            ready, _, _ = select([self._from], [], [], _HANGS)
            some = os.read(self._from, 1 << 20) if ready else b""
            assert some, "the browser is gone, or says nothing any more"
            self._read += some
        message, _, self._read = self._read.partition(b"\0")
        told: dict[str, Any] = json.loads(message)
        return told
