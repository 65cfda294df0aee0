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
from shedbook.editions.spelling.note_names import ODD_WHITE, PLAIN, WORST_BY, name_cost, phrase_names
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
    return named_anew(respell_changes(phrase))


def named_anew(phrase: Phrase) -> Phrase:
    """Return the phrase with the names of its notes chosen for the reader; its chords keep theirs.

    It is for lines that nobody has spelled, such as those that were played in.
    """
    layout = plan_spelling(phrase)
    return _named(phrase, layout, 0, candidates_of(phrase, layout, 0))


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
    return cheapest(layout, fixed, phrase.key)[0]


def least_cost(phrase: Phrase, layout: SpellingPlan, semitones: int) -> int:
    """Return the least that the names of the notes can cost, however the author wrote them."""
    return cheapest(layout, candidates_of(phrase, layout, semitones), phrase.key)[0]


def author_cost(phrase: Phrase, layout: SpellingPlan, semitones: int) -> int:
    """Return what the names of the notes cost in the phrase that `spelled` returns."""
    return cheapest(layout, _author_candidates(phrase, layout, semitones), phrase.key)[0]


def spelled(phrase: Phrase, layout: SpellingPlan, semitones: int) -> Phrase:
    """Return the phrase with its notes moved, with the author's letters wherever they are readable.

    A note's letter keeps its interval from the root of its chord, and so from the tonic where that chord has
    kept its own. Where that would be a double accidental, or an E#, B#, Cb or Fb without cause, the name is
    chosen as `respell` chooses it.

    Args:
        phrase: the phrase with the key, the changes and the scales that the result shall have, but with its
            notes where they were when `layout` was made.
        layout: the plan of the phrase, as `plan_spelling` gives it.
        semitones: how many half steps the notes go up.
    """
    candidates = _author_candidates(phrase, layout, semitones)
    return _named(phrase, layout, semitones, _one_letter_a_scale_note(phrase, layout, candidates))


def _named(phrase: Phrase, layout: SpellingPlan, semitones: int, candidates: Sequence[Candidates]) -> Phrase:
    """Return the phrase with its notes moved and called by the cheapest of some names."""
    _, names = cheapest(layout, candidates, phrase.key)
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


def candidates_of(phrase: Phrase, layout: SpellingPlan, semitones: int) -> list[Candidates]:
    """Return the names worth trying for each struck note, with their costs."""
    tables = [names.candidates for names in phrase_names(phrase)]
    return [tables[note.chord][(note.midi + semitones) % 12] for note in layout.struck]


def _author_candidates(phrase: Phrase, layout: SpellingPlan, semitones: int) -> list[Candidates]:
    """Return the names worth trying for each struck note, the author's among them and preferred."""
    moves = _moves(phrase, layout)
    found: list[Candidates] = []
    for note, tried in zip(layout.struck, candidates_of(phrase, layout, semitones), strict=True):
        author = note.fifths + moves[note.chord]
        if author not in PLAIN:
            found.append(tried)
            continue
        own = price(phrase, note.chord, author)
        odd = author in ODD_WHITE and own >= _COST["odd white"]
        against = _COST["against odd author" if odd else "against author"]
        others = [(name, cost + against) for name, cost in tried if name != author]
        found.append(((author, own), *[one for one in others if one[1] < own + WORST_BY]))
    return found


def _one_letter_a_scale_note(
    phrase: Phrase, layout: SpellingPlan, candidates: list[Candidates]
) -> list[Candidates]:
    """Return candidates that call one pitch class over one chord and scale alike, wherever the author did.

    The letter of the scale's note is a choice of its own: each that is tried for one of its notes is tried
    for all of them, and the least total wins.
    """
    groups: dict[tuple[object, ...], list[int]] = {}
    for index, note in enumerate(layout.struck):
        if phrase.changes and len(candidates[index]) > 1:
            change, scale = phrase.changes[note.chord], phrase.scales[note.chord]
            groups.setdefault((change.chord, scale, note.fifths), []).append(index)
    for members in groups.values():
        if len(members) < 2:
            continue
        _, names = cheapest(layout, candidates, phrase.key)
        called = {names[index] for index in members}
        if len(called) > 1:
            ways = [_all_called(candidates, members, name) for name in sorted(called)]
            candidates = min(ways, key=lambda way: cheapest(layout, way, phrase.key)[0])
    return candidates


def _all_called(candidates: list[Candidates], members: list[int], name: int) -> list[Candidates]:
    """Return candidates in which some notes have one name only."""
    found = list(candidates)
    for index in members:
        found[index] = tuple([one for one in candidates[index] if one[0] == name]) or candidates[index]
    return found


def _moves(phrase: Phrase, layout: SpellingPlan) -> list[int]:
    """Return for each chord how far the letters over it move on the line of fifths.

    They move with the root of the chord, and with the tonic where no chord sounds or where the chord is a
    diminished seventh, which is written by the letters of the key.
    """
    by_key = phrase.key.tonic.fifths - layout.tonic
    if not phrase.changes:
        return [by_key]
    moves = []
    for change, before in zip(phrase.changes, layout.roots, strict=True):
        root = None if change.chord.seventh == "bb7" else change.chord.root
        moves.append(by_key if root is None or before is None else root.fifths - before)
    return moves


def _written_cost(phrase: Phrase, note: Struck, pitch: Pitch) -> int:
    return price(phrase, note.chord, pitch.name.fifths)


def price(phrase: Phrase, index: int, fifths: int) -> int:
    """Return what a name costs by itself over the chord with an index."""
    chord: Chord | None = None
    scale: Scale | None = None
    if phrase.changes:
        chord, scale = phrase.changes[index].chord, phrase.scales[index]
    return name_cost(chord, scale, phrase.key, fifths)


# The optimiser.


def cheapest(layout: SpellingPlan, candidates: Sequence[Candidates], key: Key) -> tuple[int, list[int]]:
    """Return the least total cost and the names that have it, in the order of `layout.struck`."""
    settled, prices, joins, cost = _settle(layout, candidates, bar_sides(key))
    cost += _search(settled, prices, joins)
    return cost, [settled[place] for place in layout.places]


def bar_sides(key: Key) -> Candidates:
    """Return the two sides to which a bar may incline, and what each costs in a key."""
    signature, against = key.signature, _COST["against signature"]
    return ((SIDE, against if signature < 0 else 0), (-SIDE, against if signature > 0 else 0))


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
