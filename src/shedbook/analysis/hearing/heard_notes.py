"""How each note is heard: against which chord, as which degree, inside or outside, on which accent.

Conventions: places and lengths are whole ticks, as many to a quarter as the phrase needs. A note struck at
most an eighth before a change of chord may be heard against the next chord. A note that is held over a change
or over a strong beat belongs to the chord that sounds there.
"""

from __future__ import annotations

from bisect import bisect_right
from typing import NamedTuple

from shedbook.analysis.hearing.chord_spans import OUTSIDE, Span
from shedbook.analysis.hearing.note_places import EIGHTH, STRONG_BEAT, NotePlaces
from shedbook.phrase.model import Sounding
from shedbook.theory.metre import whole_ticks


class HeardNote(NamedTuple):
    """One note as heard; spans are given by their index.

    The note is heard against `span`, while `span_at_start` sounds when it is struck. `early` says that it is
    struck ahead of a strong beat or a change and held over it; `arrival` is the place it stands for, which is
    that strong beat or change, else its own start. `next_span` is set where the note might be heard against
    the next chord. `accent` is that of the arrival: 4 first beat, 3 strong beat, 2 beat, 1 half beat, 0
    between. `rest_after` is the silence up to the next note; `joined` says that it is an eighth at most.
    """

    note: Sounding
    span: int
    span_at_start: int
    next_span: int | None
    degree: str
    membership: str
    early: bool
    start: int
    end: int
    arrival: int
    strong: bool
    accent: int
    rest_after: int
    joined: bool
    midi: int

    @property
    def inside(self) -> bool:
        """Whether the note is a chord or scale tone of the chord it is heard against."""
        return self.membership != OUTSIDE


class HeardNotes(NamedTuple):
    """The notes of a phrase as heard; `grain` ticks make a quarter, the spans begin at `starts` in ticks."""

    grain: int
    starts: tuple[int, ...]
    notes: tuple[HeardNote, ...]


def hear_notes(spans: tuple[Span, ...], places: NotePlaces) -> HeardNotes:
    """Return every note of a phrase as heard, in order; `spans` and `places` are those of the phrase."""
    grain, notes = places.grain, places.notes
    starts = tuple(whole_ticks(span.start, grain) for span in spans)
    eighth = whole_ticks(EIGHTH, grain)
    silence = _LONG_AFTER * grain
    found = []
    over = 0
    for index, (note, start, end, arrival, early, accent) in enumerate(notes):
        while over + 1 < len(starts) and starts[over + 1] <= arrival:
            over += 1
        span_at_start = max(0, bisect_right(starts, start) - 1) if early else over
        following = over + 1 if over + 1 < len(starts) and starts[over + 1] - eighth <= start else None
        span = spans[over]
        midi = note.pitch.midi
        pitch_class = midi % 12
        gap = notes[index + 1].start - end if index + 1 < len(notes) else silence
        found.append(
            HeardNote(
                note,
                over,
                span_at_start,
                following,
                span.degrees[pitch_class],
                span.membership(pitch_class),
                early,
                start,
                end,
                arrival,
                accent >= STRONG_BEAT,
                accent,
                gap,
                gap <= eighth,
                midi,
            )
        )
    return HeardNotes(grain, starts, tuple(found))


_LONG_AFTER = 1000
"""The silence after the last note, in quarters."""
