"""Signs that stand for music already written: of a bar, of a beat, and slashes for what nobody wrote.

A passage under such a sign that holds notes all the same is read by its notes. Otherwise a bar sign gives
the bar that lies as many bars back as its pattern is long, a beat sign the beat before it. Slashes ask the
player for something of their own: there is nothing to read, and the bars stay silent.
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
"""So many notes at most come of the beat signs in a bar."""


@dataclass(slots=True)
class SimileState:
    """The signs that hold: how many bars a bar sign repeats (0 for none), and where a beat sign begins.

    `beat_from` and `beat_to` are places in the bar at hand, in ticks, None where none begins or ends in it;
    `beats` says that a beat sign was open when the bar began. `before` holds the notes of the bar before,
    `before_end` where it ended.
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
        """Whether a beat sign is open in the bar at hand."""
        return self.beats or self.beat_from is not None


def read_style(style: Element, standing: SimileState, place: Ticks) -> None:
    """Take in a `measure-style` that stands at a place of the bar."""
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
    """Return a bar under a sign with the notes of the bar that is meant, and its chords if it has none."""
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
    """Return the notes of a bar, the beats under a sign filled with the beat before."""
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
    """Fill a silent stretch with the beat before it, again and again."""
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
