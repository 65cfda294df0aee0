from __future__ import annotations

from difflib import SequenceMatcher
from pathlib import Path

import numpy as np
import pytest
import soundfile

from book.verbs.test_takes import recorded
from listen.tones import HIGH_TIDE, LOW_TIDE, RATE, tones_of
from shedbook.book.manuscript.opening import open_manuscript
from shedbook.book.verbs.transcribe import (
    TranscribeOrder,
    comparison,
    midi_of,
    notes_in,
    transcribe,
    why_unsure,
)
from shedbook.errors import ReadError, SoundError
from shedbook.exchange.midi.file_bytes import parse_midi
from shedbook.listen.lines import PlayedNote
from shedbook.listen.sound_pieces import hear
from shedbook.phrase.model import Phrase, sounding_notes
from shedbook.sound.audio.synthesiser import synth_for

CHANGES = "Dm7b5 | G7b9 | Cm6"


def melody(phrase: Phrase) -> list[tuple[int, object]]:
    return [(note.pitch.midi, note.start) for note in sounding_notes(phrase)]


@pytest.mark.parametrize("ratio", [1.0, 2.0])
def test_a_played_line_is_written_as_it_was(tmp_path: Path, ratio: float) -> None:
    file = recorded(tmp_path / "line.wav", tones_of(LOW_TIDE, ratio=ratio, start=1.0))
    done = transcribe(TranscribeOrder(file, tempo=120, changes=CHANGES, click_s=1.0))
    (phrase,) = done.phrases
    assert melody(phrase) == melody(LOW_TIDE)
    assert phrase.feel == ("swing" if ratio > 1 else "straight")


def test_without_a_click_the_rhythm_is_the_same_up_to_the_bar_line(tmp_path: Path) -> None:
    file = recorded(tmp_path / "line.wav", tones_of(HIGH_TIDE))
    (phrase,) = transcribe(TranscribeOrder(file, tempo=120)).phrases
    found, true = melody(phrase), melody(HIGH_TIDE)
    assert [midi for midi, _ in found] == [midi for midi, _ in true]
    shift = found[0][1] - true[0][1]  # type: ignore[operator]
    assert [place - shift for _, place in found] == [place for _, place in true]


def test_phrases_go_into_a_manuscript_and_can_be_opened(tmp_path: Path) -> None:
    file = recorded(tmp_path / "line.wav", tones_of(LOW_TIDE, start=1.0))
    done = transcribe(TranscribeOrder(file, tempo=120, changes=CHANGES, click_s=1.0, into=tmp_path / "book"))
    assert done.brought.phrases[0].path.is_file()
    assert len(open_manuscript(tmp_path / "book").phrases) == 1


def test_a_long_line_becomes_several_phrases(tmp_path: Path) -> None:
    tones = [
        tone
        for start in range(6)
        for tone in tones_of((LOW_TIDE, HIGH_TIDE)[start % 2], start=1.0 + 8.0 * start)
    ]
    file = recorded(tmp_path / "long.wav", tones)
    done = transcribe(TranscribeOrder(file, tempo=120, click_s=1.0))
    assert len(done.notes) == len(tones)
    assert len(done.phrases) >= 3
    assert all(phrase.full_bars <= 16 for phrase in done.phrases)


def test_a_note_between_two_pitches_is_to_be_looked_at(tmp_path: Path) -> None:
    tones = tones_of(LOW_TIDE, start=1.0)
    tones[16] = (tones[16][0], tones[16][1], tones[16][2] + 0.47)
    file = recorded(tmp_path / "line.wav", tones)
    done = transcribe(TranscribeOrder(file, tempo=120, changes=CHANGES, click_s=1.0))
    assert [one for one in done.unsure if abs(one.at_s - tones[16][0]) < 0.03]


@pytest.mark.parametrize(
    ("seconds", "cents", "doubt", "why"),
    [
        (0.5, None, 0.0, ""),
        (0.5, 42.0, 0.55, ""),
        (0.5, -42.0, 0.55, ""),
        (0.5, 42.5, 0.0, "two pitches"),
        (0.5, -45.0, 0.9, "two pitches"),
        (0.5, 3.0, 0.56, "hard to hear"),
        (0.5, None, 0.9, "hard to hear"),
        (0.02, 45.0, 0.9, "very short"),
    ],
)
def test_why_a_note_is_to_be_looked_at(seconds: float, cents: float | None, doubt: float, why: str) -> None:
    """Half way between two pitches are 50 cents; the borders are the project's choice."""
    found = why_unsure(PlayedNote(1.0, 1.0 + seconds, 60, cents, doubt))
    assert why in found
    assert bool(found) is bool(why)


def test_every_note_heard_is_true_to_its_time_and_pitch() -> None:
    from listen.tones import sound_of  # noqa: PLC0415 - beside what uses it

    tones = tones_of(LOW_TIDE)
    notes = notes_in(hear([sound_of(tones)], RATE, 2))
    assert [note.midi for note in notes] == [midi for _, _, midi in tones]
    for note, (start, end, _) in zip(notes, tones, strict=True):
        assert note.start_s == pytest.approx(start, abs=0.02)
        assert note.end_s == pytest.approx(end, abs=0.06)


def test_the_midi_file_counts_milliseconds() -> None:
    """SMF 1.0: a negative division of 25 frames of 40 ticks."""
    notes = (PlayedNote(0.5, 0.9, 60, None, 0), PlayedNote(1.25, 1.5, 62, None, 0))
    file = parse_midi(midi_of(notes))
    assert file.ticks_per_second == 1000
    assert [(note.start, note.end, note.key) for note in file.tracks[0].notes] == [
        (500, 900, 60),
        (1250, 1500, 62),
    ]


def test_noise_holds_no_line(tmp_path: Path) -> None:
    noise = np.random.default_rng(1).normal(0, 0.05, (RATE, 2))
    soundfile.write(tmp_path / "noise.wav", noise, RATE)
    with pytest.raises(ReadError, match="no line"):
        transcribe(TranscribeOrder(tmp_path / "noise.wav"))


def test_a_click_needs_its_tempo(tmp_path: Path) -> None:
    file = recorded(tmp_path / "line.wav", tones_of(LOW_TIDE))
    with pytest.raises(ReadError, match="without its tempo"):
        transcribe(TranscribeOrder(file, click_s=0.5))


def test_the_copy_has_the_recording_left_and_the_notes_right(tmp_path: Path) -> None:
    try:
        synth_for()
    except SoundError as error:
        pytest.skip(str(error))
    tones = tones_of(LOW_TIDE, start=1.0)
    file = recorded(tmp_path / "line.wav", tones)
    done = transcribe(TranscribeOrder(file, tempo=120))
    both = comparison(file, done)
    true = [midi for _, _, midi in tones]
    for side in (0, 1):
        notes = [note.midi for note in notes_in(hear([both[:, side : side + 1]], RATE, 1))]
        assert SequenceMatcher(None, notes, true).ratio() > 0.9
