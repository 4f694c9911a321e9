"""The command line: reads arguments, calls the compiler, tells the result, chooses the exit code.

What a command needs is imported when it runs, so that asking for help or checking a design loads no output and no
drawing library.
"""

from __future__ import annotations

import argparse
import os
import re
import textwrap
from collections.abc import Callable, Iterable, Sequence
from typing import TYPE_CHECKING, NoReturn

from pastedown.terminal import (
    ProgressLine,
    apology,
    complain,
    outside_failure,
    prepare_process,
    say,
    say_exactly,
    wants_colour,
)

if TYPE_CHECKING:
    from pastedown.compile import Compiled, MadeDesign
    from pastedown.design_files import NearbyFiles
    from pastedown.diagnostic import Diagnostic
    from pastedown.tidy_files import TidyFile

FINE, REFUSED, WRONG_COMMAND, OUTSIDE, STOPPED = 0, 1, 2, 3, 130

# Of so many kinds of requirements the output margins names the number that helps most.
_HELPED = 5
# Where nothing is said. Stated again so that no planner is loaded to show help; a test compares them.
_USUAL_WORK = 2_600
_MOST_WORK = 600_000  # of planning: about ten minutes for each stock

_CODES = """\
exit codes:
  0    the design goes together, or what was asked for was shown or done
  1    the design was refused, and nothing was written; a slip spoils it; "tidy --check" would
       change a file
  2    the command line is wrong
  3    something outside the design failed: a file is missing or cannot be read, the folder
       is not ours to write to, the disk is full
  130  stopped by the keyboard
"""


class WrongCommand(Exception):
    """The command line asks for something that is not there. The text is a sentence for the maker."""


def main(arguments: Sequence[str] | None = None) -> int:
    """Runs one command and gives its exit code. Raises nothing but SystemExit, when the command line cannot be read."""
    prepare_process()
    options = _parser().parse_args(arguments)
    command: Callable[[argparse.Namespace], int] = options.command
    try:
        return command(options)
    except KeyboardInterrupt:
        complain("Stopped.")
        return STOPPED
    except Exception as fault:
        return _tell_failure(fault)


def _tell_failure(fault: Exception) -> int:
    from pastedown.design_files import FileRefused
    from pastedown.output_folder import FolderRefused

    if isinstance(fault, WrongCommand):
        complain(f"pastedown: {fault}")
        return WRONG_COMMAND
    if isinstance(fault, FileRefused | FolderRefused):
        complain(f"pastedown: {fault}")
    elif isinstance(fault, OSError):
        complain(outside_failure(fault))
    else:
        complain(apology(fault))
    return OUTSIDE


def _parser() -> argparse.ArgumentParser:
    plain = argparse.RawDescriptionHelpFormatter
    parser = argparse.ArgumentParser(
        prog="pastedown", description="Checks designs of handmade albums and plans their making.",
        epilog=_CODES, formatter_class=plain, allow_abbrev=False,
    )
    parser.add_argument("--version", action=_ShowVersion, nargs=0, help="show the version and stop")
    commands = parser.add_subparsers(title="commands", metavar="COMMAND", required=True)

    def command(name: str, run: Callable[[argparse.Namespace], int], sentence: str) -> argparse.ArgumentParser:
        added = commands.add_parser(
            name, help=sentence, description=f"{sentence[0].upper()}{sentence[1:]}.",
            epilog=_CODES, formatter_class=plain, allow_abbrev=False,
        )
        added.set_defaults(command=run)
        return added

    make = command("make", _make, "check a design and write everything needed to build it")
    _add_file(make, messages=True)
    make.add_argument("--to", metavar="FOLDER", help="the folder to write; for several designs the one around theirs")
    make.add_argument("--design", metavar="NAME", help="only this design of the file")
    make.add_argument("--only", metavar="OUTPUT[,OUTPUT]", help='only these outputs; "pastedown outputs" lists them')
    make.add_argument("--mirrored", action="store_true", help="templates as seen from the back, for working face down")
    make.add_argument(
        "--pose", metavar="POSE", action="append", default=[],
        help='views and model in this pose alone, such as "closed", "case.closed" or "open at 2"; may be given '
        "several times",
    )
    kits = command("kits", _kits, "write what so many kits of a design need: what to buy, to cut and to pack")
    _add_file(kits, messages=True)
    kits.add_argument("--copies", metavar="NUMBER", required=True, help="how many kits")
    kits.add_argument("--to", metavar="FOLDER", help="the folder to write; for several designs the one around theirs")
    kits.add_argument("--design", metavar="NAME", help="only this design of the file")
    kits.add_argument(
        "--work", metavar="NUMBER",
        help=f"how hard to look for few sheets: a thousand take about a second for each stock; {_USUAL_WORK} where "
        "nothing is said",
    )
    kits.add_argument(
        "--libraries", action="store_true",
        help="use numpy and highspy, if they are there: fewer sheets as a rule, but not the same plan on every machine",
    )
    check = command("check", _check, "say whether the designs of a file go together")
    _add_file(check, messages=True)
    why = command("why", _why, "show how a measurement comes about, down to the lines it stems from")
    _add_file(why, messages=False)
    why.add_argument("measurement", metavar="MEASUREMENT", help='its path in the design, such as "strip.width"')
    why.add_argument("--design", metavar="NAME", help="which design of the file")
    tidy = command("tidy", _tidy, "lay files out in the usual way, with no change to what they mean")
    tidy.add_argument(
        "files", metavar="FILE", nargs="+",
        help='a file to rewrite, unless it cannot be read without an error; "-" alone: read the input stream and '
        "write the output stream",
    )
    tidy.add_argument("--check", action="store_true", help="write nothing; name the files that would change")
    slip = command("slip", _slip, "say what something cut, scored or printed otherwise does to a design")
    _add_file(slip, messages=True)
    slip.add_argument(
        "done", metavar="DONE", nargs="+",
        help='what was really done: "strip.crest[2] at 4 1/2 in", "score 5 of strip at 4 1/2 in", "strip by 1/16 in", '
        '"strip.height at 6 5/8 in", "printed at 97 %%", "leaf printed at 97 %%"',
    )
    slip.add_argument("--design", metavar="NAME", help="which design of the file")
    slip.add_argument("--all", action="store_true", help="tell everything that changes, however much it is")
    mend = command("mend", _mend, "find the smallest change of numbers that makes a refused design go together")
    _add_file(mend, messages=True)
    mend.add_argument("--design", metavar="NAME", help="which design of the file")
    mend.add_argument("--into", metavar="NEW", help="write the file with that change under this name; none is replaced")
    explain = command("explain", _explain, "explain a message by its id, or list all ids")
    explain.add_argument("id", metavar="ID", nargs="?", help="the id as it stands in brackets after a message")
    command("outputs", _list_outputs, "list what can be made")
    return parser


def _add_file(parser: argparse.ArgumentParser, *, messages: bool) -> None:
    parser.add_argument("file", metavar="FILE", help="the design, a file that ends in .album")
    if messages:
        parser.add_argument(
            "--messages", choices=("text", "json"), default="text",
            help="how faults are told: as text on the error stream, or as JSON on the output stream",
        )


class _ShowVersion(argparse.Action):
    """Looks the version up only when it is asked for: that takes longer than reading the whole command line."""

    def __call__(self, parser: argparse.ArgumentParser, *_: object) -> NoReturn:
        from importlib.metadata import PackageNotFoundError, version

        try:
            say(f"pastedown {version('pastedown')}")
        except PackageNotFoundError:
            say("pastedown, run from a checkout that was not installed")
        parser.exit(FINE)


def _make(options: argparse.Namespace) -> int:
    from pastedown.make_folders import PoseRefused, choose_outputs, make_folders
    from pastedown.outputs.every_output import EVERY_OUTPUT

    outputs = choose_outputs(options.only)
    if isinstance(outputs, str):
        names = [output.name for output in EVERY_OUTPUT]
        raise WrongCommand(_unknown("output called", outputs, names, f"There are: {', '.join(names)}."))
    if options.pose and not any(output.may_pose for output in outputs):
        posing = " and ".join(output.name for output in EVERY_OUTPUT if output.may_pose)
        raise WrongCommand(f"--pose says how {posing} are to show it, and --only leaves them out.")
    ranked = any(output.name == "margins" for output in outputs)
    compiled, reader = _compile(options.file, options.design, ways_tried=True, helped=_HELPED if ranked else 1)
    _tell(compiled.diagnostics, reader, options.messages)
    if compiled.refused:
        _tell_found(compiled)
        complain("Nothing was written.")
        return _code(compiled)
    with ProgressLine() as line:
        try:
            folders = make_folders(
                compiled.designs, outputs, options.to, mirrored=options.mirrored, poses=options.pose, tell=line.show
            )
        except PoseRefused as refused:
            raise WrongCommand(str(refused)) from None
    for made in folders:
        for sentence in made.wanting:
            complain(sentence)
        if options.messages == "text":
            say(made.words)
    return FINE


def _kits(options: argparse.Namespace) -> int:
    from pastedown.make_folders import make_kits
    from pastedown.plan.kits import MOST_KITS

    copies = _whole_number(options.copies, "--copies")
    if not 1 <= copies <= MOST_KITS:
        raise WrongCommand(f"There can be 1 to {MOST_KITS} kits, and --copies says {options.copies}.")
    work = None if options.work is None else _whole_number(options.work, "--work")
    if work is not None and not 0 <= work <= _MOST_WORK:
        raise WrongCommand(f"The work may be 0 to {_MOST_WORK}, and --work says {options.work}.")
    compiled, reader = _compile(options.file, options.design, ways_tried=True)
    _tell(compiled.diagnostics, reader, options.messages)
    if compiled.refused:
        _tell_found(compiled)
        complain("Nothing was written.")
        return _code(compiled)
    if options.messages == "text":
        complain("Planning the sheets; this may take some seconds for each stock.")
    with ProgressLine() as line:
        folders = make_kits(
            compiled.designs, copies, options.to, work=work, libraries=options.libraries, tell=line.show
        )
    for made in folders:
        if options.messages == "text":
            say(made.words)
    return FINE


def _whole_number(text: str, option: str) -> int:
    """Raises WrongCommand where the text is none; a number of very many digits is too many of anything."""
    if re.fullmatch(r"[+-]?[0-9]{1,18}", text.strip(), re.ASCII):
        return int(text)
    from pastedown.diagnostic.visible_text import shortened

    shown = shortened(text, 32) or "nothing"
    raise WrongCommand(f"Behind {option} a whole number is wanted, as in {option} 40, and {shown} is none.")


def _check(options: argparse.Namespace) -> int:
    compiled, reader = _compile(options.file, None, planned=False, ways_tried=True)
    _tell(compiled.diagnostics, reader, options.messages)
    if options.messages == "text":
        for design in compiled.designs:
            say(_verdict(design))
        if not compiled.designs and not compiled.refused:
            say("This file holds no album. Its components were checked by their words; only a part shows its lengths.")
    return _code(compiled)


def _why(options: argparse.Namespace) -> int:
    from pastedown.compile import why

    compiled, reader = _compile(options.file, options.design, planned=False)
    if len(compiled.designs) > 1:
        names = ", ".join(design.name for design in compiled.designs)
        raise WrongCommand(f"This file holds several designs: {names}. Say which with --design.")
    if not compiled.designs:
        _tell(compiled.diagnostics, reader, "text")
        return _code(compiled)
    answer, diagnostics = why(compiled.designs[0], options.measurement)
    _tell((*compiled.diagnostics, *diagnostics), reader, "text")
    if answer is not None:
        say(answer)
    return _code(compiled) or (FINE if answer is not None else WRONG_COMMAND)


def _tidy(options: argparse.Namespace) -> int:
    """Every file is looked at, whatever is the matter with another; the gravest exit code is given."""
    from pastedown.tidy_files import STANDARD_INPUT, tidy_file, tidy_standard_input

    if STANDARD_INPUT in options.files:
        if len(options.files) > 1:
            raise WrongCommand('"-" stands alone: the output stream holds one file.')
        return _tidy_one(tidy_standard_input(), options.check, say_exactly)
    from pastedown.design_files import FileRefused

    codes = []
    for file in options.files:
        try:
            codes.append(_tidy_one(tidy_file(file), options.check, None))
        except (FileRefused, OSError) as fault:
            codes.append(_tell_failure(fault))
    return max(codes)


def _tidy_one(tidied: TidyFile, only_check: bool, write: Callable[[str], None] | None) -> int:
    """Tidies one file in its place, or writes it with `write`, also where it stays as it is."""
    from pastedown.diagnostic.visible_text import visible

    named = visible(tidied.shown)
    if tidied.errors:
        from pastedown.diagnostic.draw import draw

        complain(draw(tidied.errors, colour=wants_colour()))
        complain(f"{named} was left as it is.")
    elif only_check and tidied.changes:
        say(f"{named} would change.")
    if only_check:
        return REFUSED if tidied.errors or tidied.changes else FINE
    if write is not None:
        write(tidied.after)
    elif tidied.changes:
        tidied.put_in_place()
        say(f"{named} is tidy now.")
    elif not tidied.errors:
        say(f"{named} was tidy already.")
    return REFUSED if tidied.errors else FINE


def _slip(options: argparse.Namespace) -> int:
    from pastedown.compile import slips

    compiled, reader = _compile(options.file, options.design, planned=False)
    if len(compiled.designs) > 1:
        names = ", ".join(design.name for design in compiled.designs)
        raise WrongCommand(f"This file holds several designs: {names}. Say which with --design.")
    if not compiled.designs or not compiled.designs[0].sound:
        _tell(compiled.diagnostics, reader, options.messages)
        complain("Only a design that goes together can be asked what a slip does to it.")
        return _code(compiled) or REFUSED
    with ProgressLine() as line:
        report, faults = slips(compiled.designs[0], options.done, line.show)
    if report is None:
        _tell(faults, reader, options.messages)
        return WRONG_COMMAND
    from pastedown.slip.to_json import slip_json
    from pastedown.slip.to_text import slip_text

    say(slip_json(report).rstrip("\n") if options.messages == "json" else slip_text(report, everything=options.all))
    return FINE if report.holds else REFUSED


def _mend(options: argparse.Namespace) -> int:
    from pastedown.compile import mend
    from pastedown.design_files import read_design

    text, reader = read_design(options.file)
    report, told = mend(os.path.basename(options.file), text, reader, options.design)
    if report is None:
        _tell(told, reader, options.messages)
        if any(each.id == "no-such-design" for each in told):
            return WRONG_COMMAND
        if options.design is None and not any(each.severity.value == "error" for each in told):
            raise WrongCommand("This file holds no single design. Say which with --design.")
        complain("Only a design whose words are right can be mended by its numbers.")
        return REFUSED
    from pastedown.mend.to_json import mend_json
    from pastedown.mend.to_text import mend_text

    if options.into is not None and report.edits:
        from pastedown.new_file import write_new_file

        write_new_file(options.into, report.text)
    say(mend_json(report).rstrip("\n") if options.messages == "json" else mend_text(report))
    if options.into is not None and options.messages == "text":
        say(f"\nThe file with that change is {_shown(options.into)}." if report.edits else "\nNothing was written.")
    return FINE if report.edits or not report.faults else REFUSED


def _shown(name: str) -> str:
    from pastedown.diagnostic.visible_text import visible

    return visible(name)


def _explain(options: argparse.Namespace) -> int:
    from pastedown.diagnostic.catalogue import CATALOGUE, explain

    if options.id is None:
        widest = max(len(id) for id in CATALOGUE)
        say("\n".join(f"{id:{widest}}  {CATALOGUE[id].title}" for id in sorted(CATALOGUE)))
        return FINE
    text = explain(options.id)
    if text is None:
        advice = '"pastedown explain" lists them all.'
        raise WrongCommand(_unknown("message with the id", options.id, CATALOGUE, advice))
    say(text)
    return FINE


def _list_outputs(options: argparse.Namespace) -> int:
    from pastedown.outputs.every_output import EVERY_OUTPUT

    widest = max(len(output.name) for output in EVERY_OUTPUT)
    say("\n".join(f"{output.name:{widest}}  {output.sentence}" for output in EVERY_OUTPUT))
    return FINE


def _compile(
    file: str, design: str | None, *, planned: bool = True, ways_tried: bool = False, helped: int = 1
) -> tuple[Compiled, NearbyFiles]:
    from pastedown.design_files import read_design

    text, reader = read_design(file)
    from pastedown.compile import compile_design  # slow to import, and in vain when there is no file

    compiled = compile_design(
        os.path.basename(file), text, reader, design=design, planned=planned, ways_tried=ways_tried,
        helped=helped,
    )  # fmt: skip
    return compiled, reader


def _unknown(what: str, name: str, known: Iterable[str], advice: str) -> str:
    """That there is no such name; then the nearest one there is, or else `advice`."""
    from pastedown.diagnostic.nearest_name import did_you_mean
    from pastedown.diagnostic.visible_text import visible

    return f"There is no {what} {visible(name)}. {did_you_mean(name, known) or advice}"


def _code(compiled: Compiled) -> int:
    """The exit code for what was compiled. A design that is not there is a slip of the command line."""
    if any(diagnostic.id == "no-such-design" for diagnostic in compiled.diagnostics):
        return WRONG_COMMAND
    return REFUSED if compiled.refused else FINE


def _verdict(design: MadeDesign) -> str:
    if not design.sound or design.model is None:
        return "\n".join([f"{design.name} is refused.", *_found(design)])
    from pastedown.fit.margins import least_safe

    return f"{design.name} goes together. Pieces: {len(design.model.pieces)}. {least_safe(design.model)}".rstrip()


def _tell_found(compiled: Compiled) -> None:
    for design in compiled.designs:
        for line in _found(design):
            complain(line)


def _found(design: MadeDesign) -> list[str]:
    """What was tried and makes a refused design go together, in one line."""
    if not design.edits:
        return []
    edits = "; ".join(
        f"line {each.line}, {each.called} from {each.said_before} to {each.said_after}" for each in design.edits
    )
    lowered = " (that lowers a limit)" if any(each.lowers_limit for each in design.edits) else ""
    bought = " (that takes something else to buy)" if any(each.is_bought for each in design.edits) else ""
    told = f"Tried, and everything passes then: {edits}{lowered}{bought}. See pastedown mend for the smallest change."
    return textwrap.wrap(told, 100)


def _tell(diagnostics: Sequence[Diagnostic], reader: NearbyFiles, messages: str) -> None:
    if messages == "json":
        from pastedown.diagnostic.to_json import diagnostics_to_json

        say(diagnostics_to_json(diagnostics).rstrip("\n"))
    elif diagnostics:
        from pastedown.diagnostic.draw import draw

        complain(draw(diagnostics, colour=wants_colour()))
    for sentence in reader.troubles.values():
        complain(sentence)
