"""Variants that move notes in pitch: cells inverted, reversed and sequenced, a line on other changes."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
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
_STEPS_DOWN = (2, 1, 3, 4)
"""How far down a cell is repeated over one chord, in half steps, the usual first [common practice]."""
_WITH_EASE = 7
"""The widest leap into or out of a cell that costs nothing: a fifth [the project's design]."""
_OCTAVE = 4
"""What an octave's move of a cell costs, in half steps of leaps [the project's design]."""


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
    cell = [2 * axis - one for one in sketch.midi[first:last]]
    yield (
        _refitted(sketch, _set_in(sketch, cell, first, last), first, last),
        f"The {last - first} notes from {place_words(sketch, first)} are upside down.",
    )


def reversed_cell(sketch: Sketch) -> Iterator[tuple[Sketch, str]]:
    """Yield the line with the notes of its cell in the other order, the rhythm being kept."""
    first, last = cell_of(sketch)
    cell = sketch.midi[first:last][::-1]
    yield (
        _refitted(sketch, _set_in(sketch, cell, first, last), first, last),
        f"The {last - first} notes from {place_words(sketch, first)} run backwards.",
    )


def _set_in(sketch: Sketch, cell: Sequence[int], first: int, last: int) -> list[int]:
    """Return the line with a cell in the place of its own, in the octave where it joins best."""

    def cost(up: int) -> float:
        leaps = [abs(cell[0] + up - sketch.midi[first - 1])] if first else []
        leaps += [abs(cell[-1] + up - sketch.midi[last])] if last < len(sketch.midi) else []
        return sum(max(0, leap - _WITH_EASE) for leap in leaps) + _OCTAVE * (up != 0)

    up = min((0, -12, 12), key=cost)
    return [*sketch.midi[:first], *[one + up for one in cell], *sketch.midi[last:]]


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
            up = moves[-1] - _step_down(sketch, (first, last), moves[-1], shift)
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


def _step_down(sketch: Sketch, cell: tuple[int, int], up: int, shift: int) -> int:
    """Return how far under the cell before it a cell goes on over the same chord.

    It is the step after which most of its notes are what they were: chord tones, notes of the scale.
    """

    def kept(down: int) -> int:
        found = 0
        for at in range(*cell):
            here = sketch.ground.stretches[sketch.ground.at(max(0, sketch.onsets[at] + shift))]
            was, now = sketch.midi[at] % 12, (sketch.midi[at] + up - down) % 12
            own = sketch.places[at].chord
            found += (was in own.span.chord_classes) <= (now in here.span.chord_classes)
            found += (was in own.inside) <= (now in here.inside)
        return found

    return max(_STEPS_DOWN, key=kept)


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
