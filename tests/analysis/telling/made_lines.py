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
    "flat": "c db d eb e f gb g ab a bb b".split(), "sharp": "c c# d d# e f f# g g# a a# b".split(),
}  # fmt: skip
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


def _text(bar: list[Note], names: list[str]) -> str:
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
        dice, way = self.dice, 1 if self.at < 62 else -1 if self.at > 79 else self.dice.choice((1, -1))
        kind = dice.choice(("scale", "scale", "thirds", "fourths", "cell", "wrap", "half steps", "rest", "long",
                            "repeat", "leap", "sync", "chord", "chord", "threes", "off", "frame"))  # fmt: skip
        scale = dice.choice((_MAJOR, _MINOR))
        root = dice.choice((0, 2, 3, 5, 7, 8, 10))
        if kind == "scale":
            return self._goes([self._step(scale, root, way) for _ in range(dice.randint(3, 7))])
        if kind == "thirds":
            return self._goes([self._step(scale, root, way, 2) for _ in range(dice.randint(3, 6))])
        if kind == "fourths":
            return self._goes([self._to(5 * way) for _ in range(4)])
        if kind == "chord":
            return self._goes([self._tone(way) for _ in range(dice.randint(4, 5))])
        if kind == "frame":
            tones = [self._tone(way) for _ in range(2)]
            return [
                (tones[0], 1),
                *((tones[0] + move, 1) for move in (2, -1, 1)),
                (tones[1], 1),
                (tones[1] + 1, 3),
            ]
        if kind == "off":
            return [
                (None, 1),
                *((self._to(dice.choice((-2, 1, 2, -1, 3))), 2) for _ in range(3)),
                (self.at, 1),
            ]
        if kind == "threes":
            moves = dice.choice(((2, -4), (-3, 5), (4, -3)))
            return self._goes([self._to(move) for _ in range(3) for move in (*moves, dice.choice((1, 2)))])
        if kind == "cell":
            cell = [dice.choice((-2, -1, 1, 2, 3, -3, 4)) for _ in range(dice.randint(2, 3))]
            back = dice.choice((-3, -2, 2, 1, -1)) - sum(cell)
            return self._goes([self._to(move) for _ in range(2) for move in (*cell, back)])
        if kind == "wrap":
            goal = self.at + dice.choice((-3, -2, 2, 3))
            size = dice.choice((1, 1, 2))
            self.at = goal
            return [(goal + size, 1), (goal - size, 1), (goal, dice.choice((1, 2)))]
        if kind == "half steps":
            return self._goes([self._to(way) for _ in range(dice.randint(3, 6))])
        if kind == "rest":
            return [(None, dice.choice((1, 2, 3)))]
        if kind == "repeat":
            return [(self.at, 1), (self.at, dice.choice((1, 2)))]
        if kind == "leap":
            return self._goes([self._to(dice.choice((8, 9, 12, 7)) * way), self._to(-way)])
        return [
            (self._to(dice.choice((-1, 1, -2, 2))), dice.choice((2, 3, 4) if kind == "long" else (1, 2, 3)))
        ]

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
