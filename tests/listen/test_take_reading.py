from __future__ import annotations

import random
from collections.abc import Sequence

import mir_eval
import numpy as np
import pytest
from numpy.typing import NDArray

from listen.planted_takes import Manner, take_of
from listen.tones import HIGH_TIDE, LOW_TIDE, RATE, Tone, sound_of, tones_of
from shedbook.errors import SoundError
from shedbook.listen.lines import line_of
from shedbook.listen.sound_pieces import hear
from shedbook.listen.take_reading import TakeReading, Takes, takes_in
from shedbook.phrase.model import Phrase, sounding_notes
from shedbook.sound.audio.synthesiser import synth_for

PHRASES = (LOW_TIDE, HIGH_TIDE)


def heard(tones: Sequence[Tone] | NDArray[np.float32], phrases: Sequence[Phrase] = PHRASES) -> Takes:
    sound = tones if isinstance(tones, np.ndarray) else sound_of(tones)
    return takes_in(hear([sound], RATE, 2), [line_of(phrase) for phrase in phrases])


def only(takes: Takes) -> TakeReading:
    assert len(takes.takes) == 1
    return takes.takes[0]


@pytest.mark.parametrize("which", [0, 1])
@pytest.mark.parametrize("moved", [0, -2, 5])
def test_phrase_and_key_are_found_and_every_note_is_right(which: int, moved: int) -> None:
    reading = only(heard(tones_of(PHRASES[which], moved=moved)))
    assert (reading.line, reading.moved) == (which, moved)
    assert reading.slips == ()


@pytest.mark.parametrize("tempo", [80, 120, 170])
def test_notes_begin_when_they_do(tempo: int) -> None:
    """mir_eval.onset's standard window is 50 ms; plain tones are far inside it."""
    tones = tones_of(LOW_TIDE, tempo=tempo)
    reading = only(heard(tones))
    found = np.array([note.start_s for _, note in reading.right])
    true = np.array([tone[0] for tone in tones])
    f, precision, recall = mir_eval.onset.f_measure(true, found, window=0.02)
    assert (f, precision, recall) == (1, 1, 1)


def test_a_wrong_note_is_named_with_its_place_and_pitch() -> None:
    tones = tones_of(LOW_TIDE)
    tones[9] = (tones[9][0], tones[9][1], tones[9][2] + 1)
    slips = only(heard(tones)).slips
    assert [(slip.kind, slip.which, slip.sounded) for slip in slips] == [("wrong", 9, tones[9][2])]


def test_a_missing_note_is_named() -> None:
    tones = tones_of(LOW_TIDE)
    midi = tones.pop(5)[2]
    slips = only(heard(tones)).slips
    assert [(slip.kind, slip.which, slip.written) for slip in slips] == [("missing", 5, midi)]


def test_an_extra_note_is_named_after_the_one_before_it() -> None:
    tones = tones_of(LOW_TIDE)
    start, end, midi = tones[16]
    tones[16:17] = [(start, start + 0.22, midi), (start + 0.25, end, midi - 2)]
    slips = only(heard(tones)).slips
    assert [(slip.kind, slip.which, slip.sounded) for slip in slips] == [("extra", 16, midi - 2)]


def test_a_whole_take_an_octave_away_is_the_same_phrase() -> None:
    reading = only(heard(tones_of(LOW_TIDE, moved=-12)))
    assert reading.moved == -12
    assert not reading.slips


def test_takes_are_parted_at_silences_and_what_is_none_is_said() -> None:
    tones = tones_of(LOW_TIDE)
    later = tones_of(HIGH_TIDE, start=tones[-1][1] + 3)
    talk = [(later[-1][1] + 3 + at / 4, later[-1][1] + 3.2 + at / 4, 50 + 7 * (at % 2)) for at in range(4)]
    takes = heard([*tones, *later, *talk])
    assert [one.line for one in takes.takes] == [0, 1]
    assert len(takes.others) == 1


def test_one_take_with_a_long_rest_is_one_take() -> None:
    tones = tones_of(LOW_TIDE, tempo=60)
    held = [
        tone if index < 16 else (tone[0] + 1.5, tone[1] + 1.5, tone[2]) for index, tone in enumerate(tones)
    ]
    assert len(heard(held).takes) == 1


def test_a_count_in_is_no_slip() -> None:
    clicks = [(0.2 + at / 2, 0.26 + at / 2, 86) for at in range(4)]
    reading = only(heard([*clicks, *tones_of(LOW_TIDE, start=2.2)]))
    assert reading.slips == ()
    assert abs(reading.start_s - 2.2) < 0.03


def test_noise_alone_holds_no_take() -> None:
    noise = np.random.default_rng(2).normal(0, 0.05, (RATE * 3, 2)).astype(np.float32)
    assert heard(noise).takes == ()


@pytest.mark.parametrize("program", ["clarinet", "trumpet", "guitar", "alto sax"])
def test_planted_slips_are_found_on_sampled_instruments(program: str) -> None:
    """Takes through a SoundFont; the figures for many are in docs/listening.md."""
    try:
        synth_for()
    except SoundError as error:
        pytest.skip(str(error))
    dice = random.Random(3)
    take = take_of(LOW_TIDE, dice, Manner(program=program, cents=11, wrong=1, missing=1))
    reading = only(heard(take.samples))
    assert reading.moved == take.moved
    found = {(slip.kind, slip.which) for slip in reading.slips}
    assert {(one.kind, one.which) for one in take.planted} <= found
    assert len(found) <= len(take.planted) + 1
    assert len(reading.played) == len(sounding_notes(LOW_TIDE))
