"""Parts of a PDF that need no PDF: alternative texts and code tables."""

from shedbook.read_back.pdf_ink import _shown, _texts, _without_alternatives


def test_alternative_texts_are_left_out_whatever_they_hold() -> None:
    """PDF 1.7 (ISO 32000-1:2008), 7.3.4: brackets in a string pair or are escaped."""
    content = rb"a/Alt(C7(b9) \) EMC q Q)/B(kept)/Alt<FEFF0041>c"
    assert _without_alternatives(content) == b"a/Alt()/B(kept)/Alt()c"


def test_a_table_of_codes_gives_single_characters_and_ranges() -> None:
    """Adobe Technical Note 5411, ToUnicode mapping file tutorial (from memory)."""
    table = "1 beginbfchar\n<0003> <00660069>\nendbfchar\n1 beginbfrange\n<0010> <0012> <0041>\nendbfrange\n"
    assert _texts(table) == {3: "fi", 16: "A", 17: "B", 18: "C"}


def test_balanced_brackets_in_a_string_need_no_escape() -> None:
    """ISO 32000-1, 7.3.4.2: codes that look like brackets stand as they are where they are balanced."""
    fonts = {b"f0": {0x28: "m", 0x24: "i", 0x29: "n", 0x2A: "o", 0x2D: "r", 0x5C: "x"}}
    assert _shown(b"/f0 8 Tf\n(\0(\0$\0)\0*\0-) Tj", fonts) == "minor"
    assert _shown(b"/f0 8 Tf\n(\0\\(\0$\0\\\\) Tj", fonts) == "mix"
