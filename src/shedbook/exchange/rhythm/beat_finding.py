"""Beats and bar lines found in free playing, where the tempo map of a file says nothing about them.

First steady tempos are searched for those whose beats fit the beginnings of the notes best. Each of the best
tempos is followed through the line, and may drift a little. It is judged by the cost of the rhythm that comes
out (`onsets`), with a preference for middling tempos, because every rhythm is plainest at the fastest tempo.
The first beat of the bar is where long notes fall on strong beats.

This simple method is meant for lines with a steady beat. `FoundBeats.sure` says how far the best answer
leads.

Conventions: times are microseconds; `beat_grids.GRAINS` grains make a quarter.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from shedbook.exchange.rhythm.beat_grids import GRAINS
from shedbook.exchange.rhythm.onsets import RecordedNote, place_onsets
from shedbook.exchange.rhythm.quantise import Rhythm, quantise
from shedbook.exchange.rhythm.written_values import place_strength
from shedbook.theory.metre import Metre

_SLOWEST, _FASTEST = 55, 300
_STEP = Fraction(203, 200)
_USUAL_QPM, _WIDTH_OCTAVES = 125.0, 0.6
_TEMPO_COST = 5
_TRIED = 14
_RATIOS = (Fraction(1), Fraction(3, 2), Fraction(11, 5))
_BEGINS = (Fraction(3, 2), Fraction(11, 10))
"""How much likelier a bar line is at the first note, and one beat before it."""
_LISTEN = 64
"""The tempo is chosen by so many notes."""
_FOLLOW = Fraction(1, 5)
"""A note that is off the beat moves the beat by this share of the distance."""
_NEAR_BEAT = Fraction(1, 6)
_LONGEST_COUNTED = Fraction(2)


@dataclass(frozen=True, slots=True)
class FoundBeats:
    """A line on beats that were found.

    Attributes:
        notes: the notes in grains from a found bar line; each beat is a quarter.
        tempo_qpm: the tempo in quarters a minute.
        beat_times: the time of each beat from that bar line on, in microseconds.
        cost_a_note: how unlikely the reading is for each note, in tenths of a natural logarithm.
        sure: 0 (a guess) to 100.
    """

    notes: tuple[RecordedNote, ...]
    tempo_qpm: Fraction
    beat_times: tuple[int, ...]
    cost_a_note: int
    sure: int


def find_bars(notes: Sequence[tuple[int, int, int]], metre: Metre, *, bars: int = 0) -> FoundBeats | None:
    """Return a line on found beats; None for fewer than four notes.

    Args:
        notes: (start, end, MIDI number) of one note at a time, in order, in microseconds.
        metre: the metre that the bars shall have.
        bars: how many bars the changes have; 0 where that is not known.
    """
    if len(notes) < 4:
        return None
    onsets = [note[0] for note in notes]
    judged = _judged(notes[:_LISTEN], _periods(onsets[:_LISTEN]))
    _, period, phase = judged[0]
    related = [(period // 2, phase), (2 * period, phase), (2 * period, phase + period)]
    judged = sorted(judged + _judged(notes[:_LISTEN], related))
    cost, period, phase = judged[0]
    rival = next((one[0] for one in judged if not _alike(one[1], period)), cost + 100)
    beats = _followed(onsets, period, phase)
    on_beats = _on_beats(notes, beats)
    tempo = Fraction(round(60_000_000 * (len(beats) - 1) / (beats[-1] - beats[0])))
    shift, lead = _first_beat(quantise(on_beats, Metre(), tempo), metre, bars)
    moved = tuple(
        RecordedNote(start + shift * GRAINS, end + shift * GRAINS, midi) for start, end, midi in on_beats
    )
    earlier = tuple(beats[0] - step * period for step in range(shift, 0, -1))
    sure = min(max(0, 5 * (rival - cost)), lead, 100)
    return FoundBeats(moved, tempo, (*earlier, *beats), cost, sure)


def _alike(one: int, other: int) -> bool:
    """Tell whether two periods differ by less than a twenty-fifth."""
    return abs(one - other) * 25 < other


def _periods(onsets: Sequence[int]) -> list[tuple[int, int]]:
    """Return the likeliest beats as (period, time of one beat), each better than those near it."""
    scored = []
    tempo = Fraction(_SLOWEST)
    while tempo <= _FASTEST:
        period = round(60_000_000 / tempo)
        real = sum(math.cos(2 * math.pi * onset / period) for onset in onsets)
        imaginary = sum(math.sin(2 * math.pi * onset / period) for onset in onsets)
        phase = round(math.atan2(imaginary, real) / (2 * math.pi) * period)
        double = [4 * math.pi * onset / period for onset in onsets]
        halves = math.hypot(sum(map(math.cos, double)), sum(map(math.sin, double)))
        scored.append((math.hypot(real, imaginary) + halves / 2, period, phase))
        tempo *= _STEP
    scored.sort(reverse=True)
    found: list[tuple[int, int]] = []
    for _, period, phase in scored:
        if len(found) < 2 * _TRIED and not any(abs(other - period) * 50 < period for other, _ in found):
            # Most notes may begin on the off-beat, so both halves of the beat are tried.
            found += [(period, phase), (period, phase + period // 2)]
    return found


def _followed(onsets: Sequence[int], period: int, phase: int) -> list[int]:
    """Return the times of the beats under a line; each note near a beat moves that beat a little."""
    time = phase + (onsets[0] - phase - period // 3) // period * period
    while time + period * _NEAR_BEAT < onsets[0] - period + period // 3:
        time += period
    times = [time]
    step = Fraction(period)
    at = 0
    most = 4 * (onsets[-1] - onsets[0]) // period + 8
    while times[-1] <= onsets[-1] + period and len(times) < most:
        due = times[-1] + int(step)
        near = int(step * _NEAR_BEAT)
        while at < len(onsets) and onsets[at] < due - near:
            at += 1
        if at < len(onsets) and onsets[at] <= due + near:
            off = onsets[at] - due
            due += int(off * _FOLLOW)
            step = min(max(step + off * _FOLLOW / 4, Fraction(period * 4, 5)), Fraction(period * 5, 4))
        times.append(due)
    return times


def _on_beats(notes: Sequence[tuple[int, int, int]], beats: Sequence[int]) -> list[RecordedNote]:
    """Return a line in grains from the first beat, where each beat is a quarter."""
    found: list[RecordedNote] = []
    at = 0
    for start, end, midi in notes:
        while at + 2 < len(beats) and beats[at + 1] <= start:
            at += 1
        begin = _grains(start, at, beats)
        there = at
        while there + 2 < len(beats) and beats[there + 1] <= end:
            there += 1
        found.append(RecordedNote(begin, max(begin + 1, _grains(end, there, beats)), midi))
    return found


def _grains(time: int, at: int, beats: Sequence[int]) -> int:
    """Return a time in grains, measured between the beat with an index and the beat after it."""
    return at * GRAINS + (time - beats[at]) * GRAINS // max(1, beats[at + 1] - beats[at])


def _judged(
    notes: Sequence[tuple[int, int, int]], periods: Sequence[tuple[int, int]]
) -> list[tuple[int, int, int]]:
    """Return each beat as (cost a note, period, time of one beat), the cheapest first."""
    onsets = [note[0] for note in notes]
    return sorted((_cost(notes, _followed(onsets, *beat)), *beat) for beat in periods)


def _cost(notes: Sequence[tuple[int, int, int]], beats: Sequence[int]) -> int:
    """Return the cost of a line on some beats for each note: that of its rhythm and that of its tempo."""
    if len(beats) < 2 or beats[-1] <= beats[0]:
        return 10_000
    tempo = 60_000_000 * (len(beats) - 1) / (beats[-1] - beats[0])
    rhythm = place_onsets(_on_beats(notes, beats), Metre(), Fraction(round(tempo)), ratios=_RATIOS)
    octaves = math.log2(tempo / _USUAL_QPM) / _WIDTH_OCTAVES
    return rhythm.cost // len(notes) + int(_TEMPO_COST * octaves * octaves)


def _first_beat(rhythm: Rhythm, metre: Metre, bars: int) -> tuple[int, int]:
    """Return how many beats before the first beat the bar begins, and how far that answer leads, 0 to 100.

    Long notes on strong beats, the place of the first note, and as many bars as the changes have speak for an
    answer.
    """
    in_bar = max(1, int(metre.bar_quarters))
    weights = []
    for shift in range(in_bar):
        weight = Fraction(0)
        for index, note in enumerate(rhythm.notes):
            following = rhythm.notes[index + 1].start if index + 1 < len(rhythm.notes) else note.end
            length = min(max(note.end, following) - note.start, _LONGEST_COUNTED)
            weight += length * place_strength((note.start + shift) % metre.bar_quarters, metre)
        if rhythm.notes:
            beat = int((rhythm.notes[0].start + shift) % metre.bar_quarters)
            weight *= _BEGINS[beat] if beat < len(_BEGINS) else 1
        last = (rhythm.notes[-1].start + shift) // metre.bar_quarters + 1 if rhythm.notes else 0
        if bars and last % bars == 0:
            weight *= Fraction(3, 2)
        weights.append((weight, -shift))
    weights.sort(reverse=True)
    if len(weights) < 2 or not weights[0][0]:
        return -weights[0][1], 100
    lead = (weights[0][0] - weights[1][0]) / weights[0][0]
    return -weights[0][1], min(100, int(lead * 1000))
