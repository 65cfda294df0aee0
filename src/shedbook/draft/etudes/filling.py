"""The bars between excerpts: drafted from the note before to the note after, and to breathe."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from random import Random

import numpy as np

from shedbook.draft.figures import Figures, weighing
from shedbook.draft.ground import TICKS, Ground, ground_over
from shedbook.draft.hands import hand_weights
from shedbook.draft.lines import LineRules, Lines
from shedbook.draft.moods import Habits
from shedbook.draft.places import places_of
from shedbook.draft.reading import read
from shedbook.draft.rhymes import Rhyme, worth
from shedbook.draft.rhythms import Rhythm, Rhythms, RhythmWishes, table_name
from shedbook.editions.instruments.instrument import Instrument
from shedbook.phrase.changes_text import Changes
from shedbook.phrase.model import ChangeAt

_RHYTHMS = 6
_LINES = 40
_FIRST_LINK = 4
"""The widest step, in half steps, from an excerpt into drafted bars where no beat of rest is between."""


def bars_between(ground: Ground, first: int, last: int) -> Ground:
    """Return bars `first` up to but not including `last` of a ground, with the scales of the whole."""
    inside = [at for at, one in enumerate(ground.changes.changes) if first <= one.bar < last]
    changes = [ground.changes.changes[at] for at in inside]
    scales = [ground.harmony.scales[at].scale for at in inside]
    if not changes or changes[0].bar != first or changes[0].beat != 1:
        before = max(at for at, one in enumerate(ground.changes.changes) if one.bar < first)
        changes.insert(0, ChangeAt(first, Fraction(1), ground.changes.changes[before].chord))
        scales.insert(0, ground.harmony.scales[before].scale)
    moved = tuple(ChangeAt(one.bar - first + 1, one.beat, one.chord) for one in changes)
    return ground_over(Changes(moved, last - first), tuple(scales), ground.metre, ground.harmony.key)


def filled(
    ground: Ground, figures: Figures, around: tuple[int | None, int | None], room: tuple[int, int], feel: str,
    tempo: int, dice: Random, *, last: bool, player: Instrument | None = None,
) -> tuple[Rhythm, tuple[int, ...]] | None:  # fmt: skip
    """Return a rhythm and pitches for the bars of a ground; None where the rules leave no line.

    Args:
        ground: the bars.
        figures: the soft figures.
        around: the pitch before and the pitch after, where there are any.
        room: the lowest and the highest MIDI number.
        feel: the feel.
        tempo: beats a minute.
        dice: what is drawn with.
        last: whether the étude ends here, and so must land.
        player: whose awkward fingerings are weighed; None for nobody's.
    """
    beats = ground.end // TICKS
    wishes = RhythmWishes(
        beats, max(1, ground.bar_ticks // TICKS), table_name(feel, tempo), tempo, pickup=False
    )
    rules = LineRules(room[0], room[1], Habits(), ending=last, nearby=around)
    best: tuple[float, Rhythm, tuple[int, ...]] | None = None
    drawn = Rhythms(wishes).drawn(8 * _RHYTHMS, dice)
    for rhythm in sorted(drawn, key=lambda one: -worth(Rhyme(one), wishes))[:_RHYTHMS]:
        places = places_of(rhythm, ground)
        weights = weighing(figures, places, *room, sum(room) / 2)
        if player is not None:
            pairs = hand_weights(float(figures.fingering[0]), player, places, *room, tempo)
            weights = replace(weights, pairs=pairs)
        lines = Lines(places, rules, weights)
        if not lines.possible:
            continue
        midi = np.unique(lines.drawn(_LINES, dice), axis=0)
        reading = read(midi, rhythm, places)
        value = reading.worth - 2.0 * reading.lacks["no hovering"] - 1.0 * reading.lacks["common pitch"]
        value = value - 2.0 * reading.lacks["chromatic notes"]
        if around[0] is not None and rhythm.onsets[0] < TICKS:
            value = value - 0.5 * np.maximum(0, np.abs(midi[:, 0] - around[0]) - _FIRST_LINK)
        if around[1] is not None:
            value = value - 0.15 * np.abs(midi[:, -1] - around[1])
        at = int(value.argmax())
        if best is None or value[at] > best[0]:
            best = float(value[at]), rhythm, tuple(midi[at].tolist())
    return None if best is None else (best[1], best[2])
