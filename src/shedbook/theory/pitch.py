"""Note names and pitches, with their spelling.

A pitch is held as its distance from C-1 (MIDI number 0) in letters and half steps, so that C4, middle C, is
(35, 60). A note name has no octave; it is held as its place on the line of fifths, … Bb F C G D A E B F# …,
on which C is 0. Octave numbers are those of scientific pitch notation, in which the number changes at C.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache

from shedbook.theory.interval import ACCIDENTALS, LETTER_SEMITONES, Interval

LETTERS = "CDEFGAB"
CONCERT_A4_HZ = 440.0
"""ISO 16:1975, standard tuning frequency."""
LOWEST_MIDI, HIGHEST_MIDI = 21, 108
"""A0 to C8, the compass of the piano: every note that a phrase may hold, in any key and for any reader."""

_FIFTHS_LETTERS = "FCGDAEB"
_SIGNS = str.maketrans("♭♯", "b#")
_NAME = re.compile(r"([A-Ga-g])(bb|##|b|#|)")
_PITCH = re.compile(r"([A-Ga-g])(bb|##|b|#|)(-1|[0-9])")


def accidental_text(alteration: int) -> str:
    """Return the accidental that alters by half steps: "" for 0, "b" for -1, "##" for 2."""
    return "#" * alteration if alteration > 0 else "b" * -alteration


@dataclass(frozen=True, slots=True, order=True)
class NoteName:
    """A letter with its accidental, without an octave; `fifths` counts fifths up from C."""

    fifths: int

    @classmethod
    def parse(cls, text: str) -> NoteName:
        """Read a note name such as "C", "Bb", "f#", "Abb" or "B♭".

        Raises:
            ValueError: if the text is anything else.
        """
        found = _NAME.fullmatch(text.translate(_SIGNS))
        if found is None:
            raise ValueError(f"{text!r} is not a note name")
        letter, accidental = found.groups()
        return cls.of(letter.upper(), ACCIDENTALS[accidental])

    @classmethod
    def of(cls, letter: str, alteration: int = 0) -> NoteName:
        """Return the name with a letter, "C" to "B", altered by half steps."""
        return cls(_FIFTHS_LETTERS.index(letter) - 1 + 7 * alteration)

    @property
    def letter(self) -> str:
        """The letter, "C" to "B"."""
        return _FIFTHS_LETTERS[(self.fifths + 1) % 7]

    @property
    def alteration(self) -> int:
        """By how many half steps the letter is altered: -1 by a flat, 2 by a double sharp."""
        return (self.fifths + 1) // 7

    @property
    def pitch_class(self) -> int:
        """The pitch class, 0 (C) to 11 (B)."""
        return self.fifths * 7 % 12

    def __add__(self, interval: Interval) -> NoteName:
        return NoteName(self.fifths + interval.fifths)

    def __str__(self) -> str:
        return self.letter + accidental_text(self.alteration)

    def interval_to(self, other: NoteName) -> Interval:
        """Return the interval from this name up to the other, less than an octave."""
        fifths = other.fifths - self.fifths
        steps = fifths * 4 % 7
        return Interval(steps, (fifths + 12 * steps) // 7)


@dataclass(frozen=True, slots=True)
class Pitch:
    """A pitch with its spelling: `step` counts letters up from C-1, and `midi` is the MIDI number."""

    step: int
    midi: int

    @classmethod
    def parse(cls, text: str) -> Pitch:
        """Read a pitch in scientific pitch notation, such as "C4", "Bb3" or "f#5".

        Raises:
            ValueError: if the text is anything else.
        """
        found = _PITCH.fullmatch(text)
        if found is None:
            raise ValueError(f"{text!r} is not a pitch")
        letter, accidental, octave = found.groups()
        return cls.of(NoteName.of(letter.upper(), ACCIDENTALS[accidental]), int(octave))

    @classmethod
    def of(cls, name: NoteName, octave: int) -> Pitch:
        """Return the pitch with a name and the octave of its letter: Cb of octave 4 is MIDI number 59."""
        letter = LETTERS.index(name.letter)
        return cls(letter + 7 * (octave + 1), LETTER_SEMITONES[letter] + name.alteration + 12 * (octave + 1))

    @property
    def name(self) -> NoteName:
        """The note name."""
        return NoteName(7 * self.midi - 12 * self.step)

    @property
    def letter(self) -> str:
        """The letter, "C" to "B"."""
        return LETTERS[self.step % 7]

    @property
    def alteration(self) -> int:
        """By how many half steps the letter is altered."""
        octaves, letter = divmod(self.step, 7)
        return self.midi - 12 * octaves - LETTER_SEMITONES[letter]

    @property
    def octave(self) -> int:
        """The octave number of the letter, in scientific pitch notation."""
        return self.step // 7 - 1

    @property
    def pitch_class(self) -> int:
        """The pitch class, 0 (C) to 11 (B)."""
        return self.midi % 12

    def __add__(self, interval: Interval) -> Pitch:
        return Pitch(self.step + interval.steps, self.midi + interval.semitones)

    def __sub__(self, other: Pitch) -> Interval:
        return Interval(self.step - other.step, self.midi - other.midi)

    def __str__(self) -> str:
        return f"{self.letter}{accidental_text(self.alteration)}{self.octave}"


def frequency_hz(midi: int, *, a4_hz: float = CONCERT_A4_HZ) -> float:
    """Return the frequency of a MIDI number in hertz, in equal temperament.

    Args:
        midi: the MIDI number; A4 is 69.
        a4_hz: the frequency of A4; by ISO 16:1975 it is 440 Hz.
    """
    return float(a4_hz * 2.0 ** ((midi - 69) / 12))


@lru_cache(maxsize=256)
def spellings(midi: int) -> tuple[Pitch, ...]:
    """Return every spelling of a MIDI number with at most two sharps or flats, the fewest first."""
    octaves, pitch_class = divmod(midi, 12)
    found = []
    for letter, natural in enumerate(LETTER_SEMITONES):
        for octave in (octaves - 1, octaves, octaves + 1):
            if abs(12 * octave + natural - 12 * octaves - pitch_class) <= 2:
                found.append(Pitch(letter + 7 * octave, midi))
    return tuple(sorted(found, key=lambda pitch: (abs(pitch.alteration), pitch.alteration)))
