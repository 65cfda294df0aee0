"""The names of all notes of a phrase for the reader, chosen together at the least total cost.

Each struck note and grace note needs a name, and each bar inclines to sharps or to flats. What a name costs
depends on the chord (`note_names`), and on what it is compared with (`spelling_plan`): the note beside it,
the goal that two notes enclose, the same pitch earlier in its bar, and the inclination of its bar. The choice
is made from left to right on a frontier (`lattice.frontier`), whose states are the ways in which the notes
still in play may be called: exact, and linear in the phrase's length, as no more stays in play than one note
for each pitch class of a bar.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import TypeAlias

from shedbook.editions.cost_table import costs_by_name
from shedbook.editions.spelling.chord_names import respell_changes
from shedbook.editions.spelling.note_names import name_cost, phrase_names
from shedbook.editions.spelling.spelling_plan import (
    SIDE,
    Join,
    SpellingPlan,
    Struck,
    plan_spelling,
)
from shedbook.editions.tables.spelling_costs import NOTE_COSTS
from shedbook.editions.transpose import pitch_at, with_pitches
from shedbook.lattice.frontier import Way, labels_of, least, offer
from shedbook.phrase.model import Bar, Phrase
from shedbook.theory.chord import Chord
from shedbook.theory.key import Key
from shedbook.theory.pitch import Pitch
from shedbook.theory.scale import Scale

_COST = costs_by_name(NOTE_COSTS)

Candidates: TypeAlias = tuple[tuple[int, int], ...]


def respell(phrase: Phrase) -> Phrase:
    """Return the phrase with the names of its chords, scales and notes chosen for the reader.

    What sounds does not change, and respelling a second time changes nothing. The names depend on the sound,
    the changes, the scales and the key, and never on how the notes were written.
    """
    renamed = respell_changes(phrase)
    return spelled(renamed, plan_spelling(renamed), 0)


def spelling_cost(phrase: Phrase) -> int:
    """Return what the names of the notes cost the reader as the phrase is written."""
    layout = plan_spelling(phrase)
    written: dict[int, Pitch] = {}
    for bar, row in zip(phrase.bars, layout.events, strict=True):
        for event, (graces, main) in zip(bar.events, row, strict=True):
            for index, pitch in zip((*graces, main), (*event.grace, event.pitch), strict=True):
                if pitch is not None:
                    written.setdefault(index, pitch)
    fixed = [
        ((pitch.name.fifths, _written_cost(phrase, layout.struck[index], pitch)),)
        for index, pitch in sorted(written.items())
    ]
    return _cheapest(layout, fixed, phrase.key)[0]


def least_cost(phrase: Phrase, layout: SpellingPlan, semitones: int) -> int:
    """Return what the names of the notes cost in the phrase that `spelled` returns."""
    return _cheapest(layout, _candidates(phrase, layout, semitones), phrase.key)[0]


def spelled(phrase: Phrase, layout: SpellingPlan, semitones: int) -> Phrase:
    """Return the phrase with its notes moved and called by their best names.

    Args:
        phrase: the phrase with the key, the changes and the scales that the result shall have, but with its
            notes where they were when `layout` was made.
        layout: the plan of the phrase, as `plan_spelling` gives it.
        semitones: how many half steps the notes go up.
    """
    _, names = _cheapest(layout, _candidates(phrase, layout, semitones), phrase.key)
    pitches = [
        pitch_at((7 * (struck.midi + semitones) - fifths) // 12, struck.midi + semitones)
        for struck, fifths in zip(layout.struck, names, strict=True)
    ]
    bars = []
    for bar, row in zip(phrase.bars, layout.events, strict=True):
        events = [
            event
            if main < 0
            else with_pitches(
                event, pitches[main], tuple([pitches[index] for index in graces]) if graces else ()
            )
            for event, (graces, main) in zip(bar.events, row, strict=True)
        ]
        bars.append(Bar(bar.number, tuple(events)))
    return replace(phrase, bars=tuple(bars))


def _candidates(phrase: Phrase, layout: SpellingPlan, semitones: int) -> list[Candidates]:
    """Return the names worth trying for each struck note, with their costs."""
    tables = [names.candidates for names in phrase_names(phrase)]
    return [tables[note.chord][(note.midi + semitones) % 12] for note in layout.struck]


def _written_cost(phrase: Phrase, note: Struck, pitch: Pitch) -> int:
    chord: Chord | None = None
    scale: Scale | None = None
    if phrase.changes:
        chord, scale = phrase.changes[note.chord].chord, phrase.scales[note.chord]
    return name_cost(chord, scale, phrase.key, pitch.name.fifths)


# The optimiser.


def _cheapest(layout: SpellingPlan, candidates: Sequence[Candidates], key: Key) -> tuple[int, list[int]]:
    """Return the least total cost and the names that have it, in the order of `layout.struck`."""
    signature, against = key.signature, _COST["against signature"]
    sides = ((SIDE, against if signature < 0 else 0), (-SIDE, against if signature > 0 else 0))
    settled, prices, joins, cost = _settle(layout, candidates, sides)
    cost += _search(settled, prices, joins)
    return cost, [settled[place] for place in layout.places]


def _settle(
    layout: SpellingPlan, candidates: Sequence[Candidates], sides: Candidates
) -> tuple[list[int], dict[int, Candidates], dict[int, list[Join]], int]:
    """Settle all that has only one name, and let it weigh on the open ones beside it.

    Returns:
        the names (0 where open); the prices of the open ones, keyed by their place; the joins of each
        open one with earlier open ones; and what the settled ones cost among themselves.
    """
    settled: list[int] = []
    prices: dict[int, Candidates] = {}
    joins: dict[int, list[Join]] = {}
    total = 0
    for place, unknown in enumerate(layout.unknowns):
        tried = candidates[unknown.struck] if unknown.struck >= 0 else sides
        if len(tried) > 1:
            joins[place] = []
            for join in unknown.joins:
                earlier, table = join
                if earlier in prices:
                    joins[place].append(join)
                else:
                    other = settled[earlier]
                    tried = tuple([(name, cost + table[other][name]) for name, cost in tried])
            prices[place] = tried
            settled.append(0)
            continue
        name, cost = tried[0]
        total += cost
        for earlier, table in unknown.joins:
            if earlier in prices:
                prices[earlier] = tuple(
                    [(other, price + table[other][name]) for other, price in prices[earlier]]
                )
            else:
                total += table[settled[earlier]][name]
        settled.append(name)
    return settled, prices, joins, total


def _search(settled: list[int], prices: dict[int, Candidates], joins: dict[int, list[Join]]) -> int:
    """Enter the best names of the open ones into `settled` and return what they cost.

    From left to right, for every way in which those still in play may be called, the cheapest way there.
    """
    last_use = {earlier: place for place, found in joins.items() for earlier, _ in found}
    in_play: list[int] = []
    # names in play -> the least way there, with places and their names as its labels
    ways: dict[tuple[int, ...], Way[tuple[int, int]]] = {(): (0, None)}
    for place, tried in prices.items():
        reads = [(in_play.index(earlier), table) for earlier, table in joins[place]]
        in_play.append(place)
        keep = [slot for slot, other in enumerate(in_play) if last_use.get(other, -1) > place]
        in_play = [in_play[slot] for slot in keep]
        named = [(name, own, (place, name)) for name, own in tried]
        found: dict[tuple[int, ...], Way[tuple[int, int]]] = {}
        for names, (cost, rest) in ways.items():
            for name, own, label in named:
                total = cost + own
                for slot, table in reads:
                    total += table[names[slot]][name]
                full = (*names, name)
                offer(found, tuple([full[slot] for slot in keep]), total, rest, label)
        ways = found
    way = least(ways)
    for place, name in labels_of(way):
        settled[place] = name
    return way[0]
