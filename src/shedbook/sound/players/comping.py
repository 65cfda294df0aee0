"""Comping: piano or guitar behind the line, and in answer to it.

The rhythm of each cell is drawn from the feel, with an eye on the line: behind it there are few
hits and most of them in its gaps; in the reader's rounds there is more. A hit just ahead of a chord takes
that chord; where the line arrives early, so does the piano. Then one voicing a hit is chosen, all together.
"""

from __future__ import annotations

import random
from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from shedbook.sound.feels.patterns import CompingWay
from shedbook.sound.players.band_chart import (
    ANSWER,
    ENDING,
    ROUND,
    Chart,
    LineNote,
    Passage,
    Stretch,
    cell_lengths,
)
from shedbook.sound.players.tables import comping as table
from shedbook.sound.players.tables import voicings as costs
from shedbook.sound.players.usable_notes import UsableNotes, usable_notes
from shedbook.sound.players.voicings import Voicing, smoothest, voicings
from shedbook.sound.score.seeded_dice import seeded
from shedbook.sound.score.written_score import PartNote

_EIGHTH = Fraction(1, 2)
_GRAINS = 5040
"""Parts of a quarter in which the places of all usual values are whole."""
_LEAST = Fraction(1, 4)
_SHARE = Fraction(9, 10)
_CLASHES = (1, 13, 25)


@dataclass(frozen=True, slots=True)
class Strike:
    """One struck chord: place and length in quarters, what it is played over, what the line does."""

    start: Fraction
    quarters: Fraction
    over: UsableNotes
    ahead: bool
    landings: tuple[LineNote, ...]
    behind: bool
    last: bool = False

    @property
    def end(self) -> Fraction:
        """Where the chord is let go, in quarters."""
        return self.start + self.quarters


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
    for passage in chart.passages:
        dice = seeded(seed, "comping", chart.name, passage.number)
        is_round = passage.kind in (ROUND, ANSWER)
        cells = () if passage.kind == ENDING else draw(chart, passage, dice, tuple(rhythms.values()))
        strikes = _ending(passage) if passage.kind == ENDING else strikes_of(chart, passage, cells)
        row = voiced(strikes, dice, passage.start, rows.get(is_round, {}), opening)
        for strike, voicing in row:
            found += _notes(strike, voicing, passage)
        if passage.kind != ENDING:
            rhythms[is_round] = cells
        rows[is_round] = {strike.start - passage.start: voicing for strike, voicing in row}
        opening = row[-1][1] if row else opening
    return tuple(found)


# Where chords are struck.


def draw(
    chart: Chart, passage: Passage, dice: random.Random, before: Sequence[tuple[CompingWay, ...]] = ()
) -> tuple[CompingWay, ...]:
    """Draw a rhythm for each cell of a passage.

    Args:
        chart: the track.
        passage: the bars to fill.
        dice: the passage's own.
        before: the rhythms of earlier passages, which no cell repeats at its place. Nor is a cell like the
            one before it, as far as there is a choice.
    """
    ways = chart.feel.comping.ways
    found: list[CompingWay] = []
    at = passage.start
    starts = [_grains(note.start) for note in passage.line]
    for length in cell_lengths(chart.metre, frozenset(ways)) * passage.bars:
        cells = ways[length]
        weights = [_weight(cell, at, starts) for cell in cells]
        for index, cell in enumerate(cells):
            twice = found and cell == found[-1]
            again = any(len(found) < len(last) and cell == last[len(found)] for last in before)
            if len(cells) > 1 and (twice or again):
                weights[index] = 0
        found.append(dice.choices(cells, weights)[0] if any(weights) else dice.choice(cells))
        at += length
    return tuple(found)


def _grains(place: Fraction) -> int:
    """Return a place in whole numbers, which are quicker to compare."""
    return place.numerator * _GRAINS // place.denominator


def _weight(cell: CompingWay, at: Fraction, starts: Sequence[int]) -> int:
    """Return how likely a cell is: where the line (by its onsets) rests more, against its runs less."""
    weight = 1000 * cell.weight
    if not starts:
        return weight * len(cell.hits) + weight // table.SELDOM_SILENT
    for index, hit in enumerate(cell.hits):
        weight = (
            weight // table.BUSY_HIT if _busy(starts, _grains(at + hit.at)) else weight * table.GAP_HIT // 2
        )
        if index:
            weight //= table.TOO_MANY
    return weight + 1


def _busy(starts: Sequence[int], place: int) -> bool:
    """Whether the line moves on within an eighth of a place."""
    return bisect_right(starts, place + _GRAINS // 2) - bisect_right(starts, place - _GRAINS // 2) > 1


def strikes_of(chart: Chart, passage: Passage, cells: Sequence[CompingWay]) -> tuple[Strike, ...]:
    """Return the chords that are struck in a passage, each over what it is played over.

    Args:
        chart: the track.
        passage: the bars in which they are struck.
        cells: the rhythm of each cell, as `draw` gives it.

    A strike ends where the next one begins, or where its chord does.
    """
    ways = chart.feel.comping.ways
    following = chart.after(passage)
    raw: list[tuple[Fraction, Fraction, bool]] = []
    at = passage.start
    for length, cell in zip(cell_lengths(chart.metre, frozenset(ways)) * passage.bars, cells, strict=True):
        raw += [(at + hit.at, hit.quarters, hit.ahead) for hit in cell.hits]
        at += length
    if chart.feel.comping.held:
        raw = _every_chord(raw, passage)
    raw = _with_the_line(raw, passage)
    found: list[Strike] = []
    for index, (start, quarters, ahead) in enumerate(raw):
        over, until = _chord_for(start, ahead, passage, following)
        if over is None or over.root is None:
            continue
        stop = min(start + quarters, until, raw[index + 1][0] if index + 1 < len(raw) else until)
        if stop - start >= _LEAST:
            heard = tuple(
                note
                for note in (*passage.line, *passage.coming)
                if note.loud and note.start < stop and note.end > start
            )
            found.append(Strike(start, stop - start, over, ahead, heard, bool(passage.line)))
    return tuple(found)


def _every_chord(
    raw: list[tuple[Fraction, Fraction, bool]], passage: Passage
) -> list[tuple[Fraction, Fraction, bool]]:
    """Return a rhythm in which every chord that nobody strikes is struck where it starts."""
    found = list(raw)
    for stretch in passage.stretches:
        if not any(stretch.start - _EIGHTH <= start < stretch.end for start, _, _ in raw):
            found.append((stretch.start, stretch.end - stretch.start, False))
    return sorted(found)


def _with_the_line(
    raw: list[tuple[Fraction, Fraction, bool]], passage: Passage
) -> list[tuple[Fraction, Fraction, bool]]:
    """Return the rhythm with a hit moved to where the line arrives early at the same beat.

    A hit that is there already takes its place, and the coming chord.
    """
    early = {note.arrival: note.start for note in passage.line if note.early and note.start >= passage.start}
    sooner = frozenset(early.values())
    found: dict[Fraction, tuple[Fraction, bool]] = {}
    for start, quarters, ahead in raw:
        at = early.get(start, start)
        found.setdefault(at, (quarters + start - at, ahead or at in sooner))
    return sorted((start, quarters, ahead) for start, (quarters, ahead) in found.items())


def _chord_for(
    start: Fraction, ahead: bool, passage: Passage, following: Passage | None
) -> tuple[UsableNotes | None, Fraction]:
    """Return what a hit is played over, and how long that holds.

    A hit ahead takes the coming chord, unless the line still speaks of the old one.
    """
    stretches = list(passage.stretches)
    if following is not None:
        first = following.stretches[0]
        end = passage.stretches[-1].end
        stretches.append(replace(first, start=end, end=end + first.end - first.start))
    here = _stretch_at(stretches, start)
    if here is None:
        return None, start
    coming = _stretch_at(stretches, start + _EIGHTH)
    if ahead and coming is not None and coming is not here:
        old = any(note.start <= start < note.end and not note.early for note in passage.line)
        if not old:
            return usable_notes(coming.chord, coming.scale), max(start + _EIGHTH, min(coming.end, start + 1))
    return usable_notes(here.chord, here.scale), here.end


def _stretch_at(stretches: Sequence[Stretch], place: Fraction) -> Stretch | None:
    return next((one for one in stretches if one.start <= place < one.end), None)


def _ending(passage: Passage) -> tuple[Strike, ...]:
    """Return the last chord: held through the bar, or short."""
    first = passage.stretches[0]
    over = usable_notes(first.chord, first.scale)
    length = first.end - first.start if passage.held else _EIGHTH
    return () if over.root is None else (Strike(first.start, length, over, False, (), False, True),)


# What is struck.


def voiced(
    strikes: Sequence[Strike],
    dice: random.Random,
    start: Fraction,
    before: dict[Fraction, Voicing],
    opening: Voicing | None = None,
) -> tuple[tuple[Strike, Voicing], ...]:
    """Return the strikes with their voicings; one that would clash with the line at once is left out.

    Args:
        strikes: the chords that are struck in a passage, in order.
        dice: the passage's own.
        start: where the passage begins, in quarters.
        before: the voicings of the round before, by their place from its start; the same one costs more.
        opening: the voicing that was played last, None at the beginning of a track.
    """
    tops = _course(dice, len(strikes))
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
        cost += costs.CLOSE_TO_LINE * sum(voicing[-1] >= note.midi for note in strike.landings)
        found.append((voicing, cost))
    return tuple(found)


def _clashes(voicing: Voicing, landings: Sequence[LineNote]) -> int:
    """Return how often a voicing is a half step (or a flat ninth) from a landing."""
    return sum(abs(note.midi - voice) in _CLASHES for note in landings for voice in voicing)


def _calmed(strike: Strike, voicing: Voicing) -> tuple[Strike, Voicing] | None:
    """Return a strike that ends before the line lands a half step away; None when it would clash at once."""
    clashing = [note for note in strike.landings if _clashes(voicing, (note,))]
    if not clashing:
        return strike, voicing
    stop = min(note.start for note in clashing)
    if stop - strike.start < _LEAST:
        return None
    return replace(strike, quarters=stop - strike.start), voicing


def _notes(strike: Strike, voicing: Voicing, passage: Passage) -> list[PartNote]:
    loud = table.LOUD["behind" if strike.behind else "alone"] + (table.LOUD["ahead"] if strike.ahead else 0)
    if passage.kind == ENDING:
        loud = table.LOUD["ending"]
    share = Fraction(1) if passage.kind == ENDING and passage.held else _SHARE
    # The highest note sings a little.
    top = len(voicing) - 1
    return [
        PartNote(strike.start, strike.quarters * share, midi, loud + (4 if at == top else 0))
        for at, midi in enumerate(voicing)
    ]
