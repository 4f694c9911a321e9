"""Text of strangers: shown on one line, nothing hidden, no markup."""

import unicodedata
from xml.etree import ElementTree

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pastedown.outputs.safe_text import plain, xml

any_text = st.text(st.characters())


@pytest.mark.parametrize(
    ("written", "shown"),
    [
        ("two\r\nlines\tand\u2028more", "two lines and more"),
        ("\x1b[31mred", "\u241b[31mred"),
        ("\x00\x7f", "\u2400\u2421"),
        ("abc\u202ecba", "abc[U+202E]cba"),
        ("\u2066\ufeff\x9b", "[U+2066][U+FEFF][U+009B]"),
        ("\ud800 \uffff \U000e0041", "[U+D800] [U+FFFF] [U+E0041]"),
        ("8½ in – café “日本” नमस्\u200dते", "8½ in – café “日本” नमस्\u200dते"),
    ],
)
def test_plain_shows_what_is_hidden_and_keeps_letters(written: str, shown: str) -> None:
    assert plain(written) == shown


@given(any_text)
def test_plain_leaves_no_control_and_nothing_to_change(text: str) -> None:
    shown = plain(text)
    assert not [letter for letter in shown if unicodedata.category(letter) in ("Cc", "Cs", "Zl", "Zp")]
    assert not [letter for letter in shown if unicodedata.bidirectional(letter) in ("RLO", "LRO", "RLE", "LRE", "PDF")]
    assert len(shown.splitlines()) <= 1
    assert plain(shown) == shown


@given(any_text)
def test_xml_is_read_back_as_plain_text_in_element_and_attribute(text: str) -> None:
    for quote in "\"'":
        root = ElementTree.fromstring(f"<a b={quote}{xml(text)}{quote}>{xml(text)}</a>")
        assert (root.text or "") == plain(text) == root.attrib["b"]
        assert len(root) == 0


def test_xml_escapes_all_five_signs() -> None:
    assert xml("<b a=\"1\" c='2'>&") == "&lt;b a=&quot;1&quot; c=&#x27;2&#x27;&gt;&amp;"
