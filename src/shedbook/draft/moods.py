"""Moods: what a line remembers besides its last pitch, so that the rules can say what may follow.

A mood is the last move by direction and size, how many moves have gone that way, and the enclosure that is
being closed. With a pitch it is a state of the automaton whose words are the lines that the rules allow;
every word has one row of states, so that counting states counts lines.

Sizes: 0 a repeated note, 1 a half step, 2 a whole step, 3 a third, 4 a fourth to a fifth, 5 more; the
semitones of each stand in `SIZE_OF`. Moves are numbered by semitones, `WIDEST` being no move.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

WIDEST = 12
"""The widest move that is ever made: an octave."""
SIZE_OF = (0, 1, 2, 3, 3, 4, 4, 4, 5, 5, 5, 5, 5)
"""The size of a move by its semitones."""
LEAP = 4
"""The size from which a move is a leap: a fourth, as in the account of a phrase."""
START = 0
"""The number of the mood before the first move."""
CLASSES = 12
"""How many classes of last moves there are: none, a repeated note, and five sizes up and down."""
RUNS = 7
"""How many numbers of moves one way are told apart: none to five, and more."""


@dataclass(frozen=True, slots=True)
class Habits:
    """What the moves of a line may be, whatever the chords.

    Attributes:
        largest: the widest move in semitones.
        run: how many moves may go one way; 0 for no limit.
        recover: whether a leap must turn back by a third or less.
        repeats: whether a note may be struck again.
        figures: whether notes outside the scale must resolve.
    """

    largest: int = 9
    run: int = 5
    recover: bool = True
    repeats: bool = False
    figures: bool = True


@dataclass(frozen=True, slots=True)
class _Mood:
    sign: int
    size: int
    run: int
    closing: int  # the move that opened an enclosure, else 0


def last_class(sign: int, size: int) -> int:
    """Return the class of a move: 1 for a repeated note, 2 to 6 upwards, 7 to 11 downwards."""
    return 1 if size == 0 else 1 + size if sign > 0 else 6 + size


@dataclass(frozen=True)
class Moods:
    """All moods of a set of habits, and where each move leads.

    Arrays over [mood, move + WIDEST]: `plain` and `opening` give the mood that a move leads to, -1 where it
    may not be made; `opening` begins an enclosure. Over [mood]: `last` is the class of the last move, `run`
    how many went its way, `sign` its direction, `closing` whether an enclosure is being closed.
    """

    plain: NDArray[np.intp]
    opening: NDArray[np.intp]
    last: NDArray[np.intp]
    run: NDArray[np.intp]
    sign: NDArray[np.intp]
    size: NDArray[np.intp]
    closing: NDArray[np.bool_]

    @property
    def count(self) -> int:
        """How many there are."""
        return len(self.last)


@lru_cache(maxsize=32)
def moods_of(habits: Habits) -> Moods:
    """Return the moods of some habits."""
    longest = habits.run or 6
    moods = [_Mood(0, 0, 0, 0), _Mood(0, 0, 1, 0)]
    for sign in (1, -1):
        for size in (1, 2, 3):
            moods += [_Mood(sign, size, run, 0) for run in range(1, longest + 1)]
        moods += [_Mood(sign, size, 1, 0) for size in (4, 5)]
        if habits.figures:
            moods += [_Mood(sign, SIZE_OF[move], 1, sign * move) for move in (2, 3, 4)]
    index = {mood: number for number, mood in enumerate(moods)}
    plain = np.full((len(moods), 2 * WIDEST + 1), -1, dtype=np.intp)
    opening = np.full_like(plain, -1)
    for number, mood in enumerate(moods):
        for move in range(-habits.largest, habits.largest + 1):
            after = _after(mood, move, habits, longest)
            if after is not None:
                plain[number, move + WIDEST] = index[after]
                if habits.figures and abs(move) in (2, 3, 4) and not mood.closing:
                    sign = 1 if move > 0 else -1
                    opening[number, move + WIDEST] = index[_Mood(sign, SIZE_OF[abs(move)], 1, move)]
    signs, sizes = np.array([one.sign for one in moods]), np.array([one.size for one in moods])
    last = np.array([0, *[last_class(one.sign, one.size) for one in moods[1:]]])
    runs = np.array([one.run for one in moods])
    closing = np.array([one.closing != 0 for one in moods])
    return Moods(plain, opening, last, runs, signs, sizes, closing)


def _after(mood: _Mood, move: int, habits: Habits, longest: int) -> _Mood | None:
    """Return the mood after a move, None where the habits forbid it."""
    size, sign = SIZE_OF[abs(move)], (move > 0) - (move < 0)
    if mood.closing and not _closes(mood.closing, move):
        return None
    if habits.recover and mood.size >= LEAP and (sign in (0, mood.sign) or size > 3):
        return None
    if size == 0:
        return _Mood(0, 0, 1, 0) if habits.repeats else None
    goes_on = sign == mood.sign
    run = mood.run + 1 if goes_on else 1
    if habits.run and run > habits.run:
        return None
    return _Mood(sign, size, 1 if size >= LEAP else min(run, longest), 0)


def _closes(opened: int, move: int) -> bool:
    """Whether a move closes an enclosure: it turns back to a note within a step of both its neighbours."""
    back = -move if opened > 0 else move
    return back in (1, 2) and abs(opened) - back in (1, 2)
