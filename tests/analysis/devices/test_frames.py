"""Frames: chords that a line hangs on [common practice]."""

from __future__ import annotations

import pytest

from analysis.helpers import read
from shedbook.analysis.devices.frames import (
    arpeggios,
    fourths,
    frames,
    laid_triads,
    root_of_triad,
)


@pytest.mark.parametrize(
    ("changes", "line", "found"),
    [
        ("Am7", "1/8 c5 e g b a g e c", [(0, 3, 1, True, False)]),  # to the 9, in thirds
        ("C6", "1/8 c5 e g c6 1/2 a5", [(0, 3, 1, False, True)]),  # its own tones, not all in thirds
        ("C", "1/4 c5 g e c", []),  # a leap first, then three
        ("C7alt", "1/4 bb4 e5 ab5 c6", []),  # nobody calls that C7alt up and down
    ],
)
def test_arpeggios(changes: str, line: str, found: list[object]) -> None:
    told = [
        (one.first, one.last, one.direction, one.in_thirds, one.of_chord)
        for one in arpeggios(read(changes, line))
    ]
    assert told == found


@pytest.mark.parametrize(
    ("line", "found"),
    [
        ("1/4 g4 c5 f bb", [(0, 3, 1)]),
        ("1/4 bb5 f c g4", [(0, 3, -1)]),
        ("1/4 g4 c5 f b", []),
        ("1/8 a4 g c5 f bb ab g f", [(1, 4, 1)]),
        ("1/4 g4 c5 f -", []),
    ],
)
def test_fourths(line: str, found: list[object]) -> None:
    assert [(one.first, one.last, one.direction) for one in fourths(read("Cm7", line))] == found


@pytest.mark.parametrize(
    ("changes", "line", "found"),
    [
        (
            "A7b9 | %",
            "1/4 g5 1/8 f d# 1/4 e 1/8 d c | 1/4 c#5 1/8 b4 a 1/4 bb 1/8 g e",
            [((0, 3, 6, 9), -1, True)],
        ),
        (
            "G7 | %",
            "1/8 g4 a 1/4 g 1/8 b4 c5 1/4 b4 | 1/8 d5 e 1/4 d 1/8 f g 1/4 f",
            [((0, 3, 6, 9), 1, False)],
        ),
        ("G7 | %", "1/2 g4 b | d5 f", []),  # nothing fills it in
        (
            "G7 | %",
            "1/8 g4 a 1/4 g 1/8 b4 c5 1/4 b4 | 1/8 g5 e 1/4 d 1/8 f g 1/4 f",
            [],
        ),  # a tone is left out
        ("N.C. | %", "1/8 g4 a 1/4 g 1/8 b4 c5 1/4 b4 | 1/8 d5 e 1/4 d 1/8 f g 1/4 f", []),
    ],
)
def test_frames(changes: str, line: str, found: list[object]) -> None:
    assert [(one.notes, one.direction, one.diminished) for one in frames(read(changes, line))] == found


@pytest.mark.parametrize(
    ("changes", "scales", "line", "found"),
    [
        ("Eb7#11", "lydian dominant", "1/8 f5 a4 c5 bb4 1/2 g", [(0, 5, "major")]),
        ("C7", "", "1/8 c5 e g bb 1/2 c5", []),  # the chord itself
        ("Cm7", "dorian", "1/8 d5 f a c 1/2 c5", [(0, 2, "minor")]),
        ("C7", "mixolydian", "1/8 d5 e f d 1/2 c5", []),
    ],
)
def test_triads_laid_over(changes: str, scales: str, line: str, found: list[object]) -> None:
    assert [(one.first, one.root, one.quality) for one in laid_triads(read(changes, line, scales))] == found


def test_roots_of_triads() -> None:
    assert root_of_triad([4, 7, 0]) == (0, "major")
    assert root_of_triad([0, 9, 4]) == (9, "minor")
    assert root_of_triad([0, 3, 6]) is None
