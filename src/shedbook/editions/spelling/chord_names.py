"""The names of chord roots, slash basses and scales for the reader.

When a phrase is transposed, each root is spelled by its function. Where that gives a name that nobody reads,
such as Fb7 or B#m, the other name is taken, unless it would separate chords that belong together, as a root
from the root a fifth below it.
"""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache
from itertools import pairwise

from shedbook.editions.cost_table import costs_by_name
from shedbook.editions.spelling.note_names import ODD_WHITE, PLAIN, key_names
from shedbook.editions.tables.spelling_costs import CHORD_COSTS
from shedbook.lattice.chain import least_chain
from shedbook.phrase.model import ChangeAt, Phrase
from shedbook.theory.chord import Chord, name_over, plain_name
from shedbook.theory.interval import UNISON, Interval
from shedbook.theory.key import Key
from shedbook.theory.pitch import NoteName
from shedbook.theory.scale import Scale

_COST = costs_by_name(CHORD_COSTS)
_CHROMATIC = 7
"""How far a letter lies on the line of fifths from itself with another accidental: D from D#."""
_OTHER_NAMES = (Interval(1, 0), Interval(-1, 0))
"""The intervals to the same sound by the letter above (C# as Db) and by the letter below (Db as C#)."""


def respell_changes(phrase: Phrase) -> Phrase:
    """Return the phrase with its chords and scales named for the reader; its notes and its key stay."""
    names = respelled_chords(tuple(change.chord for change in phrase.changes), phrase.key)
    changes, scales = [], []
    for change, scale, chord in zip(phrase.changes, phrase.scales, names, strict=True):
        changes.append(change if chord == change.chord else ChangeAt(change.bar, change.beat, chord))
        scales.append(None if scale is None else _scale_with(scale, change.chord, chord))
    return replace(phrase, changes=tuple(changes), scales=tuple(scales))


def chords_cost(chords: tuple[Chord, ...], key: Key) -> int:
    """Return what a key signature and chords cost the reader, the chords being called by their best names."""
    return _COST["signature"] * abs(key.signature) + _best_row(chords, key)[0]


@lru_cache(maxsize=1024)
def respelled_chords(chords: tuple[Chord, ...], key: Key) -> tuple[Chord, ...]:
    """Return the chords by the names with the least total cost in a key."""
    return tuple(_with_readable_bass(chord) for chord in _best_row(chords, key)[1])


def _best_row(chords: tuple[Chord, ...], key: Key) -> tuple[int, tuple[Chord, ...]]:
    """Return the least cost of a row of names, and the row."""
    rows = [_priced(chord, key) for chord in chords]
    steps = [
        [[_together(one.root, other.root) for one in before] for other in after]
        for (before, _), (after, _) in pairwise(rows)
    ]
    cost, chosen = least_chain([costs for _, costs in rows], steps)
    # A chord that keeps its name is the very one that was given: `_priced` may remember an equal one.
    named = zip(chords, rows, chosen, strict=True)
    return int(cost), tuple([names[place] if place else chord for chord, (names, _), place in named])


@lru_cache(maxsize=4096)
def _priced(chord: Chord, key: Key) -> tuple[tuple[Chord, ...], tuple[int, ...]]:
    """Return a chord as it is and by its other plain names, and what each costs by itself."""
    names = _named(chord)
    renamed = (0, *[_COST["renamed root"]] * (len(names) - 1))
    return names, tuple([_alone(name, key) + more for name, more in zip(names, renamed, strict=True)])


def _named(chord: Chord) -> tuple[Chord, ...]:
    """Return the chord as it is, and by its other plain names."""
    if chord.root is None:
        return (chord,)
    others = [move for move in _OTHER_NAMES if (chord.root + move).fifths in PLAIN]
    return (chord, *(chord.transposed(move) for move in others))


def _alone(chord: Chord, key: Key) -> int:
    """Return what one chord's name costs, by its root and the tones of its body."""
    if chord.root is None:
        return 0
    cost = 0
    if chord.root.fifths not in PLAIN:
        cost = _COST["double root"]
    elif chord.root.fifths in ODD_WHITE:
        cost = _COST["odd root in key" if chord.root.fifths in key_names(key) else "odd root"]
    if chord.seventh == "bb7":  # players write a diminished seventh by the plainest letters
        return cost
    body = len(chord.degrees) - len(chord.tensions)
    for degree in chord.degrees[1:body]:
        tone = name_over(chord.root, degree)
        if tone.fifths not in PLAIN:
            cost += _COST["double tone"]
        elif tone.fifths in ODD_WHITE:
            cost += _COST["odd tone"]
    return cost


def _together(one: NoteName | None, other: NoteName | None) -> int:
    """Return what two neighbouring roots cost; nothing beside N.C."""
    if one is None or other is None:
        return 0
    fifths = abs(other.fifths - one.fifths)
    cost = _COST["root leap"] if fifths > _CHROMATIC else 0  # D Dm D#dim7 is a line in the bass
    if (other.pitch_class - one.pitch_class) % 12 in (0, 5, 7) and fifths > 1:
        cost += _COST["broken fifth"]
    return cost


def _with_readable_bass(chord: Chord) -> Chord:
    """Return the chord with its slash bass named as the chord names that tone, without double accidentals."""
    if chord.bass is None or chord.root is None:
        return chord
    tones = [name_over(chord.root, degree) for degree in chord.degrees]
    called = {tone.pitch_class: tone for tone in tones}.get(chord.bass.pitch_class, chord.bass)
    bass = plain_name(called)
    if bass == chord.bass:
        return chord
    head, kind = chord.split_text()
    return replace(chord, bass=bass, text=f"{head}{kind}/{bass}")


def _scale_with(scale: Scale, old: Chord, new: Chord) -> Scale:
    """Return a scale, its root renamed as the root of its chord was renamed."""
    if old.root is None or new.root is None:
        move = UNISON
    elif scale.root.pitch_class == new.root.pitch_class:
        return scale if scale.root == new.root else Scale(new.root, scale.row)
    else:
        move = Interval((old.root.fifths - new.root.fifths) // 12, 0)
    root = plain_name(scale.root + move)
    return scale if root == scale.root else Scale(root, scale.row)
