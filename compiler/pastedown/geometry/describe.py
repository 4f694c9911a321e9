"""What a value is, in a maker's words, for messages."""

from __future__ import annotations

from pastedown.design.stock import Stock
from pastedown.geometry.value import (
    FaceValue,
    FamilyValue,
    LineValue,
    ListValue,
    MakeableValue,
    Nothing,
    PanelValue,
    Reference,
    SheetValue,
    TextValue,
    Treatment,
    Word,
)
from pastedown.quantity.quantity import Quantity
from pastedown.quantity.ruler import Ruler


def describe(value: object) -> str:
    """ "a length", "a stock", "several parts" ..."""
    from pastedown.geometry.instance import Instance
    from pastedown.geometry.layer import Description
    from pastedown.geometry.make_piece import PieceMaker

    match value:
        case bool():
            return "yes or no"
        case Quantity(dimension=dimension):
            return dimension.words
        case Word(text=text):
            return f"the word {text}"
        case TextValue():
            return "a text"
        case Stock():
            return "a stock"
        case SheetValue():
            return "a sheet size"
        case Ruler():
            return "a ruler"
        case Treatment(kind=kind):
            return f"a {kind.replace('_', ' ')}"
        case ListValue():
            return "a list"
        case FamilyValue(name=name):
            return f"several things called {name}"
        case Instance():
            return "a part"
        case Description() | MakeableValue():
            return "a component that is not made yet"
        case PieceMaker():
            return "a piece"
        case PanelValue():
            return "a panel"
        case LineValue():
            return "a line"
        case FaceValue():
            return "a side of the paper"
        case Reference(kind=kind):
            return f"a {kind}"
        case Nothing():
            return "nothing"
        case _:
            return "something else"
