import pytest
from hypothesis import given
from hypothesis import strategies as st

from pastedown.diagnostic.nearest_name import MOST_LISTED, did_you_mean, meant_or_one_of, nearest_name

TRADE = ("crest", "gusset", "height", "joint", "seam", "spine", "tail", "width", "wing", "turn_in", "front_foot")


@pytest.mark.parametrize(
    ("written", "meant"),
    [
        ("guset", "gusset"),  # left out
        ("gussset", "gusset"),  # one too many
        ("gasset", "gusset"),  # changed
        ("hieght", "height"),  # swapped
        ("widht", "width"),
        ("Seam", "seam"),
        ("turn-in", "turn_in"),
        ("frontfoot", "front_foot"),
        ("tali", "tail"),
    ],
)
def test_slips_of_the_keyboard(written: str, meant: str) -> None:
    assert nearest_name(written, TRADE) == meant


@pytest.mark.parametrize("written", ["", "x", "mountain", "grain", "front", "win_the_day"])
def test_another_word_is_no_slip(written: str) -> None:
    assert nearest_name(written, TRADE) is None


def test_a_third_of_the_letters_may_differ() -> None:
    assert nearest_name("abcdef", ["abcdxy"]) == "abcdxy"
    assert nearest_name("abcdef", ["abcxyz"]) is None
    assert nearest_name("ab", ["ax"]) == "ax", "one edit is allowed in the shortest name"
    assert nearest_name("ab", ["xy"]) is None
    assert nearest_name("y", ["x", "z", "yy"]) is None, "of one letter nothing would be left"


def test_fewest_edits_win_then_the_alphabet() -> None:
    assert nearest_name("crest", ["chest", "crust", "crests"]) == "chest"
    assert nearest_name("crest", ["crests", "crust", "chest"]) == "chest"
    assert nearest_name("panel_size", ["panel_sizes", "panels_sizes"]) == "panel_sizes"


def test_a_name_is_not_its_own_answer() -> None:
    assert nearest_name("seam", ["seam"]) is None
    assert nearest_name("seam", ["seam", "seams"]) == "seams"


def test_long_names_are_compared_by_their_first_letters() -> None:
    long = "a" * 100_000
    assert nearest_name(long, [long + "b"]) == long + "b"
    assert nearest_name("a" * 39, [long]) == long


def test_did_you_mean() -> None:
    assert did_you_mean("guset", TRADE) == "Did you mean `gusset`?"
    assert did_you_mean("mountain", TRADE) == ""


def test_without_a_near_name_they_are_listed() -> None:
    assert meant_or_one_of("flt", ("flat", "square", "shut"), "It is one of") == "Did you mean `flat`?"
    assert meant_or_one_of("round", ("flat", "square", "shut"), "It is one of") == "It is one of: flat, square, shut."
    many = [f"leaf_{number}" for number in range(MOST_LISTED + 2)]
    assert meant_or_one_of("x", many, "It has").endswith(f"leaf_{MOST_LISTED - 1} and 2 more.")
    assert meant_or_one_of("x", (), "It has") == ""


def plain_edits(left: str, right: str) -> int:
    """The whole table, as the definition of optimal string alignment has it."""
    table = [[max(i, j) if min(i, j) == 0 else 0 for j in range(len(right) + 1)] for i in range(len(left) + 1)]
    for i in range(1, len(left) + 1):
        for j in range(1, len(right) + 1):
            ways = [table[i - 1][j] + 1, table[i][j - 1] + 1, table[i - 1][j - 1] + (left[i - 1] != right[j - 1])]
            if i > 1 and j > 1 and left[i - 1] == right[j - 2] and left[i - 2] == right[j - 1]:
                ways.append(table[i - 2][j - 2] + 1)
            table[i][j] = min(ways)
    return table[-1][-1]


LETTERS = st.text(alphabet="abc", max_size=9)


@given(LETTERS, st.lists(LETTERS, max_size=8))
def test_agrees_with_the_whole_table(name: str, known: list[str]) -> None:
    limit = min(max(1, len(name) // 3), len(name) - 1)
    near = [(plain_edits(name, other), other) for other in known if other != name]
    best = min((found for found in near if found[0] <= limit), default=(0, None))
    assert nearest_name(name, known) == best[1]
