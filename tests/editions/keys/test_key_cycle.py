from __future__ import annotations

import pytest

from shedbook.editions.keys.key_cycle import enharmonic_tonics, key_cycle, readable_tonic
from shedbook.editions.tables.key_orders import KEY_ORDERS
from shedbook.errors import NotationError, UnknownNameError
from shedbook.theory.key import Key
from shedbook.theory.pitch import NoteName

# Common practice: the circles as every method book prints them.
CYCLES = [
    ("C", "fourths", "C F Bb Eb Ab Db Gb B E A D G"),
    ("C", "Circle of  fourths", "C F Bb Eb Ab Db Gb B E A D G"),
    ("C", "fifths", "C G D A E B F# Db Ab Eb Bb F"),
    ("C", "chromatic", "C Db D Eb E F Gb G Ab A Bb B"),
    ("C", "chromatic down", "C B Bb A Ab G F# F E Eb D Db"),
    ("Ab", "fourths", "Ab Db Gb B E A D G C F Bb Eb"),
    ("C", "whole steps", "C D E F# Ab Bb Db Eb F G A B"),
    ("C", "minor thirds", "C Eb Gb A Db E G Bb D F Ab B"),
    ("C minor", "fourths", "C F Bb Eb G# C# F# B E A D G"),
    ("A minor", "fifths", "A E B F# C# G# Eb Bb F C G D"),
    ("C", "C F Bb", "C F Bb"),
    ("C", "c, f, b♭", "C F Bb"),
    ("C", ("F#", "Db"), "F# Db"),
    ("F# ", "fourths", "F# B E A D G C F Bb Eb Ab Db"),
]


@pytest.mark.parametrize(("home", "order", "expected"), CYCLES)
def test_cycle(home: str, order: str | tuple[str, ...], expected: str) -> None:
    keys = key_cycle(Key.parse(home), order)
    assert " ".join(str(key.tonic) for key in keys) == expected
    assert {key.mode for key in keys} == {Key.parse(home).mode}


@pytest.mark.parametrize("row", KEY_ORDERS, ids=lambda row: row.name)
def test_every_order_has_every_key_once_and_begins_at_home(row: object) -> None:
    semitones = row.semitones  # type: ignore[attr-defined]
    assert sorted(semitones) == list(range(12))
    assert semitones[0] == 0


def test_preferred_names() -> None:
    keys = key_cycle(Key.parse("C"), prefer=("F#", NoteName.parse("C#")))
    assert " ".join(str(key.tonic) for key in keys) == "C F Bb Eb Ab C# F# B E A D G"
    minor = key_cycle(Key.parse("C minor"), prefer=("Ab",))
    assert str(minor[4].tonic) == "Ab"


def test_a_tie_goes_to_the_neighbours_side() -> None:
    assert str(readable_tonic(6, "major", NoteName.parse("Db"))) == "Gb"
    assert str(readable_tonic(6, "major", NoteName.parse("B"))) == "F#"
    assert str(readable_tonic(3, "minor", NoteName.parse("Bb"))) == "Eb"
    # Common practice: players read E flat minor, whatever stands beside it.
    assert str(readable_tonic(3, "minor", NoteName.parse("G#"))) == "Eb"
    assert str(readable_tonic(11, "major")) == "B"


@pytest.mark.parametrize(
    ("order", "error", "words"),
    [
        ("fourthes", UnknownNameError, '"fourths"'),
        ("by chance", UnknownNameError, "Known are"),
        ("C F H", NotationError, "letters"),
        ("C F# Gb", NotationError, "once"),
        ("", NotationError, "Known are"),
        ((), NotationError, "Known are"),
        (("C", "B#"), NotationError, "once"),
    ],
)
def test_a_wrong_order_says_what_to_do(order: str, error: type[NotationError], words: str) -> None:
    with pytest.raises(error) as caught:
        key_cycle(Key.parse("C"), order)
    assert words in caught.value.hint


# Common practice: the names from F flat to B sharp with one accidental at most.
ENHARMONIC = "C B#; Db C#; D; Eb D#; Fb E; F E#; Gb F#; G; Ab G#; A; Bb A#; Cb B"


def test_the_names_of_each_tonic() -> None:
    names = [{str(NoteName(place)) for place in enharmonic_tonics(pitch_class)} for pitch_class in range(12)]
    assert names == [set(part.split()) for part in ENHARMONIC.split("; ")]


@pytest.mark.parametrize("mode", ["major", "minor"])
def test_a_key_is_called_by_the_name_with_fewer_accidentals(mode: str) -> None:
    """Common practice: six accidentals at most, in either mode."""
    for pitch_class in range(12):
        assert abs(Key(readable_tonic(pitch_class, mode), mode).signature) <= 6
