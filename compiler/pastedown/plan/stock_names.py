"""One name for each thing to buy, by which pieces, joins and materials mean the same one."""

from pastedown.design.stock import Stock
from pastedown.geometry.model import Model
from pastedown.geometry.natural_order import natural_key
from pastedown.plan.distinct_names import distinct
from pastedown.plan.words import spoken


def name_stocks(model: Model) -> dict[Stock, str]:
    """Every stock that a piece or a join uses, by its own name or, without one, its kind.

    Two different stocks of one name are numbered, in the order of the paths that use them.
    """
    in_order = sorted(_uses(model), key=lambda use: natural_key(use[0]))
    stocks = list(dict.fromkeys(stock for _, stock in in_order))
    wished = [spoken(stock.words) for stock in stocks]
    return dict(zip(stocks, distinct(wished, "{} ({})"), strict=True))


def _uses(model: Model) -> list[tuple[str, Stock]]:
    by_pieces = [(piece.path, piece.stock) for piece in model.pieces]
    return by_pieces + [(join.path, join.by) for join in model.joins if join.by is not None]
