"""Notes, degrees, chords, intervals and numbers in plain words."""

from __future__ import annotations

from functools import lru_cache
from types import MappingProxyType

from shedbook.theory.chord import Chord
from shedbook.theory.pitch import NoteName, Pitch, spellings

_ALTERATIONS = MappingProxyType({-2: " double flat", -1: " flat", 0: "", 1: " sharp", 2: " double sharp"})
_NUMBERS = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven",
            "twelve")  # fmt: skip

_PLAIN_DEGREES = MappingProxyType({
    "1": "the root", "3": "the third", "b3": "the third", "4": "the fourth", "5": "the fifth",
    "b5": "the fifth", "#5": "the fifth", "6": "the sixth", "b7": "the seventh", "7": "the seventh",
    "bb7": "the seventh",
})  # fmt: skip
"""How a degree is called that the chord itself has."""

_MARKED_DEGREES = MappingProxyType({
    "1": "the root", "3": "the major third", "b3": "the minor third", "4": "the fourth",
    "5": "the natural fifth", "b5": "the flat fifth", "#5": "the sharp fifth", "6": "the sixth",
    "b7": "the flat seventh", "7": "the major seventh", "bb7": "the diminished seventh",
    "b9": "the flat 9", "9": "the 9", "#9": "the sharp 9", "11": "the 11", "#11": "the sharp 11",
    "b13": "the flat 13", "13": "the 13",
})  # fmt: skip
"""How a degree is called that the chord does not have, or that is a colour."""


@lru_cache(maxsize=128)
def name_words(name: NoteName) -> str:
    """Return "B flat", "F sharp", "C"; a double accidental gives way to the plain name that sounds."""
    if abs(name.alteration) > 1:
        name = spellings(60 + name.pitch_class)[0].name
    return name.letter + _ALTERATIONS[name.alteration]


def pitch_words(pitch: Pitch) -> str:
    """Return a pitch's name in words, without the octave."""
    return name_words(pitch.name)


def degree_words(degree: str, chord: Chord) -> str:
    """Return "the third", "the flat 9", "the major third" (over a chord that has another)."""
    if degree in chord.degrees and degree in _PLAIN_DEGREES:
        return _PLAIN_DEGREES[degree]
    return _MARKED_DEGREES.get(degree, "")


def bare_degree(degree: str, chord: Chord) -> str:
    """Return the degree in words without its article: "third", "flat 9"."""
    return degree_words(degree, chord).removeprefix("the ")


def chord_words(chord: Chord) -> str:
    """Return a chord as it is said: the symbol, but "B flat minor" for a plain minor chord."""
    if chord.root is None:
        return "no chord"
    _, kind = chord.split_text()
    if chord.bass is None and kind in ("m", "-", "min", "mi"):
        return f"{name_words(chord.root)} minor"
    return chord.text


def number_words(number: int) -> str:
    """Return a small number in words, a large one in figures."""
    return _NUMBERS[number] if 0 <= number < len(_NUMBERS) else str(number)


def joined(words: list[str], last: str = "and") -> str:
    """Return "a", "a and b", "a, b and c"."""
    if len(words) < 2:
        return "".join(words)
    return f"{', '.join(words[:-1])} {last} {words[-1]}"


def interval_words(semitones: int) -> str:
    """Return the name of an interval's size: "a minor sixth", "an octave"."""
    size = abs(semitones)
    if size > 12:
        return "more than an octave"
    return _INTERVALS[size]


_INTERVALS = (
    "a unison", "a half step", "a whole step", "a minor third", "a major third", "a fourth", "a tritone",
    "a fifth", "a minor sixth", "a major sixth", "a minor seventh", "a major seventh", "an octave",
)  # fmt: skip
