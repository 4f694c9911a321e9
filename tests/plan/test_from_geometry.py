"""What is carried over from the model as it stands."""

from pathlib import Path

from attrs import evolve

from pastedown.compile import compile_design
from pastedown.geometry.model import Measurement, Requirement
from pastedown.plan.from_geometry import plan_from
from pastedown.quantity.quantity import NO_LENGTH, inches, mm
from plan.small_models import model, small_book, somewhere


def test_parts_facts_and_verdicts_are_carried_over_sorted() -> None:
    paths = ("page[10].width", "page[9].width")
    facts = tuple(Measurement(path, mm(3), "chosen", "as wished", somewhere()) for path in paths)
    because = ("or it sticks by ", mm(1))
    required = Requirement(
        "tray.fits", "tray", ">=", mm(5), mm(4), "room", "need", True, True, because, (), somewhere()
    )
    design = model(parts=["page[10]", "", "page[9]"])
    plan, _ = plan_from(evolve(design, measurements=facts, requirements=(required,)))
    assert [part.path for part in plan.parts] == ["", "page[9]", "page[10]"]
    assert [fact.path for fact in plan.facts] == ["page[9].width", "page[10].width"]
    assert (plan.facts[0].value, plan.facts[0].origin, plan.facts[0].doc) == (mm(3), "chosen", "as wished")
    (verdict,) = plan.verdicts
    assert (verdict.path, verdict.left, verdict.operator, verdict.right) == ("tray.fits", mm(5), ">=", mm(4))
    assert verdict.holds
    assert verdict.because == because


def test_bonds_name_faces_and_lines_from_the_top_of_the_design() -> None:
    plan, _ = plan_from(small_book(2))
    by_path = {bond.path: bond for bond in plan.bonds}
    seam = by_path["page[2].seam_tail"]
    assert (seam.kind, seam.what, seam.to) == ("join", "page[2].rear_sheet.body.face", "page[2].front_sheet.flap.back")
    assert seam.alignments == (("page[2].rear_sheet.body.tail", "page[2].front_sheet.tail_fold", NO_LENGTH),)
    assert (seam.adhesive, seam.stock, seam.moving) == ("tape", "double-sided tape", True)
    assert by_path["page[1].seam_head"].kind == "close"
    assert by_path["mount[1]"].alignments[0][2] == inches("1/16")
    assert by_path["mount[1]"].to == "hinge.strip.rise[1].face, hinge.strip.fall[1].face"


def test_a_design_of_nothing_has_a_plan_of_nothing() -> None:
    plan, faults = plan_from(model())
    assert (plan.pieces, plan.steps, plan.materials, plan.bonds, faults) == ((), (), (), (), ())


def test_the_stage_says_nothing_of_albums() -> None:
    """Its words are those of paper: what is built of it stands in recipes."""
    folder = Path(__file__).parents[2] / "compiler" / "pastedown" / "plan"
    modules = sorted(folder.glob("*.py"))
    assert modules
    for module in modules:
        text = module.read_text(encoding="utf-8").lower()
        assert not [word for word in ("hinge", "pocket", "spine", "gusset", "page[") if word in text], module.name


def test_a_variant_that_keeps_its_base_s_title_is_told_apart() -> None:
    text = """edition = 1
album base "One card" { title = "Our summer" }
variant gift of base "For the neighbours." { }
variant plain_one of base { }
variant own of base { title = "Our winter" }
variant inner of own { }
"""
    compiled = compile_design("summer.album", text, lambda name: None)
    titles = {design.name: design.plan.title for design in compiled.designs if design.plan is not None}
    assert titles == {
        "base": "Our summer",
        "gift": "Our summer (For the neighbours)",
        "plain_one": "Our summer (Plain one)",
        "own": "Our winter",
        "inner": "Our winter (Inner)",
    }


def test_a_variant_is_introduced_by_its_own_text_if_it_has_one() -> None:
    text = """edition = 1
album base "Five cards." { }
variant gift of base "Three cards." { }
variant plain_one of base { }
"""
    compiled = compile_design("summer.album", text, lambda name: None)
    plans = {design.name: design.plan for design in compiled.designs if design.plan is not None}
    told = {name: [part.doc for part in plan.parts if not part.path] for name, plan in plans.items()}
    assert told == {"base": ["Five cards."], "gift": ["Three cards."], "plain_one": ["Five cards."]}
