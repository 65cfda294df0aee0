"""From quarters to ticks, and how notes are kept apart. Source of every check: our own design."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shedbook.sound.feels.known_feels import feel_named
from shedbook.sound.score.performance import Performance, PlayedNote, TempoFrom, _untangled, to_ticks
from shedbook.sound.score.written_score import KeyAt, Score, Sign, TempoAt
from shedbook.theory.key import Key
from shedbook.theory.metre import Metre


@given(st.fractions(min_value=-64, max_value=64, max_denominator=5000))
def test_a_place_is_the_nearest_tick(place: Fraction) -> None:
    """The later of two that are alike near."""
    assert Fraction(-1, 2) <= 960 * place - to_ticks(place) < Fraction(1, 2)


played_notes = st.lists(
    st.builds(
        lambda start, length, midi: PlayedNote(start, start + length, midi, 80),
        st.integers(0, 60), st.integers(1, 30), st.sampled_from([60, 61, 64]),
    ),
    max_size=12,
)  # fmt: skip


@given(played_notes, st.booleans())
def test_no_two_notes_of_a_key_overlap(notes: list[PlayedNote], mono: bool) -> None:
    """Nor any two where one is played at a time; each place keeps a note, and none is longer than it was."""
    found = _untangled(notes, mono=mono)
    assert {note.start for note in found} == {note.start for note in notes}
    for key in (None,) if mono else {note.midi for note in notes}:
        own = [note for note in found if key in (None, note.midi)]
        assert all(one.start < two.start and one.end <= two.start for one, two in pairwise(own))
    assert all(note.start < note.end for note in found)
    ends = {(note.start, note.midi): note.end for note in sorted(notes, key=lambda note: note.end)}
    assert all(note.end <= ends[note.start, note.midi] for note in found)


def test_a_line_leaves_a_little_air_before_its_next_note() -> None:
    """Four ticks; where two begin together the lower one, and of one key the longer one, is played."""
    rows = [
        PlayedNote(0, 100, 60, 80),
        PlayedNote(100, 200, 62, 80),
        PlayedNote(202, 300, 64, 80),
        PlayedNote(204, 300, 65, 80),
    ]
    assert [note.end for note in _untangled(rows, mono=True)] == [96, 198, 203, 300]
    assert [note.end for note in _untangled(rows, mono=False)] == [100, 200, 300, 300]
    same = [PlayedNote(0, 50, 62, 80), PlayedNote(0, 90, 60, 80), PlayedNote(0, 70, 60, 80)]
    assert _untangled(same, mono=True) == (same[1],)
    assert _untangled(same, mono=False) == (same[1], same[0])


LATER = (TempoFrom(960, 250_000, 240), TempoFrom(1920, 1_000_000, 60))


@pytest.mark.parametrize(
    ("tick", "seconds"), [(0, 0), (480, 0.25), (960, 0.5), (1440, 0.625), (1920, 0.75), (2880, 1.75)]
)
def test_when_a_tick_sounds(tick: int, seconds: float) -> None:
    """120 for a quarter, then 240, then 60."""
    played = Performance("A test", (), 2880, 500_000, Metre(), (), (), later=LATER)
    assert played.seconds_at(tick) == pytest.approx(seconds)
    assert played.seconds == pytest.approx(1.75)


def test_the_band_comes_in_after_the_count() -> None:
    signs = tuple(Sign(Fraction(at), text) for at, text in ((0, "count-in"), (4, "round"), (4, "Dm7")))
    assert Performance("A test", (), 9600, 500_000, Metre(), (), signs).band_tick == 3840
    assert Performance("A test", (), 9600, 500_000, Metre(), (), signs[:1]).band_tick == 0


def test_a_score_knows_its_tempos_and_how_long_it_lasts() -> None:
    """Four quarters at 60, four at 120, two at 240: 4, 2 and half a second."""
    later = (TempoAt(Fraction(4), Fraction(120), 120), TempoAt(Fraction(8), Fraction(240), 240))
    key = KeyAt(Fraction(0), Key.parse("C"))
    score = Score(
        "A test", (), Fraction(10), Fraction(60), Metre(), feel_named("swing"), (key,), later_tempos=later
    )
    assert score.seconds == pytest.approx(6.5)
    places = (Fraction(0), Fraction(7, 2), Fraction(4), Fraction(15, 2), Fraction(8), Fraction(99))
    assert [score.tempo_at(place) for place in places] == [60, 60, 120, 120, 240, 240]
