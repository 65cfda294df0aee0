"""The parts that the players play, as written: timed notes a player, before anybody swings them.

Conventions: time is score time, in quarter notes as fractions from the first beat of the track (the
count-in included); off-beat eighths stand exactly between the beats. `perform` turns it into ticks.
MIDI channels and programs count from 0, as the bytes do: channel 9 is the drums.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from shedbook.sound.feels.feel import Feel
from shedbook.theory.key import Key
from shedbook.theory.metre import Metre

LINE, BASS, COMPING, DRUMS = "line", "bass", "comping", "drums"
PLAYER_NAMES = (LINE, BASS, COMPING, DRUMS)
"""The players, in the order of a score."""

COUNT_IN = "count-in"
"""The sign over the count-in."""

COUNT = "count"
"""What the part of the drums is called where they only count and click."""


@dataclass(frozen=True, slots=True)
class PartNote:
    """One note: where it starts and how long it sounds in quarters, its MIDI key, its velocity 1 to 127.

    `bend` is "scoop" where the note is reached from below, "fall" where it drops off, else "".
    """

    start: Fraction
    quarters: Fraction
    midi: int
    velocity: int
    bend: str = ""

    @property
    def end(self) -> Fraction:
        """Where the note stops, in quarters."""
        return self.start + self.quarters


@dataclass(frozen=True, slots=True)
class Part:
    """What one player plays.

    `player` is one of LINE, BASS, COMPING, DRUMS; `name` is printed; `pan` runs from 0 (left) over 64 to 127.
    """

    player: str
    name: str
    program: int
    channel: int
    notes: tuple[PartNote, ...]
    pan: int = 64


@dataclass(frozen=True, slots=True)
class Sign:
    """Something written over the score at a place in quarters: a chord symbol, the name of a round."""

    start: Fraction
    text: str


@dataclass(frozen=True, slots=True)
class KeyAt:
    """The key that holds from a place on, in quarters."""

    start: Fraction
    key: Key


@dataclass(frozen=True, slots=True)
class TempoAt:
    """The tempo that holds from a place on: quarters a minute, and taps a minute as players count."""

    start: Fraction
    tempo_qpm: Fraction
    tempo_bpm: int


@dataclass(frozen=True, slots=True)
class Score:
    """A whole track as written.

    `quarters` is its length up to the last bar line, `tempo_qpm` counts quarters a minute at its beginning,
    `later_tempos` follow in order where the tempo changes. `signs` are the chord symbols and the names of
    the sections, in order. `name` tells one track from another wherever dice are thrown. `counted` says
    where the track is counted in, and which number falls there.
    """

    title: str
    parts: tuple[Part, ...]
    quarters: Fraction
    tempo_qpm: Fraction
    metre: Metre
    feel: Feel
    keys: tuple[KeyAt, ...]
    signs: tuple[Sign, ...] = ()
    name: str = ""
    later_tempos: tuple[TempoAt, ...] = ()
    counted: tuple[tuple[Fraction, int], ...] = ()

    def tempo_at(self, place: Fraction) -> Fraction:
        """Return how many quarters a minute there are at a place."""
        return next(
            (row.tempo_qpm for row in reversed(self.later_tempos) if row.start <= place), self.tempo_qpm
        )

    @property
    def seconds(self) -> float:
        """How long the track lasts from its first beat to its last bar line."""
        starts = [Fraction(0), *(row.start for row in self.later_tempos), self.quarters]
        tempos = [self.tempo_qpm, *(row.tempo_qpm for row in self.later_tempos)]
        spans = zip(starts, starts[1:], tempos, strict=False)
        return float(sum((end - start) * 60 / tempo for start, end, tempo in spans))
