"""Guide-tone lines: sevenths that fall to thirds, a third or seventh for each chord [common practice]."""

from __future__ import annotations

from itertools import pairwise, product

import pytest

from analysis.helpers import read
from analysis.telling.made_lines import made_phrases
from shedbook.analysis.account import Account, account
from shedbook.analysis.devices.guide_lines import GuideFall, guide_falls, guide_line


@pytest.mark.parametrize(
    ("changes", "line", "falls"),
    [
        ("Dm7 | G7 | C", "1/2 f4 c5 | b4 f | 1/1 e4", [GuideFall(1, 2, False), GuideFall(3, 4, False)]),
        ("Dm7 | G7", "1/4 f4 a c5 d | 1/1 b4", [GuideFall(2, 4, True)]),  # one note late
        ("G7sus4 | C", "1/2 d5 c | 1/1 e5", []),  # the fourth leaps
        ("G7sus4 | Cmaj7", "1/2 d5 f | 1/1 e5", [GuideFall(1, 2, False)]),  # its seventh falls
        ("Dm7 | G7", "1/1 a4 | d5", []),
        ("C7", "1/1 bb4", []),
        ("N.C. | C", "1/1 f4 | e4", []),
    ],
)
def test_sevenths_that_fall(changes: str, line: str, falls: list[GuideFall]) -> None:
    assert list(guide_falls(read(changes, line))) == falls


@pytest.mark.parametrize(
    ("changes", "line", "notes"),
    [
        ("Dm7 | G7 | Cmaj7", "1/2 c5 a4 | b4 d5 | 1/1 b4", (0, 2, 4)),  # C B B
        ("Dm7 | G7 | Cmaj7", "1/2 f4 a4 | f4 d5 | 1/1 e4", (0, 2, 4)),  # F F E
        ("Dm7 | G7 | C6", "1/2 c5 f4 | b4 g | 1/1 a4", (0, 2, 4)),  # the sixth does what a seventh does
        ("Dm7 | G7", "1/2 c5 a4 | b4 g", ()),  # two chords are a crossing
        ("Dm7 | G7 | Cmaj7", "1/2 c5 a4 | g4 d5 | 1/1 b4", ()),  # none over G7
        ("Dm7 | G7 | Cmaj7", "1/2 c5 a4 | b4 d5 | 1/1 e5", ()),  # too far to E
        ("Am7 | F7 | C7", "1/1 g4 | c5 | bb4", ()),
    ],
)
def test_one_for_each_chord(changes: str, line: str, notes: tuple[int, ...]) -> None:
    assert guide_line(read(changes, line)) == notes


def brute_force(found: Account) -> tuple[int, int]:
    """Return the length and the least movement of the best line, over all rows of accented guide tones."""
    guides = ("3", "b3", "b7", "7", "bb7")
    layers = [
        [
            note
            for note in found.notes
            if note.span is span and note.in_chord and any(one.note == note.index and one.span == span.index
                                                           for one in found.landings)
            and (note.degree in guides or (note.degree == "6" and span.heard.seventh == "6"))
        ]
        for span in found.spans
    ]  # fmt: skip
    best = (0, 0)
    for first in range(len(layers)):
        for last in range(first + 2, len(layers)):
            for row in product(*layers[first : last + 1]):
                moves = [abs(b.midi - a.midi) for a, b in pairwise(row)]
                if max(moves) <= 2:
                    best = max(best, (len(row), -sum(moves)))
    return best


def test_no_other_line_is_longer_or_moves_less() -> None:
    for phrase in made_phrases(150, seed=3):
        found = account(phrase)
        line = guide_line(found)
        length, moved = brute_force(found)
        if moved == 0:  # all stay, or there is none
            assert line == () or len(line) == length
            continue
        assert len(line) == length
        midis = [found.notes[at].midi for at in line]
        assert -sum(abs(b - a) for a, b in pairwise(midis)) == moved
