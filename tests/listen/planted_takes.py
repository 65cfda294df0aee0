"""Takes whose notes are known: phrases played as people play, through a SoundFont, with slips planted.

Invented. What a take is made of: swing and lag by the tempo, unevenness, a drifting tempo, a tuning of its
own, notes a few cents off, a tongued gap between two notes of one pitch (common practice: a wind instrument
has no other way to repeat a note). When a note is heard to begin is later than its MIDI event by the attack
of its sample, which is measured here (`attack_s`): to 10 dB under the level at which it stays.
"""

from __future__ import annotations

import random
from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import lru_cache
from io import BytesIO
from pathlib import Path
from typing import NamedTuple

import numpy as np
from mido import MetaMessage, MidiFile, MidiTrack
from mido.messages import Message
from numpy.typing import NDArray
from scipy.signal import fftconvolve

from exchange.playing import bent, even_beats
from shedbook.analysis.account.phrase_account import quarters_a_minute
from shedbook.listen.tables.hearing import HIGHEST_MIDI, LOWEST_MIDI
from shedbook.phrase.model import Phrase, Sounding, sounding_notes
from shedbook.sound.arranging.order import Order
from shedbook.sound.audio.synthesiser import synth_for
from shedbook.sound.audio.tables.formats import RATE_HZ
from shedbook.sound.feels.known_feels import feel_named
from shedbook.sound.score.swing import swing
from shedbook.sound.track import Sound, performance_of, samples_of

PROGRAMS = {
    "clarinet": 71,
    "alto sax": 65,
    "tenor sax": 66,
    "trumpet": 56,
    "flute": 73,
    "guitar": 26,
}
"""General MIDI programs, from 0, of the instruments on which takes are checked."""
OTHERS = {
    "soprano sax": 64,
    "baritone sax": 67,
    "oboe": 68,
    "English horn": 69,
    "trombone": 57,
    "muted trumpet": 59,
    "French horn": 60,
    "recorder": 74,
    "violin": 40,
    "nylon guitar": 24,
    "clean guitar": 27,
}
"""Programs on which weights may be fitted: none of them is among PROGRAMS."""
LOWER = {"tenor sax": -12, "baritone sax": -12, "trombone": -12, "guitar": -12, "flute": 0}
"""How many half steps lower than written here a line lies on an instrument."""
CONDITIONS = ("clean", "noise", "reverb", "trio")
_TICKS = 4800
_LEAD_S, _TAIL_S = 0.6, 0.8
_DB_UNDER = 10
_AUDIBLE = 10 ** (-50 / 20)


class TrueNote(NamedTuple):
    """A note that sounds: when it is heard to begin, when it ends, its pitch in fractions of a half step.

    `which` is the struck note of the phrase that it plays; −1 for an extra one.
    """

    start_s: float
    end_s: float
    pitch: float
    which: int


class Planted(NamedTuple):
    """A slip: "wrong", "missing" or "extra", the struck note (for an extra one that before it), its pitch."""

    kind: str
    which: int
    midi: int


@dataclass(frozen=True, slots=True)
class Take:
    """A take and all that is known of it: stereo samples at `RATE_HZ`."""

    samples: NDArray[np.float32]
    notes: tuple[TrueNote, ...]
    planted: tuple[Planted, ...]
    phrase: Phrase
    moved: int
    tempo_bpm: float
    cents: float


@dataclass(frozen=True, slots=True)
class Manner:
    """How a take is played and recorded.

    `repeated` is the share of notes that take the pitch of the one before; `trembling` lets long notes swell;
    `font` is the SoundFont, None for the program's own choice.
    """

    program: str = "clarinet"
    tempo: float = 1.0
    jitter_ms: float = 8.0
    cents: float = 0.0
    note_cents: float = 5.0
    moved: int = 0
    wrong: int = 0
    missing: int = 0
    extra: int = 0
    same_extra: float = 0.15
    condition: str = "clean"
    lag: bool = True
    repeated: float = 0.0
    trembling: bool = False
    font: Path | None = None


class _Sounded(NamedTuple):
    start: float
    end: float
    midi: int
    which: int


def take_of(phrase: Phrase, dice: random.Random, manner: Manner) -> Take:
    """Return a take of a phrase."""
    notes = sounding_notes(phrase)
    shift = _in_reach(notes, manner)
    planted = _slips(notes, dice, manner, shift)
    bpm = phrase.tempo_bpm * manner.tempo
    if manner.repeated:
        notes = _with_repeats(notes, dice, manner.repeated)
    events = _events(phrase, notes, bpm, dice, manner, shift, planted)
    cents = [manner.cents + dice.gauss(0, manner.note_cents) for _ in events]
    samples = _rendered(events, cents, manner.program, dice, manner.font)
    if manner.trembling:
        samples = _trembled(samples, events, dice)
    samples = _recorded(samples, phrase, bpm, manner, dice)
    late = attack_s(manner.program, manner.font)
    true = tuple(
        TrueNote(one.start + late, one.end, one.midi + off / 100, one.which)
        for one, off in zip(events, cents, strict=True)
    )
    return Take(samples, true, tuple(planted), phrase, shift, bpm, manner.cents)


def _in_reach(notes: Sequence[Sounding], manner: Manner) -> int:
    """Return by how much the notes are moved: an octave lower where the SoundFont has not all of them.

    Where they would then lie under what is listened for, no lower than they must.
    """
    midi = [note.pitch.midi for note in notes]
    shift = manner.moved + LOWER.get(manner.program, 0)
    most = highest(manner.program, manner.font) - max(midi)
    if shift <= most:
        return shift
    return shift - 12 if shift - 12 <= most and min(midi) + shift - 12 >= LOWEST_MIDI else most


def _slips(notes: Sequence[Sounding], dice: random.Random, manner: Manner, shift: int) -> list[Planted]:
    """Return slips at notes that do not stand beside one another."""
    free = set(range(len(notes)))
    found = []
    for kind in ["wrong"] * manner.wrong + ["missing"] * manner.missing + ["extra"] * manner.extra:
        fitting = [at for at in sorted(free) if kind != "extra" or _room(notes, at)]
        if not fitting:
            continue
        at = dice.choice(fitting)
        free -= {at - 2, at - 1, at, at + 1, at + 2}
        own = notes[at].pitch.midi + shift
        midi = own + dice.choice((-1, 1, -2, 2, -1, 1, -3, 4, 5, -7))
        if midi > highest(manner.program, manner.font):
            midi = 2 * own - midi
        if kind == "extra" and dice.random() < manner.same_extra:
            midi = own
        found.append(Planted(kind, at, own if kind == "missing" else midi))
    return sorted(found, key=lambda one: one.which)


def _with_repeats(notes: Sequence[Sounding], dice: random.Random, share: float) -> tuple[Sounding, ...]:
    """Return notes some of which take the pitch of the one before."""
    found = list(notes)
    for at in range(1, len(found)):
        if dice.random() < share:
            found[at] = replace(found[at], pitch=found[at - 1].pitch)
    return tuple(found)


def _trembled(
    samples: NDArray[np.float32], events: Sequence[_Sounded], dice: random.Random
) -> NDArray[np.float32]:
    """Return samples whose long notes swell and fade a few times a second, as with the breath of a player."""
    depth, hertz = dice.uniform(0.1, 0.4), dice.uniform(4, 6.5)
    time, gain = np.arange(len(samples)) / RATE_HZ, np.ones(len(samples))
    for one in events:
        if one.end - one.start > 0.3:
            since = time - one.start - 0.12
            held = (since > 0) & (time < one.end + 0.2)
            gain[held] *= 1 + depth * np.sin(2 * np.pi * hertz * since[held])
    return np.asarray(samples * gain[:, None], np.float32)


def _room(notes: Sequence[Sounding], at: int) -> bool:
    return at + 1 < len(notes) and notes[at + 1].start - notes[at].start >= Fraction(1, 2)


def _events(
    phrase: Phrase,
    notes: Sequence[Sounding],
    bpm: float,
    dice: random.Random,
    manner: Manner,
    shift: int,
    planted: Sequence[Planted],
) -> list[_Sounded]:
    """Return what sounds, in seconds from the start of the file."""
    qpm = bpm * float(quarters_a_minute(phrase)) / phrase.tempo_bpm
    turned = swing(feel_named(phrase.feel), Fraction(round(qpm)))
    even = even_beats(phrase) if phrase.metre.unit == 4 else frozenset(range(-64, 512))
    drift = dice.uniform(-0.03, 0.03)
    first = float(min(Fraction(0), notes[0].start))
    length = float(notes[-1].end) - first
    lag = float(turned.lag) * 60 / qpm if manner.lag and turned.ratio != 1 else 0.0

    def at(place: Fraction, late: bool) -> float:
        beats = float(bent(place, turned.off_beat, even)) - first
        pushed = beats * (1 + drift * (beats / length - 0.5))
        on_beat = late and place.denominator == 1
        return _LEAD_S + pushed * 60 / qpm + (lag if on_beat else 0.0)

    slips = {one.which: one for one in planted}
    found: list[_Sounded] = []
    for index, note in enumerate(notes):
        start = at(note.start, True) + _bounded(dice, manner.jitter_ms)
        end = at(note.end, False)
        slip = slips.get(index)
        if slip is not None and slip.kind == "missing":
            if found and dice.random() < 0.5:
                found[-1] = found[-1]._replace(end=end)
            continue
        midi = note.pitch.midi + shift
        if slip is not None and slip.kind == "wrong":
            midi = slip.midi
        if found and start < found[-1].start + 0.05:
            start = found[-1].start + 0.05
        found.append(_Sounded(start, max(end, start + 0.06), midi, index))
        if slip is not None and slip.kind == "extra":
            middle = start + (end - start) * dice.uniform(0.45, 0.6)
            found[-1] = found[-1]._replace(end=middle)
            found.append(_Sounded(middle, end, slip.midi, -1))
    return _articulated(found, dice)


def _bounded(dice: random.Random, spread_ms: float) -> float:
    return max(-2.5, min(2.5, dice.gauss(0, 1))) * spread_ms / 1000


def _articulated(found: list[_Sounded], dice: random.Random) -> list[_Sounded]:
    """Return the notes with their ends: slurred, tongued, short; two of one pitch are always tongued."""
    out = []
    for index, one in enumerate(found):
        end = one.end
        if index + 1 < len(found):
            following = found[index + 1]
            end = min(end, following.start)
            touching = following.start - end < 0.03
            if touching and following.midi == one.midi:
                end = following.start - dice.uniform(0.025, 0.06)
            elif touching and dice.random() < 0.4:
                end = following.start - dice.uniform(0.0, 0.04)
        out.append(one._replace(end=max(one.start + 0.045, end)))
    return out


def _rendered(
    events: Sequence[_Sounded],
    cents: Sequence[float],
    program: str,
    dice: random.Random,
    font: Path | None,
) -> NDArray[np.float32]:
    """Return the dry sound of the events on one channel."""
    number = {**PROGRAMS, **OTHERS}[program]
    rows: list[tuple[int, int, Message]] = [(0, 0, Message("program_change", program=number))]
    for one, off in zip(events, cents, strict=True):
        start, end = round(one.start * _TICKS), round(one.end * _TICKS)
        bend = max(-8192, min(8191, round(off * 8192 / 200)))
        rows.append((start, 1, Message("pitchwheel", pitch=bend)))
        rows.append((start, 2, Message("note_on", note=one.midi, velocity=dice.randint(72, 108))))
        rows.append((end, 0, Message("note_off", note=one.midi)))
    return _synthesised(rows, events[-1].end + _TAIL_S, font)


def _synthesised(
    rows: list[tuple[int, int, Message]], seconds: float, font: Path | None
) -> NDArray[np.float32]:
    track, before = MidiTrack(), 0
    track.append(MetaMessage("set_tempo", tempo=1_000_000))
    for tick, _, message in sorted(rows, key=lambda row: row[:2]):
        track.append(message.copy(time=tick - before))
        before = tick
    file = MidiFile(type=0, ticks_per_beat=_TICKS)
    file.tracks.append(track)
    out = BytesIO()
    file.save(file=out)
    return synth_for(font).stems(out.getvalue(), round(seconds * RATE_HZ), [0])[0]


@lru_cache(maxsize=64)
def highest(program: str, font: Path | None = None) -> int:
    """Return the highest pitch that a program of a SoundFont sounds: some have no samples for high ones."""
    events = [
        _Sounded(0.3 * at, 0.3 * at + 0.2, midi, 0) for at, midi in enumerate(range(60, HIGHEST_MIDI + 1))
    ]
    sound = _rendered(events, [0.0] * len(events), program, random.Random(1), font)
    for one in reversed(events):
        part = sound[round(one.start * RATE_HZ) : round(one.end * RATE_HZ)]
        if np.sqrt(np.mean(part**2)) > _AUDIBLE:
            return one.midi
    raise ValueError(f"{program} sounds nothing")


@lru_cache(maxsize=64)
def attack_s(program: str, font: Path | None = None) -> float:
    """Return how long after its MIDI event a note of a program is heard to begin: the median of five."""
    found = []
    for midi in (60, 64, 67, 71, 76):
        at = midi + LOWER.get(program, 0)
        events = [_Sounded(0.2, 1.0, at, 0)]
        sound = _rendered(events, [0.0], program, random.Random(1), font).mean(axis=1)
        level = np.sqrt(np.convolve(sound**2, np.ones(240) / 240, "same"))
        held = np.median(level[int(0.35 * RATE_HZ) : int(0.6 * RATE_HZ)])
        if program in ("guitar", "nylon guitar", "clean guitar"):
            held = level.max()
        over = np.flatnonzero(level >= held * 10 ** (-_DB_UNDER / 20))
        found.append(over[0] / RATE_HZ - 0.2)
    return float(np.median(found))


def _recorded(
    samples: NDArray[np.float32], phrase: Phrase, bpm: float, manner: Manner, dice: random.Random
) -> NDArray[np.float32]:
    """Return samples as a room and a microphone change them."""
    chance = np.random.default_rng(dice.randrange(2**32))
    loud = float(np.sqrt(np.mean(samples**2)))
    samples = samples * np.float32(0.06 / max(loud, 1e-9))
    if manner.condition == "noise":
        hiss = chance.normal(0, 1, samples.shape)
        hiss[1:] += 0.9 * hiss[:-1]
        return np.asarray(samples + hiss / hiss.std() * 0.06 * 10 ** (-30 / 20), np.float32)
    if manner.condition == "reverb":
        times = np.arange(int(0.8 * RATE_HZ)) / RATE_HZ
        room = chance.normal(0, 1, len(times)) * 10 ** (-3 * times / 0.8)
        room[: int(0.008 * RATE_HZ)] = 0
        room *= 10 ** (-9 / 20) / np.sqrt(np.sum(room**2))
        wet = np.stack([fftconvolve(samples[:, side], room)[: len(samples)] for side in range(2)], axis=1)
        return np.asarray(samples + wet, np.float32)
    if manner.condition == "trio":
        band = _trio(phrase, bpm, len(samples), manner.font)
        level = float(np.sqrt(np.mean(band**2)))
        return np.asarray(samples + band * (0.06 * 10 ** (-28 / 20) / max(level, 1e-9)), np.float32)
    return np.asarray(samples, np.float32)


def _trio(phrase: Phrase, bpm: float, frames: int, font: Path | None) -> NDArray[np.float32]:
    """Return a trio as it leaks from headphones: the program's own band under the phrase."""
    order = Order(rounds=1, tempo_bpm=round(bpm))
    performance = performance_of(phrase, order)
    parts = tuple(part for part in performance.parts if part.player != "line")
    sound = samples_of(replace(performance, parts=parts), synth_for(font), Sound())[:frames]
    return np.pad(sound, ((0, frames - len(sound)), (0, 0)))
