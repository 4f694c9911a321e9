"""The problem in whole numbers: equal pieces merged, the common unit divided out, what fits nowhere set aside."""

from collections.abc import Iterable
from fractions import Fraction
from math import gcd, lcm

from attrs import frozen

from pastedown.cutting.problem import Exact, Piece, Problem, Sheet


@frozen
class Kind:
    """Pieces that are cut alike: size in units, how many, and which of the problem's pieces they are (index, count).
    With `turns`, width is at most height."""

    width: int
    height: int
    demand: int
    turns: bool
    members: tuple[tuple[int, int], ...] = ()

    @property
    def area(self) -> int:
        return self.width * self.height

    def ways(self) -> tuple[tuple[int, int, int], ...]:
        """The ways it may lie: width, height, 1 where turned."""
        if self.turns:
            return ((self.width, self.height, 0), (self.height, self.width, 1))
        return ((self.width, self.height, 0),)

    def fits(self, width: int, height: int) -> bool:
        return any(w <= width and h <= height for w, h, _ in self.ways())


@frozen
class Base:
    """A size of sheet: what is left of it after trimming, in units, and what it costs: `cost` a pack of `pack`. Those
    on hand have a limit and cost nothing. `source` is its index in the problem."""

    width: int
    height: int
    cost: int
    pack: int
    limit: int | None
    source: int

    @property
    def area(self) -> int:
        return self.width * self.height


@frozen
class Task:
    """Kinds, all of which fit some base, and bases. `unit` is the length of one whole unit, `coin` the price of one
    whole unit of cost: no two plans' costs differ by less."""

    kinds: tuple[Kind, ...]
    bases: tuple[Base, ...]
    unit: Fraction
    coin: Fraction

    @property
    def area(self) -> int:
        return sum(kind.area * kind.demand for kind in self.kinds)


@frozen
class Misfit:
    """A piece that fits no sheet. `nearest` is the sheet that lacks least, `short_width` and `short_height` what it
    lacks with the piece lying the better way."""

    index: int
    piece: Piece
    nearest: Sheet | None
    short_width: Exact
    short_height: Exact


def _common(values: Iterable[Exact]) -> Fraction:
    """The largest length of which every given one is a whole multiple; 1 where there is none."""
    fractions = [Fraction(value) for value in values if value]
    if not fractions:
        return Fraction(1)
    below = lcm(*(value.denominator for value in fractions))
    return Fraction(gcd(*(int(value * below) for value in fractions)), below)


def inside(sheet: Sheet) -> tuple[Exact, Exact]:
    """Width and height of a sheet that are left once its raw edges are trimmed; may be nought or less."""
    trim = sheet.trim
    return sheet.width - trim.left - trim.right, sheet.height - trim.bottom - trim.top


def _misfit(problem: Problem, index: int) -> Misfit | None:
    piece = problem.pieces[index]
    nearest: tuple[Exact, int, Exact, Exact] | None = None
    ways = {(piece.width, piece.height)} | ({(piece.height, piece.width)} if piece.may_turn else set())
    for number, sheet in enumerate(problem.sheets):
        width, height = inside(sheet)
        for w, h in sorted(ways):
            short_w, short_h = max(w - width, 0), max(h - height, 0)
            if not short_w and not short_h and sheet.on_hand is None:
                return None
            if sheet.on_hand is not None and not short_w and not short_h:
                # A piece that only an offcut can hold is no misfit, as long as there is one.
                if sheet.on_hand:
                    return None
                continue
            if nearest is None or (short_w + short_h, number) < nearest[:2]:
                nearest = (short_w + short_h, number, short_w, short_h)
    if nearest is None:
        return Misfit(index, piece, None, piece.width, piece.height)
    return Misfit(index, piece, problem.sheets[nearest[1]], nearest[2], nearest[3])


def _bases(problem: Problem, unit: Fraction) -> tuple[tuple[Base, ...], Fraction]:
    bought = [sheet for sheet in problem.sheets if sheet.on_hand is None]
    if bought and bought[0].price is not None:
        prices = [Fraction(sheet.price or 0) for sheet in bought]
    else:
        prices = [Fraction(sheet.width) * Fraction(sheet.height) * sheet.pack for sheet in bought]
    # Of a single size the fewest sheets are the fewest packs too.
    single = len(bought) == 1
    if single:
        prices = [Fraction(1)]
    coin = _common(prices)
    costs = iter(prices)
    bases = []
    for number, sheet in enumerate(problem.sheets):
        width, height = (int(Fraction(length) / unit) for length in inside(sheet))
        cost = int(next(costs) / coin) if sheet.on_hand is None else 0
        if width > 0 and height > 0 and sheet.on_hand != 0:
            bases.append(Base(width, height, cost, 1 if single else sheet.pack, sheet.on_hand, number))
    return tuple(bases), coin


def read(problem: Problem) -> tuple[Task, tuple[Misfit, ...]]:
    """The problem in whole numbers, and the pieces that are left out because they fit no sheet."""
    misfits: list[Misfit] = []
    fitting: list[tuple[int, Piece]] = []
    for number, piece in enumerate(problem.pieces):
        misfit = _misfit(problem, number) if piece.count else None
        if misfit is not None:
            misfits.append(misfit)
        elif piece.count:
            fitting.append((number, piece))
    unit = _common(
        [length for _, piece in fitting for length in (piece.width, piece.height)]
        + [length for sheet in problem.sheets for length in inside(sheet) if length > 0]
    )
    merged: dict[tuple[int, int, bool], list[tuple[int, int]]] = {}
    for number, piece in fitting:
        width, height = int(piece.width / unit), int(piece.height / unit)
        turns = piece.may_turn and width != height
        if turns:
            width, height = min(width, height), max(width, height)
        merged.setdefault((width, height, turns), []).append((number, piece.count))
    kinds = [
        Kind(width, height, sum(count for _, count in members), turns, tuple(members))
        for (width, height, turns), members in merged.items()
    ]
    # Large ones first; the order of the pieces decides nothing.
    kinds.sort(key=lambda kind: (-kind.area, -kind.height, -kind.width, kind.turns))
    bases, coin = _bases(problem, unit)
    return Task(tuple(kinds), bases, unit, coin), tuple(misfits)
