"""The passages of a track: which bars follow one another, over which chords, at which tempo.

A phrase shorter than four bars is followed by as many empty bars before it comes again: the band stays on the
last chord and turns back to the first in the last of them. Between two keys there is one bar that sets up the
next chord. After the last round there is one more bar, the ending.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import lru_cache
from math import ceil

from shedbook.analysis.account import account, quarters_a_minute
from shedbook.phrase.model import Phrase
from shedbook.sound.arranging.leading_chords import last_chord, set_up
from shedbook.sound.arranging.order import Order
from shedbook.sound.arranging.tables import arrangements as table
from shedbook.sound.feels.feel import Feel
from shedbook.sound.players.band_chart import (
    ANSWER,
    ENDING,
    ROUND,
    SET_UP,
    SPACE,
    LineNote,
    Passage,
    Stretch,
)
from shedbook.sound.score.seeded_dice import seeded
from shedbook.sound.score.written_score import PartNote


@dataclass(frozen=True, slots=True)
class LaidPassage:
    """A passage with the phrase that it belongs to, its tempo in taps a minute, and what the line plays.

    `notes` are placed in the track; those of a pick-up come before the passage, in a loop's first before
    the track.
    """

    passage: Passage
    phrase: Phrase
    tempo_bpm: int
    notes: tuple[PartNote, ...] = ()

    @property
    def tempo_qpm(self) -> Fraction:
        """How many quarters a minute it has."""
        return Fraction(quarters_a_minute(replace(self.phrase, tempo_bpm=self.tempo_bpm)))


def lay_out(keys: Sequence[Phrase], order: Order, start: Fraction, held: bool) -> list[LaidPassage]:
    """Return every passage of a track in order, the line still to come; `held` is for the ending."""
    found: list[LaidPassage] = []
    at, tempo = start, order.tempo_of(0) or keys[0].tempo_bpm

    def add(kind: str, phrase: Phrase, bars: int, stretches: tuple[Stretch, ...]) -> None:
        nonlocal at
        rings = held and kind == ENDING
        passage = Passage(kind, len(found), at, bars, stretches, held=rings)
        found.append(LaidPassage(passage, phrase, tempo))
        at += bars * phrase.metre.bar_quarters

    for index, phrase in enumerate(keys):
        following = keys[index + 1] if index + 1 < len(keys) else keys[0] if order.loop else None
        for round_ in range(order.rounds_a_key):
            tempo = order.tempo_of(round_) or keys[0].tempo_bpm
            kind = ANSWER if order.answers and round_ % 2 else ROUND
            add(kind, phrase, phrase.full_bars, _stretches(phrase, at))
            again = round_ + 1 < order.rounds_a_key or following is phrase
            if again and needs_space(phrase, order):
                add(SPACE, phrase, phrase.full_bars, _space(phrase, at))
        if following is not None and following is not phrase:
            staying = _stretches(phrase, at)[-1]
            add(
                SET_UP,
                following,
                1,
                set_up(at, phrase.metre, following.changes[0].chord, following.key, staying),
            )
    if not order.loop and order.parts != "line":
        last = keys[-1]
        end = at + last.metre.bar_quarters
        chord = last_chord(last, _stretches(last, at))
        add(ENDING, last, 1, (replace(chord, start=at, end=end),))
    return found


def needs_space(phrase: Phrase, order: Order) -> bool:
    """Whether a phrase is followed by empty bars before it comes again."""
    return phrase.full_bars < table.SHORT_PHRASE_BARS and not order.answers and order.bars is None


def held(order: Order, feel: Feel, name: str) -> bool:
    """Whether the last chord rings through its bar; `name` is the track's."""
    if order.ending:
        return order.ending == "held"
    return seeded(order.seed, "ending", name).random() * 100 < feel.ending.held_percent


@lru_cache(maxsize=256)
def _read(phrase: Phrase) -> tuple[tuple[Stretch, ...], tuple[LineNote, ...]]:
    """Return chords and line of a phrase from its bar 1, with the scales that the line is heard in."""
    read = account(phrase)
    starts = [phrase.change_start(change) for change in phrase.changes]
    ends = [*starts[1:], phrase.full_bars * phrase.metre.bar_quarters]
    stretches = tuple(
        Stretch(start, end, change.chord, fit.scale)
        for start, end, change, fit in zip(starts, ends, phrase.changes, read.fits, strict=True)
    )
    notes = tuple(
        LineNote(note.start, note.start + note.quarters, note.midi, note.arrival, note.early, note.landing)
        for note in read.notes
    )
    return stretches, notes


def _stretches(phrase: Phrase, at: Fraction) -> tuple[Stretch, ...]:
    """Return the chords of a phrase from a place of the track on."""
    return tuple(replace(one, start=one.start + at, end=one.end + at) for one in _read(phrase)[0])


def as_the_band_hears(phrase: Phrase, at: Fraction) -> tuple[LineNote, ...]:
    """Return the line as the band hears it, from a place of the track on."""
    return tuple(
        replace(note, start=note.start + at, end=note.end + at, arrival=note.arrival + at)
        for note in _read(phrase)[1]
    )


def _space(phrase: Phrase, at: Fraction) -> tuple[Stretch, ...]:
    """Return as many bars as the phrase has: its last chord, and in the last bar the way back to the first.

    A phrase over one chord, or one that leads back by itself, simply goes on.
    """
    own = _stretches(phrase, at)
    last, first = own[-1], own[0]
    if last.chord.root == first.chord.root:
        return tuple(own)
    turn = at + (phrase.full_bars - 1) * phrase.metre.bar_quarters
    back = set_up(turn, phrase.metre, first.chord, phrase.key, last)
    if turn == at:
        return back
    return (Stretch(at, turn, last.chord, last.scale), *back)


def count_in_bars(order: Order, phrase: Phrase) -> int:
    """Return how many bars are counted in: as asked, but as much as the pick-up needs."""
    if order.loop:
        return 0
    asked = order.count_in
    if asked is None:
        asked = 2 if phrase.tempo_bpm >= table.TWO_BAR_COUNT_FROM else 1
    return max(0, asked, ceil(-phrase.bar_start(phrase.bars[0].number) / phrase.metre.bar_quarters))
