"""Slots: what stands in the gaps of a remark, as typed values, before a language puts them into words.

A remark is a kind with slots; the row of its kind is a sentence pattern with the slots' names as gaps. A
slot is a small frozen value that says itself in the words of a reader's language. Notes are given by their
index, chords by that of their span, intervals in semitones.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple, TypeAlias

from shedbook.analysis.telling.reader_names import ReaderNames
from shedbook.theory.chord import Chord
from shedbook.theory.pitch import NoteName
from shedbook.theory.scale import Scale


class Note(NamedTuple):
    """A note by its name: "B♭"."""

    note: int

    def said(self, say: ReaderNames) -> str:
        """Return it in words."""
        return say.name(say.account.notes[self.note])


class Notes(NamedTuple):
    """Several notes by their names: "B♭, C and D"; a name that comes again is said again unless `once`."""

    notes: tuple[int, ...]
    once: bool = True

    def said(self, say: ReaderNames) -> str:
        """Return them in words."""
        names = [say.name(say.account.notes[note]) for note in self.notes]
        return say.joined(list(dict.fromkeys(names)) if self.once else names)


class Degree(NamedTuple):
    """What a note is over its chord: "the third"; `bare` without an article: "third"."""

    note: int
    bare: bool = False

    def said(self, say: ReaderNames) -> str:
        """Return it in words."""
        note = say.account.notes[self.note]
        return say.bare(note) if self.bare else say.degree(note)


class Degrees(NamedTuple):
    """What several notes are over their chord: "the 9 and the 13"."""

    notes: tuple[int, ...]

    def said(self, say: ReaderNames) -> str:
        """Return them in words."""
        return say.joined(list(dict.fromkeys(say.degree(say.account.notes[note]) for note in self.notes)))


class Of(NamedTuple):
    """What a note is, and of which chord: "the third of F7"."""

    note: int

    def said(self, say: ReaderNames) -> str:
        """Return it in words."""
        return say.of_chord(say.account.notes[self.note])


class Moves(NamedTuple):
    """Pairs of notes, each from one to the other: "B♭ to A and A♭ to G"; the same names are said once."""

    pairs: tuple[tuple[int, int], ...]

    def said(self, say: ReaderNames) -> str:
        """Return them in words."""
        notes = say.account.notes
        moves = [say.words("move", a=say.name(notes[a]), b=say.name(notes[b])) for a, b in self.pairs]
        return say.joined(list(dict.fromkeys(moves)))


class Meanings(NamedTuple):
    """What notes are, each over its own chord: "the third of F7, the 9 of Bb7"."""

    notes: tuple[int, ...]

    def said(self, say: ReaderNames) -> str:
        """Return them in words."""
        return say.joined([say.of_chord(say.account.notes[note]) for note in self.notes])


class Over(NamedTuple):
    """A chord of the phrase, by its span: "B♭7"."""

    span: int

    def said(self, say: ReaderNames) -> str:
        """Return it in words."""
        return say.chord(say.account.spans[self.span])


class Chords(NamedTuple):
    """Chords that the phrase need not have, in concert pitch: "G7, B♭7 and D♭7"."""

    chords: tuple[Chord, ...]

    def said(self, say: ReaderNames) -> str:
        """Return them in words."""
        return say.joined([say.chord_named(chord) for chord in self.chords])


class ScaleName(NamedTuple):
    """A scale without its root: "dorian"; with it where `rooted`: "C dorian"."""

    scale: Scale
    rooted: bool = False

    def said(self, say: ReaderNames) -> str:
        """Return it in words."""
        return say.rooted_scale(self.scale) if self.rooted else say.scale(self.scale)


class Tone(NamedTuple):
    """A tone in concert pitch that the line need not have: "A♭"."""

    name: NoteName

    def said(self, say: ReaderNames) -> str:
        """Return it in words."""
        return say.tone(self.name)


class Bar(NamedTuple):
    """The bar that a note stands in: "bar 2"."""

    note: int

    def said(self, say: ReaderNames) -> str:
        """Return it in words."""
        return say.bar(say.account.notes[self.note])


class BarNumber(NamedTuple):
    """A bar by its number: "bar 2"; with `last` several bars: "bars 2 and 3", "bars 2 to 4"."""

    first: int
    last: int = 0

    def said(self, say: ReaderNames) -> str:
        """Return it in words."""
        return say.bars(self.first, self.last or self.first)


class When(NamedTuple):
    """The beat that a note stands for: "on beat 3", "on the and of 2"."""

    note: int

    def said(self, say: ReaderNames) -> str:
        """Return it in words."""
        return say.on_beat(say.account.notes[self.note])


class Size(NamedTuple):
    """The size of an interval: "a minor third"."""

    semitones: int

    def said(self, say: ReaderNames) -> str:
        """Return it in words."""
        return say.size(self.semitones)


class Way(NamedTuple):
    """The direction of an interval: "up"; `compared` to another place: "higher"."""

    semitones: int
    compared: bool = False

    def said(self, say: ReaderNames) -> str:
        """Return it in words."""
        up = "up" if self.semitones > 0 else "down"
        return say.words(f"way.compared {up}" if self.compared else f"way.{up}")


class Count(NamedTuple):
    """A number: "three"; larger ones in figures."""

    number: int

    def said(self, say: ReaderNames) -> str:
        """Return it in words."""
        return say.number(self.number)


Slot: TypeAlias = (
    Note | Notes | Degree | Degrees | Of | Moves | Meanings | Over | Chords | ScaleName | Tone | Bar
    | BarNumber | When | Size | Way | Count
)  # fmt: skip


def with_degrees(slots: dict[str, Slot]) -> Iterator[int]:
    """Yield the notes whose degree is told by one of these slots."""
    for slot in slots.values():
        if isinstance(slot, (Degree, Of)):
            yield slot.note
        elif isinstance(slot, (Degrees, Meanings)):
            yield from slot.notes


def named_notes(slot: Slot) -> tuple[int, ...]:
    """Return the notes that a slot speaks of; a slot that only says where one stands speaks of none."""
    if isinstance(slot, (Note, Degree, Of)):
        return (slot.note,)
    if isinstance(slot, (Notes, Degrees, Meanings)):
        return slot.notes
    return tuple(note for pair in slot.pairs for note in pair) if isinstance(slot, Moves) else ()
