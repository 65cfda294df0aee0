"""When notes and bars sound in a track: against pretty_midi's reading of the same track."""

from __future__ import annotations

import io
from pathlib import Path

import pretty_midi
import pytest

from shedbook.book.lessons.track_moments import track_moments
from shedbook.book.manuscript.opening import open_manuscript
from shedbook.book.manuscript.source import read_phrase
from shedbook.phrase.model import sounding_notes
from shedbook.sound.arranging.order import Order
from shedbook.sound.score.midi_file import smf
from shedbook.sound.track import performance_of

DEMO = open_manuscript(Path(__file__).parents[3] / "examples/tidewater")


@pytest.mark.parametrize("number", [1, 7, 39, 59, 66, 79])
@pytest.mark.parametrize("rounds", [1, 3])
def test_every_note_of_every_round_sounds_when_a_midi_reader_says(number: int, rounds: int) -> None:
    phrase = read_phrase(DEMO.phrases[number - 1])
    performance = performance_of(phrase, Order(rounds=rounds))
    found = track_moments(phrase, performance)
    midi = pretty_midi.PrettyMIDI(io.BytesIO(smf(performance)))
    line = next(one for one in midi.instruments if not one.is_drum)
    starts = sorted(note.start for note in line.notes)
    notes = sounding_notes(phrase)
    assert len(found.notes) >= rounds * len(notes) - (rounds - 1) * sum(note.start < 0 for note in notes)
    for one in found.notes:
        assert min(abs(start - one.start_s) for start in starts) < 0.002
        pitch = notes[one.note].pitch.midi
        assert any(abs(note.start - one.start_s) < 0.002 and note.pitch == pitch for note in line.notes)


def test_bars_are_counted_from_the_first_round_on() -> None:
    phrase = read_phrase(DEMO.phrases[38])
    performance = performance_of(phrase, Order(rounds=2, count_in=1))
    found = track_moments(phrase, performance)
    bar = 4 * 60 / phrase.tempo_bpm
    numbered = [(one.number, one.start_s) for one in found.bars if one.number]
    assert [number for number, _ in numbered] == [1, 2, 3, 4] * 2
    for place, (_, start) in enumerate(numbered):
        assert start == pytest.approx((1 + place) * bar, abs=0.002)
    assert [one.title for one in found.chapters] == ["count-in", "1", "2"]
    assert found.bar_at(bar / 2) == 0
