"""A phrase moved to another key: near the register that the author chose, and spelled for the reader."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from types import MappingProxyType

from shedbook.editions.compass import STAFF_MIDDLE_MIDI, compass_of
from shedbook.editions.keys.key_cycle import enharmonic_tonics
from shedbook.editions.spelling.chord_names import chords_cost, respell_changes
from shedbook.editions.spelling.note_spelling import author_cost, spelled
from shedbook.editions.spelling.spelling_plan import SpellingPlan, plan_spelling
from shedbook.editions.tables.register_costs import LIES_WELL, NEAR, REGISTER_COSTS
from shedbook.editions.transpose import moved_bar, moved_chord, moved_scale
from shedbook.errors import ShedbookError
from shedbook.phrase.model import ChangeAt, Phrase
from shedbook.theory.interval import OCTAVE, UNISON, Interval
from shedbook.theory.key import Key
from shedbook.theory.pitch import HIGHEST_MIDI, LOWEST_MIDI, NoteName

_COST = MappingProxyType({row.name: row.cost for row in REGISTER_COSTS if row.policy == "author"})


def in_key(phrase: Phrase, key: Key) -> Phrase:
    """Return the phrase in another key, at most a fifth from where the author wrote it, and spelled anew.

    Args:
        phrase: the phrase as its author wrote it.
        key: gives the tonic. The mode stays that of the phrase.

    Raises:
        ShedbookError: if the phrase fits between A0 and C8 in no octave.
    """
    return _moved(phrase, key, plan_spelling(phrase))


def in_keys(phrase: Phrase, keys: Iterable[Key]) -> tuple[Phrase, ...]:
    """Return the phrase in each of the keys, as `in_key` does but quicker.

    Raises:
        ShedbookError: if the phrase fits between A0 and C8 in no octave of one of them.
    """
    layout = plan_spelling(phrase)
    return tuple(_moved(phrase, key, layout) for key in keys)


def register_interval(phrase: Phrase, key: Key) -> Interval:
    """Return the interval by which a phrase moves to a key and keeps the author's register.

    It is the shortest one, except where that leads to many ledger lines and the longer way round, a fifth in
    place of a fourth, does not. Of a tritone up and a tritone down, the one is taken that brings the middle
    of the phrase nearer to the middle of the treble staff, and otherwise the lower one. No note leaves A0 to
    C8. The costs are those of the policy "author" in `tables.register_costs`.

    Raises:
        ShedbookError: if no octave fits.
    """
    reach = compass_of(phrase)
    lowest, highest = reach.lowest, reach.highest
    low, high = LIES_WELL
    interval = phrase.key.tonic.interval_to(key.tonic)
    ways = (interval - OCTAVE - OCTAVE, interval - OCTAVE, interval, interval + OCTAVE)
    fitting = [
        way for way in ways
        if lowest + way.semitones >= LOWEST_MIDI and highest + way.semitones <= HIGHEST_MIDI
    ]  # fmt: skip
    if not fitting:
        raise ShedbookError(
            f'"{phrase.title}" does not fit between A0 and C8 in {key.tonic} {phrase.key.mode}.',
            hint="Write its highest or lowest notes an octave nearer, or leave out this key.",
        )

    def cost(way: Interval) -> int:
        away = way.semitones
        outside = sum([count * max(0, low - midi - away, midi + away - high) for midi, count in reach.counts])
        middle = abs(lowest + highest + 2 * (away - STAFF_MIDDLE_MIDI))
        return (
            _COST["distance"] * abs(away)
            + _COST["outside comfortable"] * outside
            + _COST["staff middle"] * middle
            + _COST["upward"] * (away > 0)
        )

    return min([way for way in fitting if abs(way.semitones) <= NEAR] or fitting, key=cost)


def readable_key(phrase: Phrase, key: Key) -> Key:
    """Return the key by the name, F# or Gb, in which this phrase costs its reader least.

    The names of the notes and of the chords count. Where both names cost the same, the one of `key` is kept.

    Raises:
        ShedbookError: if the phrase fits between A0 and C8 in no octave.
    """
    names = sorted(
        (NoteName(place) for place in enharmonic_tonics(key.tonic.pitch_class)),
        key=lambda name: name != key.tonic,
    )

    layout = plan_spelling(phrase)

    def cost(tonic: NoteName) -> int:
        named = Key(tonic, phrase.key.mode)
        interval = register_interval(phrase, named)
        chords = tuple(moved_chord(change.chord, interval) for change in phrase.changes)
        notes = author_cost(_harmony_in(phrase, named, interval), layout, interval.semitones)
        return notes + chords_cost(chords, named)

    return Key(min(names, key=cost), phrase.key.mode)


def moved_to_key(phrase: Phrase, key: Key, semitones: int, layout: SpellingPlan) -> Phrase:
    """Return the phrase in another key with its notes moved by half steps, spelled anew.

    Args:
        phrase: the phrase as its author wrote it.
        key: gives the tonic. The mode stays that of the phrase.
        semitones: by how many half steps its notes go up: those from its tonic to that of `key`, with any
            octaves added or taken away.
        layout: the plan of the phrase, as `plan_spelling` gives it.
    """
    interval = phrase.key.tonic.interval_to(key.tonic)
    if interval == UNISON:
        return _as_written(phrase, semitones)
    return spelled(_harmony_in(phrase, key, interval), layout, semitones)


def _moved(phrase: Phrase, key: Key, layout: SpellingPlan) -> Phrase:
    interval = register_interval(phrase, key)
    return moved_to_key(phrase, key, interval.semitones, layout)


def _as_written(phrase: Phrase, semitones: int) -> Phrase:
    """Return the phrase in its own key, letter for letter as its author wrote it, moved by octaves."""
    if not semitones:
        return phrase
    octaves = semitones // OCTAVE.semitones
    by = Interval(octaves * OCTAVE.steps, semitones)
    return replace(phrase, bars=tuple([moved_bar(bar, by) for bar in phrase.bars]))


def _harmony_in(phrase: Phrase, key: Key, interval: Interval) -> Phrase:
    """Return the phrase with key, changes and scales moved and named for the reader, its notes as before."""
    changes = tuple(
        [ChangeAt(change.bar, change.beat, moved_chord(change.chord, interval)) for change in phrase.changes]
    )
    scales = tuple([None if scale is None else moved_scale(scale, interval) for scale in phrase.scales])
    moved = replace(phrase, key=Key(key.tonic, phrase.key.mode), changes=changes, scales=scales)
    return respell_changes(moved)
