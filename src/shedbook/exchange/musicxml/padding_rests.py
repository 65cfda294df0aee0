"""Rests that the page does not show, with which programs pad a bar that is no full one.

Before the first note of a part they stand in the place of what a pick-up lacks; at the end of a bar they may
make it longer than its metre. Neither is music.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from shedbook.exchange.ground.note_lengths import Ticks
from shedbook.exchange.musicxml.note_reader import RawNote


def without_padding(
    notes: Sequence[RawNote], end: Ticks, full: Ticks, *, first: bool
) -> tuple[list[RawNote], Ticks, Ticks]:
    """Return the notes of a bar without its padding, what was cut off in front, and its new end, in ticks.

    Args:
        notes: the notes of one voice, in order.
        end: where the bar ends.
        full: the length that its metre gives it.
        first: whether the bar is the first of its part; only there rests in front are padding.
    """
    kept = list(notes)
    while kept and _is_padding(kept[-1]) and end > full and kept[-1].onset >= full:
        end = kept.pop().onset
    cut: Ticks = 0
    if first and any(raw.pitch is not None for raw in kept):
        while _is_padding(kept[0]):
            raw = kept.pop(0)
            cut = raw.onset + raw.length
    if cut:
        kept = [replace(raw, onset=raw.onset - cut) for raw in kept]
    return kept, cut, end - cut


def _is_padding(raw: RawNote) -> bool:
    return raw.pitch is None and raw.hidden
