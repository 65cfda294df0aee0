"""Drills against the tables of scales, and as a player meets them: breath, turns, ends, length.

Source of the scales: `theory/tables/scales.py`, which is checked against published lists; of how a drill is
played, common practice.
"""

from __future__ import annotations

from itertools import pairwise

import pytest

from shedbook.draft.drill_names import drill_named
from shedbook.draft.drills import LONGEST_BREATH, MOST_BARS, USUAL_BARS, DrillOrder, drill
from shedbook.draft.ground import TICKS
from shedbook.draft.tables.drill_patterns import PATTERNS
from shedbook.draft.writing import midi_of, rhythm_of
from shedbook.errors import NotationError, UnknownNameError
from shedbook.phrase.model import Phrase, sounding_notes
from shedbook.theory.pitch import NoteName
from shedbook.theory.scale import Scale, scale_row

SCALES = (
    "ionian",
    "dorian",
    "altered",
    "melodic minor",
    "half-whole diminished",
    "whole tone",
    "blues",
    "bebop dominant",
)
PLAIN = [row.name for row in PATTERNS if row.kind == "cells"]
DECORATED = ("enclosed", "from below")


def drills() -> list[tuple[str, str]]:
    symmetric = ("half-whole diminished", "whole-half diminished", "whole tone", "augmented")
    found = [(scale, row.name) for scale in SCALES for row in PATTERNS if row.kind != "symmetric"]
    return [*found, *[(scale, "symmetric cells") for scale in symmetric]]


def made(scale: str, pattern: str) -> Phrase:
    return drill(drill_named(f"{scale} {pattern}"))


@pytest.mark.parametrize(("scale", "pattern"), drills())
def test_a_drill_is_its_scale_and_can_be_played(scale: str, pattern: str) -> None:
    phrase = made(scale, pattern)
    midi, rhythm = midi_of(phrase), rhythm_of(phrase)
    classes = Scale(NoteName(0), scale_row(scale)).pitch_classes
    if pattern not in DECORATED:
        assert {note % 12 for note in midi} == classes
    else:
        assert {note % 12 for note in midi} >= classes
    assert midi[-1] == min(note for note in midi if note % 12 == 0)
    assert phrase.full_bars <= USUAL_BARS + (2 if pattern == "enclosed" else 0)
    longest = rhythm.ends[-1] - rhythm.onsets[-1]
    assert longest >= TICKS or pattern in DECORATED
    since = 0
    for rest in rhythm.rests:
        since = 1 if rest else since + 1
        assert since <= 2 * LONGEST_BREATH
    assert all(mark == "accent" for note in sounding_notes(phrase) for mark in note.marks)


@pytest.mark.parametrize(
    ("text", "line"),
    [
        ("ionian up and down", (60, 62, 64, 65, 67, 69, 71, 72, 74)),
        ("ionian in thirds", (60, 64, 62, 65, 64, 67)),
        ("dorian in triads", (60, 63, 67, 62, 65, 69)),
        ("ionian 1 2 3 5", (60, 62, 64, 67, 62, 64, 65, 69)),
        ("mixolydian in seventh chords", (60, 64, 67, 70, 62, 65, 69, 72)),
        ("ionian enclosed", (62, 59, 60, 64, 61, 62)),
        ("ionian from below", (59, 60, 61, 62, 63, 64)),
        ("half-whole diminished symmetric cells", (60, 63, 61, 64, 63, 66, 64, 67)),
        ("dorian 1 3 2 5", (60, 63, 62, 67, 62, 65)),
    ],
)
def test_patterns_begin_as_players_know_them(text: str, line: tuple[int, ...]) -> None:
    assert midi_of(drill(drill_named(text)))[: len(line)] == line


@pytest.mark.parametrize("pattern", PLAIN)
def test_the_way_down_is_the_way_up_turned_over(pattern: str) -> None:
    """The moves of the way down are those of the way up with the other sign."""
    midi = midi_of(made("whole tone", pattern))
    top = midi.index(max(midi))
    up = [after - before for before, after in pairwise(midi[:top])]
    down = [after - before for before, after in pairwise(midi[top + 1 :])]
    size = next(len(row.cell) for row in PATTERNS if row.name == pattern)
    assert [-one for one in up[: size - 1]] == down[: size - 1]


@pytest.mark.parametrize("every", [3, 5, 7])
def test_groups_are_accented_across_the_beat(every: int) -> None:
    name = {3: "three", 5: "five", 7: "seven"}[every]
    notes = sounding_notes(made("dorian", f"grouped in {name}"))
    accented = [at for at, note in enumerate(notes) if note.marks]
    assert accented[:2] == [0, every]
    assert all(at % every == 0 for at in accented)


def test_over_the_whole_range_of_an_instrument() -> None:
    order = DrillOrder(low=49, high=80, whole=True)
    midi = midi_of(drill(drill_named("ionian up and down"), order))
    assert (midi[0], max(midi), min(midi), midi[-1]) == (60, 79, 50, 60)


def test_groups_through_a_progression_begin_on_roots() -> None:
    phrase = drill(drill_named("1 2 3 5 through ii-V-I in Bb"))
    roots = dict(zip(rhythm_of(phrase).onsets, midi_of(phrase), strict=True))
    assert [roots[bar * 48] % 12 for bar in range(3)] == [0, 5, 10]
    assert phrase.full_bars == 4


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("sweet in thirds", "does not begin with a scale"),
        ("dorian in elevenths", "no pattern"),
        ("dorian", "does not begin with a scale"),
        ("", "does not begin with a scale"),
        ("1 2 3 5 through the park", "no progression"),
        ("dorian 1 9 9 9 9 9 9 9 9 9", "no pattern"),
    ],
)
def test_names_that_are_none_are_told(text: str, said: str) -> None:
    with pytest.raises(UnknownNameError, match=said):
        drill_named(text)


def test_ranges_that_are_too_narrow_and_scales_that_do_not_repeat_are_told() -> None:
    with pytest.raises(NotationError, match="less than an octave"):
        drill(drill_named("dorian in thirds"), DrillOrder(low=60, high=66))
    with pytest.raises(NotationError, match="symmetric scale"):
        drill(drill_named("dorian symmetric cells"))
    with pytest.raises(NotationError, match=f"more than {MOST_BARS} bars"):
        drill(drill_named("1 2 3 5 through thirty-two bars"))
