"""When everything sounds and is shown in a video, in seconds from its beginning. Pure.

The same value serves a track of the band and a recording of the author's: of the first the players say when
each note sounds, of the second whoever has listened to it.
"""

from __future__ import annotations

import json
from bisect import bisect_right
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from typing import NamedTuple

from shedbook.errors import ReadError
from shedbook.phrase.model import Phrase, sounding_notes
from shedbook.theory.metre import beat_from_words

_SAME_PLACE = Fraction(1, 24)
"""How near two places in a bar are taken for the same, in quarters."""


class Sounding(NamedTuple):
    """A note while it sounds: the struck note of the phrase, and from when to when."""

    note: int
    start_s: float
    end_s: float


class BarAt(NamedTuple):
    """A bar of the phrase as it begins; 0 where no bar of it is played, such as between two rounds."""

    number: int
    start_s: float


class ChapterAt(NamedTuple):
    """A chapter of the video: where it begins and what it is called."""

    start_s: float
    title: str


@dataclass(frozen=True, slots=True)
class Moments:
    """All the times of a video: notes and bars in order, how long it lasts, its chapters."""

    notes: tuple[Sounding, ...]
    bars: tuple[BarAt, ...]
    seconds: float
    chapters: tuple[ChapterAt, ...] = ()

    def bar_at(self, seconds: float) -> int:
        """Return the number of the bar that is played at a time, 0 for none."""
        place = bisect_right([bar.start_s for bar in self.bars], seconds + 1e-9) - 1
        return self.bars[place].number if place >= 0 else 0


# What somebody has heard in a recording.


@dataclass(frozen=True, slots=True)
class Offsets:
    """When the notes of a phrase sound in a recording: bar, place in it counted in beats from 1, seconds."""

    recording: str
    phrase: str
    key: str
    notes: tuple[tuple[int, Fraction, float], ...]


def read_offsets(text: str, name: str) -> Offsets:
    """Read the JSON that says when each note of a recording sounds.

    The form: {"recording": "low-tide.wav", "phrase": "3", "key": "Bb", "notes": [{"bar": 1, "beat": "2½",
    "at_s": 4.13}, …]}. A beat is a number, or a text with a fraction ("2½", "2 5/7", "7/2"); a note that was
    not played has null for "at_s", or is left out.

    Raises:
        ReadError: if it is no such text.
    """
    hint = 'Write {"recording": …, "phrase": …, "key": …, "notes": [{"bar": 1, "beat": 1, "at_s": 2.0}, …]}'
    try:
        found = json.loads(text)
        rows = [row for row in found["notes"] if row.get("at_s") is not None]
        notes = tuple(sorted(
            ((int(row["bar"]), _beat(row["beat"]), float(row["at_s"])) for row in rows),
            key=lambda note: note[2],
        ))  # fmt: skip
        offsets = Offsets(
            str(found.get("recording", "")), str(found["phrase"]), str(found.get("key", "")), notes
        )
    except (ValueError, KeyError, TypeError, AttributeError, ZeroDivisionError, OverflowError) as error:
        raise ReadError(f"{name} does not say when notes sound: {error}", hint=hint) from None
    if len(notes) < 2 or not 0 <= notes[0][2] <= notes[-1][2] < 36_000:
        raise ReadError(f"{name} has fewer than two notes, or times that cannot be.", hint=hint)
    return offsets


def _beat(value: object) -> Fraction:
    if isinstance(value, int | float) and not isinstance(value, bool):
        return Fraction(value).limit_denominator(96)
    text = str(value).strip()
    return Fraction(text) if "/" in text and " " not in text else beat_from_words(text)


def moments_of_recording(phrase: Phrase, offsets: Offsets, seconds: float) -> Moments:
    """Return the times of a recording of a phrase that lasts so many seconds.

    A note lasts as it is written, at the tempo at which the notes about it are played, and no longer than to
    the next note. Where the bars go back to the beginning, another round begins.

    Raises:
        ReadError: if hardly any of the places is one of the phrase's notes.
    """
    placed = _placed(phrase, offsets)
    if len(placed) < max(2, len(offsets.notes) // 2):
        raise ReadError(
            f"{len(placed)} of {len(offsets.notes)} notes stand where the phrase has notes.",
            hint="See that the offsets are those of this phrase, and made since it was last changed.",
        )
    rounds = _rounds(placed)
    notes, bars, chapters = [], [], []
    for number, own in enumerate(rounds, 1):
        limit = rounds[number][0][1] if number < len(rounds) else seconds
        clock = _Clock(own, phrase)
        starts = [when for _, when in own] + [limit]
        for place, (index, when) in enumerate(own):
            note = sounding_notes(phrase)[index]
            end = min(starts[place + 1], clock.at(note.start + note.quarters), seconds)
            notes.append(Sounding(index, when, max(end, when)))
        bars += [
            BarAt(bar.number, min(max(0.0, clock.at(_bar_start(bar.number, phrase))), limit))
            for bar in phrase.bars
        ]
        bars.append(
            BarAt(0, min(max(clock.at(phrase.full_bars * phrase.metre.bar_quarters), starts[-2]), limit))
        )
        chapters.append(ChapterAt(max(0.0, own[0][1]), str(number)))
    return Moments(tuple(notes), tuple(sorted(bars, key=lambda bar: bar.start_s)), seconds, tuple(chapters))


def _bar_start(number: int, phrase: Phrase) -> Fraction:
    """Return where a bar begins, in quarters from bar 1; a pick-up where its first note may stand."""
    if number:
        return (number - 1) * phrase.metre.bar_quarters
    first = next((note.start for note in sounding_notes(phrase)), Fraction(0))
    return min(first, Fraction(0))


def _placed(phrase: Phrase, offsets: Offsets) -> list[tuple[int, float]]:
    """Return which struck note each place is, and when it sounds, in the order of time."""
    metre = phrase.metre
    there = [(note.start, index) for index, note in enumerate(sounding_notes(phrase))]
    found = []
    for bar, beat, when in offsets.notes:
        start = (bar - 1) * metre.bar_quarters + (beat - 1) * metre.beat_quarters
        near = min(there, key=lambda one: abs(one[0] - start), default=None)
        if near is not None and abs(near[0] - start) <= _SAME_PLACE:
            found.append((near[1], when))
    return found


def _rounds(placed: Sequence[tuple[int, float]]) -> list[list[tuple[int, float]]]:
    rounds: list[list[tuple[int, float]]] = [[placed[0]]]
    for before, one in pairwise(placed):
        if one[0] <= before[0]:
            rounds.append([])
        rounds[-1].append(one)
    return rounds


class _Clock:
    """From places in a phrase to seconds, through the notes that were heard."""

    def __init__(self, own: Sequence[tuple[int, float]], phrase: Phrase) -> None:
        notes = sounding_notes(phrase)
        self._places = [notes[index].start for index, _ in own]
        self._times = [when for _, when in own]
        lasts = self._places[-1] - self._places[0]
        tapped = 60.0 / max(1, phrase.tempo_bpm)
        self._a_quarter = (self._times[-1] - self._times[0]) / float(lasts) if lasts else tapped

    def at(self, place: Fraction) -> float:
        """Return when a place sounds; outside the notes at their mean tempo."""
        at = bisect_right(self._places, place)
        if at == 0 or at == len(self._places):
            edge = 0 if at == 0 else -1
            return self._times[edge] + float(place - self._places[edge]) * self._a_quarter
        first, last = self._places[at - 1], self._places[at]
        share = float((place - first) / (last - first))
        return self._times[at - 1] + share * (self._times[at] - self._times[at - 1])


def titled(moments: Moments, titles: Mapping[str, str]) -> Moments:
    """Return moments with other titles of chapters, by the old ones; one without a new one keeps its own."""
    chapters = tuple(ChapterAt(one.start_s, titles.get(one.title, one.title)) for one in moments.chapters)
    return Moments(moments.notes, moments.bars, moments.seconds, chapters)
