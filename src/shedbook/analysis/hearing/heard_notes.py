"""How each note is heard: against which chord, as which degree, inside or outside, on which accent.

Conventions: the places of a span are quarter notes as fractions, those of a note whole ticks. A *span* is
a stretch of the phrase over one chord and one scale; repeats of both are one span. A note struck at most
an eighth before a change of chord may be heard against the next one; one that is held over the change,
or over a strong beat, belongs to the chord that sounds there.
"""

from __future__ import annotations

from bisect import bisect_right
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from typing import NamedTuple

from shedbook.analysis.hearing.note_places import EIGHTH, STRONG_BEAT, Standing
from shedbook.phrase.model import Phrase, Sounding
from shedbook.theory.chord import Chord, name_over
from shedbook.theory.metre import whole_ticks
from shedbook.theory.scale import Scale

CHORD, SCALE, OUTSIDE = "chord", "scale", "outside"
"""The three memberships."""

_COLOURS_OF_A_DOMINANT = frozenset(("b9", "b13"))


@dataclass(frozen=True, slots=True)
class Span:
    """One chord with its scale, from `start` to `end`.

    `first_change` and `last_change` are indices into the phrase's changes; `degrees` names the twelve
    pitch classes over the chord; `core` are the pitch classes of root, third, fifth and seventh (or
    sixth); `pass_through` those a half step above one of them that are neither chord tones nor colours.
    """

    index: int
    first_change: int
    last_change: int
    chord: Chord
    scale: Scale | None
    start: Fraction
    end: Fraction
    degrees: tuple[str, ...]
    chord_classes: frozenset[int]
    scale_classes: frozenset[int]
    core: frozenset[int]
    pass_through: frozenset[int]

    def membership(self, pitch_class: int) -> str:
        """Return "chord", "scale" or "outside"."""
        if pitch_class in self.chord_classes:
            return CHORD
        return SCALE if pitch_class in self.scale_classes else OUTSIDE

    @property
    def scale_name(self) -> str:
        """The scale's name, its root before it only where that is not the chord's; "" without a scale."""
        if self.scale is None:
            return ""
        if self.chord.root is not None and self.scale.root.pitch_class == self.chord.root.pitch_class:
            return self.scale.name
        return str(self.scale)


class Heard(NamedTuple):
    """One note as heard.

    `span` is the span it is heard against and `struck_over` the one that sounds when it is struck;
    `early` says that it is struck ahead of a strong beat or a change and held over it; `arrival` is
    the place it stands for (the strong beat, else its own start). `next_span` is set where it might be
    heard against the next chord. `weight` is the accent of the arrival: 4 first beat, 3 strong beat, 2
    beat, 1 half beat, 0 between. `rest_after` is the silence up to the next note; `joined` says that it is
    an eighth at most.
    """

    note: Sounding
    span: int
    struck_over: int
    next_span: int | None
    degree: str
    membership: str
    early: bool
    start: int
    end: int
    arrival: int
    strong: bool
    weight: int
    rest_after: int
    joined: bool
    midi: int

    @property
    def inside(self) -> bool:
        """Whether the note is a chord or scale tone of the chord it is heard against."""
        return self.membership != OUTSIDE


class Hearing(NamedTuple):
    """The notes of a phrase as heard; `grain` ticks make a quarter, `starts` are where the spans begin."""

    grain: int
    starts: tuple[int, ...]
    notes: tuple[Heard, ...]


def spans_of(phrase: Phrase, scales: tuple[Scale | None, ...]) -> tuple[Span, ...]:
    """Return the spans of a phrase; `scales` goes with the changes, one to one."""
    end_of_all = phrase.full_bars * phrase.metre.bar_quarters
    home = frozenset((phrase.key.tonic.pitch_class + step) % 12 for step in _KEY_STEPS[phrase.key.mode])
    groups: list[tuple[int, int]] = []
    for index, change in enumerate(phrase.changes):
        if groups:
            first = groups[-1][0]
            same = phrase.changes[first].chord.meaning == change.chord.meaning
            if same and scales[first] == scales[index]:
                groups[-1] = (first, index)
                continue
        groups.append((index, index))
    if not groups:
        silent = Chord("N.C.", None, third="", fifth="")
        return (_span(0, (-1, -1), silent, None, Fraction(0), end_of_all, home),)
    starts = [phrase.change_start(phrase.changes[first]) for first, _ in groups]
    ends = [*starts[1:], max(end_of_all, starts[-1])]
    return tuple(
        _span(number, group, phrase.changes[group[0]].chord, scales[group[0]], start, end, home)
        for number, (group, start, end) in enumerate(zip(groups, starts, ends, strict=True))
    )


_KEY_STEPS = {"major": (0, 2, 4, 5, 7, 9, 11), "minor": (0, 2, 3, 5, 7, 8, 9, 10, 11)}
"""The notes of a key where no chord sounds: in minor both sixths and both sevenths."""


def _span(
    number: int,
    changes: tuple[int, int],
    chord: Chord,
    scale: Scale | None,
    start: Fraction,
    end: Fraction,
    home: frozenset[int],
) -> Span:
    scale_classes = home if scale is None else scale.pitch_classes
    degrees, chord_classes, core, pass_through = _classes(chord, scale_classes)
    return Span(
        number, changes[0], changes[1], chord, scale, start, end, degrees, chord_classes,
        scale_classes, core, pass_through,
    )  # fmt: skip


@lru_cache(maxsize=1024)
def _classes(
    chord: Chord, scale_classes: frozenset[int]
) -> tuple[tuple[str, ...], frozenset[int], frozenset[int], frozenset[int]]:
    """Return a span's degrees, the classes of its chord and of its core, and what only passes through."""
    core: frozenset[int] = frozenset()
    chord_classes = chord.pitch_classes
    if chord.bass is not None:
        chord_classes |= {chord.bass.pitch_class}
    if chord.root is not None:
        named = ("1", chord.third, chord.fifth, chord.seventh)
        core = frozenset(name_over(chord.root, degree).pitch_class for degree in named if degree)
    degrees = tuple(chord.degree_of(pitch_class) for pitch_class in range(12))
    exempt = _COLOURS_OF_A_DOMINANT if chord.family in ("dominant", "suspended") else frozenset()
    pass_through = frozenset(
        pitch_class
        for pitch_class in scale_classes - chord_classes
        if (pitch_class - 1) % 12 in core and degrees[pitch_class] not in exempt
    )
    return degrees, chord_classes, core, pass_through


def listen(spans: tuple[Span, ...], standing: Standing) -> Hearing:
    """Return every note of a phrase as heard."""
    grain, notes = standing.grain, standing.notes
    starts = tuple(whole_ticks(span.start, grain) for span in spans)
    eighth = whole_ticks(EIGHTH, grain)
    silence = _LONG_AFTER * grain
    found = []
    over = 0
    for index, (note, start, end, arrival, early, accent) in enumerate(notes):
        while over + 1 < len(starts) and starts[over + 1] <= arrival:
            over += 1
        struck_over = max(0, bisect_right(starts, start) - 1) if early else over
        following = over + 1 if over + 1 < len(starts) and starts[over + 1] - eighth <= start else None
        span = spans[over]
        midi = note.pitch.midi
        pitch_class = midi % 12
        gap = notes[index + 1].start - end if index + 1 < len(notes) else silence
        found.append(
            Heard(
                note,
                over,
                struck_over,
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
    return Hearing(grain, starts, tuple(found))


_LONG_AFTER = 1000
"""The silence after the last note, in quarters."""
