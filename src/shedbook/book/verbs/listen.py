"""A phrase heard while it is being written: its line note by note, and the sound of the band.

The same players and the same synthesiser make the tracks of a book; only the master's loudness is left to the
listener's own volume where a line sounds note by note.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction
from pathlib import Path
from typing import NamedTuple

from shedbook.book.manuscript.settings.whole_book import Settings
from shedbook.book.tracks.band import band_order
from shedbook.phrase.fields import FASTEST_BPM, SLOWEST_BPM
from shedbook.phrase.model import Phrase, sounding_notes
from shedbook.sound.arranging.arrangement import Order
from shedbook.sound.audio.file_tags import Tags
from shedbook.sound.audio.formats import format_of
from shedbook.sound.audio.synthesiser import synth_for
from shedbook.sound.score.performance import TICKS_A_QUARTER, Performance, to_ticks
from shedbook.sound.score.written_score import LINE
from shedbook.sound.track import Sound, audio_track, performance_of, played_with, samples_of

LINE_ALONE, WITH_BAND = "line", "both"


class HeardNote(NamedTuple):
    """A note of the line as it sounds: its index among the struck notes, when, how high, how loud."""

    note: int
    start_s: float
    end_s: float
    midi: int
    velocity: int


@dataclass(frozen=True, slots=True)
class Timeline:
    """When everything sounds, in seconds from the beginning: the notes, and each bar line from bar 1 on."""

    notes: tuple[HeardNote, ...]
    bars_s: tuple[float, ...]
    seconds: float


@dataclass(frozen=True, slots=True)
class Listened:
    """What is heard: a WAV file, when everything sounds in it, and what it was played with."""

    wav: bytes
    timeline: Timeline
    played_with: str


def timeline(phrase: Phrase, settings: Settings, *, tempo_bpm: int | None = None) -> Timeline:
    """Return when the line alone sounds, without a count-in."""
    order = _order(settings, LINE_ALONE, tempo_bpm, count_in=0, loop=False)
    return _timeline(phrase, performance_of(phrase, order), 0)


def listen(
    phrase: Phrase,
    settings: Settings,
    root: Path,
    *,
    tempo_bpm: int | None = None,
    loop: bool = False,
    parts: str = WITH_BAND,
) -> Listened:
    """Return a phrase with the band, counted in unless it is a loop.

    Raises:
        SoundError: if nothing that sounds can be made; the hint says what to install.
    """
    own = settings.tracks.sound
    sound = Sound(root / own.sound_font if own.sound_font else None, own.loudness, own.sides)
    synth = synth_for(sound.font)
    counted = 0 if loop else 1
    order = _order(settings, parts, tempo_bpm, count_in=counted, loop=loop)
    performance = performance_of(phrase, order, font=synth.font)
    samples = samples_of(performance, synth, sound, loop=loop)
    tags = Tags(title=phrase.title, album="", artist="", bpm=phrase.tempo_bpm, key=phrase.key)
    track = audio_track(samples, format_of(".wav"), tags, sound, performance.seconds)
    return Listened(track.content, _timeline(phrase, performance, counted), played_with(synth))


def _order(settings: Settings, parts: str, tempo_bpm: int | None, *, count_in: int, loop: bool) -> Order:
    tempo = None if tempo_bpm is None else min(max(tempo_bpm, SLOWEST_BPM), FASTEST_BPM)
    told = band_order(settings.tracks.sound)
    return replace(told, parts=parts, tempo_bpm=tempo, count_in=count_in, loop=loop)


def _timeline(phrase: Phrase, performance: Performance, counted: int) -> Timeline:
    """Return when the struck notes of a phrase sound in a performance of it."""
    start = counted * phrase.metre.bar_quarters
    if not counted and phrase.bars[0].number == 0:
        start = _pickup_bars(phrase)
    played = next((part.notes for part in performance.parts if part.player == LINE), ())
    found = []
    for index, note in enumerate(sounding_notes(phrase)):
        due = to_ticks(start + note.start)
        near = [
            one for one in played if one.midi == note.pitch.midi and abs(one.start - due) < TICKS_A_QUARTER
        ]
        if near:
            one = min(near, key=lambda one: abs(one.start - due))
            times = performance.seconds_at(one.start), performance.seconds_at(one.end)
            found.append(HeardNote(index, *times, one.midi, one.velocity))
    ends = [start + number * phrase.metre.bar_quarters for number in range(phrase.full_bars + 1)]
    bars = tuple(performance.seconds_at(to_ticks(end)) for end in ends)
    return Timeline(tuple(found), bars, bars[-1])


def _pickup_bars(phrase: Phrase) -> Fraction:
    """Return how many quarters of whole bars the arrangement puts before bar 1 for a pick-up."""
    return phrase.metre.bar_quarters


# Single notes for a page that plays a line by itself


LOWEST, HIGHEST, APART = 36, 97, 3
"""The MIDI numbers of the notes in a palette: every third, each serves its neighbours too."""
_EACH_S, _SOUNDING_S = 2.0, 1.7


@dataclass(frozen=True, slots=True)
class Palette:
    """Single notes of one instrument in one WAV file: each has its MIDI number and where it begins."""

    wav: bytes
    starts_s: tuple[tuple[int, float], ...]
    each_s: float
    played_with: str


def palette(settings: Settings, root: Path) -> Palette:
    """Return single notes of the line's instrument, as the band's synthesiser plays them.

    Raises:
        SoundError: if nothing that sounds can be made.
    """
    from shedbook.sound.single_notes import single_notes  # noqa: PLC0415 - it needs NumPy

    own = settings.tracks.sound
    synth = synth_for(root / own.sound_font if own.sound_font else None)
    numbers = tuple(range(LOWEST, HIGHEST, APART))
    wav = single_notes(synth, own.line_instrument, numbers, each_s=_EACH_S, sounding_s=_SOUNDING_S)
    starts = tuple((midi, place * _EACH_S) for place, midi in enumerate(numbers))
    return Palette(wav, starts, _EACH_S, played_with(synth))
