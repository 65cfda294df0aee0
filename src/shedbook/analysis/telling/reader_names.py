"""The names of one phrase's notes, degrees, chords and places, as its reader sees them.

Conventions: notes and chords are named in the reader's part, bars and beats as they are counted aloud. A note
stands where it is heard to stand, which is the next beat or bar where it is struck early and held.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from shedbook.analysis.account import Account
from shedbook.analysis.account.note_account import NoteAccount
from shedbook.analysis.hearing.chord_spans import Span
from shedbook.analysis.naming.language import ENGLISH, Words, count, joined, number_words
from shedbook.analysis.naming.spoken_names import (
    bare_degree,
    chord_words,
    degree_words,
    interval_words,
    name_words,
    scale_words,
    spoken_name,
)
from shedbook.analysis.telling.remark import Build
from shedbook.theory.chord import Chord
from shedbook.theory.interval import Interval
from shedbook.theory.metre import beat_words
from shedbook.theory.scale import Scale


@dataclass(frozen=True, slots=True)
class ReaderNames:
    """Names the things of one account in the words of a language.

    `crowded` are the letters that the phrase has with several accidentals.
    """

    account: Account
    crowded: frozenset[str]
    words: Words = ENGLISH

    def builds(self, stem: str, *names: str, goes_on: str = "", **filled: str) -> tuple[Build, ...]:
        """Return the builds of a sentence with the same gaps filled.

        The row of each is called by the stem and its name: "ending.line". The first word of the name is the
        build's kind. The build called `goes_on` makes sense only after a remark on what comes before.
        """
        table = self.words.table
        return tuple(
            [
                Build(name.partition(" ")[0], table[f"{stem}.{name}"], filled, name == goes_on)
                for name in names
            ]
        )

    def name(self, note: NoteAccount) -> str:
        """Return "B flat"; "E natural" where another E is in the phrase."""
        name = note.written.name
        words = name_words(name, self.words)
        if note.inside or (plain := spoken_name(name)).alteration or plain.letter not in self.crowded:
            return words
        return self.words("note.natural", letter=words)

    def names(self, notes: Iterable[NoteAccount]) -> str:
        """Return the names joined, a repeated one once."""
        return self.joined(list(dict.fromkeys(self.name(note) for note in notes)))

    def joined(self, parts: list[str]) -> str:
        """Return "a", "a and b", "a, b and c"."""
        return joined(parts, self.words)

    def number(self, number: int) -> str:
        """Return a number from 0 to 12 in words, any other in figures."""
        return number_words(number, self.words)

    def notes(self, number: int) -> str:
        """Return "one note", "three notes"."""
        return count(number, "notes", self.words)

    def size(self, semitones: int) -> str:
        """Return the name of an interval's size: "a minor sixth"."""
        return interval_words(semitones, self.words)

    def way(self, move: int) -> str:
        """Return "up" or "down" for a move in half steps."""
        return self.words.table["way.up" if move > 0 else "way.down"]

    def scale(self, scale: Scale) -> str:
        """Return a scale's name as it is said: "half-whole" for half-whole diminished."""
        return self.words.named("short scale", scale.name)

    def whole_scale(self, span: Span) -> str:
        """Return the name of a chord's scale, its root before it only where that is not the chord's."""
        return "" if span.scale is None else scale_words(span.scale, self.words, over=span.chord)

    def chord(self, span: Span) -> str:
        """Return the chord's symbol for the reader, or "B flat minor"."""
        return _chord_words(span.chord, self.account.reader, self.words)

    def home(self, span: Span) -> str:
        """Return what a note lies outside of: the chord, or the key where no chord sounds."""
        return self.words("home.key") if span.chord.root is None else self.chord(span)

    def degree(self, note: NoteAccount) -> str:
        """Return "the third", "the flat 9"; "over no chord" where none sounds."""
        if note.span.chord.root is None:
            return self.words("degree.over no chord")
        return degree_words(note.degree, note.span.chord, self.words)

    def bare(self, note: NoteAccount) -> str:
        """Return "third", "flat 9"."""
        return bare_degree(note.degree, note.span.chord, self.words)

    def of_chord(self, note: NoteAccount) -> str:
        """Return "the third of F7b9"; over no chord only "over no chord"."""
        if note.span.chord.root is None:
            return self.words("degree.over no chord")
        return self.words("degree.of chord", degree=self.degree(note), chord=self.chord(note.span))

    def on_beat(self, note: NoteAccount) -> str:
        """Return "on beat one", "on the and of 2", for the place that a note stands for."""
        metre = self.account.phrase.metre
        beat = note.arrival % metre.bar_quarters / metre.beat_quarters + 1
        return _on_beat(beat, self.words)

    def place(self, note: NoteAccount) -> str:
        """Return where a note stands: "beat 3 of bar 2"; "beat one" in a phrase of one bar."""
        metre = self.account.phrase.metre
        beat = note.arrival % metre.bar_quarters / metre.beat_quarters + 1
        return self.beat_of_bar(self.bar_number(note), beat)

    def beat_of_bar(self, bar: int, beat: Fraction) -> str:
        """Return "beat 3 of bar 2"; "beat one" in a phrase of one bar."""
        said = beat_name(beat, self.words)
        if self.account.phrase.full_bars == 1:
            return said
        return self.words("beat.of bar", beat=said, bar=self.words("bar", n=bar))

    def bar_number(self, note: NoteAccount) -> int:
        """Return the number of the bar that a note stands in."""
        return int(note.arrival // self.account.phrase.metre.bar_quarters) + 1

    def bar(self, note: NoteAccount) -> str:
        """Return "bar 2" for the bar that a note stands in."""
        return self.words("bar", n=self.bar_number(note))

    def opens_bar(self, span: Span) -> bool:
        """Whether a chord starts with a bar."""
        return span.start % self.account.phrase.metre.bar_quarters == 0

    def span_place(self, span: Span) -> str:
        """Return "bar 2" for a chord that opens a bar, else "beat 3 of bar 2"."""
        metre = self.account.phrase.metre
        number, rest = divmod(span.start, metre.bar_quarters)
        bar = self.words("bar", n=int(number) + 1)
        if not rest:
            return bar
        return self.words("beat.of bar", beat=beat_name(rest / metre.beat_quarters + 1, self.words), bar=bar)


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
    """Return "beat one" for the first beat, "the and of 2" for a half beat, else "beat 3"."""
    if beat == 1:
        return words("beat.one")
    text = beat_words(beat)
    if beat % 1 == Fraction(1, 2):
        return words("beat.half", n=beat // 1)
    return words("beat.other", n=text)


@lru_cache(maxsize=256)
def _on_beat(beat: Fraction, words: Words) -> str:
    return words("beat.on", beat=beat_name(beat, words))
