"""The takes of a recording session in an order that spares lips, hands and ears, with rests. Pure.

Takes go from slow to fast, at one tempo key by key, in one key from easy to hard. What a take costs is how
long it is played, weighed by how hard it is; after so much of it comes a short rest, and in every half hour
a longer one.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from shedbook.analysis.account import Account, account
from shedbook.lesson.timing import played_seconds
from shedbook.phrase.model import Phrase, sounding_notes

TRIES = 3
"""How many tries of a take are reckoned with (common practice)."""
_BETWEEN_S = 20.0
"""The time between two tries (the project's design)."""
_HIGH_WEIGHS, _LONG_WEIGHS = 4.0, 1.0
_LONG_S = 30.0
"""A line that is played without a break for longer than this costs more breath."""
_HARDEST = 10.0
_STRAIN_MINUTES, _SHORT_REST = 6.0, 2
"""How many minutes of playing at effort 3 come before a short rest, and how long that is."""
_CLOCK_MINUTES, _LONG_REST = 25.0, 5
"""Five minutes in every half hour [the book's own advice to its readers]."""
_USUAL_EFFORT = 3.0


@dataclass(frozen=True, slots=True)
class Take:
    """A take: its number in the session, the phrase, its keys as they sound and are read, how hard it is.

    `effort` goes from 1 to 10, `seconds` is one try. `order` is the place of its key among those asked for.
    """

    number: int
    phrase: int
    title: str
    key: str
    read: str
    tempo_bpm: int
    effort: float
    seconds: float
    order: int = 0


@dataclass(frozen=True, slots=True)
class Rest:
    """A rest of so many minutes; a `long` one is spent outside."""

    minutes: int
    long: bool


@dataclass(frozen=True, slots=True)
class Session:
    """What is done in order, and how many minutes it takes in all."""

    steps: tuple[Take | Rest, ...]
    minutes: int

    @property
    def takes(self) -> tuple[Take, ...]:
        """The takes alone."""
        return tuple(step for step in self.steps if isinstance(step, Take))


def effort_of(phrase: Phrase, tempo_bpm: int, highest_easy: int, *, times: int = 1) -> float:
    """Return how hard a phrase is to play at a tempo, from 1 to 10.

    Args:
        phrase: as it sounds.
        tempo_bpm: the tempo of the take.
        highest_easy: the MIDI number up to which its instrument plays without strain.
        times: how often it is played in a try.
    """
    timed = replace(phrase, tempo_bpm=tempo_bpm)
    seen: Account = account(timed)
    notes = sounding_notes(timed)
    high = sum(note.pitch.midi > highest_easy for note in notes) / max(1, len(notes))
    long = played_seconds(timed, times=times) > _LONG_S
    return min(_HARDEST, seen.difficulty.level + _HIGH_WEIGHS * high + _LONG_WEIGHS * long)


def session(takes: Sequence[Take]) -> Session:
    """Return a session of these takes, numbered anew in their order, with its rests."""
    ordered = sorted(takes, key=lambda take: (take.tempo_bpm, take.order, take.effort, take.phrase))
    numbered = [replace(take, number=number) for number, take in enumerate(ordered, 1)]
    steps = tuple(_with_rests(numbered))
    minutes = sum(_minutes(step) for step in steps)
    return Session(steps, round(minutes))


def _with_rests(takes: Sequence[Take]) -> Iterator[Take | Rest]:
    strain = clock = 0.0
    for place, take in enumerate(takes):
        yield take
        strain += TRIES * take.seconds / 60 * take.effort / _USUAL_EFFORT
        clock += _minutes(take)
        if place + 1 == len(takes):
            return
        if clock + _minutes(takes[place + 1]) > _CLOCK_MINUTES:
            yield Rest(_LONG_REST, True)
            strain = clock = 0.0
        elif strain >= _STRAIN_MINUTES:
            yield Rest(_SHORT_REST, False)
            strain, clock = 0.0, clock + _SHORT_REST


def _minutes(step: Take | Rest) -> float:
    if isinstance(step, Rest):
        return float(step.minutes)
    return TRIES * (step.seconds + _BETWEEN_S) / 60
