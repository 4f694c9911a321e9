"""A whole design whose every text is a stranger's, in every output there is: its words stay words in each format."""

import csv
import json
from collections.abc import Iterator
from functools import cache
from io import BytesIO, StringIO
from pathlib import Path
from xml.etree import ElementTree

import pypdf
import pytest
from attrs import evolve
from ezdxf.filemanagement import read as read_dxf

from outputs.booklet_reader import read_page
from outputs.template_pieces import Drawn
from outputs.test_drawings import check
from pastedown.compile import compile_design
from pastedown.outputs.every_output import EVERY_OUTPUT
from pastedown.outputs.safe_text import HIDDEN
from pastedown.plan.plan import Plan
from pastedown.quantity.quantity import inches

README = Path(__file__).parent.parent.parent / "README.md"
WORDS = {
    "markup": "</text></svg><script>alert(1)</script><svg onload='x()'><!-- & ]]>",
    "a formula": '=HYPERLINK("http://example.invalid")',
    "controls": "\x1b]0;title\x07\r\nEOF\u202ecba\0\ud83d",
}
SVG_TAGS = {"svg", "title", "g", "path", "polygon", "text"}


@cache
def design() -> Plan:
    """The pages of the README: cut, scored, folded, joined, with a round cut."""
    recipe = README.read_text(encoding="utf-8").split("```album\n")[1].split("```")[0]
    (made,) = compile_design("taste.album", recipe, {"taste.album": recipe}.get).designs
    assert made.plan is not None
    return made.plan


def with_words(words: str) -> Plan:
    text = (words, inches(1))
    plan = design()
    return evolve(
        plan,
        title=words,
        doc=text,
        parts=tuple(evolve(part, doc=words) for part in plan.parts),
        pieces=tuple(evolve(each, name=words, doc=words, stock=words, left=words, right=words, face_up=words) for each in plan.pieces),
        steps=tuple(evolve(step, title=text, text=text, tips=(text,), cautions=(text,)) for step in plan.steps),
        materials=tuple(evolve(material, stock=words, size=text, caution=words) for material in plan.materials),
        facts=tuple(evolve(fact, doc=words) for fact in plan.facts),
        verdicts=tuple(evolve(verdict, because=text) for verdict in plan.verdicts),
    )


@cache
def files(kind: str) -> dict[str, bytes]:
    plan = with_words(WORDS[kind]) if kind else design()
    return {name: made for output in EVERY_OUTPUT for name, made in output.make(plan).items()}


def of_kind(kind: str, ending: str) -> Iterator[tuple[str, bytes]]:
    found = [(name, made) for name, made in files(kind).items() if name.endswith(ending)]
    assert found
    yield from found


@pytest.mark.parametrize("kind", WORDS)
def test_drawings_and_pictures_hold_words_alone(kind: str) -> None:
    for name, made in of_kind(kind, ".svg"):
        root = ElementTree.fromstring(made)
        assert {element.tag.rpartition("}")[2] for element in root.iter()} <= SVG_TAGS, name
        assert not [key for element in root.iter() for key in element.attrib if key.startswith("on") or "href" in key]
        assert not HIDDEN.search("".join(root.itertext()).replace("\n", "")), name
    pictures = [Drawn(name, made.decode()) for name, made in of_kind(kind, ".svg") if name.startswith("pictures/")]
    assert len(pictures) > 5
    for picture in pictures:
        check(picture, 216, 298)


@pytest.mark.parametrize("kind", WORDS)
def test_the_booklet_has_the_same_elements_whatever_the_words(kind: str) -> None:
    quiet, loud = (read_page(files(each)["booklet.html"]) for each in ("", kind))
    assert loud.faults == []
    # Words as long as these take more lines in a drawing, and no other elements.
    drawn = {"path", "g", "text"}
    assert {each.tag for each in loud.elements} == {each.tag for each in quiet.elements}
    assert [each.tag for each in loud.all("script", "style", "svg", "use", "a", "input", "section")] == [
        each.tag for each in quiet.all("script", "style", "svg", "use", "a", "input", "section")
    ]
    assert {key for each in loud.elements for key in each.attributes} == {
        key for each in quiet.elements for key in each.attributes
    }
    assert not HIDDEN.search(files(kind)["booklet.html"].decode().replace("\n", ""))
    assert {each.tag for each in loud.elements if each.within("symbol")} <= drawn


@pytest.mark.parametrize("kind", WORDS)
def test_documents_run_nothing_and_lead_nowhere(kind: str) -> None:
    for name, made in of_kind(kind, ".pdf"):
        for page in pypdf.PdfReader(BytesIO(made), strict=True).pages:
            assert "/Annots" not in page and "/AA" not in page, name
        for word in (b"/JavaScript", b"/JS", b"/Launch", b"/URI", b"/OpenAction", b"/EmbeddedFile"):
            assert word not in made, name
    told = pypdf.PdfReader(BytesIO(files("markup")["booklet.pdf"])).pages[0].extract_text()
    assert "<script>alert(1)</script>" in "".join(told.split())


@pytest.mark.parametrize("kind", WORDS)
def test_machines_and_tables_read_what_they_would_have_read(kind: str) -> None:
    for name, made in of_kind(kind, ".dxf"):
        document = read_dxf(StringIO(made.decode("ascii").replace("\r\n", "\n")))
        assert not document.audit().errors, name
        assert {each.dxf.layer for each in document.modelspace()} <= {"cut", "valley", "mountain", "mark"}
    for name, made in of_kind(kind, ".csv"):
        rows = list(csv.reader(StringIO(made.decode(), newline="")))
        assert len({len(row) for row in rows}) == 1, name
        assert not [cell for row in rows for cell in row if cell.lstrip()[:1] in tuple("=+-@") or HIDDEN.search(cell)], name
    for name, made in of_kind(kind, ".txt"):
        assert not HIDDEN.search(made.decode().replace("\n", "")), name
    for _, made in of_kind(kind, ".json"):
        assert json.loads(made)
    for name, made in files(kind).items():
        if name.endswith(".glb"):
            # glTF 2.0, 4.4: after the header of 12 bytes a chunk of JSON, its length first.
            length = int.from_bytes(made[12:16], "little")
            told = json.dumps(json.loads(made[20 : 20 + length]), ensure_ascii=False)
            assert not HIDDEN.search(told), name
