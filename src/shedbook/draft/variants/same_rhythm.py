"""Variants that move notes in pitch: cells inverted, reversed and sequenced, a line on other changes."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from shedbook.draft.ground import TICKS, Ground
from shedbook.draft.places import places_of
from shedbook.draft.reading import motifs
from shedbook.draft.rhythms import Rhythm
from shedbook.draft.variants.sketch import Sketch, fitted, place_words

_CELL = (3, 6)
"""How many notes a cell has, at least and at most."""
_TRIED = 4
"""In how many keys a line is fitted to other changes, those in which most of it stands as it is."""
_STEP_DOWN = 2
"""A step in half steps, before it is fitted to the scale."""


def cell_of(sketch: Sketch) -> tuple[int, int]:
    """Return the first note of the cell that is worth working with, and the one after its last.

    It is the longest cell that comes back, else the notes up to the first rest or longer note, three to six.
    """
    notes = len(sketch.midi)
    if notes > 3:
        found = motifs(np.array([sketch.midi]), sketch.rhythm)
        if found.notes[0]:
            return int(found.first[0]), int(found.first[0] + found.notes[0])
    end = min(_CELL[1], notes)
    for at in range(_CELL[0], end):
        if sketch.onsets[at] - sketch.onsets[at - 1] > TICKS:
            end = at
            break
    return 0, end


def inverted(sketch: Sketch) -> Iterator[tuple[Sketch, str]]:
    """Yield the line with its cell turned upside down about its first note."""
    first, last = cell_of(sketch)
    axis = sketch.midi[first]
    midi = [2 * axis - one if first <= at < last else one for at, one in enumerate(sketch.midi)]
    yield (
        _refitted(sketch, midi, first, last),
        f"The {last - first} notes from {place_words(sketch, first)} are upside down.",
    )


def reversed_cell(sketch: Sketch) -> Iterator[tuple[Sketch, str]]:
    """Yield the line with the notes of its cell in the other order, the rhythm being kept."""
    first, last = cell_of(sketch)
    midi = [*sketch.midi[:first], *reversed(sketch.midi[first:last]), *sketch.midi[last:]]
    yield (
        _refitted(sketch, midi, first, last),
        f"The {last - first} notes from {place_words(sketch, first)} run backwards.",
    )


def _refitted(sketch: Sketch, midi: list[int], first: int, last: int) -> Sketch:
    wished = [sketch.midi[at] if at in sketch.fixed else one for at, one in enumerate(midi)]
    still = [at for at in range(len(midi)) if not first <= at < last]
    found = fitted(replace(sketch, midi=tuple(wished)), still=still)
    return (
        found
        if found.midi != tuple(wished) or _stands(found)
        else fitted(replace(sketch, midi=tuple(wished)))
    )


def _stands(sketch: Sketch) -> bool:
    return all(
        not place.strong or midi % 12 in place.chord.strong
        for place, midi in zip(sketch.places, sketch.midi, strict=True)
    )


def sequenced(sketch: Sketch) -> Iterator[tuple[Sketch, str]]:
    """Yield a line of the cell alone, in every bar where its rhythm has room, moved as the roots move."""
    first, last = cell_of(sketch)
    ground = sketch.ground
    start, length = sketch.onsets[first], sketch.ends[last - 1] - sketch.onsets[first]
    begin = start - start % ground.bar_ticks if start >= 0 else -ground.bar_ticks
    bars = max(1, -(-(start - begin + length) // ground.bar_ticks))
    home = ground.stretches[ground.at(max(0, start))]
    onsets: list[int] = []
    ends: list[int] = []
    midi: list[int] = []
    places, before = 0, home
    moves: list[int] = []
    for bar in range(max(0, begin) // ground.bar_ticks, ground.bars, bars):
        shift = bar * ground.bar_ticks - max(0, begin)
        if sketch.ends[last - 1] + shift > ground.end:
            break
        here = ground.stretches[ground.at(max(0, start + shift))]
        up = (here.root - home.root + 5) % 12 - 5
        if places and here is before:
            up = moves[-1] - _STEP_DOWN  # over the same chord the cell goes down by a step
        elif places:  # the octave from which the line goes on best
            up = _nearest_octave(up, sketch.midi[first] - midi[-1])
        before = here
        moves.append(up)
        onsets += [one + shift for one in sketch.onsets[first:last]]
        ends += [one + shift for one in sketch.ends[first:last]]
        midi += [one + up for one in sketch.midi[first:last]]
        places += 1
    if places > 1:
        made = Sketch(ground, tuple(onsets), _no_overlap(onsets, ends), tuple(midi))
        yield (
            fitted(made),
            f"The {last - first} notes from {place_words(sketch, first)} go through the changes,"
            f" {places} times.",
        )


def _nearest_octave(up: int, leap: int) -> int:
    """Return the move, up to an octave off, after which a cell goes on best from a `leap`."""
    return min((up - 12, up, up + 12), key=lambda one: abs(leap + one) + abs(one) / 2)


def _no_overlap(onsets: list[int], ends: list[int]) -> tuple[int, ...]:
    return tuple(min(end, after) for end, after in zip(ends, [*onsets[1:], ends[-1]], strict=True))


def on_changes(sketch: Sketch, ground: Ground) -> Iterator[tuple[Sketch, str]]:
    """Yield the line over other changes: stretched or squeezed to their length, moved to the nearest key.

    Of all transpositions the one is taken whose fit moves the fewest pitches.
    """
    ratio = ground.end / sketch.ground.end
    if ratio not in (0.5, 1.0, 2.0):
        ratio = 1.0
    rhythm = _scaled(sketch, ratio, ground)
    notes = len(rhythm.onsets)
    if notes < 2:
        return
    best: tuple[float, Sketch, int] | None = None
    for up in sorted(range(-6, 6), key=lambda one: _misfits(sketch, rhythm, ground, one))[:_TRIED]:
        wished = tuple(one + up for one in sketch.midi[:notes])
        made = fitted(Sketch(ground, rhythm.onsets, rhythm.ends, wished))
        moved = sum(abs(one - other) for one, other in zip(made.midi, wished, strict=True)) + 0.3 * abs(up)
        if best is None or moved < best[0]:
            best = moved, made, up
    if best is None:
        return
    _, made, up = best
    changed = sum(one != other + up for one, other in zip(made.midi, sketch.midi, strict=False))
    way = (
        ""
        if not up
        else f"moved {'up' if up > 0 else 'down'} by {abs(up)} half step{'s' if abs(up) > 1 else ''}, "
    )
    length = {0.5: "squeezed to half its length, ", 2.0: "stretched to twice its length, "}.get(ratio, "")
    chords = " ".join(one.span.chord.text for one in ground.stretches)
    yield made, f"The line stands over {chords}: {way}{length}{changed} of {notes} notes changed to fit."


def _misfits(sketch: Sketch, rhythm: Rhythm, ground: Ground, up: int) -> float:
    """Return how many notes would stand badly if the line were moved so, and a little for moving it far."""
    places = places_of(rhythm, ground)
    moved = [one + up for one in sketch.midi[: len(places)]]
    outside = sum(note % 12 not in place.chord.inside for note, place in zip(moved, places, strict=True))
    weak = sum(
        place.strong and note % 12 not in place.chord.strong
        for note, place in zip(moved, places, strict=True)
    )
    return outside + weak + 0.1 * abs(up)


def _scaled(sketch: Sketch, ratio: float, ground: Ground) -> Rhythm:
    if ratio == 0.5 and any(one % 6 or end % 6 for one, end in zip(sketch.onsets, sketch.ends, strict=True)):
        ratio = 1.0
    onsets = [int(one * ratio) for one in sketch.onsets]
    ends = [int(one * ratio) for one in sketch.ends]
    if ratio > 1:  # notes keep their length where the wait is long, so that the line breathes
        ends = [min(end, start + 2 * TICKS) for start, end in zip(onsets, ends, strict=True)]
    kept = [at for at, start in enumerate(onsets) if start < ground.end]
    return Rhythm(tuple(onsets[at] for at in kept), tuple(min(ends[at], ground.end) for at in kept), ())
