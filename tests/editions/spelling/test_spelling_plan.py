"""What there is to decide about names: which notes are struck, and what written intervals cost."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from music21 import interval as m21_interval
from music21 import pitch as m21_pitch

from shedbook.editions.cost_table import costs_by_name
from shedbook.editions.spelling.spelling_plan import (
    SIDE,
    _again_cost,
    _interval_cost,
    _side_cost,
    _wrapped_cost,
    plan_spelling,
)
from shedbook.editions.tables.spelling_costs import NOTE_COSTS
from shedbook.phrase.model import Phrase
from shedbook.theory.pitch import NoteName

Make = Callable[..., Phrase]
COST = costs_by_name(NOTE_COSTS)
PLAIN = [NoteName(place) for place in range(-8, 13)]
# The written intervals by their names in music21; seconds, thirds and the like, up or down.
BY_NAME = {
    "augmented unison": "chromatic half step", "diminished unison": "chromatic half step",
    "diminished octave": "chromatic half step",
    "augmented second": "augmented or diminished", "diminished seventh": "augmented or diminished",
    "augmented fifth": "augmented or diminished", "diminished fourth": "augmented or diminished",
    "diminished third": "diminished third", "augmented sixth": "diminished third",
    "augmented third": "augmented third", "diminished sixth": "augmented third",
    "diminished second": "one pitch two names", "augmented seventh": "one pitch two names",
}  # fmt: skip


def said(one: NoteName, other: NoteName) -> str:
    """Return what music21 calls the interval from one name up to the other, within an octave."""
    low, high = (m21_pitch.Pitch(str(name).replace("b", "-") + "4") for name in (one, other))
    if high.diatonicNoteNum < low.diatonicNoteNum:
        high.octave = 5
    return str(m21_interval.Interval(low, high).niceName).lower()


def test_what_a_written_interval_costs() -> None:
    for one in PLAIN:
        for other in PLAIN:
            name = said(one, other)
            plain = name.startswith(("perfect", "major", "minor")) or name in (
                "augmented fourth",
                "diminished fifth",
            )
            row = BY_NAME.get(name, "beyond")
            expected = 0 if plain else COST[row]
            assert _interval_cost(one.fifths, other.fifths) == expected, (str(one), str(other), name)
            wrapped = COST["one pitch two names"] if row == "one pitch two names" and not plain else 0
            assert _wrapped_cost(one.fifths, other.fifths) == wrapped, (str(one), str(other), name)
            assert _again_cost(one.fifths, other.fifths) == (0 if one == other else COST["renamed in bar"])


@pytest.mark.parametrize("name", PLAIN, ids=str)
def test_a_sharp_is_against_a_bar_of_flats_and_a_flat_against_a_bar_of_sharps(name: NoteName) -> None:
    for side, sign in ((SIDE, "b"), (-SIDE, "#")):
        assert _side_cost(side, name.fifths) == (COST["mixed bar"] if sign in str(name) else 0)


@pytest.mark.parametrize(
    ("line", "struck"),
    [
        ("1/1 c#4 | + 1/1", [61]),  # the first note of all
        ("1/2 c4 d | + 1/2 -", [60, 62]),
        ("1/2 - grace:b3 c4 | 1/1 c", [59, 60, 60]),
        ("1/2 d4 c | + 1/4 c 1/2 d", [62, 60, 60, 62]),
    ],
)
def test_a_tied_note_is_struck_once(make: Make, line: str, struck: list[int]) -> None:
    layout = plan_spelling(make("C", "C | C", line))
    assert [one.midi for one in layout.struck] == struck


@pytest.mark.parametrize(
    ("line", "chord"),
    [
        ("1/8 e4 g b g e d c a#", 1),  # the third of F#7, on the last eighth
        ("1/8 e4 g b g e d 1/4 a#", 0),  # a quarter before the change is no anticipation
        ("1/8 e4 g b g e d c e", 0),  # a tone of Cmaj7 and not of F#7
        ("1/8 e4 g b g e d c d", 0),  # a tone of neither
        ("1/8 e4 g b g e d c c#5", 1),
        ("1/8 e4 g b g e d c grace:a# b", 0),  # the ornament goes with the next chord, and not its note
    ],
)
def test_what_is_struck_just_before_a_change_is_read_by_the_next_chord(
    make: Make, line: str, chord: int
) -> None:
    """Common practice: a tone of the next chord, and not of its own, anticipates it."""
    layout = plan_spelling(make("C", "Cmaj7 | F#7", f"{line} | 1/1 c#5"))
    assert layout.struck[-2].chord == chord
    assert layout.struck[-1].chord == 1
    if "grace" in line:
        assert layout.struck[-3].chord == 1
