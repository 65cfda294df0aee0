"""The drums: time, comping accents, and a small fill at the end of each fourth or eighth bar.

Each voice of a feel draws a cell for every bar from its table, or keeps to a pattern of two bars; voices that
comp play less behind the line. Fills are counted from the start of each passage, and no fill is the one
before. Also here: the count-in and the click.
"""

from __future__ import annotations

import random
from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from shedbook.errors import UnknownNameError
from shedbook.sound.feels.feel import FeelDrums
from shedbook.sound.feels.patterns import DrumVoice, DrumWay, FillStroke, Strokes
from shedbook.sound.players.band_chart import (
    ANSWER,
    ENDING,
    ROUND,
    SET_UP,
    SPACE,
    Chart,
    Passage,
    cell_lengths,
    clave_halves,
)
from shedbook.sound.players.energy import Arc, arc_of, last_round
from shedbook.sound.players.tables import drums as table
from shedbook.sound.score.seeded_dice import seeded
from shedbook.sound.score.written_score import DRUMS, PartNote
from shedbook.sound.tables.clicks import CLICKS
from shedbook.sound.tables.drum_keys import CRASH
from shedbook.theory.metre import Metre

_STROKE = Fraction(1, 8)
_RING = Fraction(1, 2)
_ROUNDS = (ROUND, ANSWER)

Stroke = tuple[Fraction, int]
"""Place and key of a stroke."""


def drums(
    chart: Chart,
    own: FeelDrums | None = None,
    *,
    seed: int,
    brushes: bool = True,
    accents: frozenset[Fraction] = frozenset(),
) -> tuple[PartNote, ...]:
    """Return the drum part of a chart.

    Args:
        chart: what is played.
        own: the drums of another feel, None for the chart's own.
        seed: another seed gives other bars.
        brushes: whether the sound font has a kit of brushes; if not, soft sticks are used instead.
        accents: where piano and line have accents off the beat, in quarters from the first beat of the track;
            what comps goes with them.
    """
    heard = Hearing(chart, accents, arc_of(chart))
    own = own or chart.feel.drums
    voices = own.without_brushes if own.brushes and not brushes else own.voices
    track = seeded(seed, "drums", chart.name)
    every = track.choice(table.FILL_EVERY)
    halves = clave_halves(chart, seed)
    fills = _fill_bars(chart, every)
    found: list[PartNote] = []
    taken = DrumsSoFar()
    for passage in chart.passages:
        if passage.kind == ENDING:
            found += _ending(chart, passage)
            continue
        taken = replace(taken, turn=halves[passage.number])
        dice = seeded(seed, "drums", chart.name, passage.number)
        taken = _fresh(heard, passage, voices, fills.get(passage.number, frozenset()), dice, taken)
        found += [_placed(note, passage.start, heard.arc) for note in taken.notes]
        if passage == last_round(chart) and chart.feel.ending.strokes[0][0] == CRASH:
            found.append(PartNote(passage.start, _RING, CRASH, table.LAST_ROUND_CRASH))
    return _once(found)


def _placed(note: PartNote, start: Fraction, arc: Arc) -> PartNote:
    """Return a stroke at its place in the track, as loud as the arc has it there."""
    place = note.start + start
    loud = min(127, max(1, note.velocity + arc.louder(DRUMS, place) * note.velocity // table.ARC_AT))
    return replace(note, start=place, velocity=loud)


def _fill_bars(chart: Chart, every: int) -> dict[int, frozenset[int]]:
    """Return the bars of each passage, counted from 0, that end with a fill.

    Inside a long passage each fourth or eighth bar from its start has one. Its last bar has one if the last
    fill is far enough behind, unless the passage that follows holds it: empty bars, or the bar that sets up
    another key, which always has one.
    """
    found: dict[int, frozenset[int]] = {}
    since = 0
    for passage in chart.passages if chart.feel.drums.fills else ():
        bars, following = passage.bars, chart.after(passage)
        inner = [bar for bar in range(every, bars, every) if bars - bar >= table.FILL_APART]
        since = bars - inner[-1] if inner else since + bars
        kind = "" if following is None else following.kind
        least = every if bars <= table.FILL_APART and kind != ENDING else table.FILL_APART
        if passage.kind == SET_UP or (kind not in (SET_UP, SPACE) and since >= least):
            inner.append(bars)
            since = 0
        found[passage.number] = frozenset(bar - 1 for bar in inner)
    return found


@dataclass(frozen=True, slots=True)
class DrumsSoFar:
    """What was played in a passage, from its own start, the last bar of the last round, the last fill so far.

    `turn` is 0 or 1: with which half of a pattern of two bars the passage begins.
    """

    notes: tuple[PartNote, ...] = ()
    last_bar: frozenset[Stroke] = frozenset()
    fill: tuple[FillStroke, ...] = ()
    turn: int = 0


@dataclass(frozen=True, slots=True)
class Hearing:
    """What the drummer hears: the chart, where others have accents off the beat, and the arc of the track."""

    chart: Chart
    accents: frozenset[Fraction]
    arc: Arc


def _fresh(
    heard: Hearing,
    passage: Passage,
    voices: Sequence[DrumVoice],
    fills: frozenset[int],
    dice: random.Random,
    before: DrumsSoFar,
) -> DrumsSoFar:
    """Return the bars of a passage, with fills in those of `fills`.

    A round does not end as the round before; anything else is not what was played before it.
    """
    is_round = passage.kind in _ROUNDS
    length = heard.chart.metre.bar_quarters
    fill, last_bar = before.fill, before.last_bar
    found: list[PartNote] = []
    for _ in range(table.TRIES):
        found, fill = [], before.fill
        for bar in range(passage.bars):
            at = bar * length
            free = table.FREE_BAR if bar + 1 == passage.bars else 0
            notes = _bar(heard, passage, voices, at, dice, (before.turn + bar) % 2, free)
            if bar in fills:
                leads = bar + 1 == passage.bars and heard.chart.after(passage) == last_round(heard.chart)
                fill = _drawn_fill(heard.chart, dice, fill, leads=leads)
                notes = _filled(notes, fill, at + length)
            found += notes
        last_bar = _strokes(notes, at)
        same = _strokes(found, Fraction(0)) == _strokes(before.notes, Fraction(0))
        if not (last_bar == before.last_bar if is_round else same):
            break
    return DrumsSoFar(tuple(found), last_bar if is_round else before.last_bar, fill)


def _strokes(notes: Sequence[PartNote], start: Fraction) -> frozenset[Stroke]:
    """Return the places, from a start, and the keys of strokes."""
    return frozenset((note.start - start, note.midi) for note in notes)


def _bar(
    heard: Hearing,
    passage: Passage,
    voices: Sequence[DrumVoice],
    at: Fraction,
    dice: random.Random,
    turn: int,
    free: int,
) -> list[PartNote]:
    """Return a bar of the time, counted from the start of its passage.

    `turn` is which half of two-bar patterns it is, `free` how often of a hundred they vary.
    """
    metre = heard.chart.metre
    found: list[PartNote] = []
    for voice in voices:
        if voice.back and metre.unit > 4:
            found += [
                PartNote(at + offset, _STROKE, voice.key, voice.velocity) for offset in backbeats(metre)
            ]
            continue
        place = at
        for length in cell_lengths(metre, frozenset(voice.cells)):
            cells = voice.cells[length]
            pattern = voice.two_bars.get(length)
            if pattern is not None and dice.randrange(100) >= free:
                hits = pattern[turn]
            else:
                weights = [_weight(cell, voice, heard, passage, place) for cell in cells]
                hits = dice.choices(cells, weights)[0].hits
            for offset, velocity in _in_hand(hits, voice.hand_ms, heard.chart.tempo_qpm):
                loud = velocity or voice.velocity
                found.append(PartNote(place + offset, _STROKE, voice.key, loud))
            place += length
    return found


def _weight(cell: DrumWay, voice: DrumVoice, heard: Hearing, passage: Passage, place: Fraction) -> int:
    """Return how likely a cell is: a voice that comps goes with the others' accents and the arc."""
    if not voice.free:
        return cell.weight
    start = passage.start + place
    energy = heard.arc.at(start)
    if not cell.hits:
        return cell.weight * (150 - energy) * (2 if passage.line else 1)
    weight = cell.weight * (50 + energy)
    for offset, _ in cell.hits:
        weight = weight * table.ANSWERS if start + offset in heard.accents else max(1, weight // table.ALONE)
    return weight


def backbeats(metre: Metre) -> tuple[Fraction, ...]:
    """Return where the backbeat of a metre in eighths falls, in quarters from the bar line.

    Of an even number of groups it is every second one (the second dotted quarter of 6/8, 2 and 4 of 12/8), of
    an odd number all but the first. Source: common practice.
    """
    starts = [(beat - 1) * metre.beat_quarters for beat in metre.strong_beats]
    return tuple(starts[1::2] if len(starts) % 2 == 0 else starts[1:])


def _in_hand(hits: Strokes, hand_ms: int, tempo_qpm: Fraction) -> Strokes:
    """Return the strokes that one hand can play at a tempo: one that would come too soon is left out."""
    least = hand_ms * tempo_qpm / 60_000
    found: list[tuple[Fraction, int]] = []
    for hit in hits:
        if not found or hit[0] - found[-1][0] >= least:
            found.append(hit)
    return tuple(found)


def _drawn_fill(
    chart: Chart, dice: random.Random, last: tuple[FillStroke, ...], *, leads: bool
) -> tuple[FillStroke, ...]:
    """Draw a fill that fits into the bar and is not the last one; one into the last round is long."""
    fitting = [
        (weight, hits)
        for weight, hits in chart.feel.drums.fills
        if hits != last and max(hit.before for hit in hits) < chart.metre.bar_quarters
    ]
    if leads:
        longest = max((len(hits) for _, hits in fitting), default=0)
        fitting = [(weight, hits) for weight, hits in fitting if len(hits) >= longest - 1]
    if not fitting:
        return ()
    return dice.choices([hits for _, hits in fitting], [weight for weight, _ in fitting])[0]


def _filled(notes: Sequence[PartNote], fill: Sequence[FillStroke], end: Fraction) -> list[PartNote]:
    """Return a bar whose end is the fill; the time goes on, the other voices give way."""
    if not fill:
        return list(notes)
    first = end - max(hit.before for hit in fill)
    kept = [note for note in notes if note.start < first or note.midi not in table.SILENT_IN_FILLS]
    return kept + [PartNote(end - hit.before, _STROKE, hit.key, hit.velocity) for hit in fill]


def _ending(chart: Chart, passage: Passage) -> list[PartNote]:
    """Return the last stroke of the drums; a cymbal rings as long as the chord."""
    length = passage.stretches[0].end - passage.start if passage.held else _RING
    return [PartNote(passage.start, length, key, velocity) for key, velocity in chart.feel.ending.strokes]


def _once(notes: Sequence[PartNote]) -> tuple[PartNote, ...]:
    """Return notes in order with one stroke at a time on a key: the louder of two, and short enough."""
    loudest: dict[tuple[Fraction, int], PartNote] = {}
    for note in notes:
        before = loudest.get((note.start, note.midi))
        if before is None or before.velocity < note.velocity:
            loudest[note.start, note.midi] = note
    return tuple(loudest[place] for place in sorted(loudest))


def pulse(metre: Metre) -> tuple[Fraction, ...]:
    """Return where a bar is counted, in quarters from its start: each beat, or each group in eighths."""
    if metre.unit <= 4:
        return tuple(beat * metre.beat_quarters for beat in range(metre.beats))
    return tuple((beat - 1) * metre.beat_quarters for beat in metre.strong_beats)


def count_in(metre: Metre, bars: int) -> tuple[PartNote, ...]:
    """Return the strokes that count a track in, from its first beat on.

    Args:
        metre: what is counted.
        bars: how many bars; in the last one every beat is counted, before it only the strong ones (the half
            notes of 4/4).
    """
    return tuple(
        PartNote(start, _STROKE, table.COUNT_KEY, table.COUNT_ACCENT if number == 1 else table.COUNT_VELOCITY)
        for start, number in counted(metre, bars)
    )


def counted(metre: Metre, bars: int) -> tuple[tuple[Fraction, int], ...]:
    """Return where a track is counted in and which number is said there, in quarters from its first beat.

    Each bar begins with 1: "one, two" on the half notes of 4/4, then "one, two, three, four".
    """
    found: list[tuple[Fraction, int]] = []
    strong = [(beat - 1) * metre.beat_quarters for beat in metre.strong_beats]
    for bar in range(bars):
        places = pulse(metre) if bar + 1 == bars or metre.unit > 4 else strong
        found += [(bar * metre.bar_quarters + offset, at) for at, offset in enumerate(places, start=1)]
    return tuple(found)


def accents_of(chart: Chart, chords: Sequence[PartNote]) -> frozenset[Fraction]:
    """Return where piano and line have accents off the beat, in quarters: what the drummer answers."""
    heard = {note.start for note in chords}
    heard |= {note.start for passage in chart.passages for note in passage.line if note.early}
    return frozenset(place for place in heard if place % 1)


def click(metre: Metre, start: Fraction, end: Fraction, kind: str = CLICKS[0]) -> tuple[PartNote, ...]:
    """Return a click, the first beat of a bar louder.

    Args:
        metre: whose beats.
        start: the bar line at which the click begins, in quarters from the first beat of the track.
        end: the bar line at which it stops.
        kind: one of CLICKS; a metre without a backbeat of its own takes every second beat.

    Raises:
        UnknownNameError: if there is no such kind.
    """
    if kind not in CLICKS:
        raise UnknownNameError(f'"{kind}" is not a kind of click.', hint=f"Known are {', '.join(CLICKS)}.")
    beats = pulse(metre)
    of = {"beats": beats, "2 and 4": beats[1::2] or beats, "1": beats[:1]}
    found: list[PartNote] = []
    at, bar = start, 0
    while at < end:
        name = kind if kind != "thinning" else CLICKS[bar // table.THINS_AFTER % 3]
        for offset in of[name]:
            loud = table.CLICK_VELOCITY if offset else table.CLICK_ACCENT
            found.append(PartNote(at + offset, _STROKE, table.CLICK_KEY, loud))
        at, bar = at + metre.bar_quarters, bar + 1
    return tuple(found)
