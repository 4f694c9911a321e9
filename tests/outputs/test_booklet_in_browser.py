"""The booklet in a browser without a window, where there is one: what only a browser can tell.

The file is opened as it is for printing. For all else it is opened with one more script, whose hash is added to the
file's own policy: it uses the booklet as a reader would and writes down what it finds.
"""

import hashlib
import json
import re
import subprocess
from base64 import b64encode
from io import BytesIO
from pathlib import Path
from typing import Any

import pypdf
import pytest

from outputs.booklet_reader import read_page
from outputs.browser import BROWSER, FLAGS, NO_BROWSER
from pastedown.outputs.booklet.content import booklet_of
from pastedown.outputs.to_booklet_html import make
from test_examples import plan_of

pytestmark = pytest.mark.skipif(BROWSER is None, reason=NO_BROWSER)

# Browsers make a window no narrower than 500 pixels, so the body is made as narrow as a telephone is.
PROBE = """
const found = { faults: [] };
addEventListener("securitypolicyviolation", (event) => found.faults.push(event.violatedDirective));
const pick = (units) => { const choice = document.querySelector(`input[value=${units}]`); choice.checked = true;
  choice.dispatchEvent(new Event("change")); };
const texts = () => [...document.querySelectorAll("[data-in]")].map((each) => each.textContent);
const own = texts(), metric = [...document.querySelectorAll("[data-in]")].map((each) => each.dataset.mm);
pick("mm"); found.switched = JSON.stringify(texts()) === JSON.stringify(metric);
pick("own"); found.back = JSON.stringify(texts()) === JSON.stringify(own);
const tick = document.querySelector("input[data-step='1']"); tick.checked = true; tick.dispatchEvent(new Event("change"));
found.progress = document.getElementById("progress").textContent;
found.controls = !document.getElementById("controls").hidden;
const button = document.querySelector("figure button"), dialog = document.getElementById("enlarged");
button.focus(); button.click(); found.opened = dialog.open;
found.enlarged = dialog.querySelector(".large svg").getBoundingClientRect().width
  / button.parentElement.querySelector("svg").getBoundingClientRect().width;
dialog.querySelector("button").click(); found.closed = !dialog.open; found.focus = document.activeElement === button;
found.buttons = document.querySelectorAll("figure button").length;
found.figures = document.querySelectorAll("figure").length;
found.drawn = [...document.querySelectorAll("figure use")].every((use) => use.getBBox().width > 0);
document.body.style.width = "360px";
const inFrame = (each) => { const frame = each.parentElement.closest(".wide, .symbols, dialog");
  return each.closest(".skip") || frame && getComputedStyle(frame).overflowX !== "visible"; };
found.tooWide = [...document.querySelectorAll("body *")].filter((each) => !inFrame(each)
  && each.getBoundingClientRect().right > document.body.getBoundingClientRect().left + 360.5).map((each) => each.tagName);
found.requests = performance.getEntriesByType("resource").map((each) => each.name);
document.body.dataset.found = JSON.stringify(found);
"""


def run(file: Path, *flags: str) -> subprocess.CompletedProcess[str]:
    assert BROWSER is not None
    profile = file.parent / "profile"
    return subprocess.run(
        [BROWSER, *FLAGS, "--enable-logging=stderr", f"--user-data-dir={profile}", *flags, file.as_uri()],
        capture_output=True, text=True, check=True, timeout=120,
    )


def booklet(name: str, folder: Path, probe: str = "") -> Path:
    made = make(plan_of(name))["booklet.html"].decode()
    if probe:
        digest = b64encode(hashlib.sha256(probe.encode()).digest()).decode()
        made = made.replace("script-src '", f"script-src 'sha256-{digest}' '", 1)
        made = made.replace("</body>", f"<script>{probe}</script>\n</body>")
    file = folder / "booklet.html"
    file.write_text(made, encoding="utf-8")
    return file


@pytest.mark.parametrize("name", ["harbour_walk", "almanac", "first_snow"])
def test_it_works_as_a_reader_uses_it(name: str, tmp_path: Path) -> None:
    result = run(booklet(name, tmp_path, PROBE), "--dump-dom")
    assert "CONSOLE" not in result.stderr
    found: dict[str, Any] = json.loads(read_page(result.stdout.encode()).one("body").attributes["data-found"])
    assert found["faults"] == found["requests"] == found["tooWide"] == []
    assert found["progress"] == f"1 of {len(plan_of(name).steps)} steps done"
    assert all(found[key] for key in ("switched", "back", "controls", "opened", "closed", "focus", "drawn"))
    assert found["enlarged"] > 1.5
    assert found["buttons"] == found["figures"] > 40


def test_a_script_from_elsewhere_is_not_run(tmp_path: Path) -> None:
    """The same script without its hash in the policy: nothing of it happens, and the browser says so."""
    made = booklet("harbour_walk", tmp_path, PROBE)
    digest = b64encode(hashlib.sha256(PROBE.encode()).digest()).decode()
    made.write_text(made.read_text(encoding="utf-8").replace(f"'sha256-{digest}' ", "", 1), encoding="utf-8")
    result = run(made, "--dump-dom")
    assert "data-found" not in read_page(result.stdout.encode()).one("body").attributes
    assert "Content Security Policy" in result.stderr


def test_it_prints_with_its_stamp_on_every_sheet(tmp_path: Path) -> None:
    printed = tmp_path / "booklet.pdf"
    run(booklet("harbour_walk", tmp_path), f"--print-to-pdf={printed}", "--no-pdf-header-footer")
    pages = pypdf.PdfReader(BytesIO(printed.read_bytes())).pages
    texts = [" ".join(page.extract_text().split()) for page in pages]
    for number in (1, 2, 3):
        (heading,) = [text for text in texts if f"Pattern {number}-1," in text]
        assert re.search(rf"\b{number}\. \w+ \(\w+\)", heading), "a stock stands right above its first pattern"
    plan = plan_of("harbour_walk")
    told = ["".join(page.extract_text().split()) for page in pages]
    stamp = "".join(booklet_of(plan).stamp.split())
    assert 20 < len(told) < len(plan.steps), "most sheets of steps hold two"
    assert all(stamp in text for text in told)
    assert not [text for text in told if "Showlengths" in text or "Enlarge" in text]
    for step in plan.steps:
        assert [text for text in told if f"Step{step.number}isdone" in text]
