"""Files: what is asked for, what is read once, and that nothing outside the design's folder is ever asked for."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from design.linking import ids, linked
from pastedown.design.recipe import ComponentOf, VariantOf

LEAF = "edition = 1\ncomponent leaf { }\nmark = 1 mm\n"


class Folder:
    """A folder of texts that remembers what it was asked for."""

    def __init__(self, **files: str) -> None:
        self.files = {name.replace("__", "/") + ".album": text for name, text in files.items()}
        self.asked: list[str] = []

    def __call__(self, name: str) -> str | None:
        self.asked.append(name)
        return self.files.get(name)


def test_the_designs_of_a_file_stand_in_the_order_of_their_names() -> None:
    recipe, told = linked("album pear { }\nvariant apple of pear { }\nalbum fig { }\ncomponent date { }")
    assert told == ()
    assert [design.name for design in recipe.designs] == ["apple", "fig", "pear"]


def test_albums_of_a_used_file_are_not_designs_of_this_one() -> None:
    folder = Folder(other="edition = 1\nalbum theirs { x = 1 }\n")
    recipe, told = linked('use theirs from "other.album"\nvariant mine of theirs { x = 2 }', folder)
    assert told == ()
    assert [design.name for design in recipe.designs] == ["mine"]


def test_a_variant_knows_its_base_and_what_everything_began_with() -> None:
    recipe, _ = linked("album base { x = 1 }\nvariant mid of base { x = 2 }\nvariant top of mid { x = 3 }")
    base, _mid, top = recipe.designs
    assert isinstance(base, ComponentOf) and isinstance(top, VariantOf)
    assert isinstance(top.base, VariantOf) and top.base.base is base
    assert top.root is base
    assert [design.is_album for design in recipe.designs] == [True, True, True]


def test_a_file_in_a_folder_below_finds_its_neighbours() -> None:
    folder = Folder(house__pages='edition = 1\nuse leaf from "sizes.album"\nsheet = 1\n', house__sizes=LEAF)
    _, told = linked('use sheet from "house/pages.album"\nalbum a { x = sheet }', folder)
    assert told == ()
    assert folder.asked == ["house/pages.album", "house/sizes.album"]


def test_a_file_used_twice_is_asked_for_once() -> None:
    folder = Folder(one='edition = 1\nuse mark from "two.album"\nother = mark\n', two=LEAF)
    _, told = linked('use other from "one.album"\nuse mark from "two.album"\nalbum a { x = mark + other }', folder)
    assert told == ()
    assert sorted(folder.asked) == ["one.album", "two.album"]


def test_the_library_reads_nothing_of_the_designs_folder() -> None:
    folder = Folder(pages="edition = 1\n", hinges="edition = 1\n")
    _, told = linked("use pocket_page from pages\nuse concertina_hinge from hinges\nalbum a { }", folder)
    assert told == ()
    assert folder.asked == []


@pytest.mark.parametrize(
    "name",
    ["/etc/hostname", "../up.album", "a/../../up.album", "~/x.album", "c:/x.album", "\\\\host\\x", "a//b.album", "./a.album",
     "http://host/x.album", "", "a/./b.album", "x" * 201],
)  # fmt: skip
def test_what_lies_elsewhere_is_refused_without_being_asked_for(name: str) -> None:
    folder = Folder()
    assert ids(f'use x from "{name}"\nalbum a {{ }}', folder) == ["import-outside"]
    assert folder.asked == []


@settings(max_examples=80, deadline=None)
@given(st.text(st.sampled_from("ab./\\~:%\u2215 "), max_size=14))
def test_no_name_leads_out_of_the_folder(name: str) -> None:
    folder = Folder()
    linked(f'use x from "{name}"\nalbum a {{ }}', folder)
    for asked in folder.asked:
        assert not asked.startswith(("/", "~")) and "\\" not in asked and ":" not in asked
        assert not {"..", ".", ""} & set(asked.split("/"))


@pytest.mark.parametrize(
    ("files", "id"),
    [
        ({}, "import-missing"),
        ({"one": LEAF}, "import-not-found-name"),
        ({"one": 'edition = 1\nuse y from "one.album"\n'}, "import-cycle"),
        ({"one": 'edition = 1\nuse y from "two.album"\nx = 1\n', "two": 'edition = 1\nuse x from "one.album"\ny = 1\n'},
         "import-cycle"),
        ({"one": "x = 1\n"}, "no-edition"),
        ({"one": "edition = 2\nx = 1\n"}, "wrong-edition"),
    ],
)  # fmt: skip
def test_faults_of_files(files: dict[str, str], id: str) -> None:
    assert id in ids('use x from "one.album"\nalbum a { y = x }', Folder(**files))


def test_a_name_that_could_not_be_had_is_no_second_mistake() -> None:
    assert ids('use x, y from "nowhere.album"\nalbum a { z = x + y  w = x.height }') == ["import-missing"]
    assert ids("use pocket_pge from pages\nalbum a { part p = pocket_pge() }") == ["import-not-found-name"]
