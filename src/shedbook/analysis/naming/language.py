"""Notes, degrees, chords, intervals and numbers in plain words, in the language of a table.

Conventions: a `Words` is asked by the names of `tables.wording`; names in braces are filled in. It is a value
that is handed in; English is what it is when nothing else is said. One is made per language and kept, so that
what is remembered of it is found again.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import lru_cache
from types import MappingProxyType

from shedbook.analysis.naming.tables.wording import WORDING
from shedbook.theory.chord import Chord
from shedbook.theory.pitch import NoteName, Pitch, spellings
from shedbook.theory.scale import Scale

_ALTERATIONS = MappingProxyType({-2: "double flat", -1: "flat", 1: "sharp", 2: "double sharp"})


@dataclass(frozen=True, slots=True, eq=False)
class Words:
    """The words of one language, or of one book."""

    table: Mapping[str, str]

    def __call__(self, row: str, /, **filled: object) -> str:
        """Return a row with its gaps filled.

        Raises:
            KeyError: if the table has no such row.
        """
        return self.table[row].format_map(filled)

    def has(self, row: str) -> bool:
        """Say whether there is such a row."""
        return row in self.table

    def note(self, name: str) -> str:
        """Return "B flat" for "Bb", with a double accidental where it has one."""
        return _note(NoteName.parse(name), self)

    def short_note(self, name: NoteName) -> str:
        """Return a note's name as a key is headed with it: "Bb"."""
        short = f"short note.{name}"
        return self.table[short] if short in self.table else str(name)

    def number(self, number: int) -> str:
        """Return a number in words from 0 to 99, larger ones in figures."""
        units, tens = self.table["numbers"].split(), self.table["tens"].split()
        if number < len(units):
            return units[number]
        if number >= 100:
            return str(number)
        ten, one = divmod(number, 10)
        return self("tens and ones", tens=tens[ten], ones=units[one]) if one else tens[ten]

    def key(self, key: str) -> tuple[str, str]:
        """Return ("B flat", "minor") for "Bb minor"."""
        tonic, _, mode = key.partition(" ")
        return self.note(tonic), self.table[f"mode.{mode}"] if mode else ""

    def whole_key(self, key: str) -> str:
        """Return "B flat minor" for "Bb minor"."""
        tonic, mode = self.key(key)
        return self("key", tonic=tonic, mode=mode).strip()

    def named(self, kind: str, name: str) -> str:
        """Return what a thing of a kind is called, "scale" and "dorian"; its own name without a row."""
        return self.table.get(f"{kind}.{name}", name)

    def sentence(self, text: str) -> str:
        """Return a text as a sentence begins: with a capital letter, where the language has them."""
        return self("sentence", text=text, Text=text[:1].upper() + text[1:])


ENGLISH = Words(MappingProxyType(WORDING))
"""The words of an explanation in English."""


@lru_cache(maxsize=256)
def _note(name: NoteName, words: Words) -> str:
    usual = words(f"note.{name.letter}")
    if name.alteration in _ALTERATIONS:
        usual = words(f"note.{_ALTERATIONS[name.alteration]}", letter=usual)
    own = f"note.{name}"
    return words(own, usual=usual) if name.alteration and words.has(own) else usual


def spoken_name(name: NoteName) -> NoteName:
    """Return the name by which a note is spoken of: a double accidental gives way to the plain name."""
    return spellings(60 + name.pitch_class)[0].name if abs(name.alteration) > 1 else name


@lru_cache(maxsize=512)
def name_words(name: NoteName, words: Words = ENGLISH) -> str:
    """Return "B flat", "F sharp", "C"; a double accidental gives way to the plain name that sounds."""
    return _note(spoken_name(name), words)


def pitch_words(pitch: Pitch, words: Words = ENGLISH) -> str:
    """Return a pitch's name in words, without the octave."""
    return name_words(pitch.name, words)


def degree_words(degree: str, chord: Chord, words: Words = ENGLISH) -> str:
    """Return "the third", "the flat 9", "the major third" (over a chord that has another)."""
    return _degree("", degree, chord, words)


def bare_degree(degree: str, chord: Chord, words: Words = ENGLISH) -> str:
    """Return the degree in words without its article: "third", "flat 9"."""
    return _degree("bare ", degree, chord, words)


def _degree(form: str, degree: str, chord: Chord, words: Words) -> str:
    if degree in chord.degrees:
        own = words.table.get(f"{form}own degree.{degree}")
        if own is not None:
            return own
    return words.table.get(f"{form}degree.{degree}", "")


def chord_words(chord: Chord, words: Words = ENGLISH) -> str:
    """Return a chord as it is said: the symbol, but "B flat minor" for a plain minor chord."""
    if chord.root is None:
        return words("chord.none")
    _, kind = chord.split_text()
    if chord.bass is None and kind in ("m", "-", "min", "mi"):
        return words("chord.minor", root=name_words(chord.root, words))
    return symbol_words(chord, words)


def symbol_words(chord: Chord, words: Words = ENGLISH) -> str:
    """Return a chord's symbol as it stands in a text; "N.C." where none sounds."""
    if chord.root is None:
        return words("chord.silent", symbol=chord.text)
    slash = "" if chord.bass is None else words("chord.slash", bass=words.short_note(chord.bass))
    root, kind = words.short_note(chord.root), chord.split_text()[1]
    return words("chord.symbol", symbol=chord.text, root=root, kind=kind, slash=slash)


def scale_words(scale: Scale, words: Words = ENGLISH, *, over: Chord | None = None) -> str:
    """Return a scale's name, its root before it where that is not the root of the chord it stands over."""
    name = words.named("scale", scale.name)
    if over is not None and over.root is not None and scale.root.pitch_class == over.root.pitch_class:
        return name
    return words("scale.on", root=words.short_note(scale.root), scale=name)


def number_words(number: int, words: Words = ENGLISH) -> str:
    """Return a small number in words, a large one in figures."""
    small = words.table["numbers.small"].split()
    return small[number] if 0 <= number < len(small) else str(number)


def count(number: int, things: str, words: Words = ENGLISH) -> str:
    """Return "one note", "three notes"; `things` are "notes" or "degrees"."""
    return words(f"{things}.{'one' if number == 1 else 'many'}", n=number_words(number, words))


def joined(parts: list[str], words: Words = ENGLISH) -> str:
    """Return "a", "a and b", "a, b and c"."""
    if len(parts) < 2:
        return "".join(parts)
    if len(parts) == 2:
        return words("list.two", first=parts[0], last=parts[1])
    return words("list.last", first=strung(parts[:-1], "list.more", words), last=parts[-1])


def strung(parts: Iterable[str], row: str, words: Words = ENGLISH) -> str:
    """Return parts joined one after the other by a row that has the gaps "first" and "next"."""
    said = ""
    for part in parts:
        said = words(row, first=said, next=part) if said else part
    return said


@lru_cache(maxsize=16)
def joining_word(words: Words) -> str:
    """Return what stands between the two parts of a list: " and "."""
    return words.table["list.two"].partition("{first}")[2].partition("{last}")[0]


@lru_cache(maxsize=16)
def bar_pattern(words: Words) -> re.Pattern[str]:
    """Return what finds a bar's number in a text: "bar 2"."""
    before, _, after = words.table["bar"].partition("{n}")
    return re.compile(rf"(?<!\w){re.escape(before)}\d+{re.escape(after)}")


def interval_words(semitones: int, words: Words = ENGLISH) -> str:
    """Return the name of an interval's size: "a minor sixth", "an octave"."""
    return words.table[f"size.{abs(semitones)}" if abs(semitones) <= 12 else "size.more"]
