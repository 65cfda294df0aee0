"""Comping: piano or guitar behind the line, and in answer to it.

The rhythm of each cell is drawn from the feel, with an eye on the line: behind it there are few
hits and most of them in its gaps; in the reader's rounds there is more. A hit just ahead of a chord takes
that chord; where the line arrives early, so does the piano. A new chord that no hit falls on is struck all
the same, softly. Then one voicing a hit is chosen, all together, below the line where there is room.
"""

from __future__ import annotations

import random
from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from shedbook.sound.feels.patterns import CompingWay
from shedbook.sound.players.band_chart import (
    ANSWER,
    ENDING,
    ROUND,
    Chart,
    LineNote,
    Passage,
    clave_halves,
)
from shedbook.sound.players.comping_rhythm import LEAST, Strike, draw, ending_strike, strikes_of
from shedbook.sound.players.energy import arc_of, last_round
from shedbook.sound.players.tables import comping as table
from shedbook.sound.players.tables import voicings as costs
from shedbook.sound.players.tables.energy import LAST_ROUND_COURSE
from shedbook.sound.players.voicings import Voicing, shells, smoothest, voicings
from shedbook.sound.score.seeded_dice import seeded
from shedbook.sound.score.written_score import COMPING, PartNote

_SHARE = Fraction(9, 10)
_CLASHES = (1, 13, 25)


def comping(chart: Chart, *, seed: int) -> tuple[PartNote, ...]:
    """Return what the piano or guitar plays through a track, in order.

    Args:
        chart: the passages of the track with their chords, the line, and the feel.
        seed: another seed gives another part.

    Notes are in quarters from the first beat of the track, with MIDI keys and velocities. Rhythms come from
    the feel (`sound.feels`), costs from `tables.voicings` (common practice, figures our own).
    """
    found: list[PartNote] = []
    # What was played last, and in the last round, which may lie further back.
    rhythms: dict[bool, tuple[CompingWay, ...]] = {}
    rows: dict[bool, dict[Fraction, Voicing]] = {}
    opening: Voicing | None = None
    halves, arc, high = clave_halves(chart, seed), arc_of(chart), last_round(chart)
    for passage in chart.passages:
        dice = seeded(seed, "comping", chart.name, passage.number)
        is_round = passage.kind in (ROUND, ANSWER)
        half, before = halves[passage.number], tuple(rhythms.values())
        cells = () if passage.kind == ENDING else draw(chart, passage, dice, before, half=half)
        strikes = ending_strike(passage) if passage.kind == ENDING else strikes_of(chart, passage, cells)
        higher = LAST_ROUND_COURSE if passage == high else 0
        row = voiced(strikes, dice, passage.start, rows.get(is_round, {}), opening, higher=higher)
        for strike, voicing in row:
            found += _notes(strike, voicing, passage, arc.louder(COMPING, strike.start))
        if passage.kind != ENDING:
            rhythms[is_round] = cells
        rows[is_round] = {strike.start - passage.start: voicing for strike, voicing in row}
        opening = row[-1][1] if row else opening
    return tuple(found)


# What is struck.


def voiced(
    strikes: Sequence[Strike],
    dice: random.Random,
    start: Fraction,
    before: dict[Fraction, Voicing],
    opening: Voicing | None = None,
    *,
    higher: int = 0,
) -> tuple[tuple[Strike, Voicing], ...]:
    """Return the strikes with their voicings; of one that would clash with the line at once a part is struck.

    Args:
        strikes: the chords that are struck in a passage, in order.
        dice: the passage's own.
        start: where the passage begins, in quarters.
        before: the voicings of the round before, by their place from its start; the same one costs more.
        opening: the voicing that was played last, None at the beginning of a track.
        higher: by how many half steps the course of the highest voice lies higher than usual.
    """
    tops = [top + higher for top in _course(dice, len(strikes))]
    rows = [
        candidates(strike, dice, before.get(strike.start - start), top)
        for strike, top in zip(strikes, tops, strict=True)
    ]
    kept = [(strike, row) for strike, row in zip(strikes, rows, strict=True) if row]
    lead = [((opening, 0),)] if opening is not None else []
    ways = smoothest([*lead, *(row for _, row in kept)])[len(lead) :]
    return tuple(
        calm
        for (strike, _), voicing in zip(kept, ways, strict=True)
        if (calm := _calmed(strike, voicing)) is not None
    )


def _course(dice: random.Random, count: int) -> list[int]:
    """Draw heights for the highest voice to follow, so that a chord that stays does not stand still."""
    at, goal, left = dice.choice(costs.COURSE), dice.choice(costs.COURSE), costs.COURSE_STRIKES
    found = []
    for _ in range(count):
        if not left:
            at, goal, left = goal, dice.choice(costs.COURSE), costs.COURSE_STRIKES
        found.append(goal + (at - goal) * left // costs.COURSE_STRIKES)
        left -= 1
    return found


def candidates(
    strike: Strike, dice: random.Random, before: Voicing | None, top: int
) -> tuple[tuple[Voicing, int], ...]:
    """Return the voicings to choose from for a strike, with what each costs here.

    Args:
        strike: the chord that is struck, and the landings of the line that it sounds with.
        dice: the passage's own.
        before: the voicing of the round before at this place, None if there was none.
        top: the MIDI key towards which the highest voice goes.
    """
    found = []
    choices = voicings(strike.over)
    for (voicing, cost), chance in zip(choices, dice.randbytes(len(choices)), strict=True):
        cost += chance % (costs.NOISE + 1)
        cost += costs.OFF_COURSE * abs(voicing[-1] - top)
        cost += costs.AS_BEFORE if voicing == before else 0
        cost += costs.THIN_ENDING if strike.last and len(voicing) < 4 else 0
        cost += costs.CLASH_WITH_LINE * _clashes(voicing, strike.landings)
        if strike.under is not None:
            cost += costs.IN_THE_LINE * max(0, voicing[-1] - strike.under + costs.BELOW_LINE)
        found.append((voicing, cost))
    return tuple(found)


def _clashes(voicing: Voicing, landings: Sequence[LineNote]) -> int:
    """Return how often a voicing is a half step (or a flat ninth) from a landing."""
    return sum(abs(note.midi - voice) in _CLASHES for note in landings for voice in voicing)


def _calmed(strike: Strike, voicing: Voicing) -> tuple[Strike, Voicing] | None:
    """Return a strike that ends before the line lands a half step away.

    Where it would clash at once, the pair that says what the chord is is struck where it does not clash,
    else the voices that do not; None where that leaves one.
    """
    clashing = [note for note in strike.landings if _clashes(voicing, (note,))]
    if not clashing:
        return strike, voicing
    stop = min(note.start for note in clashing)
    if stop - strike.start >= LEAST:
        return replace(strike, quarters=stop - strike.start), voicing
    pairs = [pair for pair in shells(strike.over) if not _clashes(pair, strike.landings)]
    if pairs:
        return strike, min(pairs, key=lambda pair: (abs(sum(pair) - voicing[0] - voicing[-1]), pair))
    kept = tuple(voice for voice in voicing if not _clashes((voice,), strike.landings))
    return (strike, kept) if len(kept) > 1 else None


def shaped(voicing: Voicing, shape: str) -> Voicing:
    """Return what of a voicing is struck: all of it, its highest note in octaves, or what lies under that."""
    if shape == "octave":
        return (voicing[-1] - 12, voicing[-1])
    return voicing[:-1][-2:] if shape == "inner" else voicing


def _notes(strike: Strike, full: Voicing, passage: Passage, louder: int) -> list[PartNote]:
    voicing = shaped(full, strike.shape)
    loud = table.LOUD["behind" if strike.behind else "alone"] + (table.LOUD["ahead"] if strike.ahead else 0)
    loud += louder + (table.LOUD["soft"] if strike.soft else 0)
    loud += table.LOUD["off"] if strike.start % 1 else 0
    if passage.kind == ENDING:
        loud = table.LOUD["ending"] + louder
    share = Fraction(1) if passage.kind == ENDING and passage.held else _SHARE
    # The highest note sings a little.
    top = len(voicing) - 1
    return [
        PartNote(strike.start, strike.quarters * share, midi, loud + (4 if at == top else 0))
        for at, midi in enumerate(voicing)
    ]
