"""Lines read as a teacher reads them: what a draft must have to be offered, and what makes it the better one.

Every function takes many lines over one rhythm, an array [line, note] of MIDI numbers.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
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
    cells = [_none_again()]
    for apart in range(3, min(moves, _FARTHEST)):
        same = (shape[:, apart:] == shape[:, :-apart]) & (waits[apart:] == waits[:-apart])[None, :]
        place = np.arange(same.shape[1])
        run = place - np.maximum.accumulate(np.where(same, -1, place), axis=1)
        row, at = np.nonzero(run >= 2)
        length = np.minimum(run[row, at], apart - 1)
        start = at + 1 - length
        second = np.minimum(start + 1, at + 1)
        turns = sums[row, at + 1] - sums[row, second]
        told = (length >= np.where(uneven[at + 1] > uneven[second], 2, 3)) & (turns > 0)
        row, start, length = row[told], start[told], length[told]
        close = (apart <= length + 2) & (lines[row, start] != lines[row, start + apart])
        cells.append(np.stack([row, length, close, start, start + apart]))
    every = np.concatenate(cells, axis=1)
    # The longest; of these the first that comes back at once, else the first.
    every = every[:, np.lexsort((-every[2], -every[1], every[0]))]
    row, first = np.unique(every[0], return_index=True)
    found = _no_motif(count)
    found.notes[row] = every[1, first] + 1
    found.near[row], found.first[row], found.again[row] = every[2, first], every[3, first], every[4, first]
    return found


def _none_again() -> NDArray[np.intp]:
    """Return an empty table of cells: line, moves, whether it comes back at once, first note, and again."""
    return np.zeros((5, 0), dtype=np.intp)


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


def stands_over(places: Sequence[Place]) -> Callable[[Lines], NDArray[np.bool_]]:
    """Return what says of beginnings of lines which neither hover nor stray, as far as their last note tells.

    They are what `read` says of whole lines under "no hovering" and "chromatic notes".
    """

    def stand(lines: Lines) -> NDArray[np.bool_]:
        at = lines.shape[1] - 1
        strays = _strays_at(lines, places, at - 2) if at >= 2 else np.zeros(len(lines), dtype=bool)
        if at == len(places) - 1 and at:
            strays = strays | _strays_at(lines, places, at - 1)
        return np.asarray(~(_hovers_at(lines, at) | strays))

    return stand


def _hovers(lines: Lines) -> NDArray[np.bool_]:
    """Whether six notes in a row hold too few pitches, or two notes are struck by turns."""
    found = np.zeros(len(lines), dtype=bool)
    for at in range(lines.shape[1]):
        found |= _hovers_at(lines, at)
    return found


def _hovers_at(lines: Lines, at: int) -> NDArray[np.bool_]:
    """Whether lines hover in the notes up to one."""
    found = np.zeros(len(lines), dtype=bool)
    if at >= _WINDOW - 1:
        ordered = np.sort(lines[:, at - _WINDOW + 1 : at + 1], axis=1)
        found = 1 + (np.diff(ordered, axis=1) != 0).sum(axis=1) < _NEED["no hovering"]
    if at >= 3:
        one, two, three, four = lines[:, at - 3 : at + 1].T
        found = found | ((one == three) & (two == four))
    return np.asarray(found)


def _lands(lines: Lines, rhythm: Rhythm, places: Sequence[Place]) -> NDArray[np.bool_]:
    """Whether the last note is firm and comes to rest: held for a beat, or on its own before a rest."""
    last = places[-1]
    held = rhythm.ends[-1] - rhythm.onsets[-1] >= TICKS or not last.on_beat
    near = np.abs(lines[:, -1] - lines[:, -2]) <= 7
    return np.asarray(near & held)


def _stray(lines: Lines, places: Sequence[Place]) -> NDArray[np.bool_]:
    """Whether a note outside the scale is not followed by a chord tone, its target: at once, or enclosed."""
    found = np.zeros(len(lines), dtype=bool)
    for at in range(len(places) - 1):
        found |= _strays_at(lines, places, at)
    return found


def _strays_at(lines: Lines, places: Sequence[Place], at: int) -> NDArray[np.bool_]:
    """Whether a note is outside the scale and leads to no chord tone."""
    outside = ~mask_of(places[at].chord.inside)[lines[:, at] % 12]
    if not outside.any():
        return outside
    target = mask_of(places[at + 1].chord.strong)[lines[:, at + 1] % 12]
    if at + 2 < len(places):
        around = (lines[:, at] < lines[:, at + 2]) != (lines[:, at + 1] < lines[:, at + 2])
        target = target | around & mask_of(places[at + 2].chord.strong)[lines[:, at + 2] % 12]
    return np.asarray(outside & ~target)


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
