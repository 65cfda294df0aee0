"""How a take was played: intonation, tempo and its drift, swing and lag, bar by bar.

All of it comes from the notes that were played as written. Times are seconds of the recording.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from statistics import fmean, median
from typing import NamedTuple

import numpy as np

from shedbook.listen.lines import Line, PlayedNote
from shedbook.listen.take_reading import TakeReading

HALF = Fraction(1, 2)
_LEAST_NOTES = 4
_LEAST_SWING, _MOST_SWING = 0.6, 5.0
_FAR_BEATS = 0.35


class Intonation(NamedTuple):
    """How high a take lies.

    Attributes:
        a4_hz: the A4 that the whole take is in tune with.
        cents: how far that is from the A4 asked for.
        spread: the median distance of single notes from the take's own tuning, in cents.
        notes: cents of each note of the line from the A4 asked for, None where it is not known.
    """

    a4_hz: float
    cents: float
    spread: float
    notes: tuple[float | None, ...]


class Tempo(NamedTuple):
    """Quarters a minute of the whole, of its beginning and its end, and the second at which bar 1 begins.

    `drift` is how much faster the end is than the beginning, as a share.
    """

    qpm: float
    first_qpm: float
    last_qpm: float
    bar_1_s: float
    drift: float


class BarFeel(NamedTuple):
    """One bar: the swing ratio (long eighth over short) and the lag of its beats in ms, None where not known.

    `pairs` says from how many pairs of eighths the ratio comes.
    """

    bar: int
    swing: float | None
    pairs: int
    lag_ms: float | None


@dataclass(frozen=True, slots=True)
class Measures:
    """All measures of a take; None where too few notes were played as written.

    `against_click` says whether the lag is that behind a click whose place was given. Without one it is that
    behind the take's own beat, whose mean is nothing by construction: then it tells bars apart, no more.
    """

    intonation: Intonation | None
    tempo: Tempo | None
    bars: tuple[BarFeel, ...]
    against_click: bool


@dataclass(frozen=True, slots=True)
class Click:
    """Where a click lies in a recording: the second of beat 1 of bar 1, and its quarters a minute."""

    bar_1_s: float
    qpm: float


def measures_of(
    reading: TakeReading, line: Line, *, a4_hz: float = 440.0, click: Click | None = None
) -> Measures:
    """Return how a take was played.

    Args:
        reading: the take.
        line: its phrase.
        a4_hz: the A4 that intonation is told against.
        click: what it was played to, None where that is not known.
    """
    tempo = tempo_of(reading, line)
    if click is not None:
        tempo = tempo and tempo._replace(bar_1_s=click.bar_1_s)
    grid = (click.bar_1_s, click.qpm) if click is not None else None
    if grid is None and tempo is not None:
        grid = (tempo.bar_1_s, tempo.qpm)
    return Measures(
        intonation_of(reading, a4_hz),
        tempo,
        _bar_feels(reading, line, grid, bent=tempo if click is None else None),
        click is not None,
    )


def intonation_of(reading: TakeReading, a4_hz: float) -> Intonation | None:
    """Return how high a take lies; None where no note is long enough to say."""
    asked = 1200 * float(np.log2(a4_hz / 440))
    notes: list[float | None] = [None] * len(reading.played)
    for index, note in reading.right:
        if note.cents is not None:
            notes[index] = note.cents - asked
    known = [cents for cents in notes if cents is not None]
    if not known:
        return None
    whole = median(known)
    spread = median(abs(cents - whole) for cents in known)
    return Intonation(a4_hz * 2 ** (whole / 1200), whole, spread, tuple(notes))


def tempo_of(reading: TakeReading, line: Line) -> Tempo | None:
    """Return the tempo of a take: the straight line through its notes on beats, then through its two halves.

    Where there are too few of these, all notes are taken. Notes far from the line are left out.
    """
    points = _points(reading.right, line, on_beats=True)
    if len(points) < _LEAST_NOTES:
        points = _points(reading.right, line, on_beats=False)
    if len(points) < _LEAST_NOTES:
        return None
    slope, at_0, kept = _straight(points)
    if slope <= 0:
        return None
    bent = (
        np.polyfit(kept[:, 0], kept[:, 1], 2) if len(kept) > 2 * _LEAST_NOTES else np.array([0, slope, at_0])
    )
    first, last = kept[0, 0], kept[-1, 0]
    speeds = [60 / max(1e-3, float(2 * bent[0] * place + bent[1])) for place in (first, last)]
    return Tempo(60 / slope, speeds[0], speeds[1], at_0, speeds[1] / speeds[0] - 1)


def _points(
    right: Sequence[tuple[int, PlayedNote]], line: Line, *, on_beats: bool
) -> list[tuple[float, float]]:
    return [
        (float(line.notes[index].start), note.start_s)
        for index, note in right
        if not on_beats or line.notes[index].start.denominator == 1
    ]


def _straight(points: Sequence[tuple[float, float]]) -> tuple[float, float, np.ndarray]:
    """Return seconds a quarter, the second of place 0, and the points near that line."""
    kept = np.array(points)
    for _ in range(3):
        slope, at_0 = np.polyfit(kept[:, 0], kept[:, 1], 1)
        away = np.abs(kept[:, 1] - at_0 - slope * kept[:, 0])
        near = away <= max(0.04, 3 * float(np.median(away)))
        if near.all() or near.sum() < _LEAST_NOTES:
            break
        kept = kept[near]
    return float(slope), float(at_0), kept


def _bar_feels(
    reading: TakeReading, line: Line, grid: tuple[float, float] | None, *, bent: Tempo | None
) -> tuple[BarFeel, ...]:
    """Return each bar's swing and lag; a tempo that drifts is followed where there is no click."""
    swings, lags = _swings(reading, line), defaultdict[int, list[float]](list)
    if grid is not None:
        at_0, qpm = grid
        curve = _curve(reading, line) if bent is not None else None
        for index, note in reading.right:
            place = line.notes[index].start
            if place.denominator != 1:
                continue
            due = (
                float(np.polyval(curve, float(place)))
                if curve is not None
                else at_0 + float(place) * 60 / qpm
            )
            lag = note.start_s - due
            if abs(lag) < _FAR_BEATS * 60 / qpm:
                lags[line.notes[index].bar].append(1000 * lag)
    bars = sorted({note.bar for note in line.notes})
    return tuple(
        BarFeel(
            bar,
            fmean(swings[bar]) if bar in swings else None,
            len(swings.get(bar, ())),
            fmean(lags[bar]) if bar in lags else None,
        )
        for bar in bars
    )


def _curve(reading: TakeReading, line: Line) -> np.ndarray | None:
    points = _points(reading.right, line, on_beats=True)
    return (
        np.polyfit(np.array(points)[:, 0], np.array(points)[:, 1], 2)
        if len(points) > 2 * _LEAST_NOTES
        else None
    )


def _swings(reading: TakeReading, line: Line) -> Mapping[int, list[float]]:
    """Return by bar the ratios of the long eighth over the short one.

    Each comes from three notes in a row: on a beat, on its half, on the next beat.
    """
    at = {line.notes[index].start: note.start_s for index, note in reading.right}
    bars = {note.start: note.bar for note in line.notes}
    inside = defaultdict[int, set[Fraction]](set)
    for note in line.notes:
        inside[note.start // 1].add(note.start % 1)
    found = defaultdict[int, list[float]](list)
    for place, start in at.items():
        off, following = at.get(place + HALF), at.get(place + 1)
        if (
            place.denominator != 1
            or off is None
            or following is None
            or inside[place // 1] != {Fraction(0), HALF}
        ):
            continue
        ratio = (off - start) / max(1e-3, following - off)
        if _LEAST_SWING <= ratio <= _MOST_SWING:
            found[bars[place]].append(ratio)
    return found
