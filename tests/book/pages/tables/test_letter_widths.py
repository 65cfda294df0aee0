"""The widths of letters, held against the fonts themselves."""

from __future__ import annotations

import pytest
from fontTools.ttLib import TTFont

from shedbook.book.pages.tables.letter_widths import LETTER_WIDTHS
from shedbook.book.pages.typst_door import font_files

CUTS = {"serif": "SourceSerifPro-Regular.otf", "sans": "SourceSansPro-Regular.otf"}


@pytest.mark.parametrize("face", CUTS)
def test_each_letter_is_as_wide_as_the_font_sets_it(face: str) -> None:
    """Source: the table `hmtx` of the font (OpenType), read by fontTools; its em has a thousand units."""
    (path,) = (one for one in font_files() if one.name == CUTS[face])
    font = TTFont(path)
    names, advances = font.getBestCmap(), font["hmtx"]
    assert font["head"].unitsPerEm == 1000
    written = [(letter, width) for width, letters in LETTER_WIDTHS[face] for letter in letters]
    assert written == [(letter, advances[names[ord(letter)]][0]) for letter, _ in written]
    assert len(written) == len(dict(written)) > 300  # each letter once: Latin with its accents, and quotes
