"""Grammage of a paper sold by the pound.

A pound weight is the mass of 500 sheets of the paper's basic size, so it says nothing until that size is named: 65 lb
is 176 grams for each square metre in one basic size and 96 in another.
Method and basic sizes: PrintWiki, 'Grammage' and 'Basis Weight'; the six factors that follow are checked against it and
against the unit tables of GNU units in tests/quantity/test_weight.py.
"""

from fractions import Fraction

from pastedown.quantity.dimension import MASS
from pastedown.quantity.quantity import Length, Quantity, inches

# International yard and pound agreement of 1959, repeated in NIST SP 811, appendix B.8.
POUND = Quantity(Fraction(45_359_237, 100_000), MASS)

# The ream of the trade in the United States: PrintWiki, 'Basis Weight'.
SHEETS_IN_A_REAM = 500

# Names and sizes: PrintWiki, 'Basis Weight'. Bristol here is the 22 1/2 x 28 1/2 in of printing bristols.
BASIC_SIZES: dict[str, tuple[Length, Length]] = {
    "cover": (inches(20), inches(26)),
    "text": (inches(25), inches(38)),
    "book": (inches(25), inches(38)),
    "offset": (inches(25), inches(38)),
    "bond": (inches(17), inches(22)),
    "index": (inches("25.5"), inches("30.5")),
    "bristol": (inches("22.5"), inches("28.5")),
    "tag": (inches(24), inches(36)),
    "newsprint": (inches(24), inches(36)),
}


def grammage(pounds: Fraction | int, basis: str) -> Quantity:
    """The exact grammage of a paper of which 500 sheets of the basic size `basis` weigh `pounds` pounds.

    Raises KeyError for a basis that is not in BASIC_SIZES.
    """
    return _FOR_ONE_POUND[basis] * pounds


_FOR_ONE_POUND: dict[str, Quantity] = {
    basis: POUND / (height * width * SHEETS_IN_A_REAM) for basis, (height, width) in BASIC_SIZES.items()
}
