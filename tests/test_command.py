"""The command line from outside: exit codes, streams, folders, and what a hostile file can do (nothing)."""

import json
import os
import signal
import stat
import subprocess
import sys
from pathlib import Path

import pytest

from pastedown import command
from running import GOOD, HANGS, ROOT, Done, environment, files_in, run

TWO = GOOD + 'variant tall_card of card "A tall card" { height = 8 in }\n'
REFUSED = GOOD.replace('grain: height\n', 'grain: height\n  require low: height <= 5 in because "the box is low"\n')


@pytest.fixture
def here(tmp_path: Path) -> Path:
    """A folder with a sound design, one with a variant, a refused one and one that breaks off."""
    for name, text in {"good": GOOD, "two": TWO, "refused": REFUSED, "broken": GOOD.rstrip("}\n")}.items():
        (tmp_path / f"{name}.album").write_text(text, encoding="utf-8")
    return tmp_path


# Exit codes and streams


def test_a_sound_design_passes(here: Path) -> None:
    done = run("check", "good.album", cwd=here)
    assert (done.code, done.err) == (0, "")
    assert done.out.startswith("card goes together.")


def test_a_refused_design_is_told_on_the_error_stream(here: Path) -> None:
    done = run("check", "refused.album", cwd=here)
    assert done.code == 1
    assert done.out == (
        "card is refused.\nTried, and everything passes then: line 5, height from 6 in to 5 in. See pastedown mend for "
        "the\nsmallest change.\n"
    )
    assert "the box is low" in done.err
    assert "refused.album, line 7" in done.err


def test_a_broken_design_is_told(here: Path) -> None:
    done = run("check", "broken.album", cwd=here)
    assert done.code == 1
    assert "line 3" in done.err


@pytest.mark.parametrize(
    "arguments",
    [[], ["mak"], ["make"], ["check"], ["check", "a", "b"], ["check", "a", "--message", "json"], ["--nonsense"],
     ["check", "good.album", "--messages", "xml"], ["make", "good.album", "--only", "cutlist"],
     ["make", "good.album", "--only", ""], ["make", "good.album", "--design", "crad"],
     ["make", "good.album", "--only", "views", "--pose", "closed"], ["make", "good.album", "--pose", ""],
     ["make", "good.album", "--only", "steps", "--pose", "made_up"], ["explain", "no-such-id"],
     ["why", "good.album"], ["why", "good.album", "hieght"], ["why", "two.album", "height"],
     ["why", "two.album", "height", "--design", "crad"], ["tidy"], ["tidy", "-", "good.album"]],
    ids=" ".join,
)
def test_a_wrong_command_line_has_its_own_code(here: Path, arguments: list[str]) -> None:
    before = files_in(here)
    done = run(*arguments, cwd=here)
    assert done.code == 2
    assert done.err.strip()
    assert done.out == ""
    assert files_in(here) == before


@pytest.mark.parametrize("verb", ["check", "make", "why", "tidy"])
@pytest.mark.parametrize(
    "file", ["nothing.album", ".", "/dev/zero", "good.album/x", "pipe", "latin.album", "large.album"]
)
def test_what_cannot_be_read_has_its_own_code(here: Path, verb: str, file: str) -> None:
    os.mkfifo(here / "pipe")
    (here / "latin.album").write_bytes(b"edition = 1 # caf\xe9")
    (here / "large.album").write_bytes(b"#" * 2_000_001)
    done = run(verb, file, *(["height"] if verb == "why" else []), cwd=here)
    assert done.code == 3
    assert done.out == ""
    assert done.err.count("\n") == 1


def test_a_nearby_name_is_offered(here: Path) -> None:
    assert "cut-list" in run("make", "good.album", "--only", "cut-lst", cwd=here).err
    assert "height" in run("why", "good.album", "hieght", cwd=here).err


def test_json_messages_stand_alone_on_the_output_stream(here: Path) -> None:
    fine = run("check", "good.album", "--messages", "json", cwd=here)
    assert (fine.code, json.loads(fine.out), fine.err) == (0, [], "")
    refused = run("check", "refused.album", "--messages", "json", cwd=here)
    [told] = [one for one in json.loads(refused.out) if one["severity"] == "error"]
    assert (refused.code, told["place"]["line"], refused.err) == (1, 7, "")
    made = run("make", "good.album", "--messages", "json", cwd=here)
    assert (made.code, json.loads(made.out)) == (0, [])


def test_help_names_the_exit_codes_and_the_version_is_known(here: Path) -> None:
    for arguments in (["--help"], ["make", "--help"], ["check", "--help"], ["tidy", "--help"]):
        done = run(*arguments, cwd=here)
        assert done.code == 0
        assert "exit codes:" in done.out
    assert run("--version", cwd=here).out.startswith("pastedown")


def test_why_tells_how_a_measurement_comes_about(here: Path) -> None:
    done = run("why", "two.album", "height", "--design", "tall_card", cwd=here)
    assert done.code == 0
    assert "8 in" in done.out
    assert "line 8" in done.out


def test_every_id_is_listed_and_explained(here: Path) -> None:
    from pastedown.diagnostic.catalogue import CATALOGUE

    listed = run("explain", cwd=here)
    assert [line.split()[0] for line in listed.out.splitlines()] == sorted(CATALOGUE)
    explained = run("explain", min(CATALOGUE), cwd=here)
    assert (explained.code, explained.out.splitlines()[0]) == (0, min(CATALOGUE))


# Folders


def test_make_writes_a_folder_beside_where_it_is_run(here: Path) -> None:
    (here / "desk").mkdir()
    done = run("make", "../good.album", cwd=here / "desk")
    assert done.code == 0
    assert [path.name for path in (here / "desk").iterdir()] == ["card-made"]
    written = files_in(here / "desk" / "card-made")
    assert all(written.values())
    for name in list(written)[:3]:
        assert name == ".pastedown.json" or name.split("/")[0] in done.out or "more" in done.out


def test_several_designs_get_a_folder_each(here: Path) -> None:
    assert run("make", "two.album", "--only", "steps", "--to", "all", cwd=here).code == 0
    assert sorted(path.name for path in (here / "all").iterdir()) == ["card-made", "tall_card-made"]
    assert run("make", "two.album", "--only", "steps", "--design", "tall_card", "--to", "one", cwd=here).code == 0
    assert files_in(here / "one") == files_in(here / "all" / "tall_card-made")


def test_only_what_is_asked_for_is_made(here: Path) -> None:
    assert run("make", "good.album", "--only", "steps,cut-list", "--to", "some", cwd=here).code == 0
    assert run("make", "good.album", "--to", "all", cwd=here).code == 0
    some, everything = files_in(here / "some"), files_in(here / "all")
    del some[".pastedown.json"]
    assert some.items() < everything.items()


@pytest.mark.parametrize("file", ["refused.album", "broken.album"])
def test_a_refused_design_writes_nothing(here: Path, file: str) -> None:
    before = files_in(here)
    done = run("make", file, cwd=here)
    assert (done.code, done.out) == (1, "")
    assert files_in(here) == before


def test_one_refused_design_of_several_holds_all_back(here: Path) -> None:
    (here / "mixed.album").write_text(REFUSED + 'variant low_card of card "Low" { height = 4 in }\n')
    before = files_in(here)
    assert run("make", "mixed.album", cwd=here).code == 1
    assert files_in(here) == before
    checked = run("check", "mixed.album", cwd=here)
    assert checked.code == 1
    assert "card is refused." in checked.out
    assert "low_card goes together." in checked.out
    assert run("make", "mixed.album", "--design", "low_card", "--only", "steps", cwd=here).code == 0


def test_a_maker_s_own_work_is_never_touched(here: Path) -> None:
    assert run("make", "good.album", "--only", "steps", cwd=here).code == 0
    assert run("make", "good.album", "--only", "cut-list", cwd=here).code == 0
    [name, *_] = sorted(name for name in files_in(here / "card-made") if name != ".pastedown.json")
    (here / "card-made" / name).write_bytes(b"my notes")
    before = files_in(here)
    done = run("make", "good.album", cwd=here)
    assert (done.code, done.out) == (3, "")
    assert name in done.err
    assert files_in(here) == before


def test_a_link_is_not_written_through(here: Path) -> None:
    (here / "elsewhere").mkdir()
    (here / "card-made").symlink_to(here / "elsewhere")
    assert run("make", "good.album", cwd=here).code == 3
    assert not any((here / "elsewhere").iterdir())


def test_a_full_disk_under_the_output_stream_is_told(here: Path) -> None:
    with open("/dev/full", "wb") as full:
        done = subprocess.run(
            [sys.executable, "-m", "pastedown", "check", "good.album"], cwd=here, stdout=full, stderr=subprocess.PIPE,
            env=environment(), timeout=HANGS,
        )
    assert done.returncode == 3
    assert b"Traceback" not in done.stderr


def test_a_reader_that_goes_away_changes_nothing(here: Path) -> None:
    reading, writing = os.pipe()
    os.close(reading)
    with os.fdopen(writing, "wb") as gone:
        done = subprocess.run(
            [sys.executable, "-m", "pastedown", "explain"], cwd=here, stdout=gone, stderr=subprocess.PIPE,
            env=environment(), timeout=HANGS,
        )
    assert (done.returncode, done.stderr) == (0, b"")


# Tidying


UNTIDY = GOOD.replace("  height = 6 in", "height=6in # so high\n", 1)


def tidied(folder: Path, text: str = UNTIDY) -> str:
    (folder / "for_comparison.album").write_text(text, encoding="utf-8")
    assert run("tidy", "for_comparison.album", cwd=folder).code == 0
    written = (folder / "for_comparison.album").read_text(encoding="utf-8")
    (folder / "for_comparison.album").unlink()
    return written


def test_tidying_rewrites_a_file_once_and_keeps_its_permissions(here: Path) -> None:
    file = here / "untidy.album"
    file.write_text(UNTIDY, encoding="utf-8")
    file.chmod(0o640)
    others = sorted(path.name for path in here.iterdir())
    done = run("tidy", "untidy.album", cwd=here)
    assert (done.code, done.out, done.err) == (0, "untidy.album is tidy now.\n", "")
    assert "  height = 6 in  # so high\n" in file.read_text(encoding="utf-8")
    assert stat.S_IMODE(file.stat().st_mode) == 0o640
    assert sorted(path.name for path in here.iterdir()) == others
    again = run("tidy", "untidy.album", cwd=here)
    assert (again.code, again.out) == (0, "untidy.album was tidy already.\n")
    assert run("check", "untidy.album", cwd=here).code == 0


def test_a_check_of_the_layout_writes_nothing(here: Path) -> None:
    (here / "untidy.album").write_text(UNTIDY, encoding="utf-8")
    (here / "tidy.album").write_text(tidied(here), encoding="utf-8")
    before = files_in(here)
    done = run("tidy", "--check", "tidy.album", "untidy.album", cwd=here)
    assert (done.code, done.out, done.err) == (1, "untidy.album would change.\n", "")
    assert run("tidy", "--check", "tidy.album", cwd=here) == Done(0, "", "")
    assert files_in(here) == before


def test_a_file_with_an_error_is_left_and_the_others_are_tidied(here: Path) -> None:
    (here / "untidy.album").write_text(UNTIDY, encoding="utf-8")
    before = (here / "broken.album").read_bytes()
    checked = run("check", "broken.album", cwd=here)
    done = run("tidy", "broken.album", "untidy.album", cwd=here)
    assert done.code == checked.code == 1
    assert done.err == checked.err + "broken.album was left as it is.\n"
    assert done.out == "untidy.album is tidy now.\n"
    assert (here / "broken.album").read_bytes() == before
    assert run("tidy", "nothing.album", "broken.album", "untidy.album", cwd=here).code == 3


def test_a_refused_design_is_tidied_all_the_same(here: Path) -> None:
    assert run("tidy", "refused.album", cwd=here).code == 0


def test_a_stream_is_tidied_for_an_editor(here: Path) -> None:
    def through(text: bytes, *options: str) -> subprocess.CompletedProcess[bytes]:
        return subprocess.run(
            [sys.executable, "-m", "pastedown", "tidy", *options, "-"], cwd=here, input=text, capture_output=True,
            env=environment(), timeout=HANGS, check=False,
        )

    before = files_in(here)
    done = through(UNTIDY.encode())
    assert (done.returncode, done.stderr) == (0, b"")
    assert done.stdout.decode() == tidied(here)
    assert (through(done.stdout).stdout, through(done.stdout, "--check").returncode) == (done.stdout, 0)
    broken = through(b"x  = =\r\ny")
    assert (broken.returncode, broken.stdout) == (1, b"x  = =\r\ny")
    assert b"standard input, line 1" in broken.stderr
    checked = through(UNTIDY.encode(), "--check")
    assert (checked.returncode, checked.stdout) == (1, b"standard input would change.\n")
    assert through(b"caf\xe9").returncode == 3
    assert through(b"#" * 2_000_001).returncode == 3
    assert files_in(here) == before


def test_tidying_replaces_what_a_link_leads_to(here: Path) -> None:
    (here / "untidy.album").write_text(UNTIDY, encoding="utf-8")
    (here / "link.album").symlink_to("untidy.album")
    assert run("tidy", "link.album", cwd=here).code == 0
    assert (here / "link.album").is_symlink()
    assert (here / "untidy.album").read_text(encoding="utf-8") == tidied(here)


def test_what_would_be_too_large_when_tidied_is_left(here: Path) -> None:
    deep = "album a {" + "if yes {" * 60 + "x = 1 " * 20_000 + "}" * 61
    (here / "deep.album").write_text(deep, encoding="utf-8")
    done = run("tidy", "deep.album", cwd=here)
    assert done.code == 1
    assert "In the usual layout this file would have" in done.err
    assert (here / "deep.album").read_text(encoding="utf-8") == deep


@pytest.mark.parametrize("trouble", ["full disk", "changed meanwhile", "write-protected", "stopped"])
def test_a_file_that_cannot_be_replaced_is_left_whole(
    here: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], trouble: str
) -> None:
    file = here / "untidy.album"
    file.write_text(UNTIDY, encoding="utf-8")
    before = files_in(here)

    def fail(*_: object) -> None:
        if trouble == "full disk":
            raise OSError(28, "No space left on device")
        if trouble == "stopped":
            raise KeyboardInterrupt
        file.write_text("# mine", encoding="utf-8")

    if trouble == "write-protected":
        monkeypatch.setattr(os, "access", lambda *_: False)
    else:
        monkeypatch.setattr(os, "chmod", fail)
    monkeypatch.chdir(here)
    assert command.main(["tidy", "untidy.album"]) == (130 if trouble == "stopped" else 3)
    assert capsys.readouterr().err.count("\n") == 1
    if trouble == "changed meanwhile":
        before["untidy.album"] = b"# mine"
    assert files_in(here) == before


def test_no_file_is_written_in_a_layout_that_means_something_else(
    here: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    (here / "untidy.album").write_text(UNTIDY, encoding="utf-8")
    before = files_in(here)
    monkeypatch.setattr("pastedown.syntax.tidy.tidy_word", lambda token: token.text.replace("6", "9"))
    monkeypatch.chdir(here)
    assert command.main(["tidy", "untidy.album"]) == 3
    assert capsys.readouterr().err.startswith("pastedown: sorry")
    assert files_in(here) == before


# When pastedown itself fails


@pytest.mark.parametrize("trouble", [OSError(28, "No space left on device"), PermissionError(13, "Permission denied")])
def test_a_disk_that_fails_leaves_nothing_behind(
    here: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], trouble: OSError
) -> None:
    before = files_in(here)

    def fail(path: Path, contents: bytes) -> int:
        raise trouble

    monkeypatch.chdir(here)
    monkeypatch.setattr(Path, "write_bytes", fail)
    assert command.main(["make", "good.album", "--only", "steps"]) == 3
    assert str(trouble.strerror) in capsys.readouterr().err
    assert files_in(here) == before
    assert not list(here.glob(".pastedown*"))


def test_a_missing_library_leaves_out_only_what_needs_it(
    here: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    from pastedown import make_folders
    from pastedown.outputs.every_output import EVERY_OUTPUT, Output
    from pastedown.outputs.missing_library import MissingLibrary
    from pastedown.plan.plan import Plan

    def make(plan: Plan) -> dict[str, bytes]:
        raise MissingLibrary("The drawings need libdraw: apt-get install libdraw.")

    kept = next(output for output in EVERY_OUTPUT if output.name == "cut-list")
    wanting = (Output("drawings", "Drawings.", make), Output("pictures", "Pictures.", make), kept)
    monkeypatch.setattr(make_folders, "EVERY_OUTPUT", wanting)
    monkeypatch.chdir(here)
    assert command.main(["make", "good.album"]) == 0
    told = capsys.readouterr()
    assert told.err == "The drawings need libdraw: apt-get install libdraw.\n"
    assert "cut-list" in told.out
    assert "drawings" not in told.out
    assert files_in(here / "card-made").keys() > {".pastedown.json"}


def test_a_fault_of_ours_is_an_apology(
    here: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def fail(*_: object, **__: object) -> None:
        raise KeyError("odd\x1b[2J\nkey")

    monkeypatch.setattr("pastedown.compile.compile_design", fail)
    monkeypatch.chdir(here)
    monkeypatch.delenv("PASTEDOWN_DEBUG", raising=False)
    assert command.main(["check", "good.album"]) == 3
    told = capsys.readouterr().err
    assert told.startswith("pastedown: sorry")
    assert "KeyError" in told
    assert told.rstrip("\n").isprintable()
    monkeypatch.setenv("PASTEDOWN_DEBUG", "1")
    assert command.main(["check", "good.album"]) == 3
    assert "Traceback" in capsys.readouterr().err


@pytest.mark.parametrize("request_to_stop", [signal.SIGINT, signal.SIGTERM])
def test_a_stop_leaves_nothing_behind(here: Path, request_to_stop: signal.Signals) -> None:
    before = files_in(here)
    script = (
        "import os, sys; from pathlib import Path; from pastedown.command import main\n"
        "def stop(path, contents): os.kill(os.getpid(), int(sys.argv[1]))\n"
        "Path.write_bytes = stop; sys.exit(main(['make', 'good.album', '--only', 'steps']))"
    )
    done = subprocess.run(
        [sys.executable, "-c", script, str(int(request_to_stop))], cwd=here, capture_output=True, timeout=HANGS,
        env=environment(),
    )
    assert (done.returncode, done.stderr) == (130, b"Stopped.\n")
    assert files_in(here) == before
    assert not list(here.glob(".pastedown*"))


def test_a_stop_does_not_wait_for_the_compiler(here: Path) -> None:
    script = (
        "import os, signal, sys, threading; from pastedown import command, compile\n"
        "def hang(*_): os.kill(os.getpid(), signal.SIGINT); threading.Event().wait()\n"
        "compile._compile = hang; sys.exit(command.main(['check', 'good.album']))"
    )
    done = subprocess.run(
        [sys.executable, "-c", script], cwd=here, capture_output=True, timeout=HANGS, env=environment()
    )
    assert (done.returncode, done.stderr) == (130, b"Stopped.\n")


def test_asking_for_help_or_a_check_loads_no_output(here: Path) -> None:
    ask = (
        "import sys; from pastedown.command import main\n"
        "try: main(sys.argv[1:])\nexcept SystemExit: pass\n"
        "print(*[name for name in sys.modules if name.split('.')[0] in ('cairosvg', 'cairocffi', 'lark')"
        " or name.startswith('pastedown.outputs')], file=sys.stderr)"
    )

    def loaded(*arguments: str) -> set[str]:
        done = subprocess.run(
            [sys.executable, "-c", ask, *arguments], cwd=here, capture_output=True, text=True, check=True,
            env=environment(), timeout=HANGS,
        )
        return set(done.stderr.splitlines()[-1].split())

    assert loaded("--help") == set()
    assert {name.split(".")[0] for name in loaded("check", "good.album")} == {"lark"}


# The same everywhere


def test_the_same_design_gives_the_same_bytes_everywhere(here: Path, tmp_path_factory: pytest.TempPathFactory) -> None:
    other = tmp_path_factory.mktemp("another place")
    (other / "good.album").write_text(GOOD, encoding="utf-8")
    plain = run("make", "good.album", cwd=here, LC_ALL="C.UTF-8", TZ="UTC", PYTHONHASHSEED="1")
    strange = run(
        "make", other / "good.album", cwd=other, LC_ALL="C", LANG="C", TZ="Asia/Kathmandu", PYTHONHASHSEED="77",
        PYTHONIOENCODING="ascii", HOME="/nowhere", USER="somebody", SOURCE_DATE_EPOCH="1", COLUMNS="40",
    )
    assert (plain.code, plain.out, plain.err) == (strange.code, strange.out, strange.err)
    assert files_in(here / "card-made") == files_in(other / "card-made")
    held = b"".join(files_in(other / "card-made").values())
    assert os.fsencode(other) not in held
    assert os.fsencode(ROOT) not in held


def test_messages_are_the_same_in_every_locale(here: Path) -> None:
    (here / "odd.album").write_text(REFUSED.replace("the box is low", "“½ in” is low"), encoding="utf-8")
    plain = run("check", "odd.album", cwd=here, LC_ALL="C.UTF-8", PYTHONHASHSEED="1")
    strange = run("check", "odd.album", cwd=here, LC_ALL="C", PYTHONIOENCODING="ascii", PYTHONHASHSEED="5")
    assert plain == strange
    assert "½" in plain.err




# Slips


def test_a_harmless_slip_is_told_and_passes(here: Path) -> None:
    done = run("slip", "good.album", "leaf.height at 5 15/16 in", cwd=here)
    assert (done.code, done.err) == (0, "")
    assert "leaf.height is 5 15/16 in; designed 6 in" in done.out


def test_a_slip_that_spoils_the_design_has_the_code_of_a_refusal_and_json_says_so(here: Path) -> None:
    text = GOOD.replace("grain: height\n", 'grain: height\n  require high: height >= 6 in because "the box is high"\n')
    (here / "high.album").write_text(text, encoding="utf-8")
    done = run("slip", "high.album", "leaf.height at 5 15/16 in", "--messages", "json", cwd=here)
    assert (done.code, done.err) == (1, "")
    assert json.loads(done.out)["holds"] is False


@pytest.mark.parametrize("words", ["leaf.height 5 in", "leaf.heigth at 5 in", "leaf.height at 5"])
def test_words_that_are_no_slip_are_a_wrong_command(here: Path, words: str) -> None:
    done = run("slip", "good.album", words, cwd=here)
    assert done.code == 2 and done.out == "" and words in done.err


def test_a_refused_design_is_not_asked_about_slips(here: Path) -> None:
    done = run("slip", "refused.album", "leaf.height at 5 in", cwd=here)
    assert done.code == 1 and "the box is low" in done.err and done.out == ""


def test_mirrored_templates_have_names_of_their_own(here: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Only what shows pieces as they lie is mirrored; the cut list is not."""
    monkeypatch.chdir(here)
    asked = ["make", "good.album", "--only", "cut-list,templates-svg,templates-dxf"]
    assert command.main([*asked, "--to", "plain"]) == 0
    assert command.main([*asked, "--mirrored", "--to", "mirrored"]) == 0
    plain, mirrored = files_in(here / "plain"), files_in(here / "mirrored")
    assert plain["cut-list.json"] == mirrored["cut-list.json"]
    names = {name for name in mirrored if name.startswith("templates/")}
    assert names
    assert all("-mirrored" in name for name in names)


def test_mirrored_without_templates_is_refused_as_a_pose_without_views_is(here: Path) -> None:
    done = run("make", "good.album", "--only", "cut-list,views", "--mirrored", "--to", "out", cwd=here)
    assert done.code == 2 and "--mirrored" in done.err and "templates-svg, templates-pdf, templates-dxf" in done.err
    assert not (here / "out").exists()


def test_what_is_shown_in_a_pose_is_shown_in_that_alone(here: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(here)
    asked = ["make", "good.album", "--only", "views,model,json"]
    assert command.main([*asked, "--to", "plain"]) == 0
    assert command.main([*asked, "--pose", "flat", "--pose", "Made up", "--to", "posed"]) == 0
    plain, posed = files_in(here / "plain"), files_in(here / "posed")
    shown = {name for name in posed if name.startswith(("views/", "model/"))}
    assert shown == {"views/flat.svg", "views/made-up.svg", "model/flat.glb", "model/made-up.glb"}
    assert plain["album.json"] == posed["album.json"], "nothing else hangs on the pose"


def test_a_pose_that_is_not_there_is_told_with_those_there_are(here: Path) -> None:
    done = run("make", "good.album", "--only", "views", "--pose", "clsoed", cwd=here)
    assert done.code == 2 and done.out == ""
    assert "has no pose clsoed" in done.err and "made_up" in done.err
    done = run("make", "good.album", "--only", "cut-list", "--pose", "made_up", cwd=here)
    assert done.code == 2 and "views and model" in done.err
