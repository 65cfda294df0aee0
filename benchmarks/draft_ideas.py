"""What a reader of lines looks for, in the phrases of a book and in drafts over their changes.

    python -m benchmarks.draft_ideas examples/tidewater [--seed 1]

Printed for both, of phrases of 2 to 8 bars in four quarters: in how many lines the first three beats of a bar
are struck alike in another bar; how many new chords are entered on a third or seventh; how many notes outside
the scale lead to a chord tone within two notes; beats of triplets; leaps of a fourth or more that end off the
chord; fourths of major and dominant chords that are held longer than an eighth; last notes of the last beat
that stand on their own, after a rest or a longer note; last notes that are root, third or fifth; bars that
come back note for note; leaps of a fifth or more over a bar line; and where last notes stand, in beats before
the end.
"""

from __future__ import annotations

import argparse
from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import pairwise
from pathlib import Path

from shedbook.book.manuscript.opening import open_manuscript
from shedbook.book.manuscript.source import read_phrase
from shedbook.draft.drafting import draft
from shedbook.draft.ground import TICKS, ground_of, ground_under
from shedbook.draft.order import Order
from shedbook.draft.places import Place, places_of
from shedbook.draft.rhythms import Rhythm
from shedbook.draft.writing import midi_of, rhythm_of
from shedbook.phrase.changes_text import print_changes, print_scales
from shedbook.phrase.model import Phrase

_BAR, _SHOWN = 4 * TICKS, 3 * TICKS
_FOURTH, _FIFTH = 5, 7
_TRIAD = (0, 3, 4, 6, 7)


def returns(rhythm: Rhythm, bars: int) -> bool:
    """Whether two bars of a rhythm, neither near empty, are struck alike in their first three beats."""
    struck = Counter(
        tuple(onset - bar * _BAR for onset in rhythm.onsets if 0 <= onset - bar * _BAR < _SHOWN)
        for bar in range(bars)
    )
    return any(many > 1 and len(bar) > 1 for bar, many in struck.items())


def told(name: str, phrases: Sequence[Phrase]) -> None:
    """Print the figures of phrases."""
    again, beats, triplets = 0, 0, 0
    lasts: Counter[float] = Counter()
    facts: Counter[str] = Counter()
    for phrase in phrases:
        rhythm = rhythm_of(phrase)
        again += returns(rhythm, phrase.full_bars)
        beats += 4 * phrase.full_bars
        triplets += len({onset // TICKS for onset in rhythm.onsets if onset % 3})
        lasts[(phrase.full_bars * _BAR - rhythm.onsets[-1]) / TICKS] += 1
        midi = midi_of(phrase)
        facts.update(_facts(midi, places_of(rhythm, ground_under(phrase))))
        facts.update(_shapes(midi, rhythm, phrase.full_bars))
    print(f"{name}: {len(phrases)} lines, a rhythm returns in {again / len(phrases):.0%} of them")
    print(f"  chords entered on a third or seventh {facts['guides'] / max(1, facts['chords']):.0%}")
    print(f"  outside notes that lead to a chord tone {facts['led'] / max(1, facts['outside']):.0%}")
    print(f"  beats of triplets {triplets / beats:.1%}")
    print(f"  leaps that end off the chord {facts['off'] / max(1, facts['leaps']):.0%}")
    print(f"  notes that are fourths held {facts['fourths held'] / facts['notes']:.1%}")
    print(f"  last notes on their own {facts['tails'] / len(phrases):.0%}")
    print(f"  last notes root, third or fifth {facts['home'] / len(phrases):.0%}")
    print(f"  bars that come back note for note, in {facts['copied'] / len(phrases):.0%} of lines")
    print(f"  leaps over a bar line, a line {facts['dropped'] / len(phrases):.2f}")
    print("  last notes", {at: f"{many / len(phrases):.0%}" for at, many in lasts.most_common(6)})


def _facts(midi: Sequence[int], places: Sequence[Place]) -> Iterator[str]:
    """Yield what is counted of a line, a word each time."""
    for at, (pitch, place) in enumerate(zip(midi, places, strict=True)):
        if at and place.enters:
            yield "chords"
            if pitch % 12 in place.chord.guides:
                yield "guides"
        if pitch % 12 not in place.chord.inside:
            yield "outside"
            ahead = range(at + 1, min(at + 3, len(midi)))
            if any(midi[one] % 12 in places[one].chord.strong for one in ahead):
                yield "led"
    for (before, after), place in zip(pairwise(midi), places[1:], strict=True):
        if abs(after - before) >= _FOURTH:
            yield "leaps"
            if after % 12 not in place.chord.strong:
                yield "off"

    yield from _fourths_and_home(midi, places)


def _fourths_and_home(midi: Sequence[int], places: Sequence[Place]) -> Iterator[str]:
    """Yield what is counted of single notes and of the last, a word each time."""
    for pitch, place in zip(midi, places, strict=True):
        yield "notes"
        above = (pitch - place.chord.root) % 12
        if place.chord.family in ("major", "dominant") and above == _FOURTH and place.length > TICKS // 2:
            yield "fourths held"
    last = places[-1].chord
    if (midi[-1] - last.root) % 12 in _TRIAD and midi[-1] % 12 in last.span.chord_classes:
        yield "home"


def _shapes(midi: Sequence[int], rhythm: Rhythm, bars: int) -> Iterator[str]:
    """Yield what is counted of a line and its bars, a word each time."""
    if on_its_own(rhythm, bars * _BAR):
        yield "tails"
    heard: dict[int, tuple[tuple[int, int], ...]] = {}
    for onset, pitch in zip(rhythm.onsets, midi, strict=True):
        heard[onset // _BAR] = (*heard.get(onset // _BAR, ()), (onset % _BAR, pitch))
    if len({bar for bar in heard.values() if len(bar) > 2}) < sum(len(bar) > 2 for bar in heard.values()):
        yield "copied"
    for (here, there), (before, after) in zip(pairwise(rhythm.onsets), pairwise(midi), strict=True):
        if here // _BAR != there // _BAR and there - here <= TICKS and abs(after - before) >= _FIFTH:
            yield "dropped"


def on_its_own(rhythm: Rhythm, end: int) -> bool:
    """Whether the last note stands in the last beat, after a rest or a note longer than an eighth."""
    last = rhythm.onsets[-1]
    return end - last <= TICKS and last - rhythm.onsets[-2] > TICKS // 2


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("book", type=Path)
    parser.add_argument("--seed", type=int, default=1)
    options = parser.parse_args()
    every = [read_phrase(one) for one in open_manuscript(options.book).phrases]
    book = [one for one in every if 2 <= one.full_bars <= 8 and str(one.metre) == "4/4"]
    made: list[Phrase] = []
    for number, one in enumerate(book):
        changes = print_changes(one.changes, one.full_bars, one.metre)
        ground = ground_of(
            changes, print_scales(one.scales, one.changes, one.full_bars), metre=one.metre, key=one.key
        )
        order = Order(count=1, seed=options.seed + number, tempo=one.tempo_bpm, feel=one.feel)
        made += [found.phrase for found in draft(ground, order).drafts]
    told("the book", book)
    told("drafts", made)


if __name__ == "__main__":
    main()
