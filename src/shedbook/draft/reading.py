"""Lines read as a teacher reads them: what a draft must have to be offered, and what makes it the better one.

Every function takes many lines over one rhythm, an array [line, note] of MIDI numbers.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType

import numpy as np
from numpy.typing import NDArray

from shedbook.draft.ground import TICKS
from shedbook.draft.moods import SIZE_OF
from shedbook.draft.places import Place, mask_of
from shedbook.draft.rhythms import Rhythm
from shedbook.draft.tables.leanings import LONG_ENOUGH, OFFERED, READING

Lines = NDArray[np.intp]
_NEED: Mapping[str, float] = MappingProxyType({row.name: row.number for row in OFFERED})
_WORTH: Mapping[str, float] = MappingProxyType({row.name: row.weight / 100 for row in READING})
_WINDOW = 6
"""How many notes in a row may not hover [the project's design]."""
_FARTHEST = 33
"""How many notes apart a cell still comes back to the ear: four bars of eighths [the project's design]."""
_ALTERED = (1, 3, 6, 8)
"""b9, #9, #11 and b13 in half steps above the root of a dominant."""
_SEVERAL = 60
"""Notes up to which a line is one phrase [the project's design]."""
_STEP, _WIDE, _FIFTH = 2, 4, 7
"""The widest step, the widest third and a fifth, in half steps."""
TRIAD = (0, 3, 4, 6, 7, 8)
"""Half steps of roots, thirds and fifths above the root."""
_SIZES = np.array([SIZE_OF[abs(move)] for move in range(-12, 13)])


@dataclass(frozen=True)
class Motif:
    """The longest cell that comes back in each line: how many notes it has, where it is, and where again.

    `notes` is 0 where none does; `near` says whether it comes back at once, on another step.
    """

    notes: NDArray[np.intp]
    first: NDArray[np.intp]
    again: NDArray[np.intp]
    near: NDArray[np.bool_]

    def of(self, lines: NDArray[np.bool_]) -> Motif:
        """Return the motifs of some of the lines."""
        return Motif(self.notes[lines], self.first[lines], self.again[lines], self.near[lines])


def generic(lines: Lines) -> NDArray[np.intp]:
    """Return moves by direction and kind: ±1 a step, ±2 a third, ±3 a fourth or fifth, ±4 more."""
    moves = np.diff(lines, axis=1)
    size = _SIZES[np.clip(moves, -12, 12) + 12]
    return np.asarray(np.sign(moves) * np.maximum(size - 1, (size > 0).astype(int)))


def motifs(lines: Lines, rhythm: Rhythm) -> Motif:
    """Return the longest cell of each line that comes back in the same rhythm, and not upon itself.

    A cell keeps its directions and the kinds of its moves. One that only goes on by step, or in even notes
    turns nowhere, is no motif; in even notes it has four notes at least.
    """
    shape, waits = generic(lines), np.array(rhythm.waits)
    count, moves = shape.shape
    interesting = np.abs(shape) > 1
    interesting[:, 1:] |= np.sign(shape[:, 1:]) != np.sign(shape[:, :-1])
    sums = np.concatenate([np.zeros((count, 1), dtype=int), interesting.cumsum(axis=1)], axis=1)
    uneven = np.concatenate([[0], (np.diff(waits, prepend=waits[:1]) != 0).cumsum()])
    best = np.zeros(count, dtype=np.intp)
    first, again, near = best.copy(), best.copy(), np.zeros(count, dtype=bool)
    for apart in range(3, min(moves, _FARTHEST)):
        same = (shape[:, apart:] == shape[:, :-apart]) & (waits[apart:] == waits[:-apart])[None, :]
        run = np.zeros(count, dtype=np.intp)
        for at in range(same.shape[1]):
            run = np.where(same[:, at], np.minimum(run + 1, apart - 1), 0)
            start = at + 1 - run
            turns = sums[np.arange(count), at + 1] - sums[np.arange(count), np.minimum(start + 1, at + 1)]
            enough = run >= np.where(uneven[at + 1] > uneven[np.minimum(start + 1, at + 1)], 2, 3)
            other = lines[np.arange(count), start] != lines[np.arange(count), start + apart]
            close = (apart <= run + 2) & other
            found = enough & (turns > 0) & ((run > best - 1) | ((run == best - 1) & close & ~near))
            best = np.where(found, run + 1, best)
            first, again = np.where(found, start, first), np.where(found, start + apart, again)
            near = np.where(found, close, near)
    return Motif(best, first, again, near)


@dataclass(frozen=True)
class Reading:
    """Lines as they were read: which lack what, by name of `OFFERED`, what each is worth, and its motif."""

    lacks: Mapping[str, NDArray[np.bool_]]
    worth: NDArray[np.float64]
    motif: Motif

    @property
    def offered(self) -> NDArray[np.bool_]:
        """Which lines lack nothing."""
        bad = np.zeros(len(self.worth), dtype=bool)
        for one in self.lacks.values():
            bad |= one
        return ~bad


def read(lines: Lines, rhythm: Rhythm, places: Sequence[Place]) -> Reading:
    """Return lines as they were read."""
    notes = lines.shape[1]
    top = lines.max(axis=1)
    span = top - lines.min(axis=1)
    long = notes >= LONG_ENOUGH
    share = _commonest(lines) / notes
    turns = _turns(lines)
    lacks = {
        "one peak": ((lines == top[:, None]).sum(axis=1) != 1) | (lines[:, -1] == top),
        "ending": ~_lands(lines, rhythm, places),
        "last leap": np.abs(lines[:, -1] - lines[:, -2]) > _NEED["last leap"],
        "chromatic notes": _stray(lines, places),
        "no hovering": _hovers(lines),
        "common pitch": (share > _NEED["common pitch"]) & (_commonest(lines) > 2),
        "breath": np.full(len(lines), not _breathes(rhythm)),
        "narrowest": span < (_NEED["narrowest"] if long else 4),
        "widest": span > _NEED["widest" if notes <= _SEVERAL else "widest of all"],
        "turns": (turns < _NEED["turns"] * notes) & long,
    }
    motif = _motifs_of_the_rest(lines, rhythm, ~np.any(list(lacks.values()), axis=0))
    lacks["motif"] = (motif.notes < _NEED["motif"]) & long
    return Reading(MappingProxyType(lacks), _worth(lines, places, motif, share), motif)


def _motifs_of_the_rest(lines: Lines, rhythm: Rhythm, rest: NDArray[np.bool_]) -> Motif:
    """Return the motifs of the lines that lack nothing else; the others are not looked at."""
    found = _no_motif(len(lines))
    if lines.shape[1] < 4 or not rest.any():
        return found
    there = motifs(lines[rest], rhythm)
    for name in ("notes", "first", "again", "near"):
        getattr(found, name)[rest] = getattr(there, name)
    return found


def _no_motif(count: int) -> Motif:
    none = np.zeros((3, count), dtype=np.intp)
    return Motif(none[0], none[1], none[2], np.zeros(count, dtype=bool))


def _commonest(lines: Lines) -> NDArray[np.intp]:
    ordered = np.sort(lines, axis=1)
    best = run = np.ones(len(lines), dtype=np.intp)
    for at in range(1, lines.shape[1]):
        run = np.where(ordered[:, at] == ordered[:, at - 1], run + 1, 1)
        best = np.maximum(best, run)
    return best


def _turns(lines: Lines) -> NDArray[np.intp]:
    signs = np.sign(np.diff(lines, axis=1))
    return np.asarray((signs[:, 1:] * signs[:, :-1] < 0).sum(axis=1))


def _hovers(lines: Lines) -> NDArray[np.bool_]:
    """Whether six notes in a row hold too few pitches, or two notes are struck by turns."""
    found = np.zeros(len(lines), dtype=bool)
    for at in range(lines.shape[1] - _WINDOW + 1):
        ordered = np.sort(lines[:, at : at + _WINDOW], axis=1)
        found |= 1 + (np.diff(ordered, axis=1) != 0).sum(axis=1) < _NEED["no hovering"]
    for at in range(lines.shape[1] - 3):
        one, two, three, four = lines[:, at : at + 4].T
        found |= (one == three) & (two == four)
    return found


def _lands(lines: Lines, rhythm: Rhythm, places: Sequence[Place]) -> NDArray[np.bool_]:
    """Whether the last note is firm and comes to rest: held for a beat, or on its own before a rest."""
    last = places[-1]
    held = rhythm.ends[-1] - rhythm.onsets[-1] >= TICKS or not last.on_beat
    near = np.abs(lines[:, -1] - lines[:, -2]) <= 7
    return np.asarray(near & held)


def _stray(lines: Lines, places: Sequence[Place]) -> NDArray[np.bool_]:
    """Whether a note outside the scale is not followed by a chord tone, its target: at once, or enclosed."""
    found = np.zeros(len(lines), dtype=bool)
    chordal = _chordal(lines, places)
    for at, place in enumerate(places[:-1]):
        outside = ~mask_of(place.chord.inside)[lines[:, at] % 12]
        target = chordal[:, at + 1].copy()
        if at + 2 < len(places):
            around = (lines[:, at] < lines[:, at + 2]) != (lines[:, at + 1] < lines[:, at + 2])
            target |= around & chordal[:, at + 2]
        found |= outside & ~target
    return found


def _chordal(lines: Lines, places: Sequence[Place]) -> NDArray[np.bool_]:
    """Return which notes are chord tones, or tensions that strong beats may hold: [line, note]."""
    columns = [mask_of(place.chord.strong)[lines[:, at] % 12] for at, place in enumerate(places)]
    return np.stack(columns, axis=1)


def _breathes(rhythm: Rhythm) -> bool:
    """Whether there is a rest inside, which only lines of more than two bars need."""
    long = rhythm.onsets[-1] - rhythm.onsets[0] > 9 * TICKS
    return not long or any(rest > 0 for rest in rhythm.rests)


def _worth(
    lines: Lines, places: Sequence[Place], motif: Motif, share: NDArray[np.float64]
) -> NDArray[np.float64]:
    notes = lines.shape[1]
    moves = np.abs(np.diff(lines, axis=1))
    peak = lines.argmax(axis=1) / max(1, notes - 1)
    last = places[-1]
    steps = (moves <= _STEP).sum(axis=1) / max(1, notes - 1)
    home = [one for one in last.chord.firm if (one - last.chord.root) % 12 in TRIAD]
    kinds = np.array([len(set(row)) for row in _SIZES[np.clip(moves, 0, 12) + 12].tolist()])
    worth = _WORTH["motif"] * np.minimum(motif.notes, 7) + _WORTH["sequence"] * motif.near
    worth = worth + _WORTH["peak in the middle"] * np.exp(-(((peak - 0.55) / 0.25) ** 2))
    worth = worth + _WORTH["even steps"] * np.maximum(0, steps - 5 / 6) * notes
    worth = worth + _WORTH["one pitch"] * np.maximum(0, share - 1 / 6) * notes
    worth = worth + _WORTH["last step"] * (moves[:, -1] <= 4)
    worth = worth + _WORTH["home"] * np.isin(lines[:, -1] % 12, home)
    chordal = _chordal(lines, places)[:, 1:]
    worth = worth + _WORTH["leaps to no chord tone"] * ((moves > _WIDE) & ~chordal).sum(axis=1)
    worth = worth + _WORTH["wide leaps"] * (moves > _FIFTH).sum(axis=1)
    worth = worth + _tensions(lines, places) + _held_passing(lines, places)
    worth = worth + _WORTH["back at the end"] * (lines[:, -1] == lines[:, -3 % notes])
    for at, place in enumerate(places):
        if place.rest_after and at < notes - 1:
            off = ~mask_of(place.chord.span.chord_classes)[lines[:, at] % 12]
            worth = worth + _WORTH["stops off the chord"] * off
        if place.enters and at:
            worth = worth + _WORTH["guide tones"] * mask_of(place.chord.guides)[lines[:, at] % 12]
    return np.asarray(worth + _WORTH["variety of moves"] * np.minimum(kinds, 5))


def _tensions(lines: Lines, places: Sequence[Place]) -> NDArray[np.float64]:
    """Return what lines lose by tensions of dominants that are held, or that no step leads on from."""
    found = np.zeros(len(lines))
    for at, place in enumerate(places[:-1]):
        if place.chord.family != "dominant":
            continue
        tense = np.isin((lines[:, at] - place.chord.root) % 12, _ALTERED)
        tense &= ~mask_of(place.chord.span.chord_classes)[lines[:, at] % 12]
        hangs = (np.abs(lines[:, at + 1] - lines[:, at]) > _STEP) | place.rest_after
        found += _WORTH["tensions left hanging"] * (tense & hangs)
        found += _WORTH["long tensions"] * (tense & (place.length > TICKS // 2))
    return found


def _held_passing(lines: Lines, places: Sequence[Place]) -> NDArray[np.float64]:
    """Return what lines lose by notes that are held, though over their chord they only pass through."""
    found = np.zeros(len(lines))
    for at, place in enumerate(places):
        if place.length > TICKS // 2:
            found += _WORTH["held on the way"] * mask_of(place.chord.span.pass_through)[lines[:, at] % 12]
    return found
