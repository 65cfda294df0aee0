"""The folder of the page, and the single notes of which it makes its sound."""

import json
import re
from io import BytesIO
from pathlib import Path

import numpy as np
import pytest
import soundfile
from numpy.typing import NDArray

from shedbook.book.practice.folder import SOUNDS, STATIC, scripts_there, write_folder
from shedbook.sound.arranging.tables.band_instruments import BAND_INSTRUMENTS

TABLE = json.loads((SOUNDS / "sounds.json").read_text(encoding="utf-8"))
INSTRUMENTS = TABLE["instruments"]


def test_every_instrument_of_the_band_has_its_notes() -> None:
    assert {row.name for row in BAND_INSTRUMENTS} <= INSTRUMENTS.keys()
    for row in BAND_INSTRUMENTS:
        assert INSTRUMENTS[row.name]["program"] == row.program


@pytest.mark.parametrize("name", sorted(INSTRUMENTS))
def test_every_note_of_every_preset_sounds_where_the_table_says(name: str) -> None:
    """Decoded by libsndfile; loudness in dB of the first half second, within 3 dB of what was rendered.

    An MP3 decoder may add silence at the beginning: the click says how much.
    """
    row = INSTRUMENTS[name]
    samples, rate = soundfile.read(BytesIO((SOUNDS / f"{name.replace(' ', '-')}.mp3").read_bytes()))
    shift = int(np.argmax(np.abs(samples[: rate // 5]))) / rate - TABLE["click"]
    assert abs(shift) < 0.08
    for midi, start, length, loop_end, level in row["notes"]:
        first = round((start + shift) * rate)
        note = samples[first : first + min(round(length * rate), rate // 2)] * row["gain"]
        assert 20 * np.log10(float(np.sqrt(np.mean(note**2)))) == pytest.approx(level, abs=3.0), midi
        assert loop_end <= length + 1e-6


def likeness(note: NDArray[np.float64], period: float) -> float:
    """Return how alike a sound is to itself about a period later, at the most."""
    lags = range(int(period * 0.97), int(period * 1.03) + 2)
    wave = float(np.dot(note[: -lags[-1]], note[: -lags[-1]]))
    return max(float(np.dot(note[:-lag], note[lag:])) for lag in lags) / wave


@pytest.mark.parametrize("name", sorted(one for one in INSTRUMENTS if not INSTRUMENTS[one]["drums"]))
def test_every_note_has_its_pitch(name: str) -> None:
    """MIDI 69 is 440 Hz (ISO 16); by autocorrelation, within half a half step.

    An organ's stops sound one and two octaves below too.
    """
    row = INSTRUMENTS[name]
    samples, rate = soundfile.read(BytesIO((SOUNDS / f"{name.replace(' ', '-')}.mp3").read_bytes()))
    for midi, start, _, _, _ in row["notes"][::3]:
        first = round((start + 0.25) * rate)
        note = samples[first : first + 8192]
        hertz = 440 * 2 ** ((midi - 69) / 12)
        assert max(likeness(note, octaves * rate / hertz) for octaves in (1, 2, 4)) > 0.5, midi


def test_the_scripts_run_in_order_and_a_stand_in_goes() -> None:
    names = scripts_there()
    assert names[0] == "page.js"
    assert names[-1] == "start.js"
    assert "worker.js" not in names
    assert not {"store.js", "progress.js"} <= set(names)


def test_every_word_of_the_scripts_is_a_row() -> None:
    from shedbook.book.ground.tables.words import ENGLISH  # noqa: PLC0415

    asked = set()
    for path in STATIC.glob("*.js"):
        text = path.read_text(encoding="utf-8")
        if "say(" in text:
            asked |= {row for row in re.findall(r'say\("([a-z][a-z.]*)"', text)}
    assert len(asked) > 60
    assert {f"practice.{row}" for row in asked} <= ENGLISH.keys()


def test_the_folder_lists_everything_for_the_service_worker(practice_folder: Path) -> None:
    worker = (practice_folder / "worker.js").read_text(encoding="utf-8")
    listed = json.loads(re.search(r"const FILES = (\[.*\]);", worker)[1])  # type: ignore[index]
    there = {
        path.relative_to(practice_folder).as_posix() for path in practice_folder.rglob("*") if path.is_file()
    }
    assert set(listed) - {"./"} == there - {"worker.js"}


def test_no_file_of_the_folder_asks_the_network_for_anything(practice_folder: Path) -> None:
    for path in practice_folder.rglob("*"):
        if path.suffix in (".js", ".html", ".css"):
            text = path.read_text(encoding="utf-8")
            assert not re.search(r"""(?:src|href|url)\s*[=(]\s*["']?(?:https?:)?//""", text), path.name


def test_a_folder_is_replaced_whole_or_not_at_all(tmp_path: Path) -> None:
    target, unfinished = tmp_path / "page", tmp_path / "unfinished"
    unfinished.mkdir()
    write_folder({"index.html": b"one", "scores/a.js": b"1"}, target, unfinished)
    write_folder({"index.html": b"two"}, target, unfinished)
    assert sorted(path.name for path in target.rglob("*")) == ["index.html"]
    assert (target / "index.html").read_bytes() == b"two"
    assert not list(unfinished.iterdir())
