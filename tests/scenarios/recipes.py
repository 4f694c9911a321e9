"""The recipes in this folder as the compiler makes them, and what a test reads off them."""

from fractions import Fraction
from functools import cache
from pathlib import Path

from pastedown.compile import Compiled, compile_design
from pastedown.diagnostic import Diagnostic, Severity
from pastedown.geometry.model import Model
from pastedown.geometry.piece import FlatPiece
from pastedown.plan.plan import BuildStep, CutPiece, Plan
from pastedown.quantity.quantity import Quantity

FOLDER = Path(__file__).parent


def text_of(name: str) -> str:
    """The text of a recipe of this folder."""
    return (FOLDER / f"{name}.album").read_text(encoding="utf-8")


def _beside(name: str) -> str | None:
    path = FOLDER / name
    return path.read_text(encoding="utf-8") if path.exists() else None


@cache
def compiled(name: str, add: str = "", take: str = "", put: str = "") -> Compiled:
    """The recipe `name`, with `take` in its text replaced by `put`, and `add` written into its last braces."""
    text = text_of(name)
    if take:
        assert take in text, f"{take} does not stand in {name}"
        text = text.replace(take, put)
    if add:
        text = f"{text.rstrip().removesuffix('}')}  {add}\n}}\n"
    return compile_design(f"{name}.album", text, _beside)


def told(result: Compiled, severity: Severity) -> list[Diagnostic]:
    return [each for each in result.diagnostics if each.severity is severity]


def errors(result: Compiled) -> list[Diagnostic]:
    return told(result, Severity.ERROR)


def model_of(result: Compiled) -> Model:
    assert errors(result) == [], [each.sentence for each in errors(result)]
    model = result.designs[0].model
    assert model is not None
    return model


def plan_of(result: Compiled) -> Plan:
    assert errors(result) == [], [each.sentence for each in errors(result)]
    plan = result.designs[0].plan
    assert plan is not None
    return plan


def amount(result: Compiled, path: str) -> Quantity:
    """A measurement of a design, sound or not."""
    model = result.designs[0].model
    assert model is not None
    found = [each.value for each in model.measurements if each.path == path]
    assert len(found) == 1, f"{path} is measured {len(found)} times"
    assert isinstance(found[0], Quantity)
    return found[0]


def inches(result: Compiled, path: str) -> Fraction:
    """A measured length in inches, exact."""
    return amount(result, path).inches


def piece(result: Compiled, path: str) -> FlatPiece:
    model = result.designs[0].model
    assert model is not None
    (found,) = [each for each in model.pieces if each.path == path]
    return found


def size(result: Compiled, path: str) -> tuple[Fraction, Fraction]:
    """Height and width of a piece in inches."""
    found = piece(result, path)
    return found.height.inches, found.width.inches


def lines(result: Compiled, path: str) -> list[Fraction]:
    """Where the scores of a piece with one run lie, in inches from its first edge."""
    (run,) = piece(result, path).runs
    return [score.at.inches for score in run.scores]


def listed(plan: Plan) -> list[tuple[int, Fraction, Fraction]]:
    """How many pieces of which height and width the cut list has, sizes in inches."""
    return sorted((each.count, each.height.inches, each.width.inches) for each in plan.pieces)


def cut(plan: Plan, path: str) -> CutPiece:
    (found,) = [each for each in plan.pieces if path in each.paths]
    return found


def steps_about(plan: Plan, path: str, kind: str = "") -> list[BuildStep]:
    """The steps that do something to a path or to what lies in it."""
    return [
        step for step in plan.steps
        if kind in ("", step.kind) and any(each == path or each.startswith((f"{path}.", f"{path}[")) for each in step.refers)
    ]  # fmt: skip


def mixed(*texts: str) -> list[Fraction]:
    """Lengths as makers write them, "2 1/8", in inches."""
    return [sum((Fraction(part) for part in text.split()), Fraction(0)) for text in texts]
