"""Letters and chord symbols as outlines."""

from __future__ import annotations

import contextlib
import importlib.util
import math
import re
from pathlib import Path

import pytest

from shedbook.engrave.drawing.outlined_words import (
    OutlinedWord,
    degree_word,
    glyph_definition,
    note_name_word,
    symbol_word,
    tempo_word,
    text_word,
)
from shedbook.engrave.engraver.svg_paths import vertical_extent
from shedbook.engrave.tables.chord_sign_outlines import CHORD_SIGN_OUTLINES
from shedbook.engrave.tables.outlines import OUTLINES
from shedbook.errors import ChordSymbolError, RenderError
from shedbook.theory.chord_symbol import parse_chord, symbol_parts
from shedbook.theory.tables.chord_qualities import TOKENS

TOOL = Path(__file__).parents[3] / "tools" / "make_outlines.py"


def symbol(text: str) -> OutlinedWord:
    return symbol_word(symbol_parts(parse_chord(text)), 441)


def characters(word: OutlinedWord) -> set[str]:
    return {character for _, character in word.glyphs}


SYMBOLS = [  # the signs that a symbol must be drawn with: Brandt & Roemer 1976, and common practice
    ("C#m7b5", {"♯", "♭", "(", ")"}),
    ("Bbmaj7#11/D", {"♭", "♯", "/", "D"}),
    ("Bø7", {"ø"}),
    ("B°7", {"°"}),
    ("Bo7", {"°"}),
    ("CΔ7", {"Δ"}),
    ("Dm(Δ7)", {"Δ", "(", ")"}),
    ("E−(∆7)", {"Δ", "–"}),
    ("B∅", {"ø"}),
    ("G7(−9)", {"–", "9"}),
    ("Gm(maj7)", {"(", ")", "m", "a", "j"}),
    ("N.C.", {"N", "C", "."}),
]


@pytest.mark.parametrize(("text", "wanted"), SYMBOLS)
def test_a_symbol_is_drawn_with_real_signs(text: str, wanted: set[str]) -> None:
    found = characters(symbol(text))
    assert wanted <= found
    assert not found & {"#", "b", "o"}


def test_accidentals_come_from_the_music_font() -> None:
    assert ("music", "♭") in symbol("Eb7").glyphs
    assert ("music", "♯") in degree_word("#11", "sans", 270).glyphs
    assert ("music", "♭") in note_name_word("Bb minor", "sans", 270).glyphs
    assert "b" in characters(text_word("bebop", "serif-italic", 270))


@pytest.mark.parametrize("text", ["C", "Bbm", "F#7(b9,#11)", "Ab13b9/Gb", "Dm7b5", "G7sus4", "E7alt", "C6/9"])
def test_a_symbol_is_at_least_as_wide_as_its_ink(text: str) -> None:
    word = symbol(text)
    assert _ink(word)[1] <= word.width + 10
    assert _ink(word)[0] >= -10


def test_alterations_stand_higher_and_smaller_than_the_root() -> None:
    placed = re.findall(
        r'#\{p\}(\w+)" transform="translate\((-?\d+) (-?\d+)\)scale\(([.\d]+)\)', symbol("C7b9").svg
    )
    root, nine = placed[0], placed[-2]
    assert int(nine[2]) < int(root[2])
    assert float(nine[3]) < float(root[3])


def _ink(word: OutlinedWord) -> tuple[float, float]:
    """Return the leftmost and rightmost ink of a word."""
    boxes = {glyph_definition(key, "").split('"')[1]: key for key in word.glyphs}
    edges = []
    for name, x, scale in re.findall(
        r'#\{p\}(\w+)" transform="translate\((-?\d+) -?\d+\)scale\(([.\d]+)\)', word.svg
    ):
        font, character = boxes[name]
        if font in OUTLINES:
            _, left, right, _ = OUTLINES[font][character]
            edges += [int(x) + left * float(scale), int(x) + right * float(scale)]
    return min(edges), max(edges)


@pytest.mark.parametrize("spelling", [text for row in TOKENS for text in row.spellings])
@pytest.mark.parametrize("opening", ["C", "C7(", "Cm("])
def test_whatever_a_symbol_is_written_with_is_drawn(opening: str, spelling: str) -> None:
    with contextlib.suppress(ChordSymbolError):  # not every token may stand everywhere
        assert "?" not in characters(symbol(opening + spelling + ")" * ("(" in opening)))


def test_the_struck_ring_is_as_high_as_a_small_letter_and_its_stroke_goes_beyond_it() -> None:
    """Common practice; at the size of a small letter it is not taken for a sharp."""
    letter, (_, left, right, ring) = OUTLINES["sans-semibold"]["x"], CHORD_SIGN_OUTLINES["ø"]
    height = -vertical_extent(letter[3])[0]
    high = 2 * float(re.search(r"a(\d+) ", ring)[1])  # type: ignore[index]
    assert high >= 0.95 * height
    stroke = re.findall(r"l(\d+)-(\d+)", ring)[0]
    assert math.hypot(*map(float, stroke)) >= 1.6 * high
    assert left >= 60  # clear of the accidental of a root
    assert right - left >= high


@pytest.mark.parametrize(
    ("text", "font", "found"),
    [
        ("Příliv", "sans", set("Příliv")),
        ("Příliv", "sans-semibold", set("Prilv")),
        ("plně zmenšená", "serif-italic", set("plně zmenšená") - {" "}),
        ("l’été", "sans-semibold", set("l'ete")),
        ("lydian ♭7", "serif-italic", set("lydian♭7")),
        ("‹доріан› „ένα“", "serif-italic", set("‹доріан›„ένα“")),
    ],
)
def test_words_of_other_languages_keep_their_letters_or_lose_an_accent(
    text: str, font: str, found: set[str]
) -> None:
    assert characters(text_word(text, font, 100)) == found


def test_a_letter_that_cannot_be_drawn_is_an_error_that_names_it() -> None:
    with pytest.raises(RenderError, match="漢"):
        text_word("a 漢 scale", "sans", 100)


def test_a_tempo_counts_the_beat_that_players_tap() -> None:
    assert ("music", "dot") in tempo_word("Afro", "quarter", True, 92, "serif-semibold", 300).glyphs
    assert ("music", "half") in tempo_word("", "half", False, 92, "serif-semibold", 300).glyphs


def test_the_table_of_outlines_is_what_the_fonts_say() -> None:
    """Source: Source Sans Pro and Source Serif Pro as packaged, Leipzig as shipped with Verovio."""
    spec = importlib.util.spec_from_file_location("make_outlines", TOOL)
    assert spec is not None
    assert spec.loader is not None
    tool = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(tool)
    for name, (package, file, _) in tool.FONTS.items():
        path = package.parent / "files" / file
        assert tool.font_glyphs(path, "ABg79(") == {c: OUTLINES[name][c] for c in "ABg79("}
    assert tool.music_glyphs() == dict(OUTLINES["music"])
