"""A long line whose tempo drifts is followed through its changes."""

from __future__ import annotations

import random
from fractions import Fraction

import pytest

from shedbook.exchange.rhythm.beat_finding import find_bars
from shedbook.exchange.rhythm.beat_grids import GRAINS
from shedbook.exchange.rhythm.chart_following import follow_chart
from shedbook.exchange.rhythm.landings import Chart
from shedbook.exchange.rhythm.quantise import quantise
from shedbook.phrase.changes_text import parse_changes
from shedbook.theory.metre import Metre

# Invented: two figures through a blues, with chord tones on the beats; None is a rest.
CHANGES = "F7 | Bb7 | F7 | % | Bb7 | % | F7 | D7 | Gm7 | C7 | F7 | C7"
ROOTS = (53, 58, 53, 53, 58, 58, 53, 50, 55, 48, 53, 48)
FIGURES: tuple[tuple[int | None, ...], ...] = ((0, 2, 4, 5, 7, 9, 10, 7), (12, None, 10, 9, 7, None, 4, 2))


def line(first_bars: int = 12) -> list[tuple[Fraction, int]]:
    return [
        (Fraction(4 * bar) + Fraction(half, 2), 12 + root + step - (root in (55,) and step == 4))
        for bar, root in enumerate(ROOTS[:first_bars])
        for half, step in enumerate(FIGURES[bar % 2])
        if step is not None
    ]


def drifting(tempo: float, drift: float, jitter_ms: int, ratio: float) -> list[tuple[int, int, int]]:
    """The line played, each beat longer than the last by a share; swung at a ratio."""
    dice = random.Random(f"{tempo} {drift}")
    times = [0.5e6]
    for beat in range(64):
        times.append(times[-1] + 60e6 / tempo * (1 + drift) ** beat)
    found = []
    for place, midi in line():
        beat, inside = divmod(place, 1)
        share = ratio / (ratio + 1) if inside else 0.0
        start = times[int(beat)] + share * (times[int(beat) + 1] - times[int(beat)])
        start += 1000 * dice.uniform(-jitter_ms, jitter_ms)
        found.append((int(start), int(start + 0.3 * 60e6 / tempo), midi))
    return found


def chart() -> Chart:
    changes = parse_changes(CHANGES, Metre())
    starts = tuple(4 * (one.bar - 1) + (one.beat - 1) for one in changes.changes)
    return Chart(changes.bars, tuple(map(Fraction, starts)), tuple(one.chord for one in changes.changes))


@pytest.mark.parametrize("drift", [0.0, 0.003, -0.003], ids=["steady", "slower by 15 %", "faster by 13 %"])
@pytest.mark.parametrize(("tempo", "ratio"), [(96, 1.0), (150, 1.8), (220, 1.3)])
def test_a_drifting_chorus_comes_back(tempo: float, ratio: float, drift: float) -> None:
    notes = drifting(tempo, drift, 12, ratio)
    found = find_bars(notes, Metre(), chart=chart())
    assert found is not None
    rhythm = quantise(found.notes, Metre(), found.tempo_qpm)
    assert [(note.start, note.midi) for note in rhythm.notes] == line()
    assert not found.begins_early


def test_beats_are_those_that_were_played() -> None:
    best = follow_chart(drifting(150, 0.003, 0, 1.8), Metre(), chart())[0]
    assert best.first == 0
    played = [0.5e6 + 0.4e6 * ((1.003**beat) - 1) / 0.003 for beat in range(len(best.times))]
    assert max(abs(one - other) for one, other in zip(best.times, played, strict=True)) < 0.06e6


def test_a_known_tempo_is_the_only_one_that_is_searched() -> None:
    ways = follow_chart(drifting(150, 0.0, 5, 1.8), Metre(), chart(), 150.0)
    assert len(ways) == 1
    assert abs(60e6 / (ways[0].times[1] - ways[0].times[0]) / 150 - 1) < 0.05


def test_places_are_in_grains_from_a_bar_line() -> None:
    found = find_bars(drifting(150, 0.0, 0, 1.8), Metre(), chart=chart())
    assert found is not None
    assert abs(found.notes[0].start) < GRAINS // 20


@pytest.mark.parametrize("metre", ["3/4", "4/4", "5/4", "7/4", "12/4"])
@pytest.mark.parametrize("tempo", [None, 30.0, 400.0])
def test_whatever_is_played_has_rising_beats(metre: str, tempo: float | None) -> None:
    dice = random.Random(metre)
    changes = parse_changes(" | ".join(["F7", "Bdim7"] * 6), Metre.parse(metre))
    starts = tuple(Metre.parse(metre).bar_quarters * (one.bar - 1) for one in changes.changes)
    over = Chart(changes.bars, starts, tuple(one.chord for one in changes.changes))
    for length in (400, 300_000, 30_000_000):
        starts_us = sorted({dice.randrange(length) for _ in range(12)})
        notes = [(start, start + 9, dice.randint(40, 90)) for start in starts_us]
        for way in follow_chart(notes, Metre.parse(metre), over, tempo):
            assert list(way.times) == sorted(way.times)
            near = 0.2 * (way.times[1] - way.times[0])
            assert way.times[0] <= notes[0][0] + near
            assert way.times[-1] >= notes[-1][0] - near
            assert way.lead >= 0
