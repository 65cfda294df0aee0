"""Simile signs, which stand for music that is already written, and slashes, which ask for a player's own.

A passage under a sign is read by its notes where it has some. Otherwise a bar sign repeats the bar that lies
as many bars back as its pattern is long, and a beat sign repeats the beat before it. Slashes say no notes, so
that their bars stay silent.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from shedbook.exchange.ground.long_line import LineBar
from shedbook.exchange.ground.note_lengths import TICKS_A_QUARTER, Ticks
from shedbook.exchange.ground.report import Reporter
from shedbook.exchange.ground.safe_xml import Element, number, text_of
from shedbook.exchange.musicxml.note_reader import RawNote
from shedbook.theory.metre import Metre

SLASHES = "slashes say no notes: their bars are silent"
_MOST_PATTERN = 16
_MOST_REPEATED = 10_000
"""The beat signs of a bar may stand for so many notes at most."""


@dataclass(slots=True)
class SimileState:
    """The signs that hold while the bars of a part are read in order.

    Attributes:
        pattern: how many bars a bar sign repeats, 0 for no sign.
        slashes: whether slashes hold.
        beats: whether a beat sign was open when the bar began.
        beat_from: where a beat sign begins in the bar, in ticks; None where none begins.
        beat_to: where a beat sign ends in the bar, in ticks; None where none ends.
        before: the notes of the bar before.
        before_end: where the bar before ended, in ticks.
    """

    pattern: int = 0
    slashes: bool = False
    beats: bool = False
    beat_from: Ticks | None = None
    beat_to: Ticks | None = None
    before: Sequence[RawNote] = ()
    before_end: Ticks = 0

    @property
    def beat_signs(self) -> bool:
        """Whether a beat sign holds somewhere in the bar."""
        return self.beats or self.beat_from is not None


def read_style(style: Element, standing: SimileState, place: Ticks) -> None:
    """Take in a `measure-style` element that stands at a place of the bar, in ticks."""
    for child in style:
        starts = child.get("type") == "start"
        if child.tag == "measure-repeat":
            pattern = number(text_of(child)) if starts else None
            standing.pattern = min(_MOST_PATTERN, int(pattern or 1)) if starts else 0
        elif child.tag == "beat-repeat":
            if starts:
                standing.beat_from = place
            elif standing.beat_signs:
                standing.beat_to = place
        elif child.tag == "slash":
            standing.slashes = starts


def with_bar_repeated(
    bar: LineBar, before: Sequence[LineBar], standing: SimileState, reporter: Reporter
) -> LineBar:
    """Return a bar with what the bar sign over it repeats: the notes, and the chords if it has none itself.

    Args:
        bar: the bar as it was read.
        before: all bars before it.
        standing: the signs that hold.
        reporter: told of signs that repeat nothing.
    """
    if standing.slashes and bar.silent and not standing.pattern:
        reporter.note(SLASHES, bar.label)
    if not standing.pattern or not bar.silent:
        return bar
    if standing.pattern > len(before):
        reporter.note("a sign repeats a bar that is not there", bar.label)
        return bar
    meant = before[-standing.pattern]
    if meant.context.metre != bar.context.metre:
        reporter.note("a sign repeats a bar of another metre: it is left silent", bar.label)
        return bar
    chords = bar.chords or meant.chords
    return replace(bar, events=meant.events, chords=chords, tie_out=False, unwritten=meant.unwritten)


def with_beats_repeated(
    notes: list[RawNote], standing: SimileState, metre: Metre, end: Ticks, reporter: Reporter, label: str
) -> list[RawNote]:
    """Return the notes of a bar; the silent beats under a beat sign get the notes of the beat before.

    Args:
        notes: the notes of the bar as they were read.
        standing: the signs that hold; what belongs to this bar alone is cleared.
        metre: the metre of the bar.
        end: where the bar ends, in ticks.
        reporter: told of signs whose beat cannot be found.
        label: the label of the bar.
    """
    first: Ticks = 0 if standing.beats or standing.beat_from is None else standing.beat_from
    stop = standing.beat_to
    last = end if stop is None or stop < first else stop
    if last > first and (standing.beats or standing.beat_from is not None):
        notes = _filled(notes, first, last, standing, metre, reporter, label)
    standing.beats = stop is None or stop < first
    standing.beat_from = standing.beat_to = None
    return notes


def _filled(
    notes: list[RawNote], first: Ticks, last: Ticks, standing: SimileState, metre: Metre, reporter: Reporter,
    label: str,
) -> list[RawNote]:  # fmt: skip
    """Return the notes of a bar with a silent stretch filled by repeating the beat before it."""
    if any(note.pitch is not None and first <= note.onset < last for note in notes):
        return notes
    beat = int(metre.beat_quarters * TICKS_A_QUARTER)
    source, stop = (notes, first) if first else (standing.before, standing.before_end)
    pattern = [note for note in source if stop - beat <= note.onset < stop]
    known = sum(note.length for note in pattern) == beat and not (last - first) % beat
    if not known or len(pattern) * (last - first) // beat > _MOST_REPEATED:
        reporter.note("a sign repeats a beat that cannot be told: it is left silent", label)
        return notes
    found = [
        replace(
            note, onset=place + note.onset - (stop - beat), opens=(), closes=(), tied_on=False, tied_in=False
        )
        for place in range(int(first), int(last), beat)
        for note in pattern
    ]
    outside = [note for note in notes if not first <= note.onset < last]
    return sorted([*outside, *found], key=lambda note: note.onset)
