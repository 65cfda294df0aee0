"""Swing: where the off-beat falls, and how late a soloist comes in, by tempo and feel.

The curve is measured (`tables.swing`). A drummer's off-beat is the common meeting point: a soloist
plays the beat a little later than the drummer and the off-beat together with them, which is why the
soloist's own ratio is the smaller one. Shares are fractions of a beat, exact.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from shedbook.sound.feels.feel import Feel
from shedbook.sound.score.tables.swing import CURVE

HALF = Fraction(1, 2)


@dataclass(frozen=True, slots=True)
class Swing:
    """How a track swings.

    `off_beat` is where the second eighth of a beat falls, as a share of the beat; `lag` is how late a
    soloist plays the beat itself, as a share of the beat.
    """

    off_beat: Fraction
    lag: Fraction

    @property
    def ratio(self) -> Fraction:
        """The long eighth over the short one, as the drummer plays them."""
        return self.off_beat / (1 - self.off_beat)

    @property
    def soloist_ratio(self) -> Fraction:
        """The long eighth over the short one, as a soloist plays them, from beat to beat."""
        return (self.off_beat - self.lag) / (1 - self.off_beat + self.lag)


def swing(feel: Feel, tempo_qpm: Fraction) -> Swing:
    """Return how a feel swings.

    Args:
        feel: its ratio takes the place of the curve where it has one.
        tempo_qpm: quarters a minute.

    The curve of `tables.swing` is Friberg & Sundström 2002, its single figures from memory.
    """
    own = feel.swing
    ratio = swing_ratio(tempo_qpm) if own.ratio is None else own.ratio
    lag = lag_ms(tempo_qpm) * own.lag * tempo_qpm / 60000
    off_beat = ratio / (ratio + 1)
    return Swing(off_beat, min(lag, off_beat - HALF))


def swing_ratio(tempo_qpm: Fraction) -> Fraction:
    """Return the long eighth of the ride cymbal over its short one at a tempo in quarters a minute.

    Between the rows of the table the ratio changes evenly, beyond them it stays.
    """
    return _between(tempo_qpm, [(row.tempo_qpm, row.ratio) for row in CURVE])


def lag_ms(tempo_qpm: Fraction) -> Fraction:
    """Return by how many milliseconds a soloist plays the beat after the drummer."""
    return _between(tempo_qpm, [(row.tempo_qpm, Fraction(row.lag_ms)) for row in CURVE])


def _between(at: Fraction, rows: list[tuple[int, Fraction]]) -> Fraction:
    """Return the value at a place on a broken line; beyond its ends it stays level."""
    if at <= rows[0][0]:
        return rows[0][1]
    for (low, below), (high, above) in pairwise(rows):
        if at <= high:
            return below + (above - below) * (at - low) / (high - low)
    return rows[-1][1]


def swings(onsets: frozenset[Fraction]) -> bool:
    """Whether a beat with onsets at these places (0 to 1) is played long and short.

    A beat of triplets has its own unevenness, and four sixteenths are played even: only halves and
    the quarters that go with one half are bent.
    """
    inside = {place for place in onsets if 0 < place < 1}
    quarters = {Fraction(1, 4), Fraction(3, 4)}
    if not inside <= quarters | {HALF}:
        return False
    return not quarters <= inside
