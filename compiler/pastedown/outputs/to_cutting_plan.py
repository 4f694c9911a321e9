"""The cutting plan: how every sheet is cut, cut by cut, as text, as CSV, as JSON and as a drawing of each pattern."""

from pastedown.outputs.csv_text import csv_file
from pastedown.outputs.cutting.csv_rows import TITLES, rows
from pastedown.outputs.cutting.json_cutting import json_cutting
from pastedown.outputs.cutting.pattern_drawing import pattern_drawing
from pastedown.outputs.cutting.text_lines import text_lines
from pastedown.outputs.json_value import json_file
from pastedown.outputs.plain_text import text_file
from pastedown.outputs.template.svg_text import svg_of
from pastedown.plan.plan import Plan
from pastedown.plan.stock_cutting import stock_cuttings

FOLDER = "cutting-plan"


def make(plan: Plan) -> dict[str, bytes]:
    """cutting-plan.txt, .csv and .json, and cutting-plan/<stock>-<pattern>.svg by their numbers."""
    stocks = stock_cuttings(plan)
    files = {
        "cutting-plan.txt": text_file(text_lines(plan, stocks)),
        "cutting-plan.csv": csv_file(TITLES, rows(stocks, plan.ruler)),
        "cutting-plan.json": json_file(json_cutting(plan, stocks)),
    }
    for number, stock in enumerate(stocks, 1):
        for pattern in stock.patterns:
            drawing = pattern_drawing(f"{number}-{pattern.number}", stock, pattern, plan.ruler)
            files[f"{FOLDER}/{number}-{pattern.number}.svg"] = svg_of(drawing).encode()
    return files
