"""Slurs that have lost one of their ends, as they do when a line is cut."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from shedbook.phrase.model import Event


def without_half_slurs(bars: Sequence[Sequence[Event]]) -> tuple[list[tuple[Event, ...]], list[int]]:
    """Remove the slurs that end without having begun, or begin and never end.

    Args:
        bars: the events of each bar.

    Returns:
        The events of each bar, and the indices of the bars in which a slur was removed.
    """
    rows = [list(bar) for bar in bars]
    open_at: list[tuple[int, int]] = []
    lost: list[int] = []
    for at, row in enumerate(rows):
        for place, event in enumerate(row):
            if not (event.slurs_close or event.slurs_open):
                continue
            closing = min(event.slurs_close, len(open_at))
            if closing < event.slurs_close:
                lost.append(at)
                row[place] = replace(event, slurs_close=closing)
            del open_at[len(open_at) - closing :]
            open_at += [(at, place)] * event.slurs_open
    for at, place in open_at:
        lost.append(at)
        event = rows[at][place]
        rows[at][place] = replace(event, slurs_open=event.slurs_open - 1)
    return [tuple(row) for row in rows], lost
