"""Fits: which excerpts of phrases stand where in some changes, and in which key.

An excerpt is whole bars of a phrase. It stands where every half bar has a chord on the same root, a tone
apart
for all alike, and of a family that answers for it; and where its notes stand over the new scales as well as
they did over their own.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from types import MappingProxyType

from shedbook.draft.ground import TICKS, Chordal, Ground
from shedbook.draft.variants.sketch import Sketch, sketch_of
from shedbook.phrase.model import Phrase

SHORTEST = 2
"""How many bars an excerpt has at least; a phrase of one bar is taken whole."""
_LONGEST = 8
_ANSWERS: Mapping[frozenset[str], float] = MappingProxyType(
    {
        frozenset(("dominant", "suspended")): 0.5,
        frozenset(("minor", "half-diminished")): 0.8,
        frozenset(("diminished", "half-diminished")): 1.0,
    }
)
"""Which families answer for one another besides themselves, and what that costs [common practice]."""
_OTHER_COLOUR = 0.25
"""What another chord of the same family costs in each half bar: C7 for C7b9 [the project's design]."""
_MOST_STRANGE = 0.12
"""The largest share of notes that may lie outside the new scales [the project's design]."""


@dataclass(frozen=True)
class Source:
    """A phrase as an étude sees it: its number among the phrases, and its notes."""

    number: int
    phrase: Phrase
    sketch: Sketch

    @cached_property
    def halves(self) -> tuple[Chordal, ...]:
        """The chords at each half bar."""
        return half_bars(self.sketch.ground)


@dataclass(frozen=True, slots=True)
class Fit:
    """An excerpt in its place.

    Attributes:
        source: the phrase.
        first_bar: the first bar of the excerpt in its phrase, from 1.
        bars: how many it has.
        at: the bar of the changes where it begins, from 1.
        up: by how many half steps it is moved, -5 to 6, before octaves.
        cost: what does not fit: other colours and strange notes, 0 where all is as it was.
        cut: whether the line goes on after the excerpt in its phrase.
        onsets: its notes in the changes: ticks …
        ends: … where they end …
        midi: … and MIDI numbers, moved.
    """

    source: int
    first_bar: int
    bars: int
    at: int
    up: int
    cost: float
    cut: bool
    onsets: tuple[int, ...]
    ends: tuple[int, ...]
    midi: tuple[int, ...]

    @property
    def last(self) -> int:
        """The bar after its last one."""
        return self.at + self.bars


def sources_of(phrases: Sequence[Phrase], ground: Ground) -> tuple[Source, ...]:
    """Return the phrases in the metre of the changes, numbered from 0 as they stand."""
    return tuple(
        Source(number, phrase, sketch_of(phrase))
        for number, phrase in enumerate(phrases)
        if phrase.metre == ground.metre and phrase.full_bars
    )


def half_bars(ground: Ground) -> tuple[Chordal, ...]:
    """Return the chord at each half bar of a ground."""
    half = ground.bar_ticks // 2 or 1
    return tuple(ground.stretches[ground.at(tick)] for tick in range(0, ground.end, half))


def fits(sources: Sequence[Source], ground: Ground) -> tuple[Fit, ...]:
    """Return every excerpt in every place where it stands, in the order of the changes, the best first."""
    form = half_bars(ground)
    found = [fit for source in sources for fit in _of_source(source, ground, form)]
    return tuple(
        sorted(found, key=lambda fit: (fit.at, fit.cost - 0.2 * fit.bars, fit.source, fit.first_bar))
    )


def _of_source(source: Source, ground: Ground, form: Sequence[Chordal]) -> Iterator[Fit]:
    whole = source.phrase.full_bars
    least = min(SHORTEST, whole)
    for at in range(1, ground.bars + 1):
        for first in range(1, whole + 1):
            costs = _chord_costs(source.halves, form, first, at)
            for bars in range(least, min(_LONGEST, whole - first + 1, ground.bars - at + 1) + 1):
                if 2 * bars > len(costs):
                    break
                fit = _placed(source, ground, first, bars, at, sum(costs[: 2 * bars]))
                if fit is not None:
                    yield fit


def _chord_costs(own: Sequence[Chordal], form: Sequence[Chordal], first: int, at: int) -> list[float]:
    """Return what each half bar costs, as far as the chords answer."""
    here, there = 2 * (first - 1), 2 * (at - 1)
    up = (form[there].root - own[here].root) % 12
    costs = []
    for one, other in zip(own[here:], form[there:], strict=False):
        cost = _answers(one, other, up)
        if cost is None:
            break
        costs.append(cost)
    return costs


def _answers(one: Chordal, other: Chordal, up: int) -> float | None:
    if (other.root - one.root) % 12 != up or "none" in (one.family, other.family):
        return None
    if one.family == other.family:
        same = one.span.chord.split_text()[1] == other.span.chord.split_text()[1]
        return 0.0 if same else _OTHER_COLOUR
    return _ANSWERS.get(frozenset((one.family, other.family)))


def _placed(source: Source, ground: Ground, first: int, bars: int, at: int, cost: float) -> Fit | None:
    """Return an excerpt in its place; None where it has too few notes, or too many that are strange there."""
    sketch = source.sketch
    bar = ground.bar_ticks
    start, end, shift = (first - 1) * bar, (first - 1 + bars) * bar, (at - first) * bar
    inside = [number for number, onset in enumerate(sketch.onsets) if start <= onset < end - TICKS // 4]
    if first == 1 and at > 1:
        inside = [number for number, onset in enumerate(sketch.onsets) if onset < 0] + inside
    if len(inside) < 2 * bars:
        return None
    own = half_bars(sketch.ground)
    up = (half_bars_root(ground, at) - own[2 * (first - 1)].root + 5) % 12 - 5
    onsets = tuple(sketch.onsets[number] + shift for number in inside)
    ends = tuple(min(sketch.ends[number], end) + shift for number in inside)
    midi = tuple(sketch.midi[number] + up for number in inside)
    if midi[-1] % 12 not in ground.stretches[ground.heard_at(onsets[-1], ends[-1])].inside:
        return None
    strange, weak = 0, 0
    for number, (onset, stop, note) in enumerate(zip(onsets, ends, midi, strict=True)):
        new = ground.stretches[ground.heard_at(onset, stop)]
        old = sketch.ground.stretches[
            sketch.ground.heard_at(sketch.onsets[inside[number]], sketch.ends[inside[number]])
        ]
        was = (note - up) % 12
        strange += note % 12 not in new.inside and was in old.inside
        weak += ground.strong(onset) and note % 12 not in new.strong and was in old.strong
    if strange > _MOST_STRANGE * len(inside) or weak > max(1, len(inside) // 8):
        return None
    after = inside[-1] + 1
    cut = after < len(sketch.onsets) and sketch.onsets[after] - sketch.ends[inside[-1]] < TICKS
    return Fit(
        source.number, first, bars, at, up, cost + 0.6 * strange + 0.4 * weak, cut, onsets, ends, midi
    )  # fmt: skip


def half_bars_root(ground: Ground, bar: int) -> int:
    """Return the pitch class of the root at the beginning of a bar, from 1."""
    return ground.stretches[ground.at((bar - 1) * ground.bar_ticks)].root
