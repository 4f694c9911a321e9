"""The commands: each calls the compiler, tells the result and chooses the exit code.

What a command needs is imported when it runs, so that asking for help or checking a design loads no output and no
drawing library.
"""

from __future__ import annotations

import argparse
import os
import re
import textwrap
from collections.abc import Callable, Iterable, Sequence
from typing import TYPE_CHECKING

from pastedown.arguments import parser
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
_MOST_WORK = 600_000  # of planning: about ten minutes for each stock, or choice of sizes

class WrongCommand(Exception):
    """The command line asks for something that is not there. The text is a sentence for the maker."""


def main(arguments: Sequence[str] | None = None) -> int:
    """Runs one command and gives its exit code. Raises nothing but SystemExit, when the command line cannot be read."""
    prepare_process()
    options = parser().parse_args(arguments)
    try:
        return _COMMANDS[options.command](options)
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
    if options.mirrored and not any(output.may_mirror for output in outputs):
        mirrored = ", ".join(output.name for output in EVERY_OUTPUT if output.may_mirror)
        raise WrongCommand(f"--mirrored is for {mirrored}, and --only leaves them out.")
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


_COMMANDS: dict[str, Callable[[argparse.Namespace], int]] = {
    "make": _make, "kits": _kits, "check": _check, "why": _why, "tidy": _tidy, "slip": _slip, "mend": _mend,
    "explain": _explain, "outputs": _list_outputs,
}  # fmt: skip
