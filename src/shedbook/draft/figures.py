"""What makes a note likely: the soft figures of a line, as arrays that the lattice adds up.

One note's weight is a sum of natural logarithms: how the move follows the last one, how far it goes on in one
direction, what the note is over its chord and in its bar, whether it enters a chord, how long it was waited
for, whether it resolves a note outside the scale, and where it lies in its range. The learnt figures are
fitted to real lines by `tools/draft_figures.py` over the same states; the author's are a table of leanings.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, fields
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from shedbook.draft.ground import TICKS
from shedbook.draft.lines import Weighing
from shedbook.draft.moods import CLASSES, SIZE_OF, WIDEST
from shedbook.draft.places import Place, mask_of

FAMILIES = ("major", "minor", "dominant", "suspended", "half-diminished", "diminished", "none")
MOVES = 2 * WIDEST + 1
SIZES = 6
WAITS = 5
REGISTER = 12.0
"""Half steps in which the distance from the middle of a range is counted."""

Floats = NDArray[np.float64]

SHAPES = {
    "moves": (CLASSES, MOVES),
    "runs": (7, 2),
    "degrees": (len(FAMILIES), 12, 2),
    "standings": (3, 3),
    "endings": (12,),
    "guides": (2,),
    "enters": (SIZES,),
    "waits": (WAITS, SIZES),
    "resolving": (MOVES,),
    "register": (2,),
    "starts": (13,),
    "start_degrees": (12,),
    "progress": (5, 3),
    "fingering": (1,),
}
"""The shapes of all figures.

moves: by class of the last move, and move. runs: by moves that went one way, and whether it goes on. degrees:
by family, half steps above the root, and whether the beat is strong. standings: chord tone, scale tone or
outside; strong beat, other beat, off the beat. endings: the last note's half steps above the root. guides:
whether the first note over a chord is its third or seventh. enters: the size of the move into a chord.
waits: by how long the
note was waited for, and size. resolving: the move from a note outside the scale. register: the distance from
the middle of the range in octaves, and its square. starts: the first note's distance from the middle, in
steps of three half steps from 18 below. start_degrees: its half steps above the root.
progress: by fifths of the line, whether a move goes down, stays or goes up. fingering: a point of what is
awkward for the hands (`hands`), which is not learnt, for the real lines are of many instruments.
"""


@dataclass(frozen=True)
class Figures:
    """All figures; `SHAPES` says what each holds."""

    moves: Floats
    runs: Floats
    degrees: Floats
    standings: Floats
    endings: Floats
    guides: Floats
    enters: Floats
    waits: Floats
    resolving: Floats
    register: Floats
    starts: Floats
    start_degrees: Floats
    progress: Floats
    fingering: Floats

    def __add__(self, other: Figures) -> Figures:
        return Figures(*[getattr(self, one.name) + getattr(other, one.name) for one in fields(self)])


def no_figures() -> Figures:
    """Return figures that say nothing."""
    return Figures(**{name: np.zeros(shape) for name, shape in SHAPES.items()})


def wait_class(place: Place) -> int:
    """Return how long a note was waited for: 0 under an eighth, 1 an eighth, 2 a quarter, 3, 4 a rest."""
    if place.breathed:
        return 4
    wait = place.wait
    return 0 if wait < TICKS // 2 else 1 if wait == TICKS // 2 else 2 if wait <= TICKS else 3


def beat_class(place: Place) -> int:
    """Return 0 for a strong beat, 1 for another beat, 2 off the beat."""
    return 0 if place.strong else 1 if place.on_beat else 2


def standing_of(place: Place, classes: NDArray[np.intp]) -> NDArray[np.intp]:
    """Return 0 for chord tones, 1 for scale tones, 2 for what is outside, of an array of pitch classes."""
    chord = mask_of(place.chord.span.chord_classes)[classes]
    inside = mask_of(place.chord.inside)[classes]
    return np.where(chord, 0, np.where(inside, 1, 2))


def fifth(at: int, notes: int) -> int:
    """Return in which fifth of a line a note is, from 0 to 4."""
    return min(4, 5 * at // notes)


def start_class(far: NDArray[np.float64]) -> NDArray[np.intp]:
    """Return the place among the figures of starts of distances from the middle, in half steps."""
    return np.asarray(np.clip(np.rint(far / 3) + 6, 0, 12), dtype=np.intp)


def weighing(figures: Figures, places: Sequence[Place], low: int, high: int, middle: float) -> Weighing:
    """Return the weights of a rhythm's notes from MIDI number `low` to `high`, as shares of moves."""
    pitches = np.arange(low - WIDEST, high + WIDEST + 1)
    size = np.array([SIZE_OF[abs(move)] for move in range(-WIDEST, WIDEST + 1)])
    ways = np.sign(np.arange(-WIDEST, WIDEST + 1)) + 1
    far = (pitches - middle) / REGISTER
    notes, steps = [], []
    for at, place in enumerate(places):
        above = (pitches - place.chord.root) % 12
        standing = standing_of(place, pitches % 12)
        own = figures.degrees[FAMILIES.index(place.chord.family), above, int(place.strong)]
        own = own + figures.standings[standing, beat_class(place)]
        if at:
            own = own + figures.register[0] * far + figures.register[1] * far**2
        else:
            own = (
                figures.starts[start_class(np.asarray(pitches - middle, dtype=np.float64))]
                + figures.start_degrees[above]
            )
        if at == len(places) - 1:
            own = own + figures.endings[above]
        if place.enters:
            own = own + figures.guides[mask_of(place.chord.guides)[pitches % 12].astype(int)]
        step = figures.waits[wait_class(place), size] + figures.progress[fifth(at, len(places)), ways]
        if place.enters and at:
            step = step + figures.enters[size]
        notes.append(own)
        steps.append(step)
    return Weighing(
        figures.moves, figures.runs, np.array(notes), np.array(steps), figures.resolving, shares=True
    )


@lru_cache(maxsize=1)
def learnt_figures() -> Figures:
    """Return what is learnt from real lines (`tables.line_figures`)."""
    from shedbook.draft.tables.line_figures import LINE_FIGURES  # noqa: PLC0415 - read only where it is asked for

    found = {}
    for name, shape in SHAPES.items():
        numbers = np.array([int(one) for one in LINE_FIGURES[name].split()], dtype=float)
        found[name] = numbers.reshape(shape) / 100
    return Figures(**found)
