"""Files from strangers and from chat windows: what is refused, and that it can do nothing; what has to be accepted."""

import os
from pathlib import Path

import pytest

from benchmarks.designs import design_of
from pastedown.compile import compile_design
from pastedown.diagnostic import Severity
from pastedown.geometry import work
from pastedown.geometry.work import MOST_WORK
from running import GOOD, KRAFT, files_in, run, run_measured

MOST_MEGABYTES = 200


def album(body: str, head: str = "") -> str:
    return (
        f'edition = 1\n{head}{KRAFT}\nalbum card "One card" {{\n  ruler = inches to 1/16\n{body}\n}}\n'
    )


LEAF = "  piece leaf from kraft, height: 6 in, width: 4 in, grain: height"
HOSTILE = {
    "a thousand million parts": album(
        '  part leaf[k from 1 to 1000000000] = leaf(paper: kraft)',
        'component leaf "" {\n  takes paper: stock\n  piece sheet from paper, height: 1 in, width: 1 in\n}\n',
    ),
    "a negative size": album("  gusset = -1/2 in\n  piece leaf from kraft, height: gusset, width: 4 in"),
    "a fraction over nought": album("  piece leaf from kraft, height: 8 1/2 in, width: 3/0 in"),
    "a division by nought": album("  nought = 0\n  piece leaf from kraft, height: 8 in / nought, width: 3 in"),
    "two sizes that wait for one another": album(
        "  page_height = board_height - 1 in\n  board_height = page_height + 1 in\n"
        "  piece leaf from kraft, height: page_height, width: 4 in"
    ),
    "a size without a unit": album("  piece leaf from kraft, height: 7 1/2, width: 4 in"),
    "a misspelt name": album("  gusset = 1/2 in\n  piece leaf from kraft, height: guset, width: 4 in"),
    "a name twice": album(f"{LEAF}\n{LEAF}"),
    "half a part": album(
        '  part leaf[k from 1 to 2.5] = leaf(paper: kraft)',
        'component leaf "" {\n  takes paper: stock\n  piece sheet from paper, height: 1 in, width: 1 in\n}\n',
    ),
    "a file above the folder": album(LEAF, 'use secret from "../secret.album"\n'),
    "a file from the top of the disk": album(LEAF, 'use secret from "/etc/hostname"\n'),
    "a pipe as file": album(LEAF, 'use secret from "pipe.album"\n'),
    "a ring of files": album(LEAF, 'use kraft_2 from "evil.album"\n'),
    "twenty thousand brackets": album(f"  deep = {'(' * 20_000}1 in{')' * 20_000}\n{LEAF}"),
    "twenty thousand brackets open": album(f"  deep = {'(' * 20_000}1 in\n{LEAF}"),
    "twenty thousand braces": album("each k from 1 to 2 { " * 20_000),
    "a long sum": album(f"  far = {'1 in + ' * 100_000}height\n{LEAF}"),
    "a long word": album(f"  {'a' * 1_900_000} = 1 in\n{LEAF} x"),
    "a long number": album(f"  far = {'9' * 1_000_000} in\n  piece leaf from kraft, height: far, width: 4 in"),
    "a large power by products": album(
        "  a0 = 9999999999\n" + "".join(f"  a{n + 1} = a{n} * a{n}\n" for n in range(60))
        + "  piece leaf from kraft, height: 1 in * a60, width: 4 in"
    ),
    "a text that doubles": album(
        '  t0 = "xxxxxxxxxx"\n' + "".join(f'  t{n + 1} = "{{t{n}}}{{t{n}}}"\n' for n in range(40))
        + f"  title = t40\n{LEAF}, face: t40\n  x = guset"
    ),
    "loops within loops": album(
        "".join(f"  each k{n} from 1 to 1000 {{ " for n in range(8)) + "x = 1 in" + " }" * 8 + f"\n{LEAF}"
    ),
    "a chain of components": album(
        "  part a = c200()", "".join(
            f'component c{n} "" {{ part a = c{n - 1}()  part b = c{n - 1}() }}\n' for n in range(1, 201)
        ) + 'component c0 "" { x = 1 in }\n',
    ),
    "a component in itself": album("  part a = own()", 'component own "" { part a = own() }\n'),
    "a control character": album(f"  x = \x1b[2J\n{LEAF}"),
    "nought bytes": album(f"  x = \0\0\n{LEAF}"),
    "a text left open": album(f'  title = "never closed\n{LEAF}'),
    "no design": "edition = 1\n)))",
}

@pytest.mark.parametrize("text", HOSTILE.values(), ids=HOSTILE.keys())
def test_a_hostile_file_is_refused_with_a_place_and_writes_nothing(tmp_path: Path, text: str) -> None:
    (tmp_path / "walk").mkdir()
    (tmp_path / "secret.album").write_text("edition = 1\nsecret = 1 in\n")
    (tmp_path / "walk" / "evil.album").write_text(text, encoding="utf-8")
    os.mkfifo(tmp_path / "walk" / "pipe.album")
    done, megabytes = run_measured("make", "evil.album", cwd=tmp_path / "walk")
    assert done.code == 1, done.err[-2000:]
    assert done.out == ""
    assert "evil.album, line " in done.err
    assert "Try: " in done.err
    assert all(letter.isprintable() or letter == "\n" for letter in done.err)
    assert sorted(path.name for path in (tmp_path / "walk").iterdir()) == ["evil.album", "pipe.album"]
    assert megabytes < MOST_MEGABYTES


LEAF_OF_BOOK = "component leaf { takes width: length = 1 in  takes other: length = 1 in }\n"
FOLDED = (
    "  piece strip from kraft, height: 1 in, loose: yes {\n    run left to right {\n"
    "      each k from 1 to 2400 { panel flat[k]: 1 pt  fold bend[k]: valley }\n      panel rest: 1 in\n    }\n  }\n"
)


def numbered(line: str, count: int) -> str:
    """So many lines, with `#` standing for the number of each."""
    return "\n".join(line.replace("#", str(number)) for number in range(count))


PROSE = 'u# = "{words}#"'
# Short recipes that ask for very much.
OVERWORKED = {
    "a sum of the family in each of it": album(
        "  part page[k from 1 to 2000] = leaf(other: sum(page.width))", LEAF_OF_BOOK
    ),
    "a sum of a family in each fact": album(
        "  part page[k from 1 to 2000] = leaf()\n" + numbered("x# = sum(page.width)", 2000), LEAF_OF_BOOK
    ),
    "a wide family again and again in one sum": album(
        f"  part page[k from 1 to 4000] = leaf()\n  x = sum({', '.join(['page.width'] * 400)})", LEAF_OF_BOOK
    ),
    "ranges of a wide family": album(
        "  part page[k from 1 to 4000] = leaf()\n" + numbered("x# = sum(page[1 to 4000].width)", 1000), LEAF_OF_BOOK
    ),
    "requirements that read a wide family": album(
        "  part page[k from 1 to 2000] = leaf()\n"
        '  each k from 1 to 2000 { require r: max(page.width) < 2 in because "{max(page.width)}" }', LEAF_OF_BOOK
    ),
    "long lists in one sum": album(
        f"  ones = [{', '.join(['1 in'] * 400)}]\n" + numbered(f"x# = sum({', '.join(['ones'] * 400)})", 100)
    ),
    "many facts in many parts": album(
        "  part page[k from 1 to 4900] = wide()", f"component wide {{ {numbered('x# = # in', 2000)} }}\n"
    ),
    "many general settings of many parts": album(
        "  part page[k from 1 to 2000] = wide()\n" + numbered("page.x# = 2 in", 1000),
        f"component wide {{ {numbered('x# = # in', 1000)} }}\n",
    ),
    "many layers around many parts": album(
        "  part page[k from 1 to 2000] = start\n  start = leaf" + " with { width = 3 in }" * 60, LEAF_OF_BOOK
    ),
    "many variants of many parts": album("  part page[k from 1 to 300] = leaf()", LEAF_OF_BOOK)
    + numbered("variant v# of card { page.width = 2 in }", 2000),
    "many variants of many pieces": album(
        "  piece slip[k from 1 to 100] from kraft, height: 1 in, width: 1 in, loose: yes"
    ) + numbered("variant v# of card { slip.width = 2 in }", 500),
    "many cuts in many pieces": album(
        "  piece slip[k from 1 to 2000] from kraft, height: 9 in, width: 9 in, loose: yes {\n"
        + numbered("w# = window(height: 1 pt, width: 1 pt, from_left: 1 in, from_tail: 1 in)", 1000) + " }"
    ),
    "long texts in many parts": album(
        f'  long = "{"x" * 19_000}"\n  part page[k from 1 to 4000] = prose(words: long)',
        f"component prose {{ takes words: text  {numbered(PROSE, 20)} }}\n",
    ),
    "spans of a strip with many folds": album(
        FOLDED + "  pose up { strip.bend = square }\n"
        + numbered("x# = span(strip.left, to: strip.right, along: width, pose: up)", 2000)
    ),
    "poses of a strip with many folds": album(FOLDED + "  pose up[k from 1 to 2400] { strip.bend = shut }"),
    "places of many sides": album(
        "  piece slip[k from 1 to 700] from kraft, height: 1 in, width: 1 in\n"
        f"  place all: {', '.join(['slip.face'] * 50)}\n  close c[k from 1 to 300]: all to all"
    ),
    "steps that all wait for one another": album(
        '  step first[k from 1 to 2000]: "Cut."\n  step then[k from 1 to 2000]: "Fold.", after: first'
    ),
}


@pytest.mark.parametrize("text", OVERWORKED.values(), ids=OVERWORKED.keys())
def test_a_short_recipe_that_asks_for_very_much_ends_at_the_limit_on_work(
    monkeypatch: pytest.MonkeyPatch, text: str
) -> None:
    """At a tenth of the limit, so that the tests are quick: whatever passes the limit passes a tenth of it."""
    monkeypatch.setattr(work, "MOST_WORK", MOST_WORK // 10)
    compiled = compile_design("evil.album", text, lambda _: None)
    told = [each for each in compiled.diagnostics if each.severity is Severity.ERROR]
    assert [each.id for each in told] == ["too-much-work"]
    # What was begun when the limit was passed is not finished, and no further design is begun.
    assert compiled.designs[-1].worked_out.spent == MOST_WORK // 10 + 1


def book(pages: int) -> str:
    return album(
        f"  part page[k from 1 to {pages}] = leaf(width: 2 in)\n"
        f"  piece slip[k from 1 to {pages}] from kraft, height: page[k].width, width: page[{pages + 1} - k].other\n"
        f"  each k from 2 to {pages} {{ join on[k]: slip[k].back to slip[1].face, by: sticky {{\n"
        "    align slip[k].head to slip[1].head  align slip[k].left to slip[1].left } }\n"
        "  sticky = stock(kind: glue)",
        LEAF_OF_BOOK,
    )


def test_work_grows_with_the_book_in_a_straight_line() -> None:
    spent = []
    for pages in (100, 200, 400):
        compiled = compile_design("long.album", book(pages), lambda _: None, planned=False)
        assert not compiled.refused, compiled.diagnostics
        spent.append(compiled.designs[0].worked_out.spent)
    assert spent[2] - spent[1] == 2 * (spent[1] - spent[0])
    assert spent[2] < MOST_WORK / 2


@pytest.mark.parametrize("name", ["gusset", "board_height"])
def test_what_was_meant_is_offered(tmp_path: Path, name: str) -> None:
    text = HOSTILE["a misspelt name" if name == "gusset" else "two sizes that wait for one another"]
    (tmp_path / "evil.album").write_text(text)
    assert name in run("check", "evil.album", cwd=tmp_path).err


MARKUP = '=1+1 <script>alert("x")</script> & \u202eback\u202c'


def test_markup_in_a_title_stays_text(tmp_path: Path) -> None:
    title = MARKUP.replace('"', "'")
    (tmp_path / "evil.album").write_text(GOOD.replace("One card", title), encoding="utf-8")
    done = run("make", "evil.album", "--to", "made", cwd=tmp_path)
    assert "\u202e" not in done.err
    if done.code == 0:
        written = {name: held for name, held in files_in(tmp_path / "made").items() if not name.endswith(".pdf")}
        assert written
        for name, held in written.items():
            assert "\u202e".encode() not in held, name
            if name.endswith((".svg", ".html")):
                assert b"<script" not in held, name
            if name.endswith(".csv"):
                assert not any(cell.strip('"').startswith("=") for line in held.decode().splitlines()
                               for cell in line.split(",")), name
    else:
        assert done.code == 1
        assert "line 3" in done.err


SAME_HEIGHT = ["8 1/2 in", '8-1/2"', "8½ in", "8.5in", "215.9 mm", "21.59 cm", '8 1/2"', "8 1/2 in # a comment"]


@pytest.mark.parametrize("height", SAME_HEIGHT)
def test_the_same_measure_in_other_words_is_the_same_album(tmp_path: Path, height: str) -> None:
    plain = GOOD.replace("height = 6 in", "height = 8 1/2 in")
    (tmp_path / "plain.album").write_text(plain, encoding="utf-8")
    (tmp_path / "other.album").write_text(plain.replace("8 1/2 in", f"{height}\n"), encoding="utf-8")
    for name in ("plain", "other"):
        done = run("make", f"{name}.album", "--only", "cut-list,json", "--to", name, cwd=tmp_path)
        assert done.code == 0, done.err
    assert files_in(tmp_path / "plain") == files_in(tmp_path / "other")


def test_line_ends_marks_and_quotes_make_no_difference(tmp_path: Path) -> None:
    quoted = GOOD.replace('"One card"', "“One card”").replace('"finished"', "“finished”")
    [first, second, *rest] = GOOD.splitlines()
    others = {
        "crlf": GOOD.replace("\n", "\r\n"), "bom": "\ufeff" + GOOD, "quotes": quoted,
        "order": "\n".join([*rest, second, first]), "flat": "\n".join(line.strip() for line in GOOD.splitlines()),
    }
    (tmp_path / "good.album").write_text(GOOD, encoding="utf-8")
    assert run("make", "good.album", "--only", "json", "--to", "plain", cwd=tmp_path).code == 0
    for name, text in others.items():
        (tmp_path / f"{name}.album").write_bytes(text.encode())
        assert run("make", f"{name}.album", "--only", "json", "--to", name, cwd=tmp_path).code == 0
        assert files_in(tmp_path / name) == files_in(tmp_path / "plain"), name


@pytest.mark.parametrize("lines", [200, 2_000])
def test_the_designs_of_the_benchmarks_are_sound(tmp_path: Path, lines: int) -> None:
    text = design_of(lines)
    (tmp_path / "long.album").write_text(text)
    assert text.count("\n") == pytest.approx(lines, abs=20)
    done = run("check", "long.album", cwd=tmp_path)
    assert done.code == 0, done.err[:2000]
