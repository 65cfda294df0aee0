"""The synthesisers: the same bytes each time, the length asked for, and what is said where one is missing."""

from __future__ import annotations

import io
import sys
from pathlib import Path

import mido
import numpy as np
import pytest

from shedbook.errors import SoundError
from shedbook.sound.arranging.arrangement import Order
from shedbook.sound.audio import synthesiser as synth_door
from shedbook.sound.audio.fluidsynth_door import Fluid
from shedbook.sound.audio.midirenderer_door import Wheel, ringing
from shedbook.sound.audio.sound_fonts import SoundFont, find_font
from shedbook.sound.audio.synthesiser import Synth, open_synth, sound_versions, synth_for
from shedbook.sound.audio.tables.formats import RATE_HZ
from shedbook.sound.score.midi_file import smf
from sound.studio import named, package_font, played, single, synths

SYNTHS = pytest.mark.parametrize("synth", synths(), ids=named)
FLUID = pytest.mark.skipif(len(synths()) < 2, reason="FluidSynth's system library is not installed")


@SYNTHS
def test_the_same_track_gives_the_same_samples_whatever_came_before(synth: Synth) -> None:
    midi, other = smf(played(0, Order())), smf(played(1, Order()))
    first = synth.render(midi, RATE_HZ)
    synth.render(other, RATE_HZ)
    assert synth.render(midi, RATE_HZ).tobytes() == first.tobytes()
    assert open_synth(synth.font).name  # a second one beside it changes nothing
    assert synth.render(midi, RATE_HZ).tobytes() == first.tobytes()


@SYNTHS
def test_so_many_samples_as_are_asked_for(synth: Synth) -> None:
    midi = smf(single((0, 1, 69)))
    for frames in (1, 12_345, 6 * RATE_HZ):
        assert synth.render(midi, frames).shape == (frames, 2)


@SYNTHS
def test_what_rings_is_heard_behind_the_last_bar_line(synth: Synth) -> None:
    """A piano note up to the last bar line (at 4 s): its release is there, and ends."""
    samples = synth.render(smf(single((3, 1, 60), program=0)), 6 * RATE_HZ)
    assert np.abs(samples[: 3 * RATE_HZ - 480]).max() < 1e-4
    assert np.abs(samples[4 * RATE_HZ : 4 * RATE_HZ + 4800]).max() > 1e-3
    assert np.abs(samples[-4800:]).max() < 0.1 * np.abs(samples[4 * RATE_HZ : 4 * RATE_HZ + 4800]).max()


@SYNTHS
def test_nothing_clips_when_everybody_plays(synth: Synth) -> None:
    chord = single(*((0, 3, midi) for midi in range(40, 88, 3)), program=0, name="comping")
    assert np.abs(synth.render(smf(chord), 3 * RATE_HZ)).max() < 1.0


@FLUID
def test_settings_that_are_silently_ignored_are_not() -> None:
    """Traps of the binding: a gain that is no float stays at 0.2, and chorus is on by default."""
    synth = Fluid(find_font())._new()
    assert synth.get_setting("synth.gain") == pytest.approx(0.6)
    assert synth.get_setting("synth.chorus.active") == 0
    assert synth.get_setting("synth.sample-rate") == RATE_HZ
    assert synth.get_setting("player.timing-source") == "sample"
    synth.delete()


@FLUID
def test_a_font_that_cannot_be_loaded_is_no_silence(tmp_path: Path) -> None:
    broken = tmp_path / "broken.sf2"
    broken.write_bytes(package_font().path.read_bytes()[:5000])
    with pytest.raises(SoundError, match="cannot load"):
        Fluid(SoundFont("broken", broken))


def test_the_package_takes_over_where_the_library_is_missing(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "fluidsynth", None)
    assert isinstance(open_synth(package_font()), Wheel)


def test_without_any_synthesiser_the_error_says_what_to_install(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "fluidsynth", None)
    monkeypatch.setitem(sys.modules, "midirenderer", None)
    with pytest.raises(SoundError) as caught:
        open_synth(package_font())
    assert "apt-get install libfluidsynth3" in caught.value.hint
    assert "pip install midirenderer" in caught.value.hint


def test_a_compressed_font_needs_the_library(tmp_path: Path) -> None:
    packed = tmp_path / "x.sf3"
    packed.write_bytes(package_font().path.read_bytes().replace(b"ifil\4\0\0\0\2\0", b"ifil\4\0\0\0\3\0", 1))
    with pytest.raises(SoundError, match="compressed"):
        Wheel(SoundFont("x", packed))


def test_a_broken_midi_file_is_an_error() -> None:
    with pytest.raises(SoundError):
        Wheel(package_font()).render(b"MThd\0\0\0\6\0\1\0\1\3\xc0MTrk\0\0\0\1\0", 100)


def test_ringing_changes_no_note() -> None:
    midi = smf(played(0, Order()))
    before, after = (mido.MidiFile(file=io.BytesIO(content)) for content in (midi, ringing(midi)))
    assert [list(track) for track in after.tracks[:-1]] == [list(track) for track in before.tracks]
    assert after.length > before.length + 2


def test_the_font_stays_loaded_until_another_is_asked_for() -> None:
    first = synth_for(package_font().path)
    assert synth_for(package_font().path) is first
    synth_door._kept.cache_clear()


def test_versions_name_synthesiser_and_font() -> None:
    assert package_font().path.stem in sound_versions(package_font().path)
    assert sound_versions(Path("missing.sf2")) == ""
