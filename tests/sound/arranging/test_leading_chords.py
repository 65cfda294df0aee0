"""Chords that nobody wrote, one by one. Source of every check: common practice, or our own design."""

from __future__ import annotations

from fractions import Fraction

import pytest

from shedbook.sound.arranging.leading_chords import last_chord, leading_chords, set_up
from shedbook.sound.players.band_chart import Stretch
from shedbook.theory.chord_symbol import parse_chord
from shedbook.theory.key import Key
from shedbook.theory.metre import Metre
from sound.demo_scores import phrase


@pytest.mark.parametrize(
    ("target", "chords"),
    [
        ("Cm7", "Dm7b5 G7b9"), ("Cm6", "Dm7b5 G7b9"), ("Cmaj7", "Dm7 G7"), ("C6", "Dm7 G7"),
        ("Db", "Ebm7 Ab7"),
        ("Bm7b5", "C#m7b5 F#7b9"), ("Bdim7", "F#7b9"), ("G7", "Dm7"), ("G13", "Dm7"), ("G9#11", "Dm7"),
        ("G7alt", "Dm7b5"), ("G7b9", "Dm7b5"), ("G13b9", "Dm7b5"), ("G7#9", "Dm7b5"), ("G7#9b13", "Dm7b5"),
        ("G7sus4", "Dm7"), ("N.C.", ""),
    ],
)  # fmt: skip
def test_what_leads_to_a_chord(target: str, chords: str) -> None:
    """The ii and V of a chord at rest, the ii of a dominant, a dark one where a flat nine or a sharp is."""
    found = leading_chords(parse_chord(target), 2)
    assert " ".join(chord.text for chord in found) == chords
    last = leading_chords(parse_chord(target), 1)
    assert " ".join(chord.text for chord in last) == (chords.split() or [""])[-1]


@pytest.mark.parametrize(
    ("metre", "places"),
    [
        ("4/4", [0, 2]), ("2/2", [0, 2]), ("6/8", [0, Fraction(3, 2)]), ("12/8", [0, 3]), ("5/4", [0, 3]),
        ("7/8", [0, 2]), ("9/8", [0, 3]), ("3/4", [0]), ("2/4", [0]),
    ],
)  # fmt: skip
def test_a_set_up_is_divided_where_the_second_half_of_its_bar_begins(
    metre: str, places: list[Fraction]
) -> None:
    """On a strong beat; a bar without a second one has the V alone."""
    time = Metre.parse(metre)
    own = phrase("Fmaj7", "1/1 f4", key="F major")
    staying = Stretch(Fraction(0), Fraction(4), own.changes[0].chord, None)
    found = set_up(Fraction(7), time, parse_chord("Fmaj7"), Key.parse("F"), staying)
    assert [stretch.start - 7 for stretch in found] == places
    assert [stretch.end for stretch in found] == [
        *(stretch.start for stretch in found[1:]),
        7 + time.bar_quarters,
    ]
    assert [stretch.chord.text for stretch in found] == ["Gm7", "C7"][-len(places) :]
    assert [str(stretch.scale) for stretch in found] == ["G dorian", "C mixolydian"][-len(places) :]


def test_where_nothing_leads_the_chord_stays() -> None:
    staying = Stretch(Fraction(0), Fraction(4), parse_chord("Fmaj7"), None)
    found = set_up(Fraction(8), Metre(), parse_chord("N.C."), Key.parse("F"), staying)
    assert found == (Stretch(Fraction(8), Fraction(12), parse_chord("Fmaj7"), None),)


@pytest.mark.parametrize(
    ("changes", "key", "last"),
    [
        pytest.param("Dm7 | G7 | Cmaj7", "C major", "Cmaj7", id="already home"),
        pytest.param("Cmaj7 | A7 | Dm7 | G7", "C major", "Cmaj7", id="home again"),
        pytest.param("Dm7 | G7", "C major", "C6", id="the tonic that was promised"),
        pytest.param("Dm7b5 | G7b9", "C minor", "Cm6", id="the same in minor"),
        pytest.param("C7 | G7sus4", "C major", "C6", id="a dominant on the tonic is no home"),
        pytest.param("Cm7 | Bdim7", "C minor", "Cm7", id="after a diminished chord"),
        pytest.param("F7 | C7", "C major", "C7", id="a blues stays on its tonic's seventh"),
        pytest.param("G7 | G7", "C major", "G7", id="one chord stays"),
        pytest.param("G7 | G13", "C major", "G13", id="one root stays"),
        pytest.param("G7 | Dm7", "C major", "Dm7", id="what is no dominant stays"),
        pytest.param("Fm7 | Em7b5", "C major", "Em7b5", id="a half-diminished chord stays"),
        pytest.param("G7 | N.C.", "C major", "N.C.", id="silence stays"),
        pytest.param("N.C. | G7", "C major", "C6", id="from silence home"),
    ],
)
def test_on_which_chord_a_track_ends(changes: str, key: str, last: str) -> None:
    line = " | ".join(["1/1 -"] * len(changes.split("|")))
    own = phrase(changes, line, key=key)
    stretches = [
        Stretch(Fraction(4 * at), Fraction(4 * at + 4), change.chord, None)
        for at, change in enumerate(own.changes)
    ]
    found = last_chord(own, stretches)
    assert found.chord.text == last
    assert (found.start, found.end) == (stretches[-1].start, stretches[-1].end)
