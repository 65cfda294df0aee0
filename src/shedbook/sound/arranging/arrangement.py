"""The arrangement: the score that comes of an order and a phrase in one key, or in several in a row.

What follows what is laid out in `passages`, the line in `line_rounds`; the players are asked here.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

from shedbook.errors import UnknownNameError
from shedbook.phrase.model import Phrase
from shedbook.sound.arranging.band_instruments import band_instrument
from shedbook.sound.arranging.line_rounds import with_line
from shedbook.sound.arranging.order import PARTS, Order
from shedbook.sound.arranging.passages import LaidPassage, count_in_bars, held, lay_out
from shedbook.sound.feels.known_feels import feel_named
from shedbook.sound.players.band_chart import Chart
from shedbook.sound.players.bass import bass
from shedbook.sound.players.comping import comping
from shedbook.sound.players.drums import accents_of, click, count_in, counted, drums
from shedbook.sound.players.energy import Arc, arc_of
from shedbook.sound.score.written_score import (
    BASS,
    COMPING,
    COUNT,
    COUNT_IN,
    DRUMS,
    LINE,
    KeyAt,
    Part,
    PartNote,
    Score,
    Sign,
    TempoAt,
)
from shedbook.sound.tables.drum_keys import BRUSH_KIT, STANDARD_KIT

__all__ = ["PARTS", "Order", "arrange"]

_LEFT, _MIDDLE, _RIGHT = 0, 64, 127


def arrange(phrases: Phrase | Sequence[Phrase], order: Order) -> Score:
    """Return the score of a track.

    Args:
        phrases: the phrase, or the same phrase in one key after another.
        order: what the track shall be.

    Raises:
        UnknownNameError: if the order names parts, a feel or an instrument that do not exist.
        ValueError: if there is no phrase, or no round.
    """
    keys = tuple(order.played(one) for one in ((phrases,) if isinstance(phrases, Phrase) else phrases))
    if not keys or order.rounds < 1:
        raise ValueError("a track needs a phrase and at least one round")
    if order.parts not in PARTS:
        raise UnknownNameError(
            f'"{order.parts}" is not a choice of parts.', hint='Write "line", "trio" or "both".'
        )
    if order.loop and order.ramp:
        raise ValueError("a loop has one tempo: its end joins its beginning")
    first = keys[0]
    feel = feel_named(order.feel or first.feel)
    tempo_bpm = order.tempo_of(0)
    timed = first if tempo_bpm is None else replace(first, tempo_bpm=tempo_bpm)
    bars = count_in_bars(order, timed)
    name = f"{first.id or first.title}, {first.key}{order.name}"
    laid = lay_out(keys, order, bars * first.metre.bar_quarters, held(order, feel, name))
    if order.parts != "trio":
        laid = with_line(laid, order)
    fastest = max(one.tempo_qpm for one in laid)
    chart = Chart(first.metre, feel, fastest, tuple(one.passage for one in laid), order.loop, name)
    quarters = chart.end_of(chart.passages[-1])
    return Score(
        title=first.title,
        parts=_parts(chart, laid, order, bars, quarters),
        quarters=quarters,
        tempo_qpm=laid[0].tempo_qpm,
        metre=first.metre,
        feel=feel,
        keys=_keys(laid),
        signs=_signs(laid, bars, len(keys) > 1),
        name=name,
        later_tempos=_later_tempos(laid),
        counted=counted(first.metre, bars),
    )


# The parts.


def _parts(
    chart: Chart, laid: Sequence[LaidPassage], order: Order, counted: int, quarters: Fraction
) -> tuple[Part, ...]:
    found: list[Part] = []
    start = counted * chart.metre.bar_quarters
    count = count_in(chart.metre, counted)
    if order.parts != "trio":
        row = band_instrument(order.line_instrument)
        found.append(Part(LINE, row.name, row.program, 0, _line(laid, quarters, arc_of(chart))))
    if order.parts == "line":
        beats = click(chart.metre, start, quarters, order.click_kind) if order.click else ()
        if count or beats:
            found.append(Part(DRUMS, COUNT, STANDARD_KIT, 9, (*count, *beats)))
        return tuple(found)
    left, right = (_LEFT, _RIGHT) if order.wide else (_MIDDLE, _MIDDLE)
    bass_feel = feel_named(order.bass_feel) if order.bass_feel else None
    low = band_instrument(order.bass_instrument or (bass_feel or chart.feel).bass.instrument)
    comp = band_instrument(order.comping_instrument or chart.feel.comping.instrument)
    chords = comping(chart, seed=order.seed)
    own = (feel_named(order.drum_feel) if order.drum_feel else chart.feel).drums
    heard = accents_of(chart, chords)
    strokes = (*count, *drums(chart, own, seed=order.seed, brushes=order.brushes, accents=heard))
    kit = BRUSH_KIT if order.brushes and own.brushes else STANDARD_KIT
    line_of_bass = bass(chart, seed=order.seed, feel=bass_feel)
    found += [
        Part(BASS, low.name, low.program, 1, line_of_bass, left),
        Part(COMPING, comp.name, comp.program, 2, chords, right),
        Part(DRUMS, "drums", kit, 9, strokes),
    ]
    return tuple(found)


def _line(laid: Sequence[LaidPassage], quarters: Fraction, arc: Arc) -> tuple[PartNote, ...]:
    """Return the line of a whole track; what a loop's first round begins with stands at the loop's end."""
    found = [
        replace(
            note,
            start=note.start if note.start >= 0 else note.start + quarters,
            velocity=min(127, max(1, note.velocity + arc.louder(LINE, note.start))),
        )
        for one in laid
        for note in one.notes
    ]
    return tuple(sorted(found, key=lambda note: (note.start, note.midi)))


# What stands over the score.


def _later_tempos(laid: Sequence[LaidPassage]) -> tuple[TempoAt, ...]:
    """Return each tempo that differs from that of the passage before."""
    return tuple(
        TempoAt(one.passage.start, one.tempo_qpm, one.tempo_bpm)
        for before, one in pairwise(laid)
        if one.tempo_bpm != before.tempo_bpm
    )


def _keys(laid: Sequence[LaidPassage]) -> tuple[KeyAt, ...]:
    found: list[KeyAt] = []
    for one in laid:
        if not found or found[-1].key != one.phrase.key:
            found.append(KeyAt(one.passage.start if found else Fraction(0), one.phrase.key))
    return tuple(found)


def _signs(laid: Sequence[LaidPassage], counted: int, keyed: bool) -> tuple[Sign, ...]:
    """Return the names of the passages and the chord symbols, in order."""
    found = [Sign(Fraction(0), COUNT_IN)] if counted else []
    for one in laid:
        passage = one.passage
        name = f"{one.phrase.key}: {passage.kind}" if keyed else passage.kind
        found.append(Sign(passage.start, name))
        before = ""
        for stretch in passage.stretches:
            if stretch.chord.text != before:
                found.append(Sign(stretch.start, stretch.chord.text))
            before = stretch.chord.text
    return tuple(found)
