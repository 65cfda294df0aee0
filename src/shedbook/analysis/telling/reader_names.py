"""The names of one phrase's notes, degrees, chords and places, as its reader sees them.

Conventions: notes and chords are named in the reader's part, bars and beats as they are counted aloud. A note
stands where it is heard to stand, which is the next beat or bar where it is struck early and held.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction
from functools import lru_cache

from shedbook.analysis.account import Account
from shedbook.analysis.account.note_account import NoteAccount
from shedbook.analysis.hearing.chord_spans import Span
from shedbook.analysis.naming.language import ENGLISH, Words, joined, number_words
from shedbook.analysis.naming.spoken_names import (
    bare_degree,
    chord_words,
    degree_words,
    interval_words,
    name_words,
    scale_words,
    spoken_name,
)
from shedbook.theory.chord import Chord, easy_name
from shedbook.theory.interval import Interval
from shedbook.theory.metre import beat_words
from shedbook.theory.pitch import NoteName
from shedbook.theory.scale import Scale


@dataclass(frozen=True, slots=True)
class ReaderNames:
    """Names the things of one account in the words of a language.

    `crowded` are the letters that the phrase has with several accidentals. `form` is the form of degrees and
    sizes that a sentence asks for, where the language has several.
    """

    account: Account
    crowded: frozenset[str]
    words: Words = ENGLISH
    form: int = 1

    def name(self, note: NoteAccount) -> str:
        """Return "B♭"; "E♮" for an outside note where another E is in the phrase."""
        name = note.written.name
        words = name_words(name, self.words)
        if note.inside or (plain := spoken_name(name)).alteration or plain.letter not in self.crowded:
            return words
        return self.words("short note.natural", letter=words)

    def tone(self, name: NoteName) -> str:
        """Return the name of a tone that is given in concert pitch."""
        return name_words(easy_name(name + self.account.reader), self.words)

    def joined(self, parts: list[str]) -> str:
        """Return "a", "a and b", "a, b and c"."""
        return joined(parts, self.words)

    def number(self, number: int) -> str:
        """Return a number from 0 to 12 in words, any other in figures."""
        return number_words(number, self.words)

    def size(self, semitones: int) -> str:
        """Return the name of an interval's size: "a minor sixth"."""
        return interval_words(semitones, self.words, self.form)

    def scale(self, scale: Scale) -> str:
        """Return a scale's name as it is said: "half-whole" for half-whole diminished."""
        return self.words.named("short scale", scale.name)

    def rooted_scale(self, scale: Scale) -> str:
        """Return a scale's name with its root: "C altered"."""
        return scale_words(scale.transposed(self.account.reader), self.words, short=True)

    def chord(self, span: Span) -> str:
        """Return the chord's symbol for the reader, or "B♭ minor"."""
        return _chord_words(span.chord, self.account.reader, self.words)

    def chord_named(self, chord: Chord) -> str:
        """Return the symbol for the reader of a chord in concert pitch that the phrase need not have."""
        return _chord_words(chord, self.account.reader, self.words)

    def degree(self, note: NoteAccount) -> str:
        """Return "the third", "the flat 9"; "over no chord" where none sounds."""
        if note.span.chord.root is None:
            return self.words.form("degree.over no chord", self.form)
        return degree_words(note.degree, note.span.chord, self.words, self.form)

    def bare(self, note: NoteAccount) -> str:
        """Return "third", "flat 9"."""
        return bare_degree(note.degree, note.span.chord, self.words, self.form)

    def of_chord(self, note: NoteAccount) -> str:
        """Return "the third of F7b9"; over no chord only "over no chord"."""
        if note.span.chord.root is None:
            return self.words.form("degree.over no chord", self.form)
        return self.words("degree.of chord", degree=self.degree(note), chord=self.chord(note.span))

    def on_beat(self, note: NoteAccount) -> str:
        """Return "on beat 1", "on the and of 2", for the place that a note stands for."""
        metre = self.account.phrase.metre
        beat = note.arrival % metre.bar_quarters / metre.beat_quarters + 1
        return _on_beat(beat, self.words)

    def bar_number(self, note: NoteAccount) -> int:
        """Return the number of the bar that a note stands in; that of a pick-up is 0."""
        return int(note.arrival // self.account.phrase.metre.bar_quarters) + 1

    def bar(self, note: NoteAccount) -> str:
        """Return "bar 2" for the bar that a note stands in."""
        return self.bars(self.bar_number(note), self.bar_number(note))

    def bars(self, first: int, last: int) -> str:
        """Return "bar 2", "bars 2 and 3", "bars 2 to 4"; "the pick-up" for bar 0."""
        if first == last:
            pick_up = first < 1
            return self.words.form("bar.pick-up" if pick_up else "bar", self.form, n=first)
        row = "bars.two" if last == first + 1 else "bars.many"
        return self.words.form(row, self.form, first=first, last=last)

    def placed(self, bar: int, text: str) -> str:
        """Return a sentence with its bar before it: "in bar 2, every note falls off the beat"."""
        bars = {f"bar {form}": replace(self, form=form).bars(bar, bar) for form in (2, 3)}
        return self.words("placed", text=text, bar=self.bars(bar, bar), **bars)


@lru_cache(maxsize=1024)
def _chord_words(chord: Chord, reader: Interval, words: Words) -> str:
    return chord_words(chord.transposed(reader), words)


def reader_names(account: Account, words: Words = ENGLISH) -> ReaderNames:
    """Return the names of the things of an account, as its reader sees them, in the words of a language."""
    seen: dict[str, set[int]] = {}
    for note in account.notes:
        seen.setdefault(note.written.letter, set()).add(note.written.alteration)
    return ReaderNames(account, frozenset(letter for letter, kinds in seen.items() if len(kinds) > 1), words)


@lru_cache(maxsize=256)
def beat_name(beat: Fraction, words: Words = ENGLISH) -> str:
    """Return "the and of 2" for a half beat, else "beat 3"."""
    if beat % 1 == Fraction(1, 2):
        return words("beat.half", n=beat // 1)
    return words("beat.other", n=beat_words(beat))


@lru_cache(maxsize=256)
def _on_beat(beat: Fraction, words: Words) -> str:
    return words("beat.on", beat=beat_name(beat, words))
