"""Everything for so many kits of a design. It is no line of the table of outputs, since it asks how many."""

from pastedown.outputs.json_value import json_file
from pastedown.outputs.kits.kit_sheet import kit_sheet, kits_json
from pastedown.outputs.kits.pick_list import pick_list, pick_list_csv
from pastedown.outputs.plain_text import text_file
from pastedown.outputs.to_cutting_plan import make as make_cutting_plan
from pastedown.outputs.to_json import SCHEMA_FILE, schema
from pastedown.outputs.to_materials import make as make_materials
from pastedown.plan.kits import kits
from pastedown.plan.material import PlanningEffort
from pastedown.plan.plan import Plan


def make(plan: Plan, copies: int, effort: PlanningEffort) -> dict[str, bytes]:
    """kits.txt and .json, purchase-list.txt and .csv, pick-list.txt and .csv, the cutting plan of all kits, and the
    schema. Raises ValueError for a number of copies that `kits` refuses."""
    several = kits(plan, copies, effort)
    bought = make_materials(several.all)
    return {
        "kits.txt": text_file(kit_sheet(several)),
        "kits.json": json_file(kits_json(several)),
        "purchase-list.txt": bought["materials.txt"],
        "purchase-list.csv": bought["materials.csv"],
        "pick-list.txt": text_file(pick_list(several)),
        "pick-list.csv": pick_list_csv(several),
        **make_cutting_plan(several.all),
        SCHEMA_FILE: schema(),
    }
