"""The ground that a line is drafted on: changes and scales, and what every pitch class is at a place of them.

Places and lengths are whole ticks, twelve to a quarter, so that eighths, triplets and sixteenths are whole.
Pitch classes are sets of numbers 0 to 11. A note struck less than a beat before a new chord and held into it
is heard against the new chord [common practice: the anticipation].
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cached_property

from shedbook.analysis.hearing.chord_spans import Span, spans_of
from shedbook.analysis.hearing.harmony import Harmony, harmony_of
from shedbook.editions.spelling.note_spelling import named_anew
from shedbook.errors import NotationError
from shedbook.phrase.changes_text import Changes, parse_changes, parse_scales
from shedbook.phrase.model import Bar, Event, Phrase, Value
from shedbook.theory.interval import degree_interval
from shedbook.theory.key import Key
from shedbook.theory.metre import Metre
from shedbook.theory.scale import Scale

TICKS = 12
"""Ticks in a quarter."""
MOST_BARS = 64
"""The longest changes that are drafted over: more is a tune, for which there is the étude."""

_TENSIONS = {
    "major": ("9", "13", "6", "7"),
    "minor": ("9", "11", "13", "6"),
    "dominant": ("9", "13", "b9", "#9", "b13", "#11"),
    "suspended": ("9", "13", "11", "b9"),
    "half-diminished": ("11", "b13", "9"),
    "diminished": ("9", "11", "b13", "7"),
}
"""Tensions that stand on a strong beat if the scale has them, by family of chord [common practice]."""


@dataclass(frozen=True, slots=True)
class Chordal:
    """One stretch over one chord, in ticks, and its pitch classes.

    `inside` are chord and scale, `strong` what may stand on a strong beat, `firm` root, third, fifth and
    seventh, `guides` third and seventh, `degrees` the names of all twelve.
    """

    span: Span
    start: int
    end: int
    inside: frozenset[int]
    strong: frozenset[int]
    firm: frozenset[int]
    guides: frozenset[int]

    @property
    def root(self) -> int:
        """The pitch class of the root; 0 where no chord sounds."""
        heard = self.span.heard
        return 0 if heard.root is None else heard.root.pitch_class

    @property
    def family(self) -> str:
        """The family of the chord; "none" where no chord sounds."""
        heard = self.span.heard
        return "none" if heard.root is None else heard.family


@dataclass(frozen=True)
class Ground:
    """Changes with their scales, ready to be drafted over.

    Attributes:
        changes: the changes as read.
        scales: for each change the scale that the author names, or None.
        harmony: what the changes mean.
        metre: the metre.
        bars: how many bars there are.
        stretches: the chords in order, neighbours that repeat being one.
    """

    changes: Changes
    scales: tuple[Scale | None, ...]
    harmony: Harmony
    metre: Metre
    bars: int
    stretches: tuple[Chordal, ...]

    @cached_property
    def bar_ticks(self) -> int:
        """The length of a bar in ticks."""
        return int(self.metre.bar_quarters * TICKS)

    @cached_property
    def end(self) -> int:
        """Where the last bar ends, in ticks."""
        return self.bars * self.bar_ticks

    def at(self, tick: int) -> int:
        """Return the index of the stretch that sounds at a place; the first one for a pick-up."""
        for index, stretch in enumerate(self.stretches):
            if tick < stretch.end:
                return index
        return len(self.stretches) - 1

    def heard_at(self, start: int, end: int) -> int:
        """Return the index of the stretch that a note from `start` to `end` is heard against."""
        index = self.at(start)
        coming = self.stretches[index].end
        early = start >= 0 and coming - start < TICKS and end > coming
        return index + 1 if early and index + 1 < len(self.stretches) else index

    def strong(self, tick: int) -> bool:
        """Whether a place is a strong beat: beats 1 and 3 in 4/4, beat 1 in three, each group in compound."""
        bar = self.bar_ticks
        place = tick % bar
        if self.metre.beats % 2 == 0 and self.metre.unit <= 4:
            return place % (bar // 2) == 0 if self.metre.beats <= 4 else place % (2 * TICKS) == 0
        if self.metre.unit >= 8 and self.metre.beats % 3 == 0:
            return place % (bar * 3 // self.metre.beats) == 0
        return place == 0

    def phrase(
        self, bars: tuple[Bar, ...], *, title: str, tempo: int, feel: str, commentary: str = ""
    ) -> Phrase:
        """Return bars as a phrase over this ground, its notes named by the chords they stand over."""
        written = Phrase(
            title=title,
            key=self.harmony.key,
            metre=self.metre,
            bars=bars,
            changes=self.changes.changes,
            scales=self.scales,
            tempo_bpm=tempo,
            feel=feel,
            commentary=commentary,
            key_inferred=True,
        )
        return named_anew(written)


def ground_of(
    changes: str,
    scales: str = "",
    *,
    metre: Metre | None = None,
    key: Key | None = None,
    most: int = MOST_BARS,
) -> Ground:
    """Read changes and scales to draft over.

    Args:
        changes: the changes, as in a phrase.
        scales: the scales, as in a phrase; "" where the program chooses.
        metre: the metre; None for 4/4.
        key: the key; None to find it.
        most: how many bars there may be.

    Raises:
        NotationError: if either cannot be read, or there are too many bars.
        ChordSymbolError: if a symbol cannot be read.
    """
    metre = metre or Metre()
    if changes.count("|") > most + 1:
        raise _too_long(most)
    read = parse_changes(changes, metre)
    if read.bars > most:
        raise _too_long(most)
    named = parse_scales(scales, *read) if scales.strip() else (None,) * len(read.changes)
    return ground_over(read, named, metre, key)


def _too_long(most: int) -> NotationError:
    return NotationError(
        f"The changes have more than {most} bars.",
        hint="Take a part of them, a phrase or one chorus at a time.",
        field="changes",
    )


def ground_over(read: Changes, named: Sequence[Scale | None], metre: Metre, key: Key | None) -> Ground:
    """Return the ground of changes that have been read, with the scales that the author names."""
    chords = [change.chord for change in read.changes]
    found = harmony_of(chords, [change.bar for change in read.changes], key=key, stated=named)
    silent = tuple(Bar(number + 1, (Event(None, (Value(1),)),)) for number in range(read.bars))
    empty = Phrase("", found.key, metre, silent, read.changes, tuple(named))
    spans = spans_of(empty, tuple(one.scale for one in found.scales))
    stretches = tuple(_stretch(span) for span in spans)
    return Ground(read, tuple(named), found, metre, read.bars, stretches)


def ground_under(phrase: Phrase) -> Ground:
    """Return the ground of a phrase."""
    read = Changes(phrase.changes, phrase.full_bars)
    return ground_over(read, phrase.scales, phrase.metre, phrase.key)


def _stretch(span: Span) -> Chordal:
    inside = span.chord_classes | span.scale_classes
    heard = span.heard
    if heard.root is None:
        return Chordal(span, _ticks(span.start), _ticks(span.end), inside, inside, inside, frozenset())
    root = heard.root.pitch_class
    named = {(root + degree_interval(one).semitones) % 12 for one in _TENSIONS[heard.family]}
    strong = span.chord_classes | ((named & span.scale_classes) - span.pass_through)
    guides = {(root + degree_interval(one).semitones) % 12 for one in (heard.third, heard.seventh) if one}
    firm = span.core or span.chord_classes
    return Chordal(
        span, _ticks(span.start), _ticks(span.end), inside, frozenset(strong), firm, frozenset(guides)
    )  # fmt: skip


def _ticks(quarters: Fraction) -> int:
    return int(quarters * TICKS)


def moved_ground(ground: Ground, key: Key) -> Ground:
    """Return the same ground read in another key, which names its notes."""
    return replace(ground, harmony=replace(ground.harmony, key=key))
