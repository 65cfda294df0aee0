"""A played line followed through its changes, beat by beat: local tempo, division of the beat and place.

Long lines drift: a tempo that is right at the beginning is beats away after a chorus. Here the beats of the
changes are laid over the whole line at least cost. A state is when a beat begins, how long it is, and how
it is divided (`tables.following_costs`); each beat costs what the beginnings of the notes in it cost, and
their pitches over the chord that sounds there; the next one may be a little longer or shorter. How many
rounds of the changes the line fills is tried out, each with its own range of tempos.

Conventions: times are microseconds, in the search *units*: sixtieths of a middle beat. A beat owns the notes
from a little before it (`_EARLY`) to as much before the next. Costs are tenths of a natural logarithm.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType
from typing import NamedTuple, TypeAlias

import numpy as np
from numpy.typing import NDArray

from shedbook.exchange.rhythm.bar_lines import bars_cost, pick_up_cost
from shedbook.exchange.rhythm.beat_likelihood import tempo_cost
from shedbook.exchange.rhythm.landings import Chart
from shedbook.exchange.rhythm.tables.bar_line_costs import CHORD_NOTES, FIRST_NOTE, ChordRow
from shedbook.exchange.rhythm.tables.following_costs import (
    DIVISIONS,
    ELSEWHERE,
    FOLLOWING,
    SPREAD_MS,
    SPREAD_SHARE,
    DivisionRow,
)
from shedbook.table_index import Rows
from shedbook.theory.metre import Metre

_COST = Rows(
    "costs of following a line",
    "src/shedbook/exchange/rhythm/tables/following_costs.py",
    [(row.name, row.cost) for row in FOLLOWING],
)
_COST.must_be(
    ("beginnings", "chords", "another division", "tempo by a sixtieth", "tempo by two sixtieths"),
    "the search adds them up",
)
_FAMILIES: Mapping[str, ChordRow] = MappingProxyType({row.family: row for row in CHORD_NOTES})
_UNITS, _WIDEST = 60, 6
"""A middle beat has so many units, and may be so many longer or shorter."""
_LENGTHS = range(_UNITS - _WIDEST, _UNITS + _WIDEST + 1)
_EARLY = 0.15
_ON_BEAT, _SECOND_HALF = 0.15, 0.38
"""Notes up to here are heard on the beat, and from here on over the chord of the second half beat."""
_AWAY = 10
"""A beat lies at most so many beats, or a bar and four beats, from where a steady tempo has it."""
_SLOWEST, _FASTEST = 50.0, 330.0
_MOST_BEATS = 400
"""Longer readings are not searched."""
_OTHER = 0.3
"""A reading is another one when its last note lies so many beats elsewhere."""
_INF = np.float32(1e9)

_Costs: TypeAlias = NDArray[np.float32]
_Places: TypeAlias = NDArray[np.intp]


class FollowedBeats(NamedTuple):
    """Beats under a whole line.

    `times` are the times of the beats and that of one more; `first` is the number of the first beat, counted
    from the beginning of the changes and below 0 for a pick-up; `lead` says by how much the next best reading
    at a tempo near this one costs more.
    """

    cost: float
    times: tuple[float, ...]
    first: int
    lead: float


def follow_chart(
    notes: Sequence[tuple[int, int, int]], metre: Metre, chart: Chart, tempo_qpm: float | None = None
) -> tuple[FollowedBeats, ...]:
    """Return the likeliest beats of a line over its changes, one for each range of tempos, the best first.

    Args:
        notes: (start, end, MIDI number) of one note at a time, in order, in microseconds.
        metre: the metre, whose beats are quarters.
        chart: the changes, which begin anew under a longer line.
        tempo_qpm: the tempo in quarters a minute; None where it is not known.
    """
    length = notes[-1][0] - notes[0][0]
    found = [
        way
        for beat_us in _middle_beats(length, chart.bars * int(metre.bar_quarters), tempo_qpm)
        if length < _MOST_BEATS * beat_us
        for way in _Search(notes, metre, chart, beat_us).ways()
    ]
    return tuple(sorted(found))


def _middle_beats(length: float, beats: int, tempo_qpm: float | None) -> Iterator[float]:
    """Yield the middle lengths of a beat to try, for each number of rounds over changes of so many beats."""
    if tempo_qpm is not None:
        yield 60e6 / tempo_qpm
        return
    for rounds in range(1, _MOST_BEATS // beats + 1):
        # The line ends in the last bar; over one round it may end a bar before.
        for less in (2, min(8, beats // 3)) if rounds == 1 else (2,):
            tempo = 60e6 * (beats * rounds - less) / length
            if _SLOWEST <= tempo <= _FASTEST:
                yield 60e6 / tempo


@dataclass(frozen=True, slots=True)
class _Layer:
    """The states of one beat, by time, length and division.

    `began` marks those in which the line begins. `longer` and `divided` lead back from the next beat: how
    many units longer it is than this one, and how this one is divided.
    """

    began: NDArray[np.bool_] | None
    longer: NDArray[np.int8]
    divided: NDArray[np.int8]


class _End(NamedTuple):
    """A way to end: its cost, the number of the beat, its time, the places of length and division."""

    cost: float
    beat: int
    time: int
    length: int
    division: int
    last: float
    """Where the last note lies, in beats."""


class _Search:
    """The least way through one range of tempos."""

    def __init__(
        self, notes: Sequence[tuple[int, int, int]], metre: Metre, chart: Chart, beat_us: float
    ) -> None:
        self._unit = beat_us / _UNITS
        self._begin_us = notes[0][0]
        self._bar, self._chart = int(metre.bar_quarters), chart
        pad = 6 * _LENGTHS[-1]
        starts = (np.array([note[0] for note in notes], dtype=np.float64) - notes[0][0]) / self._unit
        self._onsets: _Places = np.round(starts).astype(np.intp) + pad
        self._pad, self._last = pad, int(self._onsets[-1])
        self._size = self._last + 4 * _LENGTHS[-1]
        spread = max(SPREAD_MS * 1000 / beat_us, SPREAD_SHARE)
        self._due = _beginnings(self._onsets, self._size, spread)
        keys = np.array([note[2] % 12 for note in notes])
        self._over = [_chord_sums(self._onsets, keys, one, self._size) for one in _chord_tables(chart)]
        # Rates are counted for each spread in milliseconds, so that ranges of tempos can be compared.
        self._scale = _COST["beginnings"] * 10 * len(notes) * math.log(SPREAD_MS * 1000 / beat_us)

    def ways(self) -> Iterator[FollowedBeats]:
        """Yield the least way, if the line can be followed at all."""
        first = -self._bar
        layers: list[_Layer] = []
        ends: list[_End] = []
        origin, stop = self._window(first)
        open_ways = np.full((stop - origin, len(_LENGTHS), len(DIVISIONS)), _INF, dtype=np.float32)
        beat = first
        while True:
            began = self._begin(open_ways, origin, beat) if beat < self._bar else None
            done = open_ways + self._due[origin:stop] + self._chords(beat, origin, stop)[:, :, None]
            ends += self._ends(done, origin, beat)
            after, after_stop = self._window(beat + 1)
            if after >= after_stop:
                break
            open_ways, longer, divided = _next_beat(done, origin, after, after_stop)
            layers.append(_Layer(began, longer, divided))
            beat, origin, stop = beat + 1, after, after_stop
        if ends:
            yield self._told(min(ends), ends, layers, first)

    def _window(self, beat: int) -> tuple[int, int]:
        """Return the first time that a beat may have, and the one after the last."""
        begin, last = self._onsets[0], self._last + _LENGTHS[-1]
        slack = max(_AWAY, self._bar + 4) * _UNITS
        early = begin - 2 * _LENGTHS[-1] + max(0, beat - self._bar) * _LENGTHS[0]
        late = begin + (beat + self._bar + 2) * _LENGTHS[-1]
        near = int(begin) + beat * _UNITS
        return max(int(early), near - slack), min(int(late), int(last), near + slack)

    def _begin(self, open_ways: _Costs, origin: int, beat: int) -> NDArray[np.bool_]:
        """Let the line begin in a beat, where that is cheaper than to have begun before; mark where."""
        began = np.zeros(open_ways.shape, dtype=np.bool_)
        first, inside = int(self._onsets[0]), beat % self._bar
        extra = pick_up_cost(inside, self._bar) if beat < 0 else 0.0
        for place, length in enumerate(_LENGTHS):
            early = round(_EARLY * length)
            times = np.arange(max(origin, first - length + early + 1), first + early + 1)
            halves = np.round(2 * (inside + np.maximum(first - times, 0) / length)).astype(int)
            cost = np.array(FIRST_NOTE)[np.minimum(halves % (2 * self._bar), len(FIRST_NOTE) - 1)] + extra
            here = open_ways[times - origin, place]
            began[times - origin, place] = cost[:, None] < here
            open_ways[times - origin, place] = np.minimum(cost[:, None], here)
        return began

    def _chords(self, beat: int, origin: int, stop: int) -> _Costs:
        """Return what the notes in a beat cost over its chords, by time and length."""
        here, later = self._over[self._chord_at(beat)], self._over[self._chord_at(beat + 0.5)]
        times = np.arange(origin, stop)
        found = np.empty((stop - origin, len(_LENGTHS)), dtype=np.float32)
        for place, length in enumerate(_LENGTHS):
            begin = times - round(_EARLY * length)
            off, half = times + int(_ON_BEAT * length), times + int(_SECOND_HALF * length)
            found[:, place] = here[0][off] - here[0][begin] + here[1][half] - here[1][off]
            found[:, place] += later[1][begin + length] - later[1][half]
        return found * np.float32(_COST["chords"])

    def _chord_at(self, beat: float) -> int:
        place = beat % (self._chart.bars * self._bar)
        return max(0, sum(1 for start in self._chart.starts if start <= place) - 1)

    def _ends(self, done: _Costs, origin: int, beat: int) -> Iterator[_End]:
        """Yield the best way to end in a beat, for each length of it."""
        more = bars_cost(beat // self._bar + 1, self._chart)
        for place, length in enumerate(_LENGTHS):
            early = round(_EARLY * length)
            begin, stop = max(origin, self._last - length + early + 1), self._last + early + 1
            some = done[begin - origin : max(begin, stop) - origin, place]
            if some.size:
                at, division = np.unravel_index(int(some.argmin()), some.shape)
                time = begin + int(at)
                last = beat + (self._last - time) / length
                cost = float(some[at, division]) + more
                yield _End(cost, beat, time, place, int(division), last)

    def _told(self, best: _End, ends: Sequence[_End], layers: Sequence[_Layer], first: int) -> FollowedBeats:
        """Return the least way as beats."""
        beat, time, length, division = best.beat, best.time, best.length, best.division
        times = [time + _LENGTHS[length], time]
        while beat > first:
            here = layers[beat - first] if beat - first < len(layers) else None
            began = None if here is None else here.began
            if began is not None and began[time - self._window(beat)[0], length, division]:
                break
            before = layers[beat - first - 1]
            at = time - self._window(beat)[0]
            division = int(before.divided[at, length, division])
            length -= int(before.longer[at, length, division])
            time -= _LENGTHS[length]
            beat -= 1
            times.append(time)
        times_us = tuple((one - self._pad) * self._unit + self._begin_us for one in reversed(times))
        tempo = 60e6 * (len(times) - 1) / (times_us[-1] - times_us[0])
        others = (end.cost for end in ends if abs(end.last - best.last) > _OTHER)
        cost = best.cost - self._scale + tempo_cost(tempo)
        return FollowedBeats(cost, times_us, beat, min(others, default=best.cost + 100) - best.cost)


def _rates(length: int, row: DivisionRow, spread: float) -> NDArray[np.float64]:
    """Return the logarithms of the rates of beginnings at each unit of a beat, in tenths."""
    places = (np.arange(length) - round(_EARLY * length)) / length
    found = np.full(length, ELSEWHERE)
    for one in row.places:
        bent = row.ratio / (row.ratio + 1) if one.place.denominator == 2 else float(one.place)
        away = np.abs(places - bent) % 1
        wide = one.wider * spread
        away = np.minimum(away, 1 - away) / wide
        found += one.rate * np.exp(-0.5 * away**2) / (wide * math.sqrt(2 * math.pi))
    return np.asarray(10 * np.log(found * _UNITS / length))


def _beginnings(onsets: _Places, size: int, spread: float) -> _Costs:
    """Return what the beginnings of notes cost in a beat, by its time, length and division."""
    notes = np.bincount(onsets, minlength=size).astype(np.float64)
    found = np.empty((size, len(_LENGTHS), len(DIVISIONS)), dtype=np.float32)
    for place, length in enumerate(_LENGTHS):
        skipped = length - 1 - round(_EARLY * length)
        for division, row in enumerate(DIVISIONS):
            due = 10 * (ELSEWHERE + sum(one.rate for one in row.places)) + row.cost
            sums = np.correlate(notes, _rates(length, row, spread), "full")
            sums = np.concatenate((sums[skipped:], np.zeros(_LENGTHS[-1])))[:size]
            found[:, place, division] = _COST["beginnings"] * (due - sums)
    return found


def _chord_tables(chart: Chart) -> Iterator[NDArray[np.float64]]:
    """Yield what each pitch class costs over each chord, on the beat and off it."""
    for chord in chart.chords:
        row = _FAMILIES.get(chord.family)
        if row is None or chord.root is None:
            yield np.zeros((2, 12))
        else:
            table = np.array((row.on_beat, row.off_beat), dtype=np.float64)
            yield np.roll(table, chord.root.pitch_class, axis=1)


def _chord_sums(
    onsets: _Places, keys: NDArray[np.int_], table: NDArray[np.float64], size: int
) -> NDArray[np.float64]:
    """Return what all notes before a time cost over a chord, on the beat and off it."""
    room = size + 2 * _LENGTHS[-1]
    return np.array(
        [
            np.concatenate(([0.0], np.cumsum(np.bincount(onsets, weights=row[keys], minlength=room))))
            for row in table
        ]
    )


def _next_beat(
    done: _Costs, origin: int, after: int, after_stop: int
) -> tuple[_Costs, NDArray[np.int8], NDArray[np.int8]]:
    """Return the states of the next beat with what leads back from them."""
    shape = (after_stop - after, *done.shape[1:])
    moved = np.full(shape, _INF, dtype=np.float32)
    for place, length in enumerate(_LENGTHS):
        begin, stop = max(after, origin + length), min(after_stop, origin + len(done) + length)
        if begin < stop:
            moved[begin - after : stop - after, place] = done[
                begin - length - origin : stop - length - origin, place
            ]
    best, longer = moved.copy(), np.zeros(shape, dtype=np.int8)
    for step in (1, -1, 2, -2):
        cost = np.float32(_COST["tempo by a sixtieth" if abs(step) == 1 else "tempo by two sixtieths"])
        count = len(_LENGTHS) - abs(step)
        source, target = max(0, -step), max(0, step)
        ways = moved[:, source : source + count] + cost
        here = best[:, target : target + count]
        longer[:, target : target + count][ways < here] = step
        here[...] = np.minimum(here, ways)
    least = best.argmin(axis=2)[:, :, None]
    switched = np.take_along_axis(best, least, 2) + np.float32(_COST["another division"])
    own = np.arange(len(DIVISIONS))[None, None, :]
    divided = np.where(switched < best, least, own).astype(np.int8)
    return np.minimum(best, switched), longer, divided
