"""What a sounding note may be called over a chord, and what each name costs by itself.

A name is a place on the line of fifths here (`NoteName.fifths`), which is a plain number, because the search
for the best names compares many thousands of them.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from shedbook.editions.cost_table import costs_by_name
from shedbook.editions.tables.spelling_costs import NOTE_COSTS
from shedbook.phrase.model import Phrase
from shedbook.theory.chord import Chord, name_over
from shedbook.theory.interval import degree_interval
from shedbook.theory.key import Key
from shedbook.theory.pitch import NoteName
from shedbook.theory.scale import Scale

CHORD_TONE, TENSION, SCALE_TONE, KEY_NOTE, OUTSIDE = range(5)
"""The standing of a pitch class over its chord; the smaller, the closer to the chord.

A key note belongs to the key, but not to the scale that is given for the chord.
"""

PLAIN = range(-8, 13)
"""Fb to B#: every name with at most one accidental."""

ODD_WHITE = frozenset((-8, -7, 11, 12))
"""Fb, Cb, E#, B#."""

_MODE_DEGREES = {"major": ("1", "2", "3", "4", "5", "6", "7"),
                 "minor": ("1", "2", "b3", "4", "5", "b6", "b7", "6", "7")}  # fmt: skip
_CHROMATIC_DEGREES = ("1", "b2", "2", "b3", "3", "4", "#4", "5", "b6", "6", "b7", "7")

_COST = costs_by_name(NOTE_COSTS)
_FAR = 9
"""A root that lies at least this many fifths from the key's signature has been renamed."""
WORST_BY = 8
"""A name that costs at least this much more than the best one is not tried: nothing else saves so much."""


@dataclass(frozen=True, slots=True)
class NoteNames:
    """The names of the twelve pitch classes over one chord.

    Attributes:
        candidates: by pitch class, (name, cost) of every name worth trying, the cheapest first.
        standing: by pitch class, its standing over the chord.
    """

    candidates: tuple[tuple[tuple[int, int], ...], ...]
    standing: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class _Wanted:
    """The name that one pitch class should have over a chord.

    Attributes:
        fifths: that name.
        otherwise: what another name costs.
        standing: the standing of the pitch class.
        odd: what the name costs where it is one of `ODD_WHITE`.
        own_letter: the name by the letter of its degree, where players write another letter: A# for the #9
            of G, which they write B flat.
    """

    fifths: int
    otherwise: int
    standing: int
    odd: int
    own_letter: int | None = None


def _wanted(chord: Chord | None, scale: Scale | None, key: Key) -> tuple[_Wanted, ...]:
    """Return the name wanted for each pitch class: by chord, else by scale, key, or degree."""
    found: dict[int, _Wanted] = {}
    if chord is not None and chord.root is not None:
        _take_chord(chord, chord.root, scale, key, found)
    if scale is not None:
        _take_scale(scale, found)
    for degree in () if _elsewhere(chord, key) else _MODE_DEGREES[key.mode]:
        note = name_over(key.tonic, degree)
        standing = SCALE_TONE if scale is None else KEY_NOTE
        wanted = _Wanted(note.fifths, _COST["against key"], standing, _COST["odd white"])
        found.setdefault(note.pitch_class, wanted)
    return tuple(found.get(pitch_class) or _outside(pitch_class, chord, key) for pitch_class in range(12))


def _elsewhere(chord: Chord | None, key: Key) -> bool:
    """Say whether a chord is written so far from its key that the key says nothing about its notes.

    E7, written for Fb7 in A flat minor, is such a chord.
    """
    if chord is None or chord.root is None or chord.seventh == "bb7":
        return False
    return abs(chord.root.fifths - key.signature) >= _FAR


def _take_chord(
    chord: Chord, root: NoteName, scale: Scale | None, key: Key, found: dict[int, _Wanted]
) -> None:
    """Enter the tones of a chord: third, fifth and seventh first, then the tensions that the symbol names.

    The symbol "alt" names no tension by a letter, so that the scale decides there. A diminished seventh chord
    is written by the letters of the key, and otherwise by the plainest: C Eb Gb A, and in B major C D# F# A.
    """
    tension = "against degree" if chord.altered else "against tension"
    letters = {note.pitch_class: note for note in _scale_names(scale)} if scale and chord.altered else {}
    called = {place * 7 % 12: place for place in key_names(key) - ODD_WHITE}
    for degree in chord.degrees:
        tone = name_over(root, degree)
        if degree in chord.tensions:
            written = letters.get(tone.pitch_class, tone)
            own = (root + degree_interval(degree)).fifths
            wanted = _Wanted(written.fifths, _COST[tension], TENSION, _COST["odd white tension"], own)
        elif chord.seventh == "bb7":
            name = called.get(tone.pitch_class, _plainest(tone.fifths))
            wanted = _Wanted(name, _COST["against diminished"], CHORD_TONE, _COST["odd white"])
        else:
            wanted = _Wanted(tone.fifths, _COST["against chord"], CHORD_TONE, _COST["odd white chord"])
        found.setdefault(tone.pitch_class, wanted)
    if chord.bass is not None:
        wanted = _Wanted(chord.bass.fifths, _COST["against chord"], SCALE_TONE, _COST["odd white tension"])
        found.setdefault(chord.bass.pitch_class, wanted)


def _plainest(fifths: int) -> int:
    """Return a name, or the plain name of the same sound where it is a roundabout one: E for Fb."""
    if fifths in PLAIN and fifths not in ODD_WHITE:
        return fifths
    return fifths + 12 if fifths < 0 else fifths - 12


def _scale_names(scale: Scale) -> tuple[NoteName, ...]:
    """Return the notes of a scale by the letters of its row, E# and Cb too, for here the costs decide."""
    return tuple(name_over(scale.root, degree) for degree in scale.row.spelled)


def _take_scale(scale: Scale, found: dict[int, _Wanted]) -> None:
    """Enter the notes of the chord scale for the pitch classes that the chord does not name."""
    for degree, note in zip(scale.row.degrees, _scale_names(scale), strict=True):
        own = (scale.root + degree_interval(degree)).fifths
        wanted = _Wanted(note.fifths, _COST["against scale"], SCALE_TONE, _COST["odd white"], own)
        found.setdefault(note.pitch_class, wanted)


def _outside(pitch_class: int, chord: Chord | None, key: Key) -> _Wanted:
    """Return the name for a note that neither the chord nor the scale has: by the letter of its degree."""
    if chord is not None and chord.root is not None:
        degree = chord.degree_of(pitch_class)
        name = name_over(chord.root, degree)
    else:
        above = (pitch_class - key.tonic.pitch_class) % 12
        name = name_over(key.tonic, _CHROMATIC_DEGREES[above])
    return _Wanted(name.fifths, _COST["against degree"], OUTSIDE, _COST["odd white"])


def _name_cost(fifths: int, wanted: _Wanted, keys_own: frozenset[int]) -> int:
    """Return what one name costs by itself.

    The name by the letter of its degree is cheap, unless the wanted name is among `keys_own`, the names of
    the notes of the key.
    """
    if fifths == wanted.fifths:
        cost = 0
    elif fifths == wanted.own_letter and wanted.fifths not in keys_own:
        cost = _COST["own letter"]
    else:
        cost = wanted.otherwise
    if fifths not in PLAIN:
        return cost + _COST["double accidental"]
    if fifths in ODD_WHITE:
        odd = wanted.odd if fifths == wanted.fifths else _COST["odd white"]
        cost += min(odd, _COST["odd white key"]) if fifths in keys_own else odd
    return cost


def key_names(key: Key) -> frozenset[int]:
    """Return the names of the notes of a key; a minor key has both of its sixths and both of its sevenths."""
    return frozenset(name_over(key.tonic, degree).fifths for degree in _MODE_DEGREES[key.mode])


@lru_cache(maxsize=4096)
def names_over(chord: Chord | None, scale: Scale | None, key: Key) -> NoteNames:
    """Return the names worth trying over a chord, for each pitch class.

    Args:
        chord: the chord, or None where there are no changes.
        scale: the scale that the author gives for the chord, or None.
        key: the key of the phrase.
    """
    keys_own = key_names(key)
    candidates, standing = [], []
    for pitch_class, wanted in enumerate(_wanted(chord, scale, key)):
        fifths = {place for place in PLAIN if place * 7 % 12 == pitch_class} | {wanted.fifths}
        priced = sorted((_name_cost(place, wanted, keys_own), abs(place - 2), place) for place in fifths)
        worst = priced[0][0] + WORST_BY
        candidates.append(tuple((place, cost) for cost, _, place in priced if cost < worst))
        standing.append(wanted.standing)
    return NoteNames(tuple(candidates), tuple(standing))


@lru_cache(maxsize=65536)
def name_cost(chord: Chord | None, scale: Scale | None, key: Key, fifths: int) -> int:
    """Return what a name, given as its place on the line of fifths, costs over a chord."""
    keys_own = key_names(key)
    return _name_cost(fifths, _wanted(chord, scale, key)[fifths * 7 % 12], keys_own)


def phrase_names(phrase: Phrase) -> list[NoteNames]:
    """Return the names over each change of a phrase; one entry for no chord where it has no changes."""
    if not phrase.changes:
        return [names_over(None, None, phrase.key)]
    return [
        names_over(change.chord, scale, phrase.key)
        for change, scale in zip(phrase.changes, phrase.scales, strict=True)
    ]
