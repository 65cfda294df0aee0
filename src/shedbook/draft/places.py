"""The notes of a rhythm before they have pitches: what each stands over, and how it stands there."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from shedbook.draft.ground import TICKS, Chordal, Ground
from shedbook.draft.rhythms import Rhythm


@dataclass(frozen=True, slots=True)
class Place:
    """A note of the rhythm, before it has a pitch.

    Attributes:
        chord: the stretch that it is heard against.
        index: the number of that stretch.
        strong: whether it stands on a strong beat, or is held over one.
        on_beat: whether it stands on a beat at all.
        enters: whether it is the first note over its chord.
        breathed: whether a beat of rest or more stands before it.
        rest_after: whether anything silent stands after it.
        length: how long it sounds, in ticks.
        wait: how long after the note before it is struck, in ticks.
    """

    chord: Chordal
    index: int
    strong: bool
    on_beat: bool
    enters: bool
    breathed: bool
    rest_after: bool
    length: int
    wait: int


def places_of(rhythm: Rhythm, ground: Ground) -> tuple[Place, ...]:
    """Return the places of a rhythm's notes over a ground."""
    found: list[Place] = []
    for at, (start, end) in enumerate(zip(rhythm.onsets, rhythm.ends, strict=True)):
        index = ground.heard_at(start, end)
        stretch = ground.stretches[index]
        early = start < stretch.start
        wait = start - rhythm.onsets[at - 1] if at else TICKS
        after = rhythm.rests[at + 1] if at + 1 < len(rhythm.onsets) else TICKS
        found.append(
            Place(
                stretch,
                index,
                ground.strong(stretch.start if early else start),
                start % TICKS == 0,
                not found or found[-1].index != index,
                rhythm.rests[at] >= TICKS,
                after > 0,
                end - start,
                wait,
            )
        )
    return tuple(found)


@lru_cache(maxsize=4096)
def mask_of(classes: frozenset[int]) -> NDArray[np.bool_]:
    """Return for each pitch class whether it is one of some."""
    found = np.isin(np.arange(12), sorted(classes))
    found.flags.writeable = False
    return found
