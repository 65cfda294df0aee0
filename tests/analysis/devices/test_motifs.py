"""Motifs: cells in sequence, bars that come back, a note that stays [common practice]."""

from __future__ import annotations

import pytest

from analysis.helpers import read
from shedbook.analysis.devices.motifs import altered_echoes, cells_in_sequence, echoes, staying_note


@pytest.mark.parametrize(
    ("line", "cells"),
    [
        ("1/8 c5 d e c d e f# d", [(0, 4, 2, (2,), True)]),
        ("1/8 c5 d e c d e f d", [(0, 4, 2, (2,), False)]),  # inside the scale: a half step differs
        ("1/8 f5 d bb4 eb5 c ab4 db5 bb4", [(0, 3, 2, (-2,), True)]),
        ("1/4 c5 d e f", []),
        ("1/8 c5 d e f g a b c6", []),  # a piece of a scale is no cell
    ],
)
def test_cells(line: str, cells: list[tuple[int, int, int, tuple[int, ...], bool]]) -> None:
    found = cells_in_sequence(read("C7", line))
    assert [(one.first, one.cell, one.times, one.shifts, one.exact) for one in found] == cells


def test_a_cell_of_a_beat_and_a_half() -> None:
    (cell,) = cells_in_sequence(read("Bb7", "1/8 f5 d bb4 eb5 c ab4 db5 bb4"))
    assert cell.quarters * 2 == 3
    assert cell.last == 5


ONE = "1/8 c5 d eb d c4 eb g c5"


@pytest.mark.parametrize(
    ("line", "found"),
    [
        (f"{ONE} | 1/8 d5 e f e d4 f a d5", [((1, 2), 1, 8, 2, True)]),
        (f"{ONE} | {ONE}", [((1, 2), 1, 8, 0, True)]),
        ("1/8 c5 d eb d c4 eb g c5 | 1/8 d5 e f e d4 1/4. a4", [((1, 2), 1, 5, 2, False)]),
        (f"{ONE} | 1/8 d5 e f e 1/2 a4", []),  # four notes alike are too few
        (f"{ONE} | 1/8 d5 e 1/4 f 1/8 e d4 f d5", []),  # another rhythm
        (f"{ONE} | 1/1 g4 | 1/8 bb4 c5 db c bb3 db4 f bb4 | 1/1 f4", [((1, 3), 2, 9, -2, True)]),
    ],
)
def test_bars_that_come_back(line: str, found: list[object]) -> None:
    changes = " | ".join(["Cm7"] * (line.count("|") + 1))
    told = [
        (one.bars, one.length, one.notes, one.semitones, one.whole) for one in echoes(read(changes, line))
    ]
    assert told == found


@pytest.mark.parametrize(
    ("line", "found"),
    [
        ("1/4 c5 a4 f# d | c5 a4 f d", [((1, 2), (2,), (6,))]),
        ("1/4 c5 a4 f# d | c5 a4 d d", []),  # a major third is another note
        ("1/4 c5 a4 f# d | c5 a4 f# d", []),  # nothing differs
        ("1/4 c5 a4 f# d | c#5 a#4 f d", []),  # three differ
        ("1/4 c5 a4 f# d | 1/2 c5 1/8 a4 f 1/4 d", []),  # another rhythm
    ],
)
def test_bars_that_come_back_altered(line: str, found: list[object]) -> None:
    told = [(one.bars, one.old, one.new) for one in altered_echoes(read("D7 | Dm7", line))]
    assert told == found


@pytest.mark.parametrize(
    ("changes", "line", "notes"),
    [
        ("Bb | G7 | Cm7", "1/2 d5 f | d5 g | d5 c", (0, 2, 4)),
        ("Bb | G7", "1/2 d5 f | d5 g", ()),  # two chords
        ("Bb | G7 | Cm7", "1/2 d5 f | d4 g | d5 c", ()),  # another octave is another pitch
        ("Bb | G7 | Cm7", "1/8 d5 f d f bb f bb f | d5 b4 g b d5 b4 g b | 1/2 d5 c", ()),  # not often enough
        ("Bb | Bb | Bb", "1/1 d5 | d5 | d5", ()),  # one chord
    ],
)
def test_a_note_that_stays(changes: str, line: str, notes: tuple[int, ...]) -> None:
    assert staying_note(read(changes, line)) == notes
