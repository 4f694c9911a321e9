"""A small recipe and what the compiler makes of it, for checks against published values."""

import re
from fractions import Fraction
from functools import cache

from pastedown.compile import MadeDesign, compile_design
from pastedown.diagnostic import Severity
from pastedown.geometry.piece import FlatPiece
from pastedown.plan.plan import Plan
from pastedown.quantity.quantity import Quantity

# Grams for each square millimetre in one gram for each square metre.
GSM = Fraction(1, 1_000_000)


@cache
def made(body: str, uses: str = "") -> MadeDesign:
    """The design whose album holds `body`; the test fails on any error."""
    compiled = compile_design("probe.album", f"edition = 1\n{uses}\nalbum probe {{\n{body}\n}}\n", lambda _: None)
    faults = [each.sentence for each in compiled.diagnostics if each.severity is Severity.ERROR]
    assert not faults, faults
    return compiled.designs[0]


def refused(body: str, uses: str = "") -> list[str]:
    """The ids of the errors that the album with `body` earns."""
    compiled = compile_design("probe.album", f"edition = 1\n{uses}\nalbum probe {{\n{body}\n}}\n", lambda _: None)
    return [each.id for each in compiled.diagnostics if each.severity is Severity.ERROR]


def told(body: str, uses: str = "") -> list[str]:
    """The ids of everything that is told of the album with `body`, which is measured in millimetres if it is written in
    them and names no ruler."""
    if " mm" in body and "ruler = " not in body and not re.search(r"\d in\b", body):
        body = f"ruler = millimetres to 1\n{body}"
    compiled = compile_design("probe.album", f"edition = 1\n{uses}\nalbum probe {{\n{body}\n}}\n", lambda _: None)
    return [each.id for each in compiled.diagnostics]


def fact(body: str, path: str, uses: str = "") -> Fraction:
    """The exact value of a fact: lengths in millimetres, areas in square millimetres, masses in grams."""
    model = made(body, uses).model
    assert model is not None
    (value,) = [each.value for each in model.measurements if each.path == path]
    assert isinstance(value, Quantity)
    return value.value


def value(expression: str, uses: str = "") -> Fraction:
    """The exact value of one expression."""
    return fact(f"probed = {expression}", "probed", uses)


def grammage(expression: str, uses: str = "") -> Fraction:
    """The value of a grammage in grams for each square metre."""
    return value(expression, uses) / GSM


def piece(body: str, path: str, uses: str = "") -> FlatPiece:
    """A flat piece of the album with `body`."""
    model = made(body, uses).model
    assert model is not None
    (found,) = [each for each in model.pieces if each.path == path]
    return found


def size(body: str, path: str, uses: str = "") -> tuple[Fraction, Fraction]:
    """Height and width of a piece in millimetres."""
    found = piece(body, path, uses)
    return found.height.value, found.width.value


def plan(body: str, uses: str = "") -> Plan:
    """The plan of the album with `body`."""
    found = made(body, uses).plan
    assert found is not None
    return found
