"""The booklet used on a telephone and by keyboard in a real browser, and looked over by a checker of accessibility.

The checker is axe-core. It is no part of this project: the environment variable AXE_CORE names its file `axe.min.js`,
as `.ci/run` does, and the test is left out where there is none.
"""

import json
import os
from collections.abc import Iterator
from pathlib import Path

import pytest

from outputs.browser import BROWSER, NO_BROWSER, Browser
from pastedown.outputs.to_booklet_html import make
from test_examples import plan_of

AXE = Path(os.environ.get("AXE_CORE", ""))
pytestmark = pytest.mark.skipif(BROWSER is None, reason=NO_BROWSER)
EXAMPLE = "harbour_walk"

FOCUSED = """(() => { const at = document.activeElement, style = getComputedStyle(at), box = at.getBoundingClientRect();
  return [at.tagName, at.getAttribute("href") || at.name || at.dataset.step || at.textContent, style.outlineStyle,
  box.width > 0 && box.bottom > 0 && box.top < innerHeight]; })()"""


@pytest.fixture(scope="module")
def browser(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Browser]:
    """The booklet of an example, opened on a telephone."""
    folder = tmp_path_factory.mktemp("browser")
    browser = Browser(folder / "profile")
    (folder / "booklet.html").write_bytes(make(plan_of(EXAMPLE))["booklet.html"])
    browser.as_wide_as(360, 740)
    browser.open(folder / "booklet.html")
    yield browser
    check_that_nothing_was_said_or_asked(browser)
    browser.close()


def check_that_nothing_was_said_or_asked(browser: Browser) -> None:
    """Of all that was done with it: no error on the console, and no request but for the file itself."""
    assert browser.said("Runtime.exceptionThrown", "Runtime.consoleAPICalled") == []
    faults = [each["entry"] for each in browser.said("Log.entryAdded") if each["entry"]["level"] in ("error", "warning")]
    assert faults == []
    asked = [each["request"]["url"] for each in browser.said("Network.requestWillBeSent")]
    assert {url.rsplit("/", 1)[-1].split("#")[0] for url in asked} == {"booklet.html"}
    assert all(url.startswith("file:") for url in asked)


@pytest.mark.parametrize("width", [320, 360, 412])
def test_a_telephone_never_scrolls_it_sideways(browser: Browser, width: int) -> None:
    """WCAG 2.2, 1.4.10: no scrolling in two directions down to 320 pixels."""
    browser.as_wide_as(width, 740)
    assert browser.run("[innerWidth, document.documentElement.scrollWidth]") == [width, width]
    assert browser.run("scrollTo(50, 0), scrollX") == 0


def test_everything_is_reached_and_done_by_keyboard(browser: Browser) -> None:
    browser.run("scrollTo(0, 0), document.activeElement.blur()")
    browser.press("Tab")
    assert browser.run(FOCUSED) == ["A", "#steps", "solid", True]
    # Forward through the units and the contents, where each thing that has the focus shows it.
    seen = []
    for _ in range(9):
        browser.press("Tab")
        seen.append(browser.run(FOCUSED))
    chapters = ["#make", "#materials", "#pieces", "#sheets", "#scores", "#thickness", "#steps", "#words"]
    assert [name for _, name, _, _ in seen] == ["units", *chapters]
    assert all(outline == "solid" and visible for _, _, outline, visible in seen)
    browser.run("document.querySelector('input[name=units]').focus()")
    first = browser.run("document.querySelector('[data-in]').textContent")
    for key, system in (("ArrowDown", "in"), ("ArrowDown", "mm"), ("ArrowUp", "in")):
        browser.press(key)
        assert browser.run(f"(e => e.textContent === e.dataset.{system})(document.querySelector('[data-in]'))")
    browser.press("ArrowUp")
    assert browser.run("document.querySelector('[data-in]').textContent") == first
    # By the link over everything to the first step, whose drawing is enlarged, closed again, and which is ticked off.
    browser.run("document.querySelector('.skip').focus()")
    browser.press("Enter")
    assert browser.run("location.hash") == "#steps"
    browser.press("Tab")
    assert browser.run("document.activeElement.closest('.step').id") == "step-1"
    browser.press("Enter")
    assert browser.run("document.getElementById('enlarged').open")
    assert browser.run("document.activeElement.closest('dialog').id") == "enlarged"
    browser.press("Escape")
    assert not browser.run("document.getElementById('enlarged').open")
    assert browser.run("document.activeElement.closest('.step').id") == "step-1"
    browser.press("Tab")
    assert browser.run(FOCUSED)[:3] == ["INPUT", "1", "solid"]
    browser.press(" ")
    assert browser.run("document.getElementById('progress').textContent").startswith("1 of ")


@pytest.mark.skipif(not AXE.is_file(), reason="no axe-core here; AXE_CORE names its file axe.min.js")
@pytest.mark.parametrize("enlarged", [False, True], ids=["the booklet", "a drawing enlarged"])
def test_a_checker_of_accessibility_finds_nothing(browser: Browser, enlarged: bool) -> None:
    browser.run(AXE.read_text(encoding="utf-8"))
    if enlarged:
        browser.run("document.querySelector('figure button').click()")
    found = json.loads(browser.run("axe.run(document).then(found => JSON.stringify(found))"))
    if enlarged:
        browser.press("Escape")
    assert [(each["id"], [node["html"][:80] for node in each["nodes"][:3]]) for each in found["violations"]] == []
    assert len(found["passes"]) > 15


def test_it_prints_its_drawings_and_no_controls(browser: Browser) -> None:
    browser.ask("Emulation.setEmulatedMedia", media="print")
    shown = "(of => [...document.querySelectorAll(of)].filter(e => e.getClientRects().length).length)"
    assert browser.run(f"{shown}('figure svg')") > 40
    assert browser.run(f"{shown}('button, nav, .controls, .skip')") == 0
    browser.ask("Emulation.setEmulatedMedia", media="screen")


def test_a_telephone_opens_a_drawing_at_its_middle_in_a_middle_size(browser: Browser) -> None:
    browser.as_wide_as(390, 844)
    seen = """(() => { const large = document.querySelector(".large"), svg = large.querySelector("svg");
      const here = large.getBoundingClientRect(), there = svg.getBoundingClientRect();
      return [there.width, (there.left + there.right - here.left - here.right) / 2, here.width]; })()"""
    button = "document.querySelector('#step-1 figure button')"
    shown = browser.run(f"{button}.parentElement.querySelector('svg').getBoundingClientRect().width")
    browser.run(f"{button}.click()")
    width, off, room = browser.run(seen)
    assert 1.2 * shown < width < 1.7 * shown and width > room
    assert abs(off) < 2
    browser.run("document.querySelectorAll('dialog button')[1].click()")
    larger, off, _ = browser.run(seen)
    assert larger > 1.3 * width and abs(off) < 2
    browser.run("document.querySelectorAll('dialog button')[1].click()")
    assert browser.run(seen)[0] == width
    browser.run("document.querySelector('dialog button').click()")


def test_only_a_table_wider_than_the_screen_has_a_shadow_where_more_of_it_is(browser: Browser) -> None:
    browser.as_wide_as(390, 844)
    look = "getComputedStyle(document.querySelector('.wide'))"
    assert browser.run(f"{look}.backgroundAttachment") == "local, local, scroll, scroll"
    assert browser.run(f"{look}.backgroundImage").count("linear-gradient") == 4
