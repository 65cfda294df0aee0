"""A line apart from its bars: where its notes are, what they are, and how they are fitted to chords.

Fitting is one search on the drafts' lattice: the line nearest to the pitches that are wished for, in steps
and in
shape, whose strong beats stand and whose outside notes resolve. Where that cannot be had, the rules give way
one after another, last of all the resolving.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from types import MappingProxyType

import numpy as np

from shedbook.draft.figures import MOVES
from shedbook.draft.ground import TICKS, Ground, ground_under
from shedbook.draft.lines import LineRules, Lines, Weighing
from shedbook.draft.moods import WIDEST, Habits
from shedbook.draft.places import Place, places_of
from shedbook.draft.rhythms import Rhythm
from shedbook.draft.writing import bars_of, midi_of, rhythm_of
from shedbook.phrase.model import Phrase

_SHAPE = 0.55
"""What a half step more or less in a move costs, against 1 for one in a pitch [the project's design]."""
_OUTSIDE = 0.8
"""What a note outside the scale costs where none was wished for [the project's design]."""
_ROOM = 9
"""How far a fitted line may go beyond what is wished for, in half steps."""


@dataclass(frozen=True)
class Sketch:
    """Notes over a ground, in ticks and MIDI numbers; `fixed` are the places of notes that must not move."""

    ground: Ground
    onsets: tuple[int, ...]
    ends: tuple[int, ...]
    midi: tuple[int, ...]
    fixed: frozenset[int] = frozenset()

    @property
    def rhythm(self) -> Rhythm:
        """The rhythm alone."""
        return Rhythm(self.onsets, self.ends, ())

    @property
    def places(self) -> tuple[Place, ...]:
        """What stands under each note."""
        return places_of(self.rhythm, self.ground)

    def phrase(self, like: Phrase, title: str) -> Phrase:
        """Return the sketch as a phrase with the tempo and feel of another.

        Raises:
            ValueError: if a value cannot be written.
        """
        bars = bars_of(self.rhythm, self.midi, self.ground.metre, self.ground.bars)
        made = self.ground.phrase(bars, title=title, tempo=like.tempo_bpm, feel=like.feel)
        return replace(made, key_inferred=like.key_inferred)

    def without(self, gone: Sequence[int]) -> Sketch:
        """Return the sketch without some notes; fixed ones stay."""
        kept = [at for at in range(len(self.midi)) if at not in set(gone) - self.fixed]
        renumbered = frozenset(kept.index(at) for at in self.fixed)
        return Sketch(
            self.ground,
            tuple(self.onsets[at] for at in kept),
            tuple(self.ends[at] for at in kept),
            tuple(self.midi[at] for at in kept),
            renumbered,
        )


def sketch_of(phrase: Phrase, fixed: Sequence[int] = ()) -> Sketch:
    """Return a phrase as a sketch.

    Args:
        phrase: the phrase.
        fixed: ticks at which notes are struck that must not move.
    """
    rhythm = rhythm_of(phrase)
    at = {onset: number for number, onset in enumerate(rhythm.onsets)}
    kept = frozenset(at[tick] for tick in fixed if tick in at)
    return Sketch(ground_under(phrase), rhythm.onsets, rhythm.ends, midi_of(phrase), kept)


def inserted(sketch: Sketch, at: int, notes: Sequence[tuple[int, int, int]]) -> Sketch:
    """Return a sketch with notes (onset, end, MIDI number) inserted before the note at a place."""
    first = notes[0][0]
    ends = list(sketch.ends)
    if at and ends[at - 1] > first:
        ends[at - 1] = first
    onsets = (*sketch.onsets[:at], *[one[0] for one in notes], *sketch.onsets[at:])
    all_ends = (*ends[:at], *[one[1] for one in notes], *ends[at:])
    midi = (*sketch.midi[:at], *[one[2] for one in notes], *sketch.midi[at:])
    fixed = frozenset(one if one < at else one + len(notes) for one in sketch.fixed)
    return Sketch(sketch.ground, onsets, all_ends, midi, fixed)


def fitted(sketch: Sketch, *, still: Sequence[int] = (), ending: bool = True) -> Sketch:
    """Return a sketch whose pitches stand over its chords, as near as can be to those it has.

    Args:
        sketch: pitches as they are wished for.
        still: places of notes that stay besides the fixed ones.
        ending: whether the last note shall land.
    """
    if len(sketch.midi) < 2:
        return sketch
    places = sketch.places
    fixed = {at: sketch.midi[at] for at in sketch.fixed | set(still)}
    low, high = min(sketch.midi) - _ROOM, max(sketch.midi) + _ROOM
    wishes = _wishes(sketch, places, low, high)
    free = Habits(largest=WIDEST, run=0, recover=False, repeats=True)
    strict = LineRules(low, high, free, True, False, ending, fixed=MappingProxyType(fixed))
    for rules in (
        strict,
        replace(strict, ending=False),
        replace(strict, ending=False, strong=False),
        replace(strict, ending=False, strong=False, habits=replace(free, figures=False)),
    ):
        lines = Lines(places, rules, wishes)
        if lines.possible:
            return replace(sketch, midi=lines.best(1)[0][1])
    return sketch


def _wishes(sketch: Sketch, places: Sequence[Place], low: int, high: int) -> Weighing:
    """Return weights that fall off from the pitches and the moves that are wished for."""
    pitches = np.arange(low - WIDEST, high + WIDEST + 1)
    ways = np.arange(-WIDEST, WIDEST + 1)
    notes, steps = [], []
    for at, (place, midi) in enumerate(zip(places, sketch.midi, strict=True)):
        outside = ~np.isin(pitches % 12, sorted(place.chord.inside))
        notes.append(-np.abs(pitches - midi) - _OUTSIDE * outside)
        wished = midi - sketch.midi[at - 1] if at else 0
        steps.append(-_SHAPE * np.abs(ways - wished) - 4.0 * ((ways == 0) & (wished != 0)))
    return Weighing(
        np.zeros((12, MOVES)), np.zeros((7, 2)), np.array(notes), np.array(steps), np.zeros(MOVES)
    )


def place_words(sketch: Sketch, at: int) -> str:
    """Return where a note is, as "bar 2, beat 3½"."""
    return tick_words(sketch.ground, sketch.onsets[at])


def tick_words(ground: Ground, tick: int) -> str:
    """Return a place as "bar 2, beat 3½"."""
    from fractions import Fraction  # noqa: PLC0415

    from shedbook.theory.metre import beat_words  # noqa: PLC0415

    if tick < 0:
        return "the pick-up"
    bar, rest = divmod(tick, ground.bar_ticks)
    beat = Fraction(rest, TICKS) / ground.metre.beat_quarters + 1
    return f"bar {bar + 1}, beat {beat_words(beat)}"
