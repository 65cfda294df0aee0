"""What the line plays in the rounds of a track, and what the band hears of it.

A pick-up sounds over the end of what goes before. Where the line itself is still busy there, it is played
before the first round only.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from shedbook.sound.arranging.order import Order
from shedbook.sound.arranging.passages import LaidPassage, as_the_band_hears
from shedbook.sound.players.band_chart import ROUND, LineNote
from shedbook.sound.players.line import line
from shedbook.sound.score.written_score import PartNote


def with_line(laid: Sequence[LaidPassage], order: Order) -> list[LaidPassage]:
    """Return the passages with what the line plays in them, and what the band hears of it."""
    found = [
        replace(
            one,
            notes=_from(line(one.phrase, one.tempo_qpm), one.passage.start),
            passage=replace(one.passage, line=as_the_band_hears(one.phrase, one.passage.start)),
        )
        if one.passage.kind == ROUND
        else one
        for one in laid
    ]
    end = found[-1].passage.start + found[-1].passage.bars * found[-1].phrase.metre.bar_quarters
    for index, one in enumerate(found):
        up = [note for note in one.passage.line if note.start < one.passage.start]
        if not up or (index == 0 and not order.loop):
            continue
        # A loop's first round comes after its last passage, which may be itself.
        before, at = found[index - 1], one.passage.start if index else end
        first = at + up[0].start - one.passage.start
        if _has_room(before.notes, first):
            found[index - 1] = _led_out_of(
                before, first, [_moved(note, at - one.passage.start) for note in up]
            )
        else:
            found[index] = _without_pick_up(one)
    return found


def _from(notes: Sequence[PartNote], at: Fraction) -> tuple[PartNote, ...]:
    """Return notes that are counted from a bar line, with that bar line at a place of the track."""
    return tuple(replace(note, start=note.start + at) for note in notes)


def _moved(note: LineNote, by: Fraction) -> LineNote:
    return replace(note, start=note.start + by, end=note.end + by, arrival=note.arrival + by)


def _has_room(notes: Sequence[PartNote], first: Fraction) -> bool:
    """Whether a pick-up that begins at a place leaves every note before it at least half its length."""
    return all(note.start < first and first - note.start >= note.quarters / 2 for note in notes)


def _led_out_of(one: LaidPassage, first: Fraction, coming: Sequence[LineNote]) -> LaidPassage:
    """Return a passage over whose end a pick-up begins: what still sounds there gives way.

    Every note of a pick-up is to the band a note that counts.
    """
    notes = tuple(replace(note, quarters=min(note.quarters, first - note.start)) for note in one.notes)
    heard = tuple(replace(note, loud=True) for note in coming)
    return replace(one, notes=notes, passage=replace(one.passage, coming=heard))


def _without_pick_up(one: LaidPassage) -> LaidPassage:
    """Return a round that begins with bar 1, a note that was held into it included."""
    at = one.passage.start
    heard = tuple(
        replace(note, start=max(at, note.start), early=note.early and note.start >= at)
        for note in one.passage.line
        if note.end > at
    )
    notes = _from(line(one.phrase, one.tempo_qpm, pick_up=False), at)
    return replace(one, notes=notes, passage=replace(one.passage, line=heard))
