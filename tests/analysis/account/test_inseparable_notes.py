"""Notes that are heard as one, and may not be parted by an octave. Source: common practice."""

from __future__ import annotations

import pytest

from analysis.helpers import read
from shedbook.analysis.account.inseparable_notes import inseparable_notes


@pytest.mark.parametrize(
    ("line", "pair"),
    [
        pytest.param("1/8 c4 e4 g4 b4 a4 g4 f4 e4", (0, 3), id="an arpeggio from its first to its last note"),
        pytest.param("1/8 c4 g4 d4 b3 1/2 c4", (2, 4), id="an enclosure with its target"),
        pytest.param("1/8 c5 d#4 g4 e4 1/2 c4", (1, 3), id="a delayed resolution"),
        pytest.param("1/4 c5 1/8 d#4 e 1/2 g", (1, 2), id="an approach with its target"),
    ],
)
def test_what_is_one_gesture_stays_together(line: str, pair: tuple[int, int]) -> None:
    assert pair in inseparable_notes(read("Cmaj7", line, "ionian"))


def test_chord_tones_by_themselves_are_free() -> None:
    assert inseparable_notes(read("Cmaj7", "1/2 c4 g4", "ionian")) == ()


def test_a_run_may_be_parted_between_its_plain_notes() -> None:
    pairs = inseparable_notes(read("Cmaj7", "1/8 c4 d e f g a b c5", "ionian"))
    assert (0, 7) not in pairs
    assert list(pairs) == sorted(pairs)
