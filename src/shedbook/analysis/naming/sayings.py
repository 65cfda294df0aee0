"""A sentence before a language says it: the name of its row, and what fills the gaps as values.

What the proof-reader finds is kept so, and put into words for whoever reads it: in English on the command
line, in the language of the book elsewhere. A value that fills a gap says itself in the words that are given,
in the form that the row asks for: "{degree 2}". A text or a number stands as it is.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import NamedTuple, Protocol

from shedbook.analysis.naming.language import ENGLISH, Gaps, Words, joined, strung
from shedbook.analysis.naming.spoken_names import (
    chord_words,
    degree_words,
    interval_words,
    name_words,
    pitch_with_octave,
    scale_words,
    symbol_words,
)
from shedbook.analysis.naming.tables.findings import FINDINGS
from shedbook.theory.chord import Chord
from shedbook.theory.key import Key
from shedbook.theory.pitch import NoteName, Pitch
from shedbook.theory.scale import Scale

COMMAND_LINE_ROWS = {"finding.name": "{typed}"}
"""What English is on the command line: keys and scales are called there as they are typed."""

COMMAND_LINE = Words({**ENGLISH.table, **FINDINGS, **COMMAND_LINE_ROWS})
"""The words in which the command line gives what the proof-reader says of a phrase."""


class Value(Protocol):
    """What fills a gap."""

    def said(self, words: Words, form: int) -> str:
        """Return it in the words of a language, in the form that a row asks for."""
        ...


@dataclass(frozen=True, slots=True)
class Saying:
    """A sentence, or a part of one: a row of the table of words with what fills its gaps."""

    row: str
    filled: tuple[tuple[str, Value | str | int], ...] = ()

    def said(self, words: Words, form: int = 1) -> str:
        """Return it in the words of a language."""
        values = dict(self.filled)
        return words.form_of(self.row, form).format_map(
            Gaps(lambda gap, wanted: _said(values[gap], words, wanted))
        )


def saying(row: str, **filled: Value | str | int) -> Saying:
    """Return the sentence of a row with its gaps filled."""
    return Saying(row, tuple(filled.items()))


def _said(value: Value | str | int, words: Words, form: int) -> str:
    return str(value) if isinstance(value, (str, int)) else value.said(words, form)


class Note(NamedTuple):
    """A note by the name by which it is spoken of: "B♭"; a double accidental gives way to the plain name."""

    name: NoteName

    def said(self, words: Words, form: int) -> str:
        """Return it in words."""
        return name_words(self.name, words)


class WrittenNote(NamedTuple):
    """A note as it is written: "F♭♭"."""

    name: NoteName

    def said(self, words: Words, form: int) -> str:
        """Return it in words."""
        return words.short_note(self.name)


class HighNote(NamedTuple):
    """A note with its octave: "C♯5"; `plain` as it is typed on the command line: "C#5"."""

    pitch: Pitch
    plain: bool = False

    def said(self, words: Words, form: int) -> str:
        """Return it in words."""
        said = pitch_with_octave(self.pitch, words)
        return words("finding.name", name=said, typed=self.pitch) if self.plain else said


class Tonic(NamedTuple):
    """The tonic of a key: "D♭"."""

    name: NoteName

    def said(self, words: Words, form: int) -> str:
        """Return it in words."""
        return words("finding.name", name=words.short_note(self.name), typed=self.name)


class KeyName(NamedTuple):
    """A key: "B♭ minor"."""

    key: Key

    def said(self, words: Words, form: int) -> str:
        """Return it in words."""
        return words("finding.name", name=words.whole_key(str(self.key)), typed=self.key)


class Degree(NamedTuple):
    """What a note is over a chord: "the third"."""

    degree: str
    chord: Chord

    def said(self, words: Words, form: int) -> str:
        """Return it in words."""
        return degree_words(self.degree, self.chord, words, form)


class Size(NamedTuple):
    """The size of an interval: "a minor third"."""

    semitones: int

    def said(self, words: Words, form: int) -> str:
        """Return it in words."""
        return interval_words(self.semitones, words, form)


class ChordName(NamedTuple):
    """A chord as it is said: "B♭ minor", "F7"; by its symbol alone where it is a `symbol`."""

    chord: Chord
    symbol: bool = False

    def said(self, words: Words, form: int) -> str:
        """Return it in words."""
        return (symbol_words if self.symbol else chord_words)(self.chord, words)


class ScaleName(NamedTuple):
    """A scale: "dorian"; with its root where `rooted`: "C dorian"."""

    scale: Scale
    rooted: bool = False

    def said(self, words: Words, form: int) -> str:
        """Return it in words."""
        if not self.rooted:
            name = words.named("short scale", self.scale.name)
            return words("finding.name", name=name, typed=self.scale.name)
        typed = f"{name_words(self.scale.root, words)} {self.scale.name}"
        return words("finding.name", name=scale_words(self.scale, words, short=True), typed=typed)


class Typed(NamedTuple):
    """What stands in the author's file, or has to stand there: the same in every language."""

    text: str

    def said(self, words: Words, form: int) -> str:
        """Return it as it is marked."""
        return words("finding.typed", typed=self.text)


class Several(NamedTuple):
    """Several things: "B♭, C and D"; one that would be said twice is said once."""

    things: tuple[Value, ...]

    def said(self, words: Words, form: int) -> str:
        """Return them in words."""
        return joined(list(dict.fromkeys(one.said(words, form) for one in self.things)), words)


class Strung(NamedTuple):
    """Several things, each joined to those before it by a row: "x or y"."""

    things: tuple[Value, ...]
    row: str

    def said(self, words: Words, form: int) -> str:
        """Return them in words."""
        return strung([one.said(words, form) for one in self.things], self.row, words)


class Beats(NamedTuple):
    """A length in beats: "2 beats", "1/2 beat"."""

    beats: Fraction

    def said(self, words: Words, form: int) -> str:
        """Return it in words."""
        if self.beats.denominator > 1:
            return words("finding.beats" if self.beats < 1 else "finding.beats.many", n=self.beats)
        return words.of_number(int(self.beats), "finding.beats", "finding.beats.many").format(n=self.beats)
