"""What is looked at when a chord, or its place, is weighed against another that may have been meant."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections import Counter
from collections.abc import Iterable, Iterator
from math import lcm
from typing import NamedTuple

from shedbook.analysis.account import Account
from shedbook.analysis.hearing.note_places import BEAT
from shedbook.analysis.proof.slips.note_features import Feature
from shedbook.analysis.proof.slips.tables.chord_kinds import (
    DOMINANT,
    HALF_DIMINISHED,
    MAJOR,
    MAJOR_SEVENTH,
    MINOR,
    MINOR_SEVENTH,
    NO_CHORD,
)
from shedbook.analysis.proof.slips.typed_line import TypedLine, chord_kind
from shedbook.theory.metre import whole_ticks

OTHER_KINDS = {
    MAJOR_SEVENTH: (MINOR_SEVENTH, DOMINANT),
    MAJOR: (MINOR,),
    DOMINANT: (MINOR_SEVENTH, MAJOR_SEVENTH),
    MINOR_SEVENTH: (MAJOR_SEVENTH, DOMINANT, HALF_DIMINISHED),
    MINOR: (MAJOR,),
    HALF_DIMINISHED: (MINOR_SEVENTH,),
}
"""For each kind of chord, the kinds that are one letter or sign away from it when typed [common practice]."""

_GUIDES = {
    MAJOR_SEVENTH: (4, 7, 11), MAJOR: (4, 7, 9), DOMINANT: (4, 7, 10), MINOR_SEVENTH: (3, 7, 10),
    MINOR: (3, 7, 9), HALF_DIMINISHED: (3, 6, 10),
}  # fmt: skip
"""The third, fifth and seventh or sixth of those kinds, in half steps above the root [common practice]."""


_NOTHING = 12
"""Stands for the motion of the root where a phrase begins or ends."""

_AROUND = 8
"""How many notes before and after a chord say in which key it stands."""

_FEWEST = 6
"""How many notes must lie over another chord before changes are said to be shifted [the project's design]."""


class OtherChord(NamedTuple):
    """Another kind of chord that may have been meant for the span of a line."""

    span: int
    kind: int


def chords_meant(line: TypedLine) -> Iterator[OtherChord]:
    """Yield the kinds of chord that may have been meant where at least one note sounds."""
    for span in dict.fromkeys(line.span):
        for kind in OTHER_KINDS.get(line.chords[span][0], ()):
            yield OtherChord(span, kind)


def notes_over(line: TypedLine, span: int) -> range:
    """Return the places of the notes over one chord; spans follow one another."""
    return range(bisect_left(line.span, span), bisect_right(line.span, span))


def quality_features(line: TypedLine, other: OtherChord) -> list[Feature]:
    """Return the features that speak for another kind of chord, or against it.

    A feature is what happens to one note or one neighbouring chord; it is returned once for each.
    """
    kind, root = line.chords[other.span]
    found: list[Feature] = [("swap", (kind, other.kind))]
    notes = notes_over(line, other.span)
    heard = Counter((line.midi[place] - root) % 12 for place in notes)
    strong = Counter((line.midi[place] - root) % 12 for place in notes if line.stress[place])
    near = Counter(
        (line.midi[place] - root) % 12
        for place in range(max(0, notes[0] - _AROUND), min(len(line.midi), notes[-1] + 1 + _AROUND))
        if line.span[place] != other.span
    )
    beside = line.beside[other.span]
    for own, new in zip(_GUIDES[kind], _GUIDES[other.kind], strict=True):
        if own == new:
            continue
        pair = (own, new)
        found.append(("guide", (*pair, min(heard[own], 2), min(heard[new], 2))))
        found.append(("guide on a beat", (*pair, min(strong[own], 2), min(strong[new], 2))))
        found.append(("guide near by", (*pair, min(near[own], 2), min(near[new], 2))))
        tones = (beside >> (root + own) % 12 & 1, beside >> (root + new) % 12 & 1)
        found.append(("guide beside", (*pair, *tones)))
    for place in notes:
        degree = (line.midi[place] - root) % 12
        found.append(("heard", (kind, other.kind, degree, line.stress[place] > 0)))
    found += _among_chords(line, other)
    return found


def _among_chords(line: TypedLine, other: OtherChord) -> Iterator[Feature]:
    """Yield how the root moves from the chords before and to the chords after."""
    kind, root = line.chords[other.span]
    for step, name in ((-2, "second before"), (-1, "chord before"), (1, "chord after"), (2, "second after")):
        near = other.span + step
        if 0 <= near < len(line.chords):
            beside, its_root = line.chords[near]
            yield name, (kind, other.kind, (its_root - root) % 12, beside)
    around = tuple(
        (line.chords[near][1] - root) % 12 if 0 <= near < len(line.chords) else _NOTHING
        for near in (other.span - 1, other.span + 1)
    )
    yield "roots around", (kind, other.kind, *around)
    again = Counter(its_kind for its_kind, its_root in line.chords if its_root == root)
    yield "again", (kind, other.kind, min(again[kind] - 1, 1), min(again[other.kind], 1))


class OverAnother(NamedTuple):
    """A note over the chord that may be meant, and over the written one: kind and root of each."""

    midi: int
    on_beat: bool
    meant: tuple[int, int]
    written: tuple[int, int]


def shifted(account: Account, by: int) -> list[OverAnother] | None:
    """Return the notes of a phrase over the chords that stand `by` bars later, and over their own.

    Notes whose chord would come from outside the phrase are left out. None stands for changes that would
    say the same, or for too few notes to tell.
    """
    places = [note.arrival if note.early else note.start for note in account.notes]
    starts = [span.start for span in account.spans]
    end, bar = account.spans[-1].end, account.phrase.metre.bar_quarters
    grain = lcm(*{one.denominator for one in (*places, *starts, end, bar)})
    starts_in_ticks = [whole_ticks(start, grain) for start in starts]
    last, step = whole_ticks(end, grain), by * whole_ticks(bar, grain)
    chords = [
        (chord_kind(span.chord), 0 if span.chord.root is None else span.chord.root.pitch_class)
        for span in account.spans
    ]
    found = []
    for note, place in zip(account.notes, places, strict=True):
        tick = whole_ticks(place, grain)
        if 0 <= tick + step < last:
            written = chords[max(0, bisect_right(starts_in_ticks, tick) - 1)]
            meant = chords[max(0, bisect_right(starts_in_ticks, tick + step) - 1)]
            if written != meant:
                found.append(OverAnother(note.midi, note.accent >= BEAT, meant, written))
    return found if len(found) >= _FEWEST else None


def place_features(notes: Iterable[OverAnother]) -> Counter[Feature]:
    """Return the features that speak for chords over notes, and against others, counted."""
    found: Counter[Feature] = Counter()
    for midi, on_beat, meant, written in notes:
        for (kind, root), sign in ((meant, 1), (written, -1)):
            if kind != NO_CHORD:
                found["over", (kind, (midi - root) % 12, on_beat)] += sign
    return found
