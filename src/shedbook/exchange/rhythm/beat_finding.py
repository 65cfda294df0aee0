"""Beats and bar lines found in free playing, where the tempo map of a file says nothing about them.

First steady beats are searched that explain best when the notes begin (`steady_beats`). Each of them is
weighed together with every place of the bar line (`bar_lines`): by the bars that the changes have, the notes
over each chord, and long notes on strong beats. The best beat is then followed through the line, and may
drift a little. Where the changes are long, a steady beat is lost before their end: there the line is followed
through them from beat to beat (`chart_following`).

`FoundBeats.sure` says how far the best answer leads.

Conventions: times are microseconds; `beat_grids.GRAINS` grains make a quarter.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import NamedTuple

from shedbook.exchange.rhythm.bar_lines import bar_line_cost
from shedbook.exchange.rhythm.beat_grids import GRAINS
from shedbook.exchange.rhythm.beat_likelihood import written_on
from shedbook.exchange.rhythm.chart_following import FollowedBeats, follow_chart
from shedbook.exchange.rhythm.landings import Chart
from shedbook.exchange.rhythm.onsets import RecordedNote
from shedbook.exchange.rhythm.steady_beats import SteadyBeat, steady_beats
from shedbook.theory.metre import Metre

_TRIED = 40
_LISTEN = 96
"""The tempo is chosen by so many notes."""
_FOLLOW = Fraction(1, 5)
"""A note that is off the beat moves the beat by this share of the distance."""
_NEAR_BEAT = Fraction(1, 6)
_LONG_CHART = 12
"""Lines are followed through changes of so many bars and more."""


@dataclass(frozen=True, slots=True)
class FoundBeats:
    """A line on beats that were found.

    Attributes:
        notes: the notes in grains from a found bar line; each beat is a quarter.
        tempo_qpm: the tempo in quarters a minute.
        beat_times: the time of each beat from that bar line on, in microseconds.
        sure: how much less likely the best other reading is, in tenths of a natural logarithm, at most 100.
        begins_early: whether the changes begin with the bar after that of the first note.
    """

    notes: tuple[RecordedNote, ...]
    tempo_qpm: Fraction
    beat_times: tuple[int, ...]
    sure: int
    begins_early: bool


def find_bars(
    notes: Sequence[tuple[int, int, int]],
    metre: Metre,
    *,
    chart: Chart | None = None,
    tempo_qpm: Fraction | None = None,
) -> FoundBeats | None:
    """Return a line on found beats; None for fewer than four notes.

    Args:
        notes: (start, end, MIDI number) of one note at a time, in order, in microseconds.
        metre: the metre that the bars shall have.
        chart: the changes over which the line goes; None where they are not known.
        tempo_qpm: the tempo in quarters a minute; None where it is not known.
    """
    if len(notes) < 4 or notes[-1][0] <= notes[0][0]:
        return None
    onsets = [note[0] for note in notes]
    if chart is not None and metre.unit == 4 and chart.bars >= _LONG_CHART:
        followed = follow_chart(notes, metre, chart, None if tempo_qpm is None else float(tempo_qpm))
        if followed:
            return _through_the_chart(notes, metre, followed)
    heard = notes[:_LISTEN]
    readings = [
        reading
        for beat in steady_beats(onsets[:_LISTEN], _TRIED, tempo_qpm)
        for reading in _readings(heard, beat, metre, chart, onsets[-1])
    ]
    readings.sort()
    best = readings[0]
    rival = next((one.cost for one in readings if not _same_reading(one, best)), best.cost + 100)
    beats = _followed(onsets, best.period, best.phase)
    on_beats = _on_beats(notes, beats)
    tempo = Fraction(round(60_000_000 * (len(beats) - 1) / (beats[-1] - beats[0])))
    moved = tuple(
        RecordedNote(start + best.shift * GRAINS, end + best.shift * GRAINS, midi)
        for start, end, midi in on_beats
    )
    earlier = tuple(beats[0] - step * best.period for step in range(best.shift, 0, -1))
    sure = max(0, min(100, round(rival - best.cost)))
    return FoundBeats(moved, tempo, (*earlier, *beats), sure, best.early)


def _through_the_chart(
    notes: Sequence[tuple[int, int, int]], metre: Metre, followed: Sequence[FollowedBeats]
) -> FoundBeats:
    """Return a line on beats that were followed through its changes."""
    best, bar = followed[0], int(metre.bar_quarters)
    beats = [round(time) for time in best.times]
    step = beats[-1] - beats[-2]
    beats += [beats[-1] + step * more for more in range(1, 2 + max(0, notes[-1][1] - beats[-1]) // step)]
    shift = best.first % bar
    moved = tuple(
        RecordedNote(start + shift * GRAINS, end + shift * GRAINS, midi)
        for start, end, midi in _on_beats(notes, beats)
    )
    earlier = tuple(beats[0] - (beats[1] - beats[0]) * back for back in range(shift, 0, -1))
    tempo = Fraction(round(60e6 * (len(best.times) - 1) / (best.times[-1] - best.times[0])))
    others = [one.cost - best.cost for one in followed[1:] if not _same_followed(one, best)]
    sure = max(0, min(100, round(min([best.lead, *others]))))
    return FoundBeats(moved, tempo, (*earlier, *beats), sure, best.first < 0)


def _same_followed(one: FollowedBeats, other: FollowedBeats) -> bool:
    """Tell whether two answers, found in different ranges of tempos, have the same beats."""
    first, last = other.times[0], other.times[-2]
    off = abs(one.times[0] - first) + abs(one.times[-2] - last)
    alike = one.first == other.first and len(one.times) == len(other.times)
    return alike and 3 * off < other.times[1] - first


class _Reading(NamedTuple):
    """One way to hear a line: its cost, the beat, and how many beats after a bar line that beat is.

    `early` says that the changes begin with the bar after that of the first note.
    """

    cost: float
    period: int
    phase: int
    shift: int
    early: bool


def _same_reading(one: _Reading, other: _Reading) -> bool:
    """Tell whether two readings have the same beats and bar lines."""
    off = (one.phase - one.shift * one.period - other.phase + other.shift * other.period) % other.period
    near = min(off, other.period - off) * 6 < other.period
    return _alike(one.period, other.period) and near and one.shift == other.shift


def _readings(
    notes: Sequence[tuple[int, int, int]],
    beat: SteadyBeat,
    metre: Metre,
    chart: Chart | None,
    last_onset: int,
) -> list[_Reading]:
    """Return the readings of a line on one beat, one for each place of the bar line."""
    period = round(beat.period)
    # The first beat is the last one that is not clearly after the first note.
    phase = round(beat.phase)
    phase += (notes[0][0] - phase + period // 8) // period * period
    places, plain = written_on(notes, beat, phase, metre)
    beyond = Fraction(max(0, last_onset - notes[-1][0]), period)
    found = []
    for shift in range(max(1, int(metre.bar_quarters))):
        cost, early = bar_line_cost(places, shift, metre, chart, beyond)
        found.append(_Reading(plain + cost, period, phase, shift, early))
    return found


def _alike(one: int, other: int) -> bool:
    """Tell whether two periods differ by less than a twenty-fifth."""
    return abs(one - other) * 25 < other


def _followed(onsets: Sequence[int], period: int, phase: int) -> list[int]:
    """Return the times of the beats under a line; each note near a beat moves that beat a little."""
    times = [phase]
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
