from __future__ import annotations

import random
from collections.abc import Sequence

import mir_eval
import numpy as np
import pytest
from numpy.typing import NDArray

from listen.planted_takes import Manner, take_of
from listen.tones import HIGH_TIDE, LOW_LINE, LOW_TIDE, RATE, Tone, phrase_like, sound_of, tones_of
from shedbook.errors import SoundError
from shedbook.listen import take_reading
from shedbook.listen.evidence import Evidence, evidence_of
from shedbook.listen.lines import line_of
from shedbook.listen.sound_pieces import hear
from shedbook.listen.take_reading import Slated, TakeReading, Takes, takes_in
from shedbook.phrase.model import Phrase, sounding_notes
from shedbook.sound.audio.slate import read_slates, slate_tones
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
    found = heard(noise)
    assert found.takes == ()
    assert [piece.notes for piece in found.others] == [0]


def test_what_is_heard_of_a_piece_serves_for_its_notes_and_for_its_phrase(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    listened = []

    def counted(samples: NDArray[np.float32], rate: int) -> Evidence:
        listened.append(len(samples))
        return evidence_of(samples, rate)

    monkeypatch.setattr(take_reading, "evidence_of", counted)
    later = [(start + 7, end + 7, midi) for start, end, midi in tones_of(HIGH_TIDE)]
    assert len(heard([*tones_of(LOW_TIDE), *later]).takes) == 2
    assert len(listened) == 2
    monkeypatch.setattr(take_reading, "_KEPT_S", 0.0)
    assert len(heard([*tones_of(LOW_TIDE), *later]).takes) == 2
    assert len(listened) == 6


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


SPEECH = ((0.0, 0.2, 55.3), (0.3, 0.45, 52.8), (0.5, 0.8, 57.2), (0.9, 1.1, 54.6), (1.2, 1.5, 50.4))
"""What a voice sounds like to who listens for notes: short tones between pitches (invented)."""


def slated(apart: float, *, words: bool = False) -> tuple[NDArray[np.float32], Slated]:
    """Return a slate and a take so many seconds after it, with words between them."""
    slate = slate_tones(7, RATE)
    tones = tones_of(LOW_TIDE, start=1.0 + len(slate) / RATE + apart)
    if words:
        spoken = [(1.4 + len(slate) / RATE + a, 1.4 + len(slate) / RATE + b, midi) for a, b, midi in SPEECH]
        tones = [*spoken, *(tone for tone in tones)]
    sound = sound_of(tones)
    sound[RATE : RATE + len(slate)] += slate[:, None]
    (found,) = read_slates(sound, RATE)
    return sound, Slated(found.start_s, found.end_s)


@pytest.mark.parametrize("apart", [0.25, 0.5, 0.9, 1.6])
def test_a_slate_is_no_part_of_the_take_that_follows(apart: float) -> None:
    sound, slate = slated(apart)
    found = takes_in(hear([sound], RATE, 2), [line_of(phrase) for phrase in PHRASES], [slate])
    take = only(found)
    assert (take.line, take.slate, take.slips) == (0, 0, ())
    assert abs(take.start_s - (1.0 + len(slate_tones(7, RATE)) / RATE + apart)) < 0.03
    assert found.others == ()


@pytest.mark.parametrize("apart", [2.4, 4.0])
def test_the_words_of_a_slate_are_neither_a_slip_nor_something_else(apart: float) -> None:
    """The words end 0.5 s before the take, in one piece with it, or 2.1 s before it, in one of their own."""
    sound, slate = slated(apart, words=True)
    found = takes_in(hear([sound], RATE, 2), [line_of(phrase) for phrase in PHRASES], [slate])
    take = only(found)
    assert (take.line, take.slips) == (0, ())
    assert [one for one in found.others if one.slate is None] == []


def test_takes_before_a_slate_and_between_two_belong_to_their_own() -> None:
    slate = slate_tones(7, RATE)
    pieces, slates, passed = [], [], 0.0
    for place, phrase in enumerate((LOW_TIDE, HIGH_TIDE, LOW_TIDE)):
        if place:
            slates.append(Slated(passed, passed + len(slate) / RATE))
            pieces.append(np.stack([slate, slate], axis=1))
            passed += len(slate) / RATE
        pieces.append(sound_of(tones_of(phrase)))
        passed += len(pieces[-1]) / RATE
    found = takes_in(hear([np.concatenate(pieces)], RATE, 2), [line_of(one) for one in PHRASES], slates)
    assert [(take.line, take.slate, take.slips) for take in found.takes] == [
        (0, None, ()), (1, 0, ()), (0, 1, ()),
    ]  # fmt: skip


def test_of_two_phrases_alike_the_slate_says_which_it_is_and_of_two_unlike_it_does_not() -> None:
    twin = phrase_like(LOW_LINE, "Abmaj7 | Fm7 | Cm6")
    sound, slate = slated(0.6)
    lines = [line_of(phrase) for phrase in (LOW_TIDE, HIGH_TIDE, twin)]

    def which(named: int | None) -> int:
        return only(takes_in(hear([sound], RATE, 2), lines, [slate._replace(line=named)])).line

    assert [which(None), which(0), which(2)] == [0, 0, 2]
    assert which(1) == 0


@pytest.mark.parametrize(("phrase", "rounds"), [(LOW_TIDE, 2), (HIGH_TIDE, 3)])
def test_rounds_of_the_phrase_that_the_slate_names_are_takes_of_their_own(
    phrase: Phrase, rounds: int
) -> None:
    """Played in one go, with the band: no silence parts them; the second has a wrong note."""
    slate = slate_tones(7, RATE)
    seconds = 3 * 4 * 60 / phrase.tempo_bpm
    first = 0.5 + len(slate) / RATE
    tones = [tone for n in range(rounds) for tone in tones_of(phrase, start=first + n * seconds)]
    wrong = len(tones) // rounds + 4
    tones[wrong] = (tones[wrong][0], tones[wrong][1], tones[wrong][2] + 1)
    sound = sound_of(tones)
    sound[: len(slate)] += slate[:, None]
    named = Slated(0.0, len(slate) / RATE, PHRASES.index(phrase))
    found = takes_in(hear([sound], RATE, 2), [line_of(one) for one in PHRASES], [named])
    assert [round(take.start_s - first, 1) for take in found.takes] == [n * seconds for n in range(rounds)]
    assert [[slip.which for slip in take.slips] for take in found.takes] == [
        [4] if n == 1 else [] for n in range(rounds)
    ]
    assert found.others == ()
