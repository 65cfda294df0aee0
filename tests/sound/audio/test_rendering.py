"""What is heard, by a library that listens: onsets, pitch, silence, sides, loops."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

import numpy as np
import pytest

from other_ears import onset_times
from shedbook.sound.arranging.arrangement import Order
from shedbook.sound.audio.formats import format_of
from shedbook.sound.audio.rendering import frames_of, rendered
from shedbook.sound.audio.soundfile_door import decode, encode
from shedbook.sound.audio.tables.formats import RATE_HZ, TAIL_SECONDS
from shedbook.sound.score.performance import PlayedNote
from shedbook.sound.score.written_score import BASS, COMPING, LINE
from shedbook.sound.track import performance_of
from sound.demo_scores import demo
from sound.studio import Samples, best, heard, named, off_by_cents, played, single, synths

SYNTHS = pytest.mark.parametrize("synth", synths(), ids=named)
LINE_ALONE = Order(parts="line", count_in=0, line_instrument="piano")
PHRASES = (0, 3, 20)
"""Demo phrases: swing, straight, fast swing."""


def level_db(samples: Samples) -> float:
    return float(20 * np.log10(np.sqrt(np.mean(np.square(samples, dtype=np.float64))) + 1e-9))


def seconds_of(number: int, order: Order, notes: Sequence[PlayedNote]) -> list[float]:
    return [played(number, order).seconds_at(note.start) for note in notes]


@pytest.mark.parametrize("number", PHRASES)
def test_the_length_is_that_of_the_score_and_the_tail(number: int) -> None:
    """Within 5 ms; the tail is at most 2 s."""
    assert TAIL_SECONDS <= 2.0
    for order in (Order(), LINE_ALONE, Order(parts="trio", rounds=2)):
        performance, samples = played(number, order), heard(number, order)
        assert abs(len(samples) / RATE_HZ - performance.seconds - TAIL_SECONDS) < 0.005


@pytest.mark.parametrize("number", PHRASES)
def test_onsets_of_the_line_are_where_the_score_has_them(number: int) -> None:
    """librosa's detector against the performance, 50 ms (the tolerance of mir_eval's onset measure)."""
    (part,) = played(number, LINE_ALONE).parts
    expected = seconds_of(number, LINE_ALONE, part.notes)
    mono = heard(number, LINE_ALONE).mean(axis=1)
    found = list(onset_times(mono, RATE_HZ))
    assert all(min(abs(onset - place) for onset in found) <= 0.05 for place in expected)
    assert all(min(abs(onset - place) for place in expected) <= 0.05 for onset in found)


@SYNTHS
def test_long_notes_have_the_pitch_of_iso_16(synth: object) -> None:
    """A4 = 440 Hz (ISO 16), equal temperament, on a clarinet, sampled without vibrato: librosa's yin."""
    midis = range(52, 91, 3)
    performance = single(*((at, 1, midi) for at, midi in enumerate(midis)), quarters=len(midis))
    mono = rendered(performance, synth).mean(axis=1)  # type: ignore[arg-type]
    cents = [
        off_by_cents(mono[round((at + 0.1) * RATE_HZ) : round((at + 0.9) * RATE_HZ)], midi)
        for at, midi in enumerate(midis)
    ]
    assert abs(np.median(cents)) <= 10
    assert np.mean(np.abs(cents) <= 30) >= 0.95


def test_the_line_of_the_demo_has_the_pitch_of_iso_16() -> None:
    """Notes of a quarter second or more: median within 10 cents, 95 % within 30."""
    cents = []
    order = Order(parts="line", count_in=0, line_instrument="clarinet")
    for number in (0, 3, 9):
        performance = played(number, order)
        mono = heard(number, order).mean(axis=1)
        for note in performance.parts[0].notes:
            start, end = (performance.seconds_at(tick) for tick in (note.start, note.end))
            if end - start >= 0.25 and not note.bend:
                piece = mono[round((start + 0.06) * RATE_HZ) : round((end - 0.02) * RATE_HZ)]
                cents.append(off_by_cents(piece, note.midi))
    assert len(cents) >= 10
    assert abs(np.median(cents)) <= 10
    assert np.mean(np.abs(cents) <= 30) >= 0.95


@SYNTHS
@pytest.mark.parametrize("sides", [False, True])
def test_a_held_last_chord_rings_out_and_is_not_damped(synth: object, sides: bool) -> None:
    """From the last bar line on it only fades: no tenth of a second is 6 dB softer than the one before."""
    performance = performance_of(demo()[0], Order(parts="trio", ending="held", count_in=0))
    samples = rendered(performance, synth, sides=sides)  # type: ignore[arg-type]
    end = round(performance.seconds * RATE_HZ)
    levels = [level_db(samples[at : at + 4800]) for at in range(end - 9600, end + 14 * 4800, 4800)]
    assert all(after > before - 6 for before, after in pairwise(levels))
    assert level_db(samples[-240:]) < -80


def test_a_short_last_hit_stays_short() -> None:
    performance = performance_of(demo()[0], Order(parts="trio", ending="hit", count_in=0))
    piano = next(part for part in performance.parts if part.player == COMPING)
    alone = replace(performance, parts=(piano,))
    samples = rendered(alone, best())
    last = round(performance.seconds_at(max(note.end for note in piano.notes)) * RATE_HZ)
    assert level_db(samples[last + RATE_HZ // 2 :]) < -60


def test_silence_only_where_it_should_be() -> None:
    """A line whose every note is known: loud while it sounds, silent before it and at the very end."""
    number = 0
    samples, performance = heard(number, LINE_ALONE), played(number, LINE_ALONE)
    notes = performance.parts[0].notes
    first = round(performance.seconds_at(notes[0].start) * RATE_HZ)
    assert first > 480
    assert level_db(samples[: first - 240]) < -80
    for note in notes:
        start = round(performance.seconds_at(note.start) * RATE_HZ)
        assert level_db(samples[start : start + RATE_HZ // 10]) > -45
    assert level_db(samples[-240:]) < -80


@pytest.mark.parametrize("number", PHRASES)
def test_from_the_first_note_of_the_bass_on_no_half_second_is_silent(number: int) -> None:
    order = Order(rounds=2)
    samples, performance = heard(number, order), played(number, order)
    step = RATE_HZ // 2
    bass = next(part for part in performance.parts if part.player == BASS)
    first = round(performance.seconds_at(bass.notes[0].start) * RATE_HZ)
    for start in range(first, round((performance.seconds - 1) * RATE_HZ), step):
        assert level_db(samples[start : start + step]) > -60


@SYNTHS
def test_bass_left_and_piano_right_and_nothing_of_them_elsewhere(synth: object) -> None:
    performance = played(0, Order(parts="trio", rounds=1, wide=True))
    for player, side in ((BASS, 0), (COMPING, 1)):
        alone = type(performance)(
            performance.title,
            tuple(part for part in performance.parts if part.player == player),
            performance.ticks, performance.tempo_us, performance.metre, performance.keys, performance.signs,
        )  # fmt: skip
        samples = rendered(alone, synth, sides=True)  # type: ignore[arg-type]
        assert np.abs(samples[:, side]).max() > 0.01
        assert not samples[:, 1 - side].any()


@pytest.mark.parametrize("number", [0, 3])
def test_a_loop_joins_without_a_gap(number: int) -> None:
    """Twice the loop on end is the loop going on: no step at the seam, no sample too many."""
    order = Order(parts="trio", loop=True, rounds=2)
    performance = played(number, order)
    loop = rendered(performance, best(), loop=True)
    assert len(loop) == frames_of(performance, tail=False) == round(performance.seconds * RATE_HZ)
    flac = decode(encode(loop * 0.5, format_of(".flac")))
    assert len(flac) == len(loop)
    twice = np.concatenate([flac, flac])
    steps = np.abs(np.diff(twice, axis=0)).max(axis=1)
    assert steps[len(loop) - 1] <= np.quantile(steps, 0.999)
    seam = twice[len(loop) - 2400 : len(loop) + 2400]
    assert level_db(seam) > level_db(flac) - 20


def test_a_loop_carries_what_rings_over_its_end_to_its_beginning() -> None:
    """A note held to the last bar line rings on: the loop's beginning is not the file's beginning."""
    performance = single((3, 1, 60), program=11)
    loop, plain = (rendered(performance, best(), loop=way) for way in (True, False))
    assert level_db(plain[:4800]) < -80
    assert level_db(loop[:4800]) > -60
    assert np.array_equal(loop[3 * RATE_HZ : 4 * RATE_HZ - 1], plain[3 * RATE_HZ : 4 * RATE_HZ - 1])


def test_the_swing_is_heard() -> None:
    """The onsets of straight-written eighths at 132 bpm, heard, stand between even and triplet-plus.

    Friberg & Sundström 2002: soloists' ratios at medium tempos lie between 1 and 2.5.
    """
    order = Order(parts="line", count_in=0, line_instrument="piano")
    performance = played(0, order)
    assert performance.parts[0].player == LINE
    mono = heard(0, order).mean(axis=1)
    found = onset_times(mono, RATE_HZ)
    beat = float(Fraction(60, 132))
    longs = [
        (second - first) / (third - second)
        for first, second, third in zip(found, found[1:], found[2:], strict=False)
        if abs(third - first - beat) < 0.05 and second - first > third - second
    ]
    assert len(longs) >= 2
    assert 1.0 < np.median(longs) < 2.5
