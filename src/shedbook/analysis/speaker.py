"""How the explanation names things: notes, degrees, chords and places, for the reader's instrument."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from shedbook.analysis.account import Account
from shedbook.analysis.heard import Span
from shedbook.analysis.notes import NoteAccount
from shedbook.analysis.words import bare_degree, chord_words, degree_words, joined, number_words, pitch_words
from shedbook.theory.chord import Chord
from shedbook.theory.interval import Interval
from shedbook.theory.metre import beat_words


@dataclass(frozen=True, slots=True)
class Speaker:
    """Names the things of one account; `crowded` are the letters that occur with several accidentals."""

    account: Account
    crowded: frozenset[str]

    def name(self, note: NoteAccount) -> str:
        """Return "B flat"; "E natural" where another E is in the phrase."""
        words = pitch_words(note.written)
        return f"{words} natural" if words in self.crowded and not note.inside else words

    def names(self, notes: Iterable[NoteAccount]) -> str:
        """Return the names joined, a repeated one once."""
        return joined(list(dict.fromkeys(self.name(note) for note in notes)))

    def chord(self, span: Span) -> str:
        """Return the chord's symbol for the reader, or "B flat minor"."""
        return _chord_words(span.chord, self.account.reader)

    def home(self, span: Span) -> str:
        """Return what a note lies outside of: the chord, or the key where no chord sounds."""
        return "the key" if span.chord.root is None else self.chord(span)

    def degree(self, note: NoteAccount) -> str:
        """Return "the third", "the flat 9"; "over no chord" where none sounds."""
        if note.span.chord.root is None:
            return "over no chord"
        return degree_words(note.degree, note.span.chord)

    def bare(self, note: NoteAccount) -> str:
        """Return "third", "flat 9"."""
        return bare_degree(note.degree, note.span.chord)

    def of_chord(self, note: NoteAccount) -> str:
        """Return "the third of F7b9"; over no chord only "over no chord"."""
        if note.span.chord.root is None:
            return "over no chord"
        return f"{self.degree(note)} of {self.chord(note.span)}"

    def full(self, note: NoteAccount) -> str:
        """Return "A, the third of F7b9"."""
        return f"{self.name(note)}, {self.of_chord(note)}"

    def on_beat(self, note: NoteAccount) -> str:
        """Return "on beat one", "on the and of 2", for the place that a note stands for."""
        metre = self.account.phrase.metre
        beat = note.arrival % metre.bar_quarters / metre.beat_quarters + 1
        return f"on {beat_name(beat_words(beat))}"

    def place(self, note: NoteAccount) -> str:
        """Return "beat 3 of bar 2"; "beat one" in a phrase of one bar."""
        metre = self.account.phrase.metre
        beat = note.arrival % metre.bar_quarters / metre.beat_quarters + 1
        return self.beat_of_bar(self.bar(note), beat)

    def beat_of_bar(self, bar: int, beat: Fraction) -> str:
        """Return "beat 3 of bar 2"; "beat one" in a phrase of one bar."""
        words = beat_name(beat_words(beat))
        return words if self.account.phrase.full_bars == 1 else f"{words} of bar {bar}"

    def bar(self, note: NoteAccount) -> int:
        """Return the bar that a note stands in, which is the next one where it is struck early."""
        return int(note.arrival // self.account.phrase.metre.bar_quarters) + 1

    def span_place(self, span: Span) -> str:
        """Return "bar 2" for a chord that opens a bar, else "beat 3 of bar 2"."""
        metre = self.account.phrase.metre
        bar, rest = divmod(span.start, metre.bar_quarters)
        beat = rest / metre.beat_quarters + 1
        return f"bar {int(bar) + 1}" if beat == 1 else f"{beat_name(beat_words(beat))} of bar {int(bar) + 1}"


@lru_cache(maxsize=1024)
def _chord_words(chord: Chord, reader: Interval) -> str:
    return chord_words(chord.transposed(reader))


def speaker(account: Account) -> Speaker:
    """Return the speaker of an account."""
    seen: dict[str, set[int]] = {}
    for note in account.notes:
        seen.setdefault(note.written.letter, set()).add(note.written.alteration)
    return Speaker(account, frozenset(letter for letter, kinds in seen.items() if len(kinds) > 1))


def beat_name(beat: str) -> str:
    """Return "beat one" for the first beat, "the and of 2" for a half beat, else "beat 3"."""
    if beat == "1":
        return "beat one"
    if beat.endswith("½"):
        return f"the and of {beat[:-1]}"
    return f"beat {beat}"


def count(number: int, noun: str, plural: str = "") -> str:
    """Return "one note", "three notes"."""
    return f"{number_words(number)} {noun if number == 1 else plural or noun + 's'}"


def capital(sentence: str) -> str:
    """Return a sentence with a capital letter at its start."""
    return sentence[:1].upper() + sentence[1:]
