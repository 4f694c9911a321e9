"""Dimensions: what may be added to what."""

from attrs import frozen


@frozen
class Dimension:
    """Exponents of millimetre, gram, degree and money. Quantities add only when all of them are equal.

    `currency` is an ISO 4217 code; it is empty for everything but money, and for money of a currency not known yet.
    """

    length: int = 0
    mass: int = 0
    angle: int = 0
    money: int = 0
    currency: str = ""

    def __mul__(self, other: "Dimension") -> "Dimension":
        return Dimension(
            self.length + other.length,
            self.mass + other.mass,
            self.angle + other.angle,
            self.money + other.money,
            self.currency or other.currency,
        )._tidy()

    def __truediv__(self, other: "Dimension") -> "Dimension":
        return Dimension(
            self.length - other.length,
            self.mass - other.mass,
            self.angle - other.angle,
            self.money - other.money,
            self.currency or other.currency,
        )._tidy()

    def _tidy(self) -> "Dimension":
        if self.money == 0 and self.currency:
            return Dimension(self.length, self.mass, self.angle, 0)
        return self

    @property
    def words(self) -> str:
        """What a maker calls it, with its article: "a length", "a plain number"."""
        if self.currency and self.money == 1 and not (self.length or self.mass or self.angle):
            return f"an amount of {self.currency}"
        bare = Dimension(self.length, self.mass, self.angle, self.money)
        return _WORDS.get(bare, "a quantity without a name")


NUMBER = Dimension()
LENGTH = Dimension(length=1)
AREA = Dimension(length=2)
VOLUME = Dimension(length=3)
ANGLE = Dimension(angle=1)
MASS = Dimension(mass=1)
GRAMMAGE = Dimension(length=-2, mass=1)
MONEY = Dimension(money=1)

_WORDS = {
    NUMBER: "a plain number",
    LENGTH: "a length",
    AREA: "an area",
    VOLUME: "a volume",
    ANGLE: "an angle",
    MASS: "a mass",
    GRAMMAGE: "a grammage",
    MONEY: "an amount of money",
    Dimension(length=-1): "a number for each length",
    Dimension(length=-3, mass=1): "a density",
}
