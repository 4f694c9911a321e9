"""The whole design as JSON: object graph, pieces, steps and every measurement; and the schema that describes it."""

from pkgutil import get_data

from pastedown.outputs.json_piece import json_whole_piece
from pastedown.outputs.json_value import (
    FORMAT_VERSION,
    Json,
    json_file,
    json_length,
    json_length_or_null,
    json_ruler,
    json_text,
    json_value,
    json_value_or_null,
)
from pastedown.outputs.marks_text import moved_json
from pastedown.outputs.to_bulk import json_bulk
from pastedown.plan.material import Material
from pastedown.plan.plan import Bond, BuildStep, Fact, PartOfAlbum, Plan, Reading, Verdict
from pastedown.quantity.ruler import Ruler

ALBUM_FORMAT = "pastedown-album"
SCHEMA_FILE = "album.schema.json"


def make(plan: Plan) -> dict[str, bytes]:
    """album.json and album.schema.json"""
    return {"album.json": album_file(plan), SCHEMA_FILE: schema()}


def album_file(plan: Plan) -> bytes:
    """album.json alone."""
    return json_file(_album(plan))


def schema() -> bytes:
    """The published schema, as it stands beside this module. Raises FileNotFoundError where it was not installed."""
    found = get_data("pastedown.outputs", SCHEMA_FILE)
    if found is None:
        raise FileNotFoundError(SCHEMA_FILE)
    return found


def _album(plan: Plan) -> Json:
    ruler = plan.ruler
    return {
        "$schema": SCHEMA_FILE,
        "format": ALBUM_FORMAT,
        "format_version": FORMAT_VERSION,
        "name": plan.name,
        "title": plan.title,
        "doc": json_text(plan.doc, ruler),
        "ruler": json_ruler(ruler),
        "parts": [_part(part) for part in plan.parts],
        "pieces": [json_whole_piece(piece, ruler) for piece in plan.pieces],
        "bonds": [_bond(bond, ruler) for bond in plan.bonds],
        "steps": [_step(step, ruler) for step in plan.steps],
        "materials": [_material(material, ruler) for material in plan.materials],
        "facts": [_fact(fact, ruler) for fact in plan.facts],
        "verdicts": [_verdict(verdict, ruler) for verdict in plan.verdicts],
        "moved": moved_json(plan),
        "bulk": json_bulk(plan.bulk, ruler),
    }


def _part(part: PartOfAlbum) -> Json:
    return {"path": part.path, "component": part.component, "doc": part.doc}


def _bond(bond: Bond, ruler: Ruler) -> Json:
    return {
        "path": bond.path,
        "kind": bond.kind,
        "what": bond.what,
        "to": bond.to,
        "alignments": [
            {"what": what, "to": to, "inside": json_length(inside, ruler)} for what, to, inside in bond.alignments
        ],
        "adhesive": bond.adhesive,
        "stock": bond.stock,
        "moving": bond.moving,
    }


def _step(step: BuildStep, ruler: Ruler) -> Json:
    return {
        "number": step.number,
        "kind": step.kind,
        "title": json_text(step.title, ruler),
        "text": json_text(step.text, ruler),
        "times": step.times,
        "pieces": list(step.pieces),
        "reading": _reading(step.reading, ruler),
        "tips": [json_text(tip, ruler) for tip in step.tips],
        "cautions": [json_text(caution, ruler) for caution in step.cautions],
        "refers": list(step.refers),
        "actions": [
            {"text": json_text(action.text, ruler), "reading": _reading(action.reading, ruler)}
            for action in step.actions
        ],
    }


def _reading(reading: Reading | None, ruler: Ruler) -> Json | None:
    if reading is None:
        return None
    return {
        "nominal": json_length(reading.nominal, ruler),
        "least": json_length_or_null(reading.least, ruler),
        "most": json_length_or_null(reading.most, ruler),
        "hand": json_length_or_null(reading.give, ruler),
        "bears_least": json_length_or_null(reading.bears_least, ruler),
        "bears_most": json_length_or_null(reading.bears_most, ruler),
        "below": reading.below,
        "above": reading.above,
        "all_holds_least": json_length_or_null(reading.all_holds.least, ruler),
        "all_holds_most": json_length_or_null(reading.all_holds.most, ruler),
        "lost_below": reading.all_holds.below,
        "lost_above": reading.all_holds.above,
    }


def _material(material: Material, ruler: Ruler) -> Json:
    return {
        "stock": material.stock,
        "kind": material.kind,
        "size": json_text(material.size, ruler),
        "caliper": json_length_or_null(material.caliper, ruler),
        "weight": json_value_or_null(material.weight, ruler),
        "grain": material.grain,
        "pieces": material.pieces,
        "amount": json_value(material.amount, ruler),
        "sheets_at_least": material.sheets_at_least,
        "price": json_value_or_null(material.price, ruler),
        "pack": material.pack,
        "use": json_text(material.use, ruler),
        "mass": json_value_or_null(material.mass, ruler),
    }


def _fact(fact: Fact, ruler: Ruler) -> Json:
    return {"path": fact.path, "value": json_value(fact.value, ruler), "origin": fact.origin, "doc": fact.doc}


def _verdict(verdict: Verdict, ruler: Ruler) -> Json:
    return {
        "path": verdict.path,
        "left": json_value(verdict.left, ruler),
        "operator": verdict.operator,
        "right": json_value(verdict.right, ruler),
        "holds": verdict.holds,
        "because": json_text(verdict.because, ruler),
        "meant": json_text(verdict.meant, ruler),
    }
