"""Which take of a phrase to keep, and why."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

from shedbook.listen.lines import Line
from shedbook.listen.measures import Measures
from shedbook.listen.note_search import EXTRA, WRONG
from shedbook.listen.sound_pieces import Heard
from shedbook.listen.tables.keeping import (
    A_CENT_OF_SPREAD,
    A_CENT_OF_TUNING,
    A_CLIPPED_PLACE,
    A_DB_OF_NOISE,
    A_MISSING_NOTE,
    A_PERCENT_OF_DRIFT,
    A_PERCENT_OFF_TEMPO,
    A_WRONG_NOTE,
    AN_EXTRA_NOTE,
    DRIFT_FROM,
    MOST_SLIPS_SHARE,
    NOISE_FROM_DB,
    OFF_TEMPO_FROM,
    SPREAD_FROM_CENTS,
    TUNING_FROM_CENTS,
)
from shedbook.listen.take_reading import MISSING, TakeReading


class Against(NamedTuple):
    """What counts against a take, in words and in points."""

    words: str
    points: float


@dataclass(frozen=True, slots=True)
class Verdict:
    """What counts against a take; `usable` says whether it may be kept at all."""

    against: tuple[Against, ...]
    usable: bool

    @property
    def points(self) -> float:
        """All points together; the fewer the better."""
        return sum(one.points for one in self.against)


def verdict_of(reading: TakeReading, line: Line, measures: Measures, heard: Heard) -> Verdict:
    """Return what counts against a take."""
    found = [*_slips(reading), *_sound(reading, heard), *_playing(line, measures)]
    slips = len(reading.slips)
    return Verdict(
        tuple(one for one in found if one.points > 0), slips <= MOST_SLIPS_SHARE * max(1, len(line.notes))
    )


def _slips(reading: TakeReading) -> list[Against]:
    rows = (
        (WRONG, "wrong", A_WRONG_NOTE),
        (MISSING, "missing", A_MISSING_NOTE),
        (EXTRA, "extra", AN_EXTRA_NOTE),
    )
    found = []
    for kind, word, points in rows:
        count = sum(1 for slip in reading.slips if slip.kind == kind)
        if count:
            found.append(Against(f"{count} {word} note{'' if count == 1 else 's'}", count * points))
    return found


def _sound(reading: TakeReading, heard: Heard) -> list[Against]:
    clipped = sum(1 for at in heard.clipped_s if reading.start_s - 0.1 <= at <= reading.end_s + 0.1)
    over = over_noise_db(heard)
    return [
        Against(
            f"cut off at full scale at {clipped} place{'' if clipped == 1 else 's'}",
            clipped * A_CLIPPED_PLACE,
        ),
        Against(f"only {over:.0f} dB over the noise", max(0.0, NOISE_FROM_DB - over) * A_DB_OF_NOISE),
    ]


def over_noise_db(heard: Heard) -> float:
    """Return by how much the loud tenth of a recording lies over its quietest twentieth."""
    return heard.loud_dbfs - heard.floor_dbfs


def _playing(line: Line, measures: Measures) -> list[Against]:
    found = []
    if measures.intonation is not None:
        spread, whole = measures.intonation.spread, measures.intonation.cents
        found.append(
            Against(
                f"notes {spread:.0f} cents from its own tuning",
                max(0.0, spread - SPREAD_FROM_CENTS) * A_CENT_OF_SPREAD,
            )
        )
        side = "sharp" if whole > 0 else "flat"
        found.append(
            Against(
                f"{abs(whole):.0f} cents {side} as a whole",
                max(0.0, abs(whole) - TUNING_FROM_CENTS) * A_CENT_OF_TUNING,
            )
        )
    if measures.tempo is not None:
        drift, off = measures.tempo.drift, tempo_share(line, measures)
        found.append(
            Against(
                f"{abs(drift):.0%} {'faster' if drift > 0 else 'slower'} at its end",
                max(0.0, abs(drift) - DRIFT_FROM) * 100 * A_PERCENT_OF_DRIFT,
            )
        )
        found.append(
            Against(
                f"{abs(off):.0%} {'faster' if off > 0 else 'slower'} than written",
                max(0.0, abs(off) - OFF_TEMPO_FROM) * 100 * A_PERCENT_OFF_TEMPO,
            )
        )
    return found


def tempo_share(line: Line, measures: Measures) -> float:
    """Return by which share a take is faster than its phrase says; 0 where its tempo is not known."""
    if measures.tempo is None:
        return 0.0
    return measures.tempo.qpm / float(line.beat_quarters * line.tempo_bpm) - 1


def kept(verdicts: Sequence[Verdict]) -> int | None:
    """Return which of the takes of one phrase in one key to keep; the first of equals, None for none."""
    usable = [index for index, one in enumerate(verdicts) if one.usable]
    return min(usable, key=lambda index: verdicts[index].points, default=None)
