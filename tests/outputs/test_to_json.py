"""album.json: everything, exactly, as the published schema says."""

import json
from copy import deepcopy
from fractions import Fraction
from typing import Any

import pytest
from attrs import evolve
from hypothesis import given
from hypothesis import strategies as st
from jsonschema import Draft202012Validator

from outputs.sample_plan import BOTH_RULER, sample_plan
from pastedown.outputs import to_cut_list, to_margins
from pastedown.outputs.json_value import json_decimal, json_file
from pastedown.outputs.to_json import make
from pastedown.plan.plan import Fact, Plan
from pastedown.quantity.quantity import mm, money

SCHEMA = json.loads(make(sample_plan())["album.schema.json"])
VALIDATOR = Draft202012Validator(SCHEMA)


def album(plan: Plan | None = None) -> Any:
    return json.loads(make(plan or sample_plan())["album.json"])


def objects_of(schema: Any) -> list[Any]:
    """Every schema of an object, at any depth."""
    if isinstance(schema, list):
        return [found for item in schema for found in objects_of(item)]
    if not isinstance(schema, dict):
        return []
    here = [schema] if schema.get("type") == "object" and "properties" in schema else []
    return here + [found for item in schema.values() for found in objects_of(item)]


def test_the_schema_is_a_schema() -> None:
    Draft202012Validator.check_schema(SCHEMA)


def test_the_schema_is_strict_and_describes_every_property() -> None:
    objects = objects_of(SCHEMA)
    assert len(objects) >= 25
    for found in objects:
        assert found["additionalProperties"] is False
        assert set(found["required"]) == set(found["properties"]) - {"$schema"}
        assert found["description"]
        assert all(value.get("description") for value in found["properties"].values())


@pytest.mark.parametrize("ruler", [sample_plan().ruler, BOTH_RULER])
def test_both_files_are_as_the_schema_says(ruler: Any) -> None:
    plan = sample_plan(ruler)
    VALIDATOR.validate(album(plan))
    VALIDATOR.validate(json.loads(to_cut_list.make(plan)["cut-list.json"]))
    VALIDATOR.validate(json.loads(to_margins.make(plan)["margins.json"]))


def test_an_empty_design_is_valid_too() -> None:
    empty = evolve(sample_plan(), doc=(), parts=(), pieces=(), steps=(), materials=(), bonds=(), facts=(), verdicts=())
    VALIDATOR.validate(album(empty))


@pytest.mark.parametrize(
    "spoil",
    [
        lambda made: made.update(extra=1),
        lambda made: made.pop("facts"),
        lambda made: made["pieces"][0]["height"].update(exact_mm="3.5"),
        lambda made: made["pieces"][0]["outline"]["moves"][0].update(kind="arc"),
        lambda made: made["pieces"][0].update(grain="across"),
        lambda made: made["facts"][0].update(origin="guessed"),
        lambda made: made.update(format="pastedown-cut-list"),
        lambda made: made.update(format="pastedown-margins"),
        lambda made: made.update(format_version=2),
    ],
)
def test_the_schema_refuses_what_is_wrong(spoil: Any) -> None:
    made = deepcopy(album())
    VALIDATOR.validate(made)
    spoil(made)
    assert not VALIDATOR.is_valid(made)


def test_a_length_is_exact_and_given_in_both_units() -> None:
    plan = evolve(sample_plan(), facts=(Fact("height", mm("107.9"), "chosen", ""),))
    assert album(plan)["facts"][0]["value"] == {
        "exact_mm": "1079/10",
        "mm": 107.9,
        "inches": 4.248031,
        "text": "about 4.248 in",
    }


def test_facts_keep_their_kind_of_value() -> None:
    values = {fact["path"]: fact["value"] for fact in album()["facts"]}
    assert values["hinge.closed"] is True
    assert values["hinge.colour"] == "grey"
    assert values["hinge.peaks"]["exact"] == "3"
    assert values["hinge.made_up"]["inches"] == 5.084
    assert (values["price_of_tape"]["dimension"], values["price_of_tape"]["unit"]) == ("compound", "mm^-1 EUR^1")


def test_grammage_and_money_are_in_the_units_of_the_trade() -> None:
    card = album()["materials"][0]
    assert (card["weight"]["dimension"], card["weight"]["exact"], card["weight"]["unit"]) == ("grammage", "216", "gsm")
    assert (card["price"]["dimension"], card["price"]["decimal"], card["price"]["unit"]) == ("money", 4.2, "EUR")


def test_texts_keep_their_values_apart() -> None:
    doc = album()["doc"]
    assert doc["text"] == "Three pages, each 7 in high."
    assert [part if isinstance(part, str) else part["exact_mm"] for part in doc["parts"]] == [
        "Three pages, each ",
        "889/5",
        " high.",
    ]


def test_charts_and_cuts_are_whole() -> None:
    strip, _, tag = album()["pieces"]
    chart = strip["score_charts"][0]
    assert [mark["from_first"]["inches"] for mark in chart["marks"]][:3] == [2.125, 2.75, 3.375]
    assert sum(Fraction(panel["size"]["exact_mm"]) for panel in chart["panels"]) == Fraction(chart["side"]["exact_mm"])
    assert [move["kind"] for move in tag["outline"]["moves"]] == ["line", "line", "arc", "line", "line"]
    assert (tag["inner_cuts"][0]["name"], tag["inner_cuts"][0]["closed"]) == ("ribbon slit", False)
    assert len(strip["folds"]) == len(chart["marks"]) == 9


def test_the_file_is_sorted_and_ends_with_a_line_feed() -> None:
    made = make(sample_plan())["album.json"].decode()
    assert made.endswith("\n}\n")
    assert made == json.dumps(json.loads(made), ensure_ascii=False, indent=2, sort_keys=True) + "\n"


def test_what_cannot_be_seen_is_escaped_and_letters_stay() -> None:
    made = json_file({"title": "é日 \u202e\x1b\x7f\u2028\U000e0041 \ud800"}).decode()
    assert made == '{\n  "title": "é日 \\u202e\\u001b\\u007f\\u2028\\udb40\\udc41 \ufffd"\n}\n'


@given(st.text())
def test_every_text_is_read_back_as_it_was(text: str) -> None:
    assert json.loads(json_file({"text": text})) == {"text": text}


@given(st.fractions(-(10**8), 10**8, max_denominator=10**9))
def test_decimals_are_right_to_a_millionth(value: Fraction) -> None:
    assert abs(Fraction(str(json_decimal(value))) - value) <= Fraction(1, 2_000_000)


def test_numbers_too_great_for_a_float_do_not_stop_it() -> None:
    plan = evolve(sample_plan(), facts=(Fact("dear", money(10**400, "EUR"), "derived", ""),))
    value = album(plan)["facts"][0]["value"]
    assert value["exact"] == str(10**400)
    assert value["decimal"] == 10**400
