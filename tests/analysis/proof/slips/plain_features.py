"""What is looked at in a line, looked at anew in the plainest way: the features of notes, octaves and chords.

Nothing here is shared with the analysis but the table of kinds of chord. What a feature is follows from its
description in `docs/analysis.md` and in the docstrings; the numbers are the project's design.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import Any

from shedbook.analysis.proof.slips.tables.chord_kinds import ROWS
from shedbook.analysis.proof.slips.typed_line import TypedLine

Feature = tuple[str, tuple[int, ...]]

NEAR, CLOSE, FAR = 8, 6, 16
"""How many notes on each side are near by, give the register, and may speak for a note over the chord."""

MAJOR, HARMONIC, MELODIC = "2212221", "2122131", "2122221"
KEYS = [
    {(tonic + sum(map(int, steps[:count]))) % 12 for count in range(7)}
    for steps in (MAJOR, HARMONIC, MELODIC)
    for tonic in range(12)
]
"""The major, harmonic minor and melodic minor scales [common practice]."""


def member(kind: int, degree: int) -> int:
    """Return 0 for a tone of the chord, 1 for one of its scale, 2 for any other."""
    return 0 if degree in ROWS[kind].chord else 1 if degree in ROWS[kind].scale else 2


def note_features(line: TypedLine, at: int, pitch: int) -> list[Feature]:
    """Return the features of a pitch on trial at a place of a line."""
    midi = [*line.midi[:at], pitch, *line.midi[at + 1 :]]
    return [
        *_over_the_chord(line, at, pitch),
        *_moves(line, midi, sorted({at - 1, at, at + 1} & set(range(len(midi))))),
        *_rests(line, midi, (at - 1, at)),
        *_chord_tones(line, midi, at),
        *_register(line, at, at, midi),
        *_again(line, midi, at),
    ]


def octave_features(line: TypedLine, first: int, last: int, shift: int) -> list[Feature]:
    """Return the features of some notes, moved by octaves."""
    midi = [note + shift * (first <= place <= last) for place, note in enumerate(line.midi)]
    edges = sorted({first - 1, first, last, last + 1} & set(range(len(midi))))
    return [
        *_moves(line, midi, edges),
        *_rests(line, midi, (first - 1, last)),
        *(one for place in sorted({first, last}) for one in _register(line, first, last, midi, place)),
    ]


def _others(line: TypedLine, at: int, most: int, least: int = 1) -> list[int]:
    """Return the pitches of the notes so many notes away."""
    return [midi for place, midi in enumerate(line.midi) if least <= abs(place - at) <= most]


def _over_the_chord(line: TypedLine, at: int, pitch: int) -> Iterator[Feature]:
    kind, root, sound = line.kind[at], line.root[at], pitch % 12
    role, accented = member(kind, (sound - root) % 12), line.stress[at] in (1, 2)
    beside = bin(line.beside[line.span[at]])[2:].zfill(12)[::-1][sound] == "1"
    yield "degree", (kind, (sound - root) % 12, beside, accented)
    heard = Counter(midi % 12 for midi in _others(line, at, NEAR))
    heard.update({(root + tone) % 12: 2 for tone in ROWS[kind].chord})
    fit = [sum(heard[one] for one in key) for key in KEYS]
    held = [sound in key for key, many in zip(KEYS, fit, strict=True) if many == max(fit)]
    yield "key", (2 if all(held) else 1 if any(held) else 0, role, accented)
    same = sum(midi % 12 == sound for midi in _others(line, at, NEAR))
    rubs = sum((midi - pitch) % 12 in (1, 11) for midi in _others(line, at, NEAR, 2))
    yield "said near by", (min(3, same), min(3, rubs), role)
    over = [
        (abs(place - at), (midi - pitch) % 12)
        for place, midi in enumerate(line.midi)
        if place != at and abs(place - at) <= FAR and line.span[place] == line.span[at]
    ]
    rubs = sum(gap in (1, 11) for away, gap in over if away > 1)
    yield "said over the chord", (min(2, rubs), any(gap == 0 for _, gap in over), role)


def _size(interval: int) -> int:
    """Return 0 for a unison, 1 half step, 2 whole step, 3 third, 4 to a fifth, 5 wider."""
    return next(number for number, most in enumerate((0, 1, 2, 4, 7, 99)) if abs(interval) <= most)


def _clip(number: int, most: int) -> int:
    return most if number > most else -most if number < -most else number


def _moves(line: TypedLine, midi: Sequence[int], places: Sequence[int]) -> Iterator[Feature]:
    def role(place: int) -> int:
        at_home = line.midi if place not in places else midi
        return member(line.kind[place], (at_home[place] - line.root[place]) % 12)

    for place in places:
        come = midi[place] - midi[place - 1] if place > 0 and not line.parted[place - 1] else None
        go = midi[place + 1] - midi[place] if place + 1 < len(midi) and not line.parted[place] else None
        if come is None and go is None:
            continue
        if come is None:
            yield "first", (role(place), _size(go or 0))
        elif go is None:
            yield "last", (role(place), _size(come))
        else:
            yield "turn", (_clip(come, 13), _clip(go, 13))
            yield "frame", (_clip(come + go, 13),)
            same_way = (come > 0 and go > 0) or (come <= 0 and go <= 0)
            yield "motion", (role(place), _size(come), _size(go), same_way, line.stress[place] in (1, 2))
            roles = role(place - 1), role(place), role(place + 1)
            yield "company", (*roles, min(3, _size(come)), min(3, _size(go)))


def _rests(line: TypedLine, midi: Sequence[int], places: Sequence[int]) -> Iterator[Feature]:
    for place in places:
        if place >= 0 and place + 1 < len(midi) and line.parted[place]:
            yield "over a rest", (_clip(midi[place + 1] - midi[place], 16),)


def _chord_tones(line: TypedLine, midi: Sequence[int], at: int) -> Iterator[Feature]:
    for place, name in ((at, "degree before"), (at + 1, "degree after")):
        if place > 0 and place < len(midi) and not line.parted[place - 1]:
            root = line.root[place]
            before, after = (midi[place - 1] - root) % 12, (midi[place] - root) % 12
            yield name, (line.kind[place], before, after, midi[place] > midi[place - 1])


def _register(
    line: TypedLine, first: int, last: int, midi: Sequence[int], at: int | None = None
) -> Iterator[Feature]:
    """How far a note lies from the mean of the notes before and after a stretch, in whole steps."""
    around = [*line.midi[max(0, first - CLOSE) : first], *line.midi[last + 1 : last + 1 + CLOSE]]
    if around:
        away = midi[first if at is None else at] - sum(around) / len(around)
        yield "register", (_clip(round(away / 2), 10),)


def _direction(interval: int) -> tuple[int, bool]:
    """Return the size of an interval, 0 to 4, and whether it falls."""
    size = next(number for number, most in enumerate((0, 2, 4, 7, 99)) if abs(interval) <= most)
    return size, interval < 0


def _runs(midi: Sequence[int], length: int) -> list[tuple[int, ...]]:
    """Return the runs of so many intervals, by their first note."""
    moves = [after - before for before, after in pairwise(midi)]
    return [tuple(moves[at : at + length]) for at in range(len(moves) - length + 1)]


def _again(line: TypedLine, midi: Sequence[int], at: int) -> Iterator[Feature]:
    """Whether the intervals at a note stand elsewhere in the line, alone and in runs of two and three."""
    alone = _runs(midi, 1)
    times = sum(
        alone[place + lag] == alone[place]
        for place in (at - 1, at)
        if 0 <= place < len(alone) and alone[place] != (0,)
        for lag in (-8, -6, -4, -3, -2, 2, 3, 4, 6, 8)
        if 0 <= place + lag < len(alone)
    )
    yield "interval again", (min(6, times),)
    for length, name, most in ((2, "pair again", 9), (3, "three again", 3)):
        new, old = _runs(midi, length), _runs(line.midi, length)
        there = [place for place in range(at - length, at + 1) if 0 <= place < len(new)]
        found = [
            any(run == new[place] for other, run in enumerate(old) if abs(other - place) > length)
            for place in there
            if length == 3 or any(new[place])
        ]
        yield name, (min(most, sum(found)),)
    if 0 < at < len(midi) - 1:
        shapes = [tuple(map(_direction, run)) for run in _runs(line.midi, 2)]
        own = tuple(map(_direction, _runs(midi, 2)[at - 1]))
        elsewhere = [shape for place, shape in enumerate(shapes) if not at - 2 <= place <= at]
        yield "shape again", (min(4, elsewhere.count(own)),)


def quality_features(line: TypedLine, span: int, kind: int) -> list[Any]:
    """Return the features that speak for another kind of chord over a span."""
    guides = {1: (4, 7, 11), 2: (4, 7, 9), 3: (4, 7, 10), 5: (3, 7, 10), 6: (3, 7, 9), 7: (3, 6, 10)}
    own, root = line.chords[span]
    notes = [at for at, over in enumerate(line.span) if over == span]
    around = [
        at for at in range(len(line.midi)) if notes[0] - 8 <= at <= notes[-1] + 8 and line.span[at] != span
    ]

    def many(places: Sequence[int], degree: int) -> int:
        return min(2, sum((line.midi[at] - root) % 12 == degree for at in places))

    on_beat = [at for at in notes if line.stress[at] != 0]
    neighbours = [line.chords[at] for at in (span - 1, span + 1) if 0 <= at < len(line.chords)]
    beside = {(its_root + tone) % 12 for its_kind, its_root in neighbours for tone in ROWS[its_kind].chord}
    found: list[Any] = [("swap", (own, kind))]
    for one, other in zip(guides[own], guides[kind], strict=True):
        if one != other:
            for name, places in (("guide", notes), ("guide on a beat", on_beat), ("guide near by", around)):
                found.append((name, (one, other, many(places, one), many(places, other))))
            found.append(
                ("guide beside", (one, other, *((root + tone) % 12 in beside for tone in (one, other))))
            )
    for at in notes:
        found.append(("heard", (own, kind, (line.midi[at] - root) % 12, at in on_beat)))
    for step, name in ((-2, "second before"), (-1, "chord before"), (1, "chord after"), (2, "second after")):
        if 0 <= span + step < len(line.chords):
            its_kind, its_root = line.chords[span + step]
            found.append((name, (own, kind, (its_root - root) % 12, its_kind)))
    roots = [
        (line.chords[at][1] - root) % 12 if 0 <= at < len(line.chords) else 12 for at in (span - 1, span + 1)
    ]
    found.append(("roots around", (own, kind, *roots)))
    elsewhere = [
        its_kind for at, (its_kind, its_root) in enumerate(line.chords) if its_root == root and at != span
    ]
    found.append(("again", (own, kind, own in elsewhere, kind in elsewhere)))
    return found
