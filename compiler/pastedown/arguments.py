"""What can be written on the command line, and what the help says of it. Read before anything else is loaded."""

from __future__ import annotations

import argparse
from typing import NoReturn

from pastedown.terminal import say

# Where nothing is said. Stated again so that no planner is loaded to show help; a test compares them.
_USUAL_WORK = 2_000

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


def parser() -> argparse.ArgumentParser:
    """The parser of the whole command line; `command` of what it reads is the name of the command."""
    plain = argparse.RawDescriptionHelpFormatter
    whole = argparse.ArgumentParser(
        prog="pastedown", description="Checks designs of handmade albums and plans their making.",
        epilog=_CODES, formatter_class=plain, allow_abbrev=False,
    )
    whole.add_argument("--version", action=_ShowVersion, nargs=0, help="show the version and stop")
    commands = whole.add_subparsers(title="commands", metavar="COMMAND", required=True)

    def command(name: str, sentence: str) -> argparse.ArgumentParser:
        added = commands.add_parser(
            name, help=sentence, description=f"{sentence[0].upper()}{sentence[1:]}.",
            epilog=_CODES, formatter_class=plain, allow_abbrev=False,
        )
        added.set_defaults(command=name)
        return added

    make = command("make", "check a design and write everything needed to build it")
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
    kits = command("kits", "write what so many kits of a design need: what to buy, to cut and to pack")
    _add_file(kits, messages=True)
    kits.add_argument("--copies", metavar="NUMBER", required=True, help="how many kits")
    kits.add_argument("--to", metavar="FOLDER", help="the folder to write; for several designs the one around theirs")
    kits.add_argument("--design", metavar="NAME", help="only this design of the file")
    kits.add_argument(
        "--work", metavar="NUMBER",
        help=f"how hard to look for few sheets: a thousand take about a second for each stock, and where several "
        f"sizes are on offer, for each choice among them; {_USUAL_WORK} where nothing is said",
    )
    kits.add_argument(
        "--libraries", action="store_true",
        help="use numpy and highspy, if they are there: fewer sheets as a rule, but not the same plan on every machine",
    )
    check = command("check", "say whether the designs of a file go together")
    _add_file(check, messages=True)
    why = command("why", "show how a measurement comes about, down to the lines it stems from")
    _add_file(why, messages=False)
    why.add_argument("measurement", metavar="MEASUREMENT", help='its path in the design, such as "strip.width"')
    why.add_argument("--design", metavar="NAME", help="which design of the file")
    tidy = command("tidy", "lay files out in the usual way, with no change to what they mean")
    tidy.add_argument(
        "files", metavar="FILE", nargs="+",
        help='a file to rewrite, unless it cannot be read without an error; "-" alone: read the input stream and '
        "write the output stream",
    )
    tidy.add_argument("--check", action="store_true", help="write nothing; name the files that would change")
    slip = command("slip", "say what something cut, scored or printed otherwise does to a design")
    _add_file(slip, messages=True)
    slip.add_argument(
        "done", metavar="DONE", nargs="+",
        help='what was really done: "strip.crest[2] at 4 1/2 in", "score 5 of strip at 4 1/2 in", "strip by 1/16 in", '
        '"strip.height at 6 5/8 in", "printed at 97 %%", "sheet printed at 97 %%"',
    )
    slip.add_argument("--design", metavar="NAME", help="which design of the file")
    slip.add_argument("--all", action="store_true", help="tell everything that changes, however much it is")
    mend = command("mend", "look for the smallest change of numbers that makes a refused design go together")
    _add_file(mend, messages=True)
    mend.add_argument("--design", metavar="NAME", help="which design of the file")
    mend.add_argument("--into", metavar="NEW", help="write the file with that change under this name; none is replaced")
    explain = command("explain", "explain a message by its id, or list all ids")
    explain.add_argument("id", metavar="ID", nargs="?", help="the id as it stands in brackets after a message")
    command("outputs", "list what can be made")
    return whole


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
        parser.exit()
