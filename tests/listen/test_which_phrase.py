from __future__ import annotations

from fractions import Fraction
from functools import cache

import numpy as np
import pytest

from listen.tones import HIGH_TIDE, LOW_TIDE
from shedbook.listen.lines import PlayedNote, line_of
from shedbook.listen.which_phrase import likely_phrases

LINES = [line_of(LOW_TIDE), line_of(HIGH_TIDE)]


def notes(which: int, moved: int, left_out: int = 0) -> list[PlayedNote]:
    line = [one for at, one in enumerate(LINES[which].notes) if not left_out or at % left_out]
    return [PlayedNote(float(one.start / 2), float(one.end / 2), one.midi + moved, 0.0, 0.0) for one in line]


def best_value(heard: tuple[int, ...], written: tuple[int, ...]) -> float:
    """Return the value of the best alignment, by trying every one: 1 a pair, -1.2 an unlike one, -1 a gap."""

    @cache
    def value(at: int, place: int) -> float:
        if not at or not place:
            return -float(at + place)
        away = heard[at - 1] - written[place - 1]
        like = 1.0 if away in (-12, 0, 12) else -1.2
        return max(value(at - 1, place - 1) + like, value(at - 1, place) - 1, value(at, place - 1) - 1)

    return value(len(heard), len(written))


@pytest.mark.parametrize(("which", "moved", "left_out"), [(0, 0, 0), (0, 3, 5), (1, -2, 4), (1, 5, 7)])
def test_likeness_is_that_of_the_best_alignment(which: int, moved: int, left_out: int) -> None:
    played = notes(which, moved, left_out)
    (first, *_) = likely_phrases(played, LINES)
    assert (first.which, first.moved) == (which, moved)
    written = tuple(midi + moved for midi in LINES[which].midi)
    value = best_value(tuple(note.midi for note in played), written)
    assert first.likeness == pytest.approx(value / len(written))


def test_an_even_rhythm_adds_to_the_score_and_an_uneven_one_less() -> None:
    played = notes(0, 0)
    chance = np.random.default_rng(3)
    uneven = [note._replace(start_s=note.start_s + chance.uniform(0, 0.2)) for note in played]
    (even, *_), (other, *_) = (likely_phrases(one, LINES) for one in (played, uneven))
    assert even.score == pytest.approx(len(played) + 1.5)
    assert other.score < even.score
    assert other.likeness == even.likeness


def test_notes_of_another_line_are_like_none() -> None:
    other = [PlayedNote(at / 2, at / 2 + 0.4, 60 + at, 0.0, 0.0) for at in range(18)]
    assert likely_phrases(other, LINES) == ()
    assert LINES[0].notes[0].start == Fraction(0)
