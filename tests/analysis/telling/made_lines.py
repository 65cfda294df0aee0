"""Phrases made by rule and by chance, for claims to be checked on: the same ones in every run.

They use what lines are made of: runs, chords in thirds and fourths, cells in sequence, enclosures, half
steps from outside, bars that come back, rests, syncopation, ties over the bar line. They are no music that
one would print.
"""

from __future__ import annotations

from random import Random

from shedbook.phrase.fields import phrase_from_fields
from shedbook.phrase.model import Phrase
from shedbook.theory.chord_symbol import parse_chord

CHANGES = (
    "Dm7 | G7 | Cmaj7", "Cm7b5 | F7b9 | Bbm6", "Cm7 | F7b9 | Bbm7 | Eb7", "G7 | %", "C7alt | Fm6",
    "Bbmaj7 G7b9 | Cm7 F7 | Bb6", "F7 | Bb7 | F7 | %", "Am7 | Ab7 | Gmaj7", "D7 | % | G6",
    "Gmaj7 G#dim7 | Am7 A#dim7 | G6", "Em7 A7 | Dmaj7", "Eb7#11 | %", "Ab7sus4 | Dbmaj7", "Dm | E7b9 | Am",
    "F#m7 B7b9 | Em7 A7b9 | Dmaj7", "C | Am7 | Dm7 | G13b9", "Cm6 | %", "Bb/D | G7b9/B | Cm7",
)  # fmt: skip
"""Changes of common practice."""

_NAMES = {
    "flat": ("c", "db", "d", "eb", "e", "f", "gb", "g", "ab", "a", "bb", "b"),
    "sharp": ("c", "c#", "d", "d#", "e", "f", "f#", "g", "g#", "a", "a#", "b"),
}
_MAJOR, _MINOR = (0, 2, 4, 5, 7, 9, 11), (0, 2, 3, 5, 7, 9, 10)


def made_phrases(number: int, seed: int = 11) -> list[Phrase]:
    """Return so many phrases, the same ones for the same seed."""
    dice = Random(seed)
    return [_phrase(dice, place) for place in range(number)]


def _phrase(dice: Random, place: int) -> Phrase:
    changes = CHANGES[place % len(CHANGES)]
    bars = changes.count("|") + 1
    line = _Line(dice)
    made = []
    for bar in changes.split("|"):
        symbols = [symbol for symbol in bar.split() if symbol != "%"]
        line.tones = _tones(symbols[0]) if symbols else line.tones
        made.append(line.bar())
    if bars > 1 and dice.random() < 0.3:
        shift = dice.choice((-2, -1, 0, 0, 2, 3))
        made[-1] = [(midi if midi is None else midi + shift, length) for midi, length in made[0]]
    if bars > 1 and dice.random() < 0.2:
        made[1] = [(midi, length) for midi, length in made[0]]
        at = dice.randrange(len(made[1]))
        midi, length = made[1][at]
        made[1][at] = (midi if midi is None else midi - 1, length)
    names = _NAMES["flat" if dice.random() < 0.7 else "sharp"]
    text = " | ".join(_text(bar, names) for bar in made)
    return phrase_from_fields({"title": f"Made {place}", "changes": changes, "line": text})


def _tones(symbol: str) -> list[int]:
    """Return the pitch classes of a chord."""
    return sorted(tone.pitch_class for tone in parse_chord(symbol).tones)


Note = tuple[int | None, int]
"""A MIDI number, or None for a rest, and a length in eighths."""


def _text(bar: list[Note], names: tuple[str, ...]) -> str:
    values = {1: "1/8", 2: "1/4", 3: "1/4.", 4: "1/2", 5: "1/2+1/8", 6: "1/2.", 8: "1/1"}
    return " ".join(
        f"{values[length]} -" if midi is None else f"{values[length]} {names[midi % 12]}{midi // 12 - 1}"
        for midi, length in bar
    )


class _Line:
    """A line that grows bar by bar out of one device after the other."""

    def __init__(self, dice: Random) -> None:
        self.dice, self.at = dice, dice.randint(60, 76)
        self.tones: list[int] = []

    def bar(self) -> list[Note]:
        """Return the notes of one bar of eight eighths."""
        notes: list[Note] = []
        while (left := 8 - sum(length for _, length in notes)) > 0:
            for midi, length in self._device()[:left]:
                if sum(done for _, done in notes) + length <= 8:
                    notes.append((midi, length))
        return notes

    def _device(self) -> list[Note]:
        """Return the notes of one device, in the direction that keeps the line in its range."""
        way = 1 if self.at < 62 else -1 if self.at > 79 else self.dice.choice((1, -1))
        return self.dice.choice(_DEVICES)(self, way)

    def _scale(self, way: int) -> list[Note]:
        scale, root = self.dice.choice((_MAJOR, _MINOR)), self.dice.choice((0, 2, 3, 5, 7, 8, 10))
        steps = self.dice.choice((1, 1, 2))
        return self._goes([self._step(scale, root, way, steps) for _ in range(self.dice.randint(3, 7))])

    def _fourths(self, way: int) -> list[Note]:
        return self._goes([self._to(5 * way) for _ in range(4)])

    def _chord(self, way: int) -> list[Note]:
        return self._goes([self._tone(way) for _ in range(self.dice.randint(4, 5))])

    def _frame(self, way: int) -> list[Note]:
        first, second = self._tone(way), self._tone(way)
        return [(first, 1), (first + 2, 1), (first - 1, 1), (first + 1, 1), (second, 1), (second + 1, 3)]

    def _off(self, way: int) -> list[Note]:
        moves = [self.dice.choice((-2, 1, 2, -1, 3)) * way for _ in range(3)]
        return [(None, 1), *((self._to(move), 2) for move in moves), (self.at, 1)]

    def _threes(self, way: int) -> list[Note]:
        moves = self.dice.choice(((2, -4), (-3, 5), (4, -3)))
        return self._goes([self._to(move) for _ in range(3) for move in (*moves, way)])

    def _cell(self, way: int) -> list[Note]:
        cell = [self.dice.choice((-2, -1, 1, 2, 3, -3, 4)) for _ in range(self.dice.randint(2, 3))]
        back = self.dice.choice((3, 2, 1)) * way - sum(cell)
        return self._goes([self._to(move) for _ in range(2) for move in (*cell, back)])

    def _wrap(self, way: int) -> list[Note]:
        goal, size = self.at + self.dice.choice((2, 3)) * way, self.dice.choice((1, 1, 2))
        self.at = goal
        return [(goal + size, 1), (goal - size, 1), (goal, self.dice.choice((1, 2)))]

    def _half_steps(self, way: int) -> list[Note]:
        return self._goes([self._to(way) for _ in range(self.dice.randint(3, 6))])

    def _rest(self, way: int) -> list[Note]:
        return [(None, self.dice.choice((1, 2, 3)))]

    def _repeat(self, way: int) -> list[Note]:
        return [(self.at, 1), (self.at, self.dice.choice((1, 2)))]

    def _leap(self, way: int) -> list[Note]:
        return self._goes([self._to(self.dice.choice((8, 9, 12, 7)) * way), self._to(-way)])

    def _long(self, way: int) -> list[Note]:
        return [(self._to(self.dice.choice((1, 2)) * way), self.dice.choice((1, 2, 3, 4)))]

    def _goes(self, midis: list[int]) -> list[Note]:
        return [(midi, 1) for midi in midis]

    def _to(self, move: int) -> int:
        self.at = min(88, max(50, self.at + move))
        return self.at

    def _tone(self, way: int) -> int:
        self.at += way
        while self.at % 12 not in self.tones:
            self.at += way
        return self._to(0)

    def _step(self, scale: tuple[int, ...], root: int, way: int, steps: int = 1) -> int:
        for _ in range(steps):
            self.at += way
            while (self.at - root) % 12 not in scale:
                self.at += way
        return self._to(0)


_DEVICES = (
    _Line._scale, _Line._scale, _Line._fourths, _Line._chord, _Line._chord, _Line._frame, _Line._off,
    _Line._threes, _Line._cell, _Line._wrap, _Line._half_steps, _Line._rest, _Line._repeat, _Line._leap,
    _Line._long, _Line._long,
)  # fmt: skip
