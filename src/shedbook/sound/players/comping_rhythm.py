"""Where the piano strikes: a rhythm for each cell, drawn from the feel with an eye on the line.

Behind the line there are few hits, most of them in its gaps; in the reader's rounds there are more. A
hit just ahead of a chord takes that chord; where the line arrives early, so does the piano. A new chord that
no hit falls on is struck all the same, softly, on its place or an eighth early.
"""

from __future__ import annotations

import random
from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import NamedTuple

from shedbook.sound.feels.patterns import CompingWay
from shedbook.sound.players.band_chart import (
    Chart,
    LineNote,
    Passage,
    Stretch,
    cell_lengths,
)
from shedbook.sound.players.tables import comping as table
from shedbook.sound.players.usable_notes import UsableNotes, usable_notes

_EIGHTH = Fraction(1, 2)
_GRAINS = 5040
"""Parts of a quarter in which the places of all usual values are whole."""
LEAST = Fraction(1, 4)
"""The shortest that a chord sounds, in quarters."""
_HELD = Fraction(3, 2)


@dataclass(frozen=True, slots=True)
class Strike:
    """One struck chord: place and length in quarters, what it is played over, what the line does.

    `shape` is the pattern's; `soft` says that it is there for its chord alone; `under` is the lowest note
    of the line that sounds with it, None where the line is silent.
    """

    start: Fraction
    quarters: Fraction
    over: UsableNotes
    ahead: bool
    landings: tuple[LineNote, ...]
    behind: bool
    last: bool = False
    shape: str = ""
    soft: bool = False
    under: int | None = None

    @property
    def end(self) -> Fraction:
        """Where the chord is let go, in quarters."""
        return self.start + self.quarters


def draw(
    chart: Chart,
    passage: Passage,
    dice: random.Random,
    before: Sequence[tuple[CompingWay, ...]] = (),
    *,
    half: int = 0,
) -> tuple[CompingWay, ...]:
    """Draw a rhythm for each cell of a passage.

    Args:
        chart: the track.
        passage: the bars to fill.
        dice: the passage's own.
        before: the rhythms of earlier passages, which no cell repeats at its place. Nor is a cell like the
            one before it, as far as there is a choice.
        half: which side of the clave the first bar is, for patterns of two bars, which are played as they
        are.
    """
    ways, two_bars = chart.feel.comping.ways, chart.feel.comping.two_bars
    found: list[CompingWay] = []
    at = passage.start
    starts = [_grains(note.start) for note in passage.line]
    for length in cell_lengths(chart.metre, frozenset(ways)) * passage.bars:
        bar = int((at - passage.start) // chart.metre.bar_quarters)
        cells = two_bars[length][(half + bar) % 2] if length in two_bars else ways[length]
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
    raw: list[Hit] = []
    at = passage.start
    for length, cell in zip(cell_lengths(chart.metre, frozenset(ways)) * passage.bars, cells, strict=True):
        raw += [Hit(at + hit.at, hit.quarters, hit.ahead, hit.shape) for hit in cell.hits]
        at += length
    raw = _with_the_line(_every_chord(raw, passage, held=chart.feel.comping.held), passage)
    found: list[Strike] = []
    for index, hit in enumerate(raw):
        over, until = _chord_for(hit.start, hit.ahead, passage, following)
        if over is None or over.root is None:
            continue
        stop = min(hit.start + hit.quarters, until, raw[index + 1].start if index + 1 < len(raw) else until)
        if stop - hit.start >= LEAST:
            found.append(_strike(hit, stop, over, passage))
    return tuple(found)


def _strike(hit: Hit, stop: Fraction, over: UsableNotes, passage: Passage) -> Strike:
    """Return a hit as a strike that knows what the line does meanwhile."""
    heard = [note for note in (*passage.line, *passage.coming) if note.start < stop and note.end > hit.start]
    return Strike(
        hit.start,
        stop - hit.start,
        over,
        hit.ahead,
        tuple(note for note in heard if note.loud),
        bool(passage.line),
        shape=hit.shape,
        soft=hit.soft,
        under=min((note.midi for note in heard), default=None),
    )


class Hit(NamedTuple):
    """A place where a chord is struck, before it is known which; `soft` is there for its chord alone."""

    start: Fraction
    quarters: Fraction
    ahead: bool
    shape: str = ""
    soft: bool = False


def _every_chord(raw: Sequence[Hit], passage: Passage, *, held: bool) -> list[Hit]:
    """Return a rhythm in which every new chord that nobody strikes is struck where it starts, or early.

    Where the line is busy at that place and rests an eighth before, it is struck there. `held` says that the
    chord then rings as long as it stands.
    """
    found = list(raw)
    last: Stretch | None = None
    for stretch in passage.stretches:
        new = held or last is None or last.chord != stretch.chord
        last = stretch
        if not new or any(
            (hit.start == stretch.start - _EIGHTH and hit.ahead) or stretch.start <= hit.start < stretch.end
            for hit in raw
        ):
            continue
        length = stretch.end - stretch.start
        early = stretch.start - _EIGHTH
        if (
            not held
            and early >= passage.start
            and _rests(passage, early)
            and not _rests(passage, stretch.start)
        ):
            found.append(Hit(early, _EIGHTH * 2, True, soft=True))
        else:
            found.append(Hit(stretch.start, length if held else min(length, _HELD), False, soft=not held))
    return sorted(found)


def _rests(passage: Passage, place: Fraction) -> bool:
    """Whether the line strikes no note at a place."""
    return all(note.start != place for note in passage.line)


def _with_the_line(raw: Sequence[Hit], passage: Passage) -> list[Hit]:
    """Return the rhythm with a hit moved to where the line arrives early at the same beat.

    A hit that is there already takes its place, and the coming chord.
    """
    early = {note.arrival: note.start for note in passage.line if note.early and note.start >= passage.start}
    sooner = frozenset(early.values())
    found: dict[Fraction, Hit] = {}
    for hit in raw:
        at = early.get(hit.start, hit.start)
        moved = hit._replace(
            start=at, quarters=hit.quarters + hit.start - at, ahead=hit.ahead or at in sooner
        )
        found.setdefault(at, moved)
    return sorted(found.values())


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


def ending_strike(passage: Passage) -> tuple[Strike, ...]:
    """Return the last chord: held through the bar, or short."""
    first = passage.stretches[0]
    over = usable_notes(first.chord, first.scale)
    length = first.end - first.start if passage.held else _EIGHTH
    return () if over.root is None else (Strike(first.start, length, over, False, (), False, True),)
