"""Scales and keys that the author states and the chords deny; what is expected is common practice."""

from __future__ import annotations

import pytest

from analysis.helpers import both_keys, phrase, read
from shedbook.analysis.account import account
from shedbook.analysis.proof import proof
from shedbook.analysis.telling.explanation import explain
from shedbook.theory.chord_scales import lacks, nearest_fits
from shedbook.theory.chord_symbol import parse_chord
from shedbook.theory.scale import parse_scale

DENIED = [
    ("F6", "F melodic minor", ("3",)),
    ("Fm6", "F ionian", ("b3",)),
    ("Cm7b5", "C dorian", ("b5",)),
    ("Cmaj7", "C mixolydian", ("7",)),
    ("C7", "C ionian", ("b7",)),
    ("Cm6", "C aeolian", ("6",)),
    ("C7sus4", "C lydian dominant", ("4",)),
    ("C7#5", "C mixolydian", ("#5",)),
    ("C7b9", "C mixolydian", ("b9",)),
    ("C13b9", "C altered", ("13",)),
    ("C7alt", "C mixolydian", ("b9",)),
    ("F/G", "G ionian", ("b7",)),
    # These deny nothing.
    ("C7", "C altered", ()),
    ("C", "C mixolydian", ()),
    ("C7", "C blues", ()),
    ("Cm7", "C minor pentatonic", ()),
    ("Cm(maj7)", "C dorian", ()),
    ("F/G", "G mixolydian", ()),
    ("D/C", "C lydian", ()),
    ("N.C.", "C ionian", ()),
]


@pytest.mark.parametrize(("symbol", "scale", "missing"), DENIED, ids=[f"{a}, {b}" for a, b, _ in DENIED])
def test_what_a_scale_denies(symbol: str, scale: str, missing: tuple[str, ...]) -> None:
    chord = parse_chord(symbol)
    assert lacks(chord, parse_scale(scale)) == missing
    for fitting in nearest_fits(chord, parse_scale(scale), 3):
        assert lacks(chord, fitting) == ()


def test_a_wrong_quality_is_found_through_the_scale_that_is_stated() -> None:
    for found in both_keys("F6 | %", "melodic minor | %", "1/8 f4 g ab c5 d c ab4 g | 1/1 f4"):
        (finding,) = [one for one in proof(found) if one.rule == "scale-contradicts-chord"]
        assert (finding.severity, finding.bar) == ("error", 1)
        assert finding.beat == 1


def test_the_message_names_the_tone_and_the_nearest_scales() -> None:
    found = read("F6", "1/4 f4 ab4 c5 e5", "melodic minor")
    (finding,) = [one for one in proof(found) if one.rule == "scale-contradicts-chord"]
    assert finding.message == "F melodic minor has no A, the third of F6."
    assert "ionian" in finding.mend


@pytest.mark.parametrize(
    ("changes", "key", "denied"),
    [
        ("Bm7 | E7alt | Amaj7", "F major", True),
        ("Bm7 | E7alt | Amaj7", "A major", False),
        ("Bm7 | E7alt | Amaj7", "A minor", False),
        ("Am7 | D7 | Gmaj7", "C major", False),  # a neighbouring key
        ("Em7 A7 | Dm7 | G7", "C major", False),
        ("Dm7 | Dm7 | Dm7", "F major", False),
        ("G7 | G7 | G7", "Db major", False),  # one chord says little
    ],
)
def test_a_key_that_the_changes_deny(changes: str, key: str, denied: bool) -> None:
    found = account(phrase(changes, "1/1 b4 | b4 | b4", key=key))
    assert ("key-contradicted" in {one.rule for one in proof(found)}) == denied


def test_nothing_is_told_of_a_scale_that_denies_its_chord() -> None:
    text = " ".join(explain(read("F6", "1/4 f4 ab4 c5 e5", "melodic minor")))
    assert "melodic minor" not in text.lower()
    assert "melodic minor" in " ".join(explain(read("Fm6", "1/4 f4 ab4 c5 e5", "melodic minor"))).lower()
