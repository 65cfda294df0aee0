"""A line written down for searching: one byte a note, so that looking for a melody is looking for bytes.

Every phrase begins with a zero byte, which no note has; so a melody that is found lies inside one phrase, and
the zeros before it say which. The texts of a phrase are equally long, and the same place in each is the
same note.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from itertools import pairwise
from typing import NamedTuple

from shedbook.phrase.model import Phrase, timed_notes
from shedbook.theory.metre import whole_ticks

START = b"\0"
"""What stands before each phrase."""

NO_STEP = 255
"""Stands for the step to the first note of a phrase."""

_UNISON = 127
"""The byte of a repeated note; a half step up is one more."""

_GRAIN = 24
"""Parts of a quarter: triplets and thirty-seconds are whole; what is finer is rounded."""

_LONGEST = 254
_UP, _SAME, _DOWN = b"u", b"s", b"d"

CONTOUR = START + _DOWN * (_UNISON - 1) + _SAME + _UP * (_LONGEST - _UNISON) + b"?"
"""A table for `bytes.translate` that makes of steps their directions: u, s and d."""


class Tune(NamedTuple):
    """The texts of one phrase or of many, each with one byte a note.

    Attributes:
        pitches: MIDI numbers.
        steps: the half steps from the note before, 127 for none, `NO_STEP` for a first note.
        gaps: how long until the next note is struck, in parts of a quarter; of a last one its length.
        bars: the numbers of the bars, a pick-up as 1, bar 1 as 2, and so on.
        beats: where in its bar a note is struck, in parts of a quarter, the first place as 1.
    """

    pitches: bytes
    steps: bytes
    gaps: bytes
    bars: bytes
    beats: bytes


def tune_of(phrase: Phrase) -> Tune:
    """Return the texts of a phrase's line, without grace notes."""
    grain, notes = timed_notes(phrase)  # whole ticks: fractions would take longer than the reading
    pitches = [timed.note.pitch.midi for timed in notes]
    bar = whole_ticks(phrase.metre.bar_quarters, grain)
    starts = [timed.start for timed in notes]
    gaps = [after - before for before, after in pairwise(starts)] + [timed.length for timed in notes[-1:]]
    bars = [timed.note.bar for timed in notes]
    beats = [_parts(start - (number - 1) * bar, grain) for start, number in zip(starts, bars, strict=True)]
    return Tune(
        START + bytes(max(1, midi) for midi in pitches),
        START + bytes([NO_STEP] if notes else []) + steps_of(pitches),
        START + bytes(min(_LONGEST, max(1, _parts(gap, grain))) for gap in gaps),
        START + bytes(min(_LONGEST, number + 1) for number in bars),
        START + bytes(min(_LONGEST, 1 + beat) for beat in beats),
    )


def _parts(ticks: int, grain: int) -> int:
    """Return ticks, of which `grain` are a quarter, in parts of a quarter, rounded."""
    return (2 * ticks * _GRAIN + grain) // (2 * grain)


def steps_of(pitches: Sequence[int]) -> bytes:
    """Return the steps between notes given by their MIDI numbers, one fewer than there are notes."""
    return bytes(min(_LONGEST, max(1, after - before + _UNISON)) for before, after in pairwise(pitches))


def gaps_of(lengths: Sequence[Fraction]) -> bytes:
    """Return gaps given in quarters."""
    return bytes(min(_LONGEST, max(1, round(length * _GRAIN))) for length in lengths)


def quarters_into_bar(beat: int) -> Fraction:
    """Return the quarters from the start of the bar for a byte of `Tune.beats`."""
    return Fraction(beat - 1, _GRAIN)


def joined(tunes: Sequence[Tune]) -> Tune:
    """Return the texts of many phrases, one after the other."""
    return Tune(*(b"".join(texts) for texts in zip(*tunes, strict=True))) if tunes else Tune(*(b"",) * 5)


def lines_in(texts: Tune) -> list[tuple[int, ...]]:
    """Return the MIDI numbers of each phrase in texts that stand one after the other."""
    return [tuple(line) for line in texts.pitches.split(START)[1:]]
