"""The voice that counts: a program stands in for the system's; the real one is asked where it is."""

from __future__ import annotations

import shutil
import sys
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
import soundfile

from shedbook.book.ground.tables.languages import SHIPPED
from shedbook.errors import SoundError
from shedbook.sound.arranging.arrangement import Order
from shedbook.sound.audio import voice_door
from shedbook.sound.audio.rendering import counted_by, rendered, stems_of
from shedbook.sound.audio.spoken_count import said, spoken_count
from shedbook.sound.audio.tables.formats import RATE_HZ
from shedbook.sound.audio.tables.voices import FILLED, HEARD_AT, PROGRAM, VOICES
from shedbook.sound.players.drums import counted
from shedbook.sound.score.written_score import DRUMS
from shedbook.theory.metre import Metre
from sound.studio import best, played

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="a shell script stands in for the program")
TONE = 0.3
QUIET = 0.05


@pytest.fixture
def voice(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A program that says every number as a tone of 0.3 s after 0.05 s of silence, in 22,050 Hz."""
    place = np.arange(round(22050 * TONE)) / 22050
    tone = 0.5 * np.sin(2 * np.pi * 440 * place)
    soundfile.write(tmp_path / "word.wav", np.concatenate([np.zeros(round(22050 * QUIET)), tone]), 22050)
    program = tmp_path / PROGRAM
    program.write_text(f'#!/bin/sh\necho "$@" >> {tmp_path}/asked\ncat {tmp_path}/word.wav\n')
    program.chmod(0o755)
    monkeypatch.setenv("PATH", f"{tmp_path}:/bin:/usr/bin")
    said.cache_clear()
    return tmp_path


def test_numbers_of_two_bars() -> None:
    """Common practice: half notes, then quarters; dotted quarters in 6/8."""
    numbers = [(float(place), number) for place, number in counted(Metre(4, 4), 2)]
    assert numbers == [(0, 1), (2, 2), (4, 1), (5, 2), (6, 3), (7, 4)]
    assert [number for _, number in counted(Metre(6, 8), 2)] == [1, 2, 1, 2]
    assert [number for _, number in counted(Metre(3, 4), 1)] == [1, 2, 3]


def test_every_number_is_heard_on_its_beat(voice: Path) -> None:
    """A word is heard to begin at a share of its greatest level: there the beat is; within 10 ms."""
    found = spoken_count([(0.5, 1), (1.25, 2), (2.0, 3)], 3.0)
    assert len(found) == 3 * RATE_HZ
    level = np.convolve(found * found, np.ones(480) / 480, "same") ** 0.5
    loud = level > HEARD_AT * level.max()
    starts = np.flatnonzero(loud[1:] & ~loud[:-1]) / RATE_HZ
    assert starts == pytest.approx([0.5, 1.25, 2.0], abs=0.01)
    assert [line.split()[-1] for line in (voice / "asked").read_text().splitlines()] == ["1", "2", "3"]


@pytest.mark.parametrize(
    ("language", "asked"),
    [("de", "de"), ("fr", "fr"), ("es", "es"), ("pt-BR", "pt"), ("en-GB", "en"), ("sv", "en")],
)
def test_the_book_s_language_counts_and_english_where_the_book_has_another(
    voice: Path, language: str, asked: str
) -> None:
    spoken_count([(0.5, 1)], 2.0, language)
    words = (voice / "asked").read_text().split()
    assert words[words.index("-v") + 1] == asked


def test_every_language_that_ships_has_a_voice() -> None:
    assert set(VOICES) == {"en", *SHIPPED}


def test_a_word_gives_way_to_the_next_beat(voice: Path) -> None:
    """The program says no word faster than in 0.3 s; so it is cut, and fades."""
    found = spoken_count([(0.5, 1), (0.6, 2)], 2.0)
    assert not found[round(0.59 * RATE_HZ) : round(0.594 * RATE_HZ)].any()


def test_strokes_stay_or_go(voice: Path) -> None:
    performance = played(0, Order(count_in=1))
    first = performance.band_tick

    def strokes(count: str) -> int:
        counted, heard = counted_by(performance, count)
        assert heard is not None
        assert len(heard) == round(performance.seconds_at(first) * RATE_HZ)
        drums = next(part for part in counted.parts if part.player == DRUMS)
        return sum(note.start < first - 240 for note in drums.notes)

    assert (strokes("both"), strokes("spoken")) == (4, 0)
    assert counted_by(performance, "struck") == (performance, None)


def test_the_voice_is_heard_before_the_band_only_and_as_loud(voice: Path) -> None:
    performance = played(0, Order(count_in=1))
    stems = stems_of(performance, best(), count="spoken")
    without = rendered(performance, best(), count="spoken", without=("line", "bass", "comping"))
    silent = replace(performance, counted=())
    plain = rendered(silent, best(), without=("line", "bass", "comping"))
    assert np.abs(without[: stems.first]).max() > 0.05
    assert np.allclose(without[stems.first + RATE_HZ :], plain[stems.first + RATE_HZ :], atol=0.02)


def test_without_a_program_it_is_said(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("shutil.which", lambda name: None)
    with pytest.raises(SoundError, match="espeak-ng is not installed") as caught:
        spoken_count([(0, 1)], 1.0)
    assert "struck" in caught.value.hint


def test_a_program_that_fails_is_said(voice: Path) -> None:
    (voice / PROGRAM).write_text("#!/bin/sh\nexit 1\n")
    with pytest.raises(SoundError, match="does not speak"):
        spoken_count([(0, 1)], 1.0)


@pytest.mark.skipif(shutil.which(PROGRAM) is None, reason="espeak-ng is not installed")
def test_the_real_program_says_numbers_apart() -> None:
    place = voice_door.voice_there()
    words = [said(place, "en", number, 0.6) for number in (1, 2, 3, 4)]
    assert all(0.1 < len(word.samples) / RATE_HZ < 0.7 for word in words)
    assert len({word.samples.tobytes() for word in words}) == 4
    assert voice_door.voice_version(place).startswith("eSpeak NG")


@pytest.mark.skipif(shutil.which(PROGRAM) is None, reason="espeak-ng is not installed")
@pytest.mark.parametrize("language", sorted(VOICES))
def test_the_real_program_has_each_voice_and_ends_each_word_in_time(language: str) -> None:
    """At 200 beats a minute no number of the five languages is cut; each language says its own words."""
    place, ours = voice_door.voice_there(), voice_door.voice_of(language)
    words = [said(place, ours, number, 0.3) for number in (1, 2, 3, 4)]
    assert all((len(word.samples) - word.beat) / RATE_HZ < 0.3 * FILLED - 0.001 for word in words)
    others = [said(place, one, 3, 0.3).samples for one in VOICES.values() if one != ours]
    assert all(not np.array_equal(words[2].samples, other) for other in others)
