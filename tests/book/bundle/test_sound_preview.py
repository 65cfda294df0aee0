"""Half a minute to listen to. Sources: EBU R 128 (peaks); common practice (its length)."""

from __future__ import annotations

import io
from pathlib import Path

import numpy as np
import soundfile

from shedbook.book.bundle.sound_preview import PREVIEW_SECONDS, sound_preview
from shedbook.sound.audio.loudness import loudness_lufs
from shedbook.sound.audio.tables.formats import RATE_HZ, TARGET_LUFS


def tone(path: Path, hertz: float, seconds: float) -> Path:
    wave = 0.2 * np.sin(2 * np.pi * hertz * np.arange(int(RATE_HZ * seconds)) / RATE_HZ)
    soundfile.write(path, np.stack([wave] * 2, axis=1), RATE_HZ)
    return path


def test_three_tracks_share_half_a_minute(tmp_path: Path) -> None:
    tracks = [tone(tmp_path / f"{number}.wav", 200.0 * number, 14) for number in (1, 2, 3, 4)]
    made = sound_preview(tracks, "Tides", "A. N.")
    assert made is not None
    samples, _ = soundfile.read(io.BytesIO(made))
    assert abs(len(samples) / RATE_HZ - PREVIEW_SECONDS) < 0.1
    assert abs(loudness_lufs(samples) - TARGET_LUFS) < 0.5
    for place, hertz in ((5, 200), (15, 400), (25, 600)):
        piece = samples[place * RATE_HZ : (place + 1) * RATE_HZ, 0]
        assert abs(int(np.argmax(np.abs(np.fft.rfft(piece)))) - hertz) <= 1
    assert sound_preview(tracks, "Tides", "A. N.") == made


def test_short_tracks_are_heard_whole_and_none_gives_nothing(tmp_path: Path) -> None:
    made = sound_preview([tone(tmp_path / "1.wav", 300, 4)], "Tides", "")
    assert made is not None
    assert abs(len(soundfile.read(io.BytesIO(made))[0]) / RATE_HZ - 4) < 0.1
    assert sound_preview([], "Tides", "") is None
