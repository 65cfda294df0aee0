"""What tracks will take before they are made: how long they play, how much of the disk, how much time.

The length is counted as the arrangement counts it. Size and time go by measured rates (`tables.costs`), and
are said to be an estimate.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from shedbook.book.tracks.orders import TrackOrder
from shedbook.book.tracks.worker import arrangement_order, formats_of
from shedbook.errors import ShedbookError
from shedbook.phrase.model import Phrase
from shedbook.sound.arranging.lengths import seconds_for
from shedbook.sound.audio.tables.costs import COSTS
from shedbook.sound.audio.tables.formats import TAIL_SECONDS
from shedbook.sound.tables.track_kinds import TUNING_SECONDS

_COSTS = {row.ending.removeprefix("."): row for row in COSTS}


@dataclass(frozen=True, slots=True)
class Forecast:
    """How long tracks play, in seconds; their bytes; how many seconds a processor works on them."""

    tracks: int = 0
    seconds: float = 0.0
    size: float = 0.0
    work: float = 0.0

    def __add__(self, other: Forecast) -> Forecast:
        return Forecast(
            self.tracks + other.tracks,
            self.seconds + other.seconds,
            self.size + other.size,
            self.work + other.work,
        )


def forecast(groups: Sequence[Sequence[TrackOrder]]) -> Forecast:
    """Return what tracks will take.

    Args:
        groups: orders that are made together, of one rendering.
    """
    found, phrases = Forecast(), dict[int, Phrase]()
    for group in groups:
        for at, order in enumerate(group):
            found += _of(order, phrases, again=at > 0)
    return found


def _of(order: TrackOrder, phrases: dict[int, Phrase], *, again: bool) -> Forecast:
    try:
        seconds = track_seconds(order, phrases)
    except ShedbookError:  # said where the track is made
        return Forecast(1)
    rows = [_COSTS[name] for name in formats_of(order)]
    size = sum(1000 * row.kilobytes * seconds for row in rows)
    work = sum(seconds / (row.again if again or at else row.first) for at, row in enumerate(rows))
    return Forecast(1, seconds * len(rows), size, work)


def track_seconds(order: TrackOrder, phrases: dict[int, Phrase] | None = None) -> float:
    """Return how long a track is, its tail included; `phrases` are those read already, by their numbers.

    Raises:
        ShedbookError: if its phrase cannot be read.
    """
    text, source = order.given.text, order.source
    if text is None or source is None:
        return TUNING_SECONDS + TAIL_SECONDS
    known = {} if phrases is None else phrases
    if source.number not in known:
        known[source.number] = text.phrase()
    phrase = known[source.number]
    told = arrangement_order(order, (phrase,) * len(order.given.keys))
    return seconds_for(phrase, len(order.given.keys), told) + (0 if told.loop else TAIL_SECONDS)


def in_words(found: Forecast, workers: int) -> str:
    """Return a forecast as a line for people; "" for less than a minute of work."""
    wait = found.work / max(1, workers)
    if wait < 60:
        return ""
    hours = found.seconds / 3600
    length = f"{hours:.1f} hours" if hours >= 1 else f"{found.seconds / 60:.0f} minutes"
    size = f"{found.size / 1e9:.2f} GB" if found.size >= 5e8 else f"{max(1, found.size / 1e6):.0f} MB"
    return (
        f"{found.tracks} tracks to make: about {length} of sound, {size}, "
        f"{wait / 60:.0f} min with {workers} at work (an estimate)"
    )
