"""Tables as CSV (RFC 4180), safe to open in a spreadsheet."""

import csv
import re
from collections.abc import Iterable, Sequence
from io import StringIO

from pastedown.outputs.safe_text import plain
from pastedown.quantity.decimals import rounded_decimal
from pastedown.quantity.quantity import Length

# A spreadsheet takes a cell that begins like this for a formula, whatever its quotes. The last four are
# full-width forms.
_FORMULA = re.compile("[\\s\u200c\u200d]*[=+\\-@\t\r\uff1d\uff0b\uff0d\uff20]")
_DECIMAL_PLACES = 6
_NUMBER = re.compile("[+-]?[0-9]+(\\.[0-9]+)?")


def csv_file(titles: Sequence[str], rows: Iterable[Sequence[str | int]]) -> bytes:
    """The rows under their titles: UTF-8, commas, lines ended by CR LF. Cells that would be read as a formula are led
    by an apostrophe; numbers are left as they are."""
    text = StringIO()
    writer = csv.writer(text, lineterminator="\r\n")
    writer.writerow(titles)
    writer.writerows([_safe(cell) for cell in row] for row in rows)
    return text.getvalue().encode()


def exact_inches(length: Length) -> str:
    """The length in inches, as a plain decimal: exact on every mark of a 64ths rule, else to six places."""
    return rounded_decimal(length.inches, _DECIMAL_PLACES)


def exact_millimetres(length: Length) -> str:
    """The length in millimetres; exact likewise."""
    return rounded_decimal(length.millimetres, _DECIMAL_PLACES)


def _safe(cell: str | int) -> str:
    text = str(cell)
    if _FORMULA.match(text) and not _NUMBER.fullmatch(text):
        text = f"'{text}"
    return plain(text)
