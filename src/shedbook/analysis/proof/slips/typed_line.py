"""A phrase as the author typed it, in whole numbers: what the figures of real lines are asked about.

Nothing here depends on how a note is explained, so that a note that is changed on trial can be asked about
without a new account.
"""

from __future__ import annotations

import itertools
from bisect import bisect_right
from collections import Counter
from collections.abc import Sequence
from functools import lru_cache
from typing import NamedTuple

from shedbook.analysis.account import Account
from shedbook.analysis.hearing.chord_spans import Span
from shedbook.analysis.hearing.note_places import BEAT, EIGHTH, STRONG_BEAT
from shedbook.analysis.proof.slips.tables import chord_kinds
from shedbook.analysis.proof.slips.tables.chord_kinds import ROWS
from shedbook.theory.chord import Chord

OFF, ON_BEAT, LANDING = 0, 1, 2
"""How a note stands: between the beats, on a weak beat, on a strong beat or first over its chord."""

IN_CHORD, IN_SCALE, OUTSIDE = 0, 1, 2
"""What a sound is over a kind of chord."""

MEMBERSHIP = tuple(
    tuple(IN_CHORD if at in row.chord else IN_SCALE if at in row.scale else OUTSIDE for at in range(12))
    for row in ROWS
)
"""For each kind of chord, what each of the twelve degrees is."""


class TypedLine(NamedTuple):
    """The notes of a phrase and what lies under each.

    `midi`, `span` (which chord), `kind` and `root` of that chord, `stress` (OFF, ON_BEAT or LANDING) and
    `parted` (whether more than an eighth of silence follows, or nothing) go with the notes. `chords` has the
    kind and the root of every span; `beside` the sounds of the chords before and after each span, as bits.
    `named` has the sounds of the scale that the author named for each note's chord, as bits, 0 for none.
    """

    midi: tuple[int, ...]
    span: tuple[int, ...]
    kind: tuple[int, ...]
    root: tuple[int, ...]
    stress: tuple[int, ...]
    parted: tuple[bool, ...]
    chords: tuple[tuple[int, int], ...]
    beside: tuple[int, ...]
    named: tuple[int, ...]


class Shapes(NamedTuple):
    """What recurs in a line: its intervals, and how often each run of two or three of them stands in it.

    `sizes` counts the runs of two by size and direction alone.
    """

    intervals: list[int]
    pairs: Counter[tuple[int, int]]
    threes: Counter[tuple[int, int, int]]
    sizes: Counter[tuple[int, int]]


@lru_cache(maxsize=1024)
def chord_kind(chord: Chord) -> int:
    """Return the number of a chord's kind, its place in `tables.chord_kinds.ROWS`."""
    if chord.root is None:
        return chord_kinds.NO_CHORD
    family = chord.family
    if family == "major":
        return chord_kinds.MAJOR_SEVENTH if chord.seventh == "7" else chord_kinds.MAJOR
    if family == "dominant":
        bent = chord.altered or chord.fifth != "5" or not {"b9", "#9", "b13"}.isdisjoint(chord.tensions)
        return chord_kinds.ALTERED if bent else chord_kinds.DOMINANT
    if family == "minor":
        return chord_kinds.MINOR_SEVENTH if chord.seventh in ("b7", "") else chord_kinds.MINOR
    return {
        "half-diminished": chord_kinds.HALF_DIMINISHED,
        "diminished": chord_kinds.DIMINISHED,
        "suspended": chord_kinds.SUSPENDED,
    }[family]


def typed_line(account: Account) -> TypedLine:
    """Return the line of an account in whole numbers."""
    starts = [span.start for span in account.spans]
    chords = tuple(_kind_and_root(span, account) for span in account.spans)
    notes = account.notes
    span: list[int] = []
    stress: list[int] = []
    for note in notes:
        place = max(0, bisect_right(starts, note.arrival if note.early else note.start) - 1)
        first = not span or span[-1] != place
        landing = note.accent >= STRONG_BEAT or first
        span.append(place)
        stress.append(LANDING if landing else ON_BEAT if note.accent == BEAT else OFF)
    parted = [
        index + 1 == len(notes) or notes[index + 1].start - note.end > EIGHTH
        for index, note in enumerate(notes)
    ]
    return TypedLine(
        tuple(note.midi for note in notes), tuple(span), tuple(chords[at][0] for at in span),
        tuple(chords[at][1] for at in span), tuple(stress), tuple(parted), chords, _beside(chords),
        _named(account, span),
    )  # fmt: skip


def _kind_and_root(span: Span, account: Account) -> tuple[int, int]:
    """Return the kind and the root of a span's chord; where no chord sounds, the root is the key's."""
    root = span.chord.root
    name = account.phrase.key.tonic if root is None else root
    return chord_kind(span.chord), name.pitch_class


def _beside(chords: Sequence[tuple[int, int]]) -> tuple[int, ...]:
    """Return for each chord the sounds of its neighbours' tones, as bits."""
    own = [sum(1 << (root + tone) % 12 for tone in ROWS[kind].chord) for kind, root in chords]
    return tuple(
        (own[at - 1] if at else 0) | (own[at + 1] if at + 1 < len(own) else 0) for at in range(len(own))
    )


def _named(account: Account, span: Sequence[int]) -> tuple[int, ...]:
    """Return for each note the sounds of the scale that the author named for its chord, as bits."""
    scales = []
    for one in account.spans:
        scale = account.phrase.scales[one.first_change] if one.first_change >= 0 else None
        scales.append(0 if scale is None else sum(1 << sound for sound in scale.pitch_classes))
    return tuple(scales[at] for at in span)


def shapes_of(midi: Sequence[int]) -> Shapes:
    """Return what recurs in a line."""
    intervals = [after - before for before, after in itertools.pairwise(midi)]
    size = [size_class(interval) for interval in intervals]
    return Shapes(
        intervals,
        Counter(itertools.pairwise(intervals)),
        Counter(zip(intervals, intervals[1:], intervals[2:], strict=False)),
        Counter(itertools.pairwise(size)),
    )


def size_class(interval: int) -> int:
    """Return the size of an interval with its direction: 1 step, 2 third, 3 to a fifth, 4 wider."""
    size = abs(interval)
    found = 0 if not size else 1 if size <= 2 else 2 if size <= 4 else 3 if size <= 7 else 4
    return found if interval > 0 else -found
