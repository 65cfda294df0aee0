"""Chord symbols that stand in one place, one after another before a long note, are spread over that note.

Programs that let chords stand only over notes write two chords over a whole note so, and move the second by
hand to where the page shall show it. Where the file says how far each was moved (`relative-x`, whose unit
differs from program to program), the distances are kept in proportion; otherwise chords share the note
evenly. Among the places near that the stronger beats are taken.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from fractions import Fraction
from itertools import groupby, pairwise, product

from shedbook.exchange.ground.note_lengths import Ticks, in_quarters
from shedbook.exchange.musicxml.note_reader import RawNote
from shedbook.lattice.graph import least_path
from shedbook.lattice.grow import grow
from shedbook.theory.chord import Chord
from shedbook.theory.metre import Metre

PlacedChord = tuple[Fraction, Chord, Fraction | None]
"""A chord symbol: its place in quarters from the bar line, the chord, and how far to the right of that place
the page shows it (None where the file does not say)."""

_OFF_STEP = 10
"""What it costs to stand a beat away from where a chord is due; the cost grows with the square."""
_WEAK_BEAT, _OFF_BEAT = 2, 12
"""What it costs to stand on a beat that is not strong, and off the beat (common practice)."""


def placed_chords(
    chords: Sequence[PlacedChord], notes: Sequence[RawNote], end: Ticks, metre: Metre
) -> tuple[tuple[tuple[Fraction, Chord], ...], bool]:
    """Return the chords of a bar in order, and whether several in one place were spread over a note.

    Args:
        chords: the chord symbols of the bar.
        notes: the notes of the line.
        end: where the bar ends, in ticks.
        metre: the metre of the bar.
    """
    pairs = [(place, chord) for place, chord, _ in chords]
    if len(pairs) < 2:
        return tuple(pairs), False
    pairs.sort(key=_place_of_pair)
    if not any(one[0] == other[0] for one, other in pairwise(pairs)):
        return tuple(pairs), False
    onsets = [in_quarters(raw.onset) for raw in notes]
    found, moved = spread_chords(chords, onsets, max(in_quarters(end), metre.bar_quarters), metre)
    return tuple(found), moved


def _place_of_pair(pair: tuple[Fraction, Chord]) -> Fraction:
    return pair[0]


def spread_chords(
    chords: Sequence[PlacedChord], onsets: Iterable[Fraction], length: Fraction, metre: Metre
) -> tuple[list[tuple[Fraction, Chord]], bool]:
    """Return chords each in a place of its own, in order, and whether any had to be moved.

    Of chords in one place that are alike one is kept. Chords for which there is no room stay where they are.

    Args:
        chords: the chord symbols of a bar.
        onsets: where the notes of the line begin, in quarters from the bar line.
        length: the length of the bar in quarters.
        metre: the metre of the bar, which says what a beat is and which beats are strong.
    """
    found: list[tuple[Fraction, Chord]] = []
    moved = False
    groups = [(place, _unlike(group)) for place, group in groupby(sorted(chords, key=_place), key=_place)]
    starts = sorted(onsets)
    for (place, group), (after, _) in pairwise([*groups, (max(length, groups[-1][0]), [])]):
        if len(group) == 1:
            found.append((place, group[0][1]))
            continue
        note_end = next((onset for onset in starts if onset > place), after)
        places = _places(group, place, (min(after, note_end), after), metre)
        moved = moved or places is not None
        found += [
            (at, chord) for at, (_, chord, _) in zip(places or [place] * len(group), group, strict=True)
        ]
    return found, moved


def _place(chord: PlacedChord) -> Fraction:
    return chord[0]


def _unlike(group: Iterable[PlacedChord]) -> list[PlacedChord]:
    """Return the chords of one place in the order of the page, without those that repeat the one before."""
    found: list[PlacedChord] = []
    for chord in sorted(group, key=lambda one: one[2] or Fraction(0)):
        if not found or found[-1][1] != chord[1]:
            found.append(chord)
    return found


def _places(
    group: Sequence[PlacedChord], start: Fraction, ends: Sequence[Fraction], metre: Metre
) -> list[Fraction] | None:
    """Return the cheapest places for chords from `start` on, in order; None where there is no room.

    The places are those of beats up to the first of `ends` before which there are enough; where there are too
    few, of half beats, and at last of quarter beats.
    """
    for parts, end in product((1, 2, 4), ends):
        step = metre.beat_quarters / parts
        slots = int(-(-(end - start) // step))
        if slots >= len(group):
            break
    else:
        return None
    due = _due(group, Fraction(slots))

    def arcs_from(layer: int, state: int) -> list[tuple[int, int]]:
        found = []
        for slot in range(slots - 1, state, -1) if layer else (0,):  # of equals the later one
            away = (slot - due[layer]) * step / metre.beat_quarters
            cost = int(_OFF_STEP * away * away) + _weakness(start + slot * step, metre)
            found.append((slot, cost))
        return found

    grown = grow(-1, len(group), arcs_from, lambda _: 0)
    path = least_path(grown.lattice)
    return None if path is None else [start + slot * step for slot in grown.states_of(path)[1:]]


def _due(group: Sequence[PlacedChord], slots: Fraction) -> list[Fraction]:
    """Return where chords are due, in slots: in the proportions of the page, or else evenly."""
    many = len(group)
    shown = [chord[2] or Fraction(0) for chord in group]
    last = slots * (many - 1) / many
    if many > 2 and all(before < after for before, after in pairwise(shown)):
        return [last * (x - shown[0]) / (shown[-1] - shown[0]) for x in shown]
    return [slots * at / many for at in range(many)]


def _weakness(place: Fraction, metre: Metre) -> int:
    """Return what it costs to stand in a place of the bar."""
    beat = metre.beat_at(place)
    if beat in metre.strong_beats:
        return 0
    return _WEAK_BEAT if beat.denominator == 1 else _OFF_BEAT
