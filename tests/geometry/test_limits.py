"""Limits on what a recipe may ask for: as the reference states them, the last that is taken and the first that is not."""

from collections.abc import Callable

import pytest

from pastedown.compile import compile_design


def told(text: str, files: Callable[[str], str | None] = lambda _: None) -> list[str]:
    """What is told of a recipe that is linked and worked out, but not planned."""
    return [each.id for each in compile_design("probe.album", f"edition = 1\n{text}", files, planned=False).diagnostics]


def chain(links: int) -> str:
    facts = [f"f{number} = f{number + 1} + 1 mm" for number in range(links - 1)]
    return f"album probe {{\nf{links - 1} = 1 mm\n" + "\n".join(facts) + "\n}"


def parts_in_parts(deep: int) -> str:
    components = [f"component c{number} {{ part inner = c{number + 1}() }}" for number in range(1, deep)]
    return "\n".join([*components, f"component c{deep} {{ x = 1 }}", "album probe { part outer = c1() }"])


def parts(count: int) -> str:
    return f"component empty {{ }}\nalbum probe {{ part p[k from 1 to {count}] = empty() }}"


def text_of(length: int) -> str:
    """A text with slots that comes to `length` characters."""
    thousands, rest = divmod(length, 1000)
    return f'album probe {{ thousand = "{"x" * 1000}"  long = "{"{thousand}" * thousands}{"x" * rest}" }}'


@pytest.mark.parametrize(
    ("fitting", "beyond", "id"),
    [
        (chain(2_000), chain(2_001), "chain-too-long"),
        (parts_in_parts(24), parts_in_parts(25), "parts-too-deep"),
        # The album itself is the first of five thousand.
        (parts(4_999), parts(5_000), "too-many-parts"),
        (parts(10), parts(10**12), "too-many-parts"),
        (text_of(20_000), text_of(20_001), "text-too-long"),
    ],
    ids=["a chain of facts", "parts in parts", "parts", "parts without end", "a text"],
)
def test_a_limit(fitting: str, beyond: str, id: str) -> None:
    assert told(fitting) == []
    assert told(beyond) == [id]


@pytest.mark.parametrize(("files", "ids"), [(64, []), (65, ["too-many-files"])])
def test_files_that_use_files(files: int, ids: list[str]) -> None:
    def read(name: str) -> str | None:
        number = int(name.removeprefix("f").removesuffix(".album"))
        following = f'use x{number + 1} from "f{number + 1}.album"\n' if number < files else ""
        return f"edition = 1\n{following}x{number} = {number}\n"

    assert told('use x1 from "f1.album"\nalbum probe { y = x1 }', read) == ids


def test_numbers_may_not_grow_without_end() -> None:
    def grown(times: int) -> str:
        facts = " ".join(f"a{number + 1} = a{number} * a{number}" for number in range(times))
        return f"album probe {{ a0 = 16 {facts} }}"

    # Squared n times, sixteen has 4 * 2^n bits; 2,048 are allowed.
    assert told(grown(8)) == []
    assert told(grown(9)) == ["number-too-large"]


def test_repetitions_inside_repetitions_come_to_an_end() -> None:
    inner = 'step look[k0]: "Look."'
    for number in range(12):
        inner = f"each k{number} from 1 to 50 {{ {inner} }}"
    assert told(f"album probe {{ {inner} }}") == ["too-many-parts"]
