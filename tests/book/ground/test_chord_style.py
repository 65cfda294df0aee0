"""One way of writing chord symbols for the whole book."""

from dataclasses import replace
from itertools import product

import pytest

from shedbook.book.ground.chord_style import STYLES, ChordStyle, in_style, style_of, styled
from shedbook.book.ground.tables.chord_styles import QUALITY_FORMS
from shedbook.phrase.fields import phrase_from_fields
from shedbook.theory.chord_symbol import parse_chord

LETTERS, SIGNS = style_of(STYLES["letters"]), style_of(STYLES["signs"])

SYMBOLS = [
    "C", "Cm", "Cmaj7", "Cm7", "C7", "Cm7b5", "Cdim", "Cdim7", "Caug", "C+7", "C6", "Cm6", "C6/9",
    "Cm6/9", "Cmaj9", "CΔ9#11", "Cmaj7#11", "Cmaj7#5", "Cm9", "Cm11", "Cm(maj7)", "C-Δ9", "Cø9", "Cø11",
    "Cm7b5(11)", "C7b9", "C7alt", "C7sus4", "C13#11", "Csus2", "C5", "Cadd9", "Cm(add9)", "Cdim(maj7)",
    "C°7/Eb", "Dbmaj7/F", "N.C.", "Cmaj7(b5)", "Cm7(b5,b9)", "Cm7#5", "F#m7b5", "Bb-7/Ab",
]  # fmt: skip


@pytest.mark.parametrize(
    ("symbol", "letters", "signs"),
    [
        # Forms as players read them: Brandt & Roemer 1976, read at second hand; common practice.
        ("CΔ", "Cmaj7", "CΔ7"),
        ("C-7", "Cm7", "C-7"),
        ("Cmin9", "Cm9", "C-9"),
        ("Cø", "Cm7b5", "Cø7"),
        ("Cm7b5", "Cm7b5", "Cø7"),
        ("C°7", "Cdim7", "C°7"),
        ("C+", "Caug", "C+"),
        ("CmΔ7", "Cm(maj7)", "C-(Δ7)"),
        ("F#m7b5/C", "F#m7b5/C", "F#ø7/C"),
        ("Bbmaj9#11", "Bbmaj9#11", "BbΔ9#11"),
        ("G7b9", "G7b9", "G7b9"),
        ("N.C.", "N.C.", "N.C."),
    ],
)
def test_symbols_in_two_styles(symbol: str, letters: str, signs: str) -> None:
    chord = parse_chord(symbol)
    assert styled(chord, LETTERS).text == letters
    assert styled(chord, SIGNS).text == signs


@pytest.mark.parametrize(("symbol", "style"), list(product(SYMBOLS, ("letters", "signs"))))
def test_a_style_changes_no_chord(symbol: str, style: str) -> None:
    chord = parse_chord(symbol)
    found = styled(chord, style_of(STYLES[style]))
    assert replace(parse_chord(found.text), text="") == replace(chord, text="")
    assert replace(found, text="") == replace(chord, text="")


@pytest.mark.parametrize(
    ("quality", "form"), [(name, form) for name, forms in QUALITY_FORMS for form in forms]
)
def test_every_form_can_be_used(quality: str, form: str) -> None:
    style = style_of({quality: form})
    plain = {"major seventh": "Cmaj7", "minor": "Cm", "half-diminished": "Cm7b5", "diminished": "Cdim",
             "augmented": "Caug"}[quality]  # fmt: skip
    assert styled(parse_chord(plain), style).text == f"C{form}"


def test_without_a_style_every_symbol_stays_as_it_was_written() -> None:
    phrase = phrase_from_fields({"changes": "C-7 Fmin7 | CΔ", "line": "1/1 c4 | 1/1 c"})
    assert in_style(phrase, ChordStyle()) is phrase
    assert [change.chord.text for change in in_style(phrase, SIGNS).changes] == ["C-7", "F-7", "CΔ7"]


@pytest.mark.parametrize("forms", [{"minor": "Mn"}, {"minor seventh": "m7"}])
def test_a_form_that_is_not_in_the_table_is_refused(forms: dict[str, str]) -> None:
    with pytest.raises(ValueError, match="is not a"):
        style_of(forms)


def test_a_printed_minus_is_a_dash() -> None:
    assert style_of({"minor": "−"}) == style_of({"minor": "-"})
