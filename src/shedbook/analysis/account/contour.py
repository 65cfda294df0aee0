"""The shape of a line: turns, leaps, range, runs, and its contour in reduced form.

The reduction is Robert Morris's contour reduction algorithm (New Directions in the Theory and Analysis
of Musical Contour, Music Theory Spectrum 15/2, 1993): inner maxima and minima are kept, the rest is
deleted, and again among the maxima and the minima themselves, until nothing more can go. What is left is
the prime of the contour; how many times notes had to go is its depth.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from operator import ge, le

from shedbook.analysis.account.figures import SEQUENCE, Figure
from shedbook.analysis.account.note_account import NoteAccount

LEAP = 5
"""The smallest leap in semitones: a fourth. Smaller moves are steps and skips [common practice]."""


@dataclass(frozen=True, slots=True)
class Leap:
    """A leap from the note with the index `first` to the next one, by `semitones` (negative downwards).

    It is `recovered` when a step in the other direction follows.
    """

    first: int
    semitones: int
    recovered: bool


@dataclass(frozen=True, slots=True)
class Contour:
    """The shape of a line; places are indices of notes, intervals in semitones.

    Shares are of all moves between notes: by step inside the scale, by chord tones, and by half steps
    that touch an outside note.
    """

    turns: int
    leaps: tuple[Leap, ...]
    range: int
    highest: int | None
    lowest: int | None
    longest_run: tuple[int, int] | None
    sequences: tuple[Figure, ...]
    scale_share: Fraction
    arpeggio_share: Fraction
    chromatic_share: Fraction
    prime: tuple[int, ...]
    depth: int


def contour(notes: tuple[NoteAccount, ...], figures: tuple[Figure, ...]) -> Contour:
    """Return the shape of a line; without notes every count is 0. `figures` are those of the same notes."""
    if not notes:
        return Contour(0, (), 0, None, None, None, (), Fraction(0), Fraction(0), Fraction(0), (), 0)
    midis = [note.midi for note in notes]
    prime, depth = morris_reduction(midis)
    scale, arpeggio, chromatic = _shares(notes)
    return Contour(
        turns=_turns(midis),
        leaps=_leaps(notes),
        range=max(midis) - min(midis),
        highest=midis.index(max(midis)),
        lowest=midis.index(min(midis)),
        longest_run=_longest_run(midis),
        sequences=tuple(figure for figure in figures if figure.kind == SEQUENCE),
        scale_share=scale,
        arpeggio_share=arpeggio,
        chromatic_share=chromatic,
        prime=prime,
        depth=depth,
    )


def _turns(midis: list[int]) -> int:
    """Count the changes of direction; repeated notes do not turn."""
    moves = [after - before for before, after in pairwise(midis) if after != before]
    return sum(1 for before, after in pairwise(moves) if before * after < 0)


def _leaps(notes: tuple[NoteAccount, ...]) -> tuple[Leap, ...]:
    found = []
    for before, after in pairwise(notes):
        move = after.midi - before.midi
        if abs(move) < LEAP:
            continue
        following = notes[after.index + 1] if after.index + 1 < len(notes) else None
        back = following.midi - after.midi if following is not None else 0
        found.append(Leap(before.index, move, 1 <= abs(back) <= 2 and back * move < 0))
    return tuple(found)


def _longest_run(midis: list[int]) -> tuple[int, int] | None:
    """Return the first and last note of the longest stretch in one direction, the earliest of equals."""
    best, first = (0, 0), 0
    for index in range(1, len(midis)):
        move = midis[index] - midis[index - 1]
        if index - 1 > first and move * (midis[first + 1] - midis[first]) <= 0:
            first = index - 1
        if move == 0:
            first = index
        if index - first > best[1] - best[0]:
            best = (first, index)
    return best if best[1] > best[0] else None


def _shares(notes: tuple[NoteAccount, ...]) -> tuple[Fraction, Fraction, Fraction]:
    scale = arpeggio = chromatic = 0
    for before, after in pairwise(notes):
        size = abs(after.midi - before.midi)
        if size <= 2 and not (before.inside and after.inside):
            chromatic += 1
        elif 1 <= size <= 2:
            scale += 1
        elif size >= 3 and before.in_chord and after.in_chord:
            arpeggio += 1
    moves = max(1, len(notes) - 1)
    return Fraction(scale, moves), Fraction(arpeggio, moves), Fraction(chromatic, moves)


def morris_reduction(pitches: list[int]) -> tuple[tuple[int, ...], int]:
    """Return the prime of a contour and its depth, after Robert Morris (1993).

    `pitches` are MIDI numbers. The prime is numbered from 0 for its lowest pitch; the depth is how many times
    pitches had to go.
    """
    places = list(range(len(pitches)))
    depth = 0
    highs = _extremes(pitches, places, ge)
    lows = _extremes(pitches, places, le)
    while True:
        flagged = sorted({*highs, *lows})
        if len(flagged) == len(places):
            break
        places = flagged
        depth += 1
        highs = _without_repeats(pitches, _extremes(pitches, highs, ge))
        lows = _without_repeats(pitches, _extremes(pitches, lows, le))
    left = [pitches[place] for place in places]
    order = sorted(set(left))
    return tuple(order.index(pitch) for pitch in left), depth


def _extremes(pitches: list[int], places: list[int], beats: Callable[[int, int], bool]) -> list[int]:
    """Return the places whose pitch is not beaten by either neighbour; the first and last always count."""
    kept = []
    for order, place in enumerate(places):
        edge = order in (0, len(places) - 1)
        if edge or (
            beats(pitches[place], pitches[places[order - 1]])
            and beats(pitches[place], pitches[places[order + 1]])
        ):
            kept.append(place)
    return kept


def _without_repeats(pitches: list[int], places: list[int]) -> list[int]:
    """Keep one place of every string of equal pitches: an end of the contour, if the string holds one."""
    kept: list[int] = []
    for order, place in enumerate(places):
        if not kept or pitches[place] != pitches[kept[-1]]:
            kept.append(place)
        elif order == len(places) - 1:
            if kept[-1] == places[0]:
                kept.append(place)
            else:
                kept[-1] = place
    return kept
