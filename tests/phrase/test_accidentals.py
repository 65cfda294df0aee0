"""Signatures, and the accidentals that notes show. Source: Gould 2011, Behind Bars (from memory)."""

from __future__ import annotations

import pytest

from shedbook.phrase.accidentals import MEI_ACCIDENTALS, AccidentalReader, signature_alterations
from shedbook.theory.key import Key
from shedbook.theory.pitch import Pitch


def shown(signature: str, *bars: str) -> list[str]:
    """Return for each bar the notes that show an accidental."""
    reader = AccidentalReader(Key.parse(signature) if signature else None)
    found = []
    for bar in bars:
        found.append(" ".join(name for name in bar.split() if reader.needs(Pitch.parse(name))))
        reader.bar_line()
    return found


@pytest.mark.parametrize(
    ("key", "altered"),
    [
        ("C", {}), ("G", {"F": 1}), ("E", {"F": 1, "C": 1, "G": 1, "D": 1}), ("F", {"B": -1}),
        ("C minor", {"B": -1, "E": -1, "A": -1}), ("Cb", dict.fromkeys("BEADGCF", -1)),
        ("C#", dict.fromkeys("FCGDAEB", 1)),
    ],
)  # fmt: skip
def test_signatures(key: str, altered: dict[str, int]) -> None:
    """Common practice: sharps in the order F C G D A E B, flats the other way round."""
    assert signature_alterations(Key.parse(key)) == altered
    assert signature_alterations(Key.parse(key).signature) == altered
    assert list(signature_alterations(Key.parse(key))) == list(altered)


def test_no_signature_alters_nothing() -> None:
    assert signature_alterations(None) == {}


def test_a_signature_of_more_than_seven_alters_every_letter_once() -> None:
    assert signature_alterations(9) == dict.fromkeys("FCGDAEB", 1)
    assert signature_alterations(-9) == dict.fromkeys("BEADGCF", -1)


def test_accidentals_as_mei_writes_them() -> None:
    """MEI 5, data.ACCIDENTAL.WRITTEN: f, ff, tf, n, s, x, ts (from memory)."""
    assert MEI_ACCIDENTALS == {-3: "tf", -2: "ff", -1: "f", 0: "n", 1: "s", 2: "x", 3: "ts"}


def test_an_accidental_holds_for_its_line_until_the_bar_line() -> None:
    assert shown("", "F#4 F#4 F4 F5 F#4", "F4 F#4") == ["F#4 F4 F#4", "F#4"]
    assert shown("G", "F#4 F4 F#4", "F#4") == ["F4 F#4", ""]


@pytest.mark.parametrize(
    ("over_bar", "note", "needs"), [(True, "F#4", True), (True, "G4", False), (False, "F#4", True)]
)
def test_after_a_tie_the_next_note_on_its_line_shows_its_own(over_bar: bool, note: str, needs: bool) -> None:
    reader = AccidentalReader()
    reader.tied(Pitch.parse("F#4"), over_bar=over_bar)
    assert reader.needs(Pitch.parse(note)) is needs


def test_a_tie_over_the_bar_line_leaves_doubt_about_the_natural_too() -> None:
    reader = AccidentalReader()
    reader.tied(Pitch.parse("F#4"), over_bar=True)
    assert reader.needs(Pitch.parse("F4"))
    within = AccidentalReader()
    within.tied(Pitch.parse("F4"), over_bar=True)
    assert not within.needs(Pitch.parse("F4"))
