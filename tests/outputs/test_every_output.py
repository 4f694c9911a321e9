"""The table of outputs: in order, made anew alike, and paid for only when asked."""

import subprocess
import sys

import pytest

from outputs.sample_plan import sample_plan
from pastedown.outputs.every_output import EVERY_OUTPUT, Output

TEXT_OUTPUTS = EVERY_OUTPUT[:7]


def test_the_table_is_in_order_and_says_what_each_is() -> None:
    assert [output.name for output in EVERY_OUTPUT] == [
        "cut-list", "score-chart", "steps", "materials", "cutting-plan", "json", "margins", "bulk", "captions",
        "booklet-html", "booklet-pdf", "drawings", "pictures", "views", "model", "templates-svg", "templates-pdf",
        "templates-dxf",
    ]  # fmt: skip
    assert all(output.sentence.endswith(".") and output.sentence[0].isupper() for output in EVERY_OUTPUT)


@pytest.mark.parametrize("output", EVERY_OUTPUT, ids=lambda output: output.name)
def test_like_plans_give_like_bytes(output: Output) -> None:
    assert output.make(sample_plan()) == output.make(sample_plan())


def test_no_two_outputs_write_one_file() -> None:
    names = [name for output in EVERY_OUTPUT for name in output.make(sample_plan())]
    assert len(names) == len(set(names))
    assert all(name.isascii() for name in names)
    assert not [name for output in TEXT_OUTPUTS for name in output.make(sample_plan()) if "/" in name]


def run(code: str, hash_seed: str, **settings: str) -> bytes:
    environment = {"PYTHONPATH": ":".join(sys.path), "PYTHONHASHSEED": hash_seed, **settings}
    return subprocess.run([sys.executable, "-c", code], env=environment, capture_output=True, check=True).stdout


def test_another_run_gives_the_same_bytes() -> None:
    code = (
        "import sys; from outputs.sample_plan import sample_plan\n"
        "from pastedown.outputs.every_output import EVERY_OUTPUT\n"
        "for output in EVERY_OUTPUT:\n"
        "    for made in output.make(sample_plan()).values(): sys.stdout.buffer.write(made)\n"
    )
    first = run(code, "1", LC_ALL="C", TZ="UTC")
    assert len(first) > 100_000
    assert run(code, "2", LC_ALL="de_DE.UTF-8", TZ="Asia/Tokyo") == first


def test_the_table_alone_loads_no_output() -> None:
    code = "import sys, pastedown.outputs.every_output\nprint([name for name in sys.modules if '.to_' in name])"
    assert run(code, "0").strip() == b"[]"
