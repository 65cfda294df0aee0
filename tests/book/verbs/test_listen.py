"""A phrase heard while it is written: when its notes sound. Swing and players are tested in tests/sound."""

from pathlib import Path

import numpy as np
import pytest
import soundfile

from shedbook.book.manuscript.settings.whole_book import Settings
from shedbook.book.verbs.listen import HIGHEST, LOWEST, listen, palette, timeline
from shedbook.errors import SoundError
from shedbook.phrase.fields import phrase_from_fields
from shedbook.phrase.model import sounding_notes
from shedbook.sound.audio.sound_fonts import find_font

FIELDS = {"changes": "Dm7 | G7", "line": "1/4 d5 f a c6 | 1/2 b5 g", "tempo": 120, "feel": "straight"}


def _font() -> bool:
    try:
        find_font()
    except SoundError:
        return False
    return True


needs_font = pytest.mark.skipif(not _font(), reason="there is no SoundFont on this machine")


@pytest.mark.parametrize("tempo", [None, 60])
def test_each_note_sounds_where_it_stands(tempo: int | None) -> None:
    phrase = phrase_from_fields(FIELDS)
    line = timeline(phrase, Settings(), tempo_bpm=tempo)
    beat = 60 / (tempo or 120)
    assert [one.note for one in line.notes] == list(range(6))
    for one, note in zip(line.notes, sounding_notes(phrase), strict=True):
        assert one.midi == note.pitch.midi
        assert abs(one.start_s - float(note.start) * beat) < 0.08  # players lie back and drift a little
    assert line.bars_s == pytest.approx((0, 4 * beat, 8 * beat), abs=0.001)


def test_a_pick_up_sounds_before_bar_one() -> None:
    phrase = phrase_from_fields({**FIELDS, "pickup": "1/4", "line": "1/4 c5 | " + FIELDS["line"]})  # type: ignore[operator]
    line = timeline(phrase, Settings())
    assert [one.note for one in line.notes] == list(range(7))
    assert line.notes[0].start_s < line.bars_s[0]


@needs_font
def test_the_band_sounds_when_it_is_said_to(tmp_path: Path) -> None:
    phrase = phrase_from_fields(FIELDS)
    heard = listen(phrase, Settings(), tmp_path)
    path = tmp_path / "band.wav"
    path.write_bytes(heard.wav)
    samples, rate = soundfile.read(path)
    assert heard.timeline.bars_s[0] == pytest.approx(2, abs=0.01)  # one bar is counted in
    assert len(samples) / rate > heard.timeline.bars_s[-1]
    assert np.abs(samples[int(2 * rate) : int(6 * rate)]).max() > 0.1
    loop = listen(phrase, Settings(), tmp_path, loop=True)
    assert loop.timeline.bars_s[0] == 0


@needs_font
def test_every_note_of_the_palette_sounds_at_its_pitch(tmp_path: Path) -> None:
    """The pitch is read from the spectrum; ISO 16: A4 is 440 Hz. Fonts are a few cents off."""
    found = palette(Settings(), tmp_path)
    path = tmp_path / "notes.wav"
    path.write_bytes(found.wav)
    samples, rate = soundfile.read(path)
    assert [midi for midi, _ in found.starts_s] == list(range(LOWEST, HIGHEST, 3))
    for midi, start in found.starts_s:
        note = samples[int((start + 0.3) * rate) : int((start + 1.5) * rate)]
        assert np.abs(note).max() > 0.1
        end = samples[int((start + found.each_s - 0.02) * rate) : int((start + found.each_s) * rate)]
        assert np.abs(end).max() < 0.3 * np.abs(note).max()  # it has died away before the next one begins
        hertz = 440 * 2 ** ((midi - 69) / 12)
        spectrum = np.abs(np.fft.rfft(note * np.hanning(len(note)), 8 * len(note)))
        bins = np.fft.rfftfreq(8 * len(note), 1 / rate)
        near = (bins > hertz / 1.04) & (bins < hertz * 1.04)
        peak = bins[near][spectrum[near].argmax()]
        assert abs(1200 * np.log2(peak / hertz)) < 35
