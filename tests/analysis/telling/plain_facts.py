"""What a phrase holds, read from its notes and its chord symbols alone, by code of the tests' own.

Nothing here is taken from the analysis: notes are MIDI numbers with places in quarters, chords are read by a
small table of symbols, scales by a table of half steps. Source of both tables: common practice.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction

from shedbook.phrase.model import Phrase, Value

LETTERS = {"C": 0, "D": 2, "E": 4, "F": 5, "G": 7, "A": 9, "B": 11}
SIGNS = {"♭": -1, "♯": 1, "b": -1, "#": 1, "♮": 0}

SCALES = {
    "ionian": "0 2 4 5 7 9 11", "dorian": "0 2 3 5 7 9 10", "phrygian": "0 1 3 5 7 8 10",
    "lydian": "0 2 4 6 7 9 11", "mixolydian": "0 2 4 5 7 9 10", "aeolian": "0 2 3 5 7 8 10",
    "locrian": "0 1 3 5 6 8 10", "melodic minor": "0 2 3 5 7 9 11", "harmonic minor": "0 2 3 5 7 8 11",
    "lydian dominant": "0 2 4 6 7 9 10", "mixolydian b6": "0 2 4 5 7 8 10", "altered": "0 1 3 4 6 8 10",
    "locrian natural 2": "0 2 3 5 6 8 10", "phrygian dominant": "0 1 4 5 7 8 10",
    "half-whole diminished": "0 1 3 4 6 7 9 10", "whole-half diminished": "0 2 3 5 6 8 9 11",
    "whole tone": "0 2 4 6 8 10", "blues": "0 3 5 6 7 10", "minor pentatonic": "0 3 5 7 10",
    "lydian augmented": "0 2 4 6 8 9 11", "dorian b2": "0 1 3 5 7 9 10",
    "locrian natural 6": "0 1 3 5 6 9 10", "ionian augmented": "0 2 4 5 8 9 11",
    "dorian #4": "0 2 3 6 7 9 10",
    "lydian #2": "0 3 4 6 7 9 11", "harmonic major": "0 2 4 5 7 8 11", "dorian b5": "0 2 3 5 6 9 10",
    "phrygian b4": "0 1 3 4 7 8 10", "lydian b3": "0 2 3 6 7 9 11", "mixolydian b2": "0 1 4 5 7 9 10",
    "lydian augmented #2": "0 3 4 6 8 9 11", "locrian bb7": "0 1 3 5 6 8 9", "augmented": "0 3 4 7 8 11",
    "bebop dorian": "0 2 3 5 7 9 10", "bebop melodic minor": "0 2 3 5 7 9 11",
    "major pentatonic": "0 2 4 7 9",
    "major blues": "0 2 3 4 7 9", "chromatic": "0 1 2 3 4 5 6 7 8 9 10 11",
    "bebop dominant": "0 2 4 5 7 9 10", "bebop major": "0 2 4 5 7 9 11", "altered bb7": "0 1 3 4 6 8 9",
}  # fmt: skip
"""Half steps above the root; a bebop scale without its passing note."""

_DEGREES = {
    "root": (0,), "third": (3, 4), "major third": (4,), "minor third": (3,), "fourth": (5,),
    "fifth": (6, 7, 8),
    "natural fifth": (7,), "flat fifth": (6,), "sharp fifth": (8,), "sixth": (9,), "seventh": (9, 10, 11),
    "flat seventh": (10,), "major seventh": (11,), "diminished seventh": (9,), "flat 9": (1,), "9": (2,),
    "sharp 9": (3,), "11": (5,), "sharp 11": (6,), "flat 13": (8,), "13": (9,), "major sixth": (9,),
}  # fmt: skip


def pitch_class(name: str) -> int:
    """Return the pitch class of "B♭"."""
    return (LETTERS[name[0]] + sum(SIGNS[sign] for sign in name[1:])) % 12


@dataclass(frozen=True)
class PlainChord:
    """A chord by its symbol: pitch class of the root, its tones in half steps above it, where it sounds."""

    text: str
    root: int
    third: int
    seventh: int | None
    tones: frozenset[int]
    start: Fraction
    end: Fraction

    def above(self, midi: int) -> int:
        """Return how many half steps a note lies above the root."""
        return (midi - self.root) % 12


@dataclass(frozen=True)
class PlainNote:
    """A note: MIDI number, where it begins and ends in quarters."""

    midi: int
    start: Fraction
    end: Fraction


class Facts:
    """The notes and chords of a phrase in 4/4 or another metre in quarters."""

    def __init__(self, phrase: Phrase) -> None:
        """Read the phrase."""
        metre = phrase.metre
        self.bar = Fraction(4 * metre.beats, metre.unit)
        self.notes = _notes(phrase)
        starts = [
            (change.bar - 1) * self.bar + (change.beat - 1) * 4 / metre.unit for change in phrase.changes
        ]
        end = self.bar * max(bar.number for bar in phrase.bars)
        ends = [*starts[1:], end]
        chords: list[PlainChord] = []
        for change, start, stop in zip(phrase.changes, starts, ends, strict=True):
            chord = _chord(change.chord.text, Fraction(start), Fraction(stop))
            if chords and chords[-1].text == chord.text:
                chord = _chord(chord.text, chords.pop().start, chord.end)
            chords.append(chord)
        self.chords = chords

    def over(self, note: int) -> list[PlainChord]:
        """Return the chords against which a note may be heard: while it sounds, or an eighth later."""
        one = self.notes[note]
        late = max(one.end, one.start + Fraction(1, 2) + Fraction(1, 1000))
        return [
            chord
            for place, chord in enumerate(self.chords)
            if (chord.start < late or place == 0) and (chord.end > one.start or place + 1 == len(self.chords))
        ]

    def midi(self, note: int) -> int:
        """Return the MIDI number of a note."""
        return self.notes[note].midi

    def moves(self, first: int, last: int) -> list[int]:
        """Return the intervals from one note to the next, from one index to another."""
        return [self.midi(at + 1) - self.midi(at) for at in range(first, last)]

    def bar_of(self, note: int) -> int:
        """Return the number of the bar in which a note is struck."""
        return int(self.notes[note].start // self.bar) + 1

    def struck_in(self, bar: int) -> list[PlainNote]:
        """Return the notes that are struck in a bar, their places counted from its beginning."""
        start = (bar - 1) * self.bar
        return [
            PlainNote(one.midi, one.start - start, one.end - start)
            for at, one in enumerate(self.notes)
            if self.bar_of(at) == bar
        ]


def _notes(phrase: Phrase) -> list[PlainNote]:
    found: list[PlainNote] = []
    for bar in phrase.bars:
        at = phrase.bar_start(bar.number)
        for event in bar.events:
            length = sum((_quarters(value) for value in event.values), Fraction(0))
            if event.pitch is not None and event.tie_in and found:
                found[-1] = PlainNote(found[-1].midi, found[-1].start, at + length)
            elif event.pitch is not None:
                found.append(PlainNote(event.pitch.midi, at, at + length))
            at += length
    return found


def _quarters(value: Value) -> Fraction:
    part, dots, actual, normal = value.part, value.dots, value.actual, value.normal
    return Fraction(4, part) * (2 - Fraction(1, 2**dots)) * Fraction(normal, actual)


_SYMBOL = re.compile(r"([A-G])([b#]*)(.*?)(?:/([A-G])([b#]*))?$")


def _chord(text: str, start: Fraction, end: Fraction) -> PlainChord:
    """Read a chord symbol of the kinds that the demo book and the made phrases use."""
    if text == "N.C.":
        return PlainChord(text, 0, 0, None, frozenset(), start, end)
    found = _SYMBOL.match(text)
    assert found is not None, text
    root, kind = pitch_class(found[1] + found[2]), found[3]
    minor = bool(re.match(r"m(?!aj)|dim|-|°|o|ø|h", kind))
    third = (2 if "sus2" in kind else 5) if "sus" in kind else 3 if minor else 4
    flat = re.search(r"dim|°|o|ø|h7|m(?:7|9|11)\(?b5", kind)
    fifth = 6 if flat else 8 if re.search(r"aug|#5|\+", kind) else 7
    seventh: int | None = None
    if re.search(r"maj|Δ|M7|ma7", kind):
        seventh = 11
    elif re.search(r"dim7|°7|o7", kind) or "6" in kind:
        seventh = 9
    elif re.search(r"7|9|11|13|alt", re.sub(r"add\d+|[b#]\d+", "", kind)):
        seventh = 10
    if kind in ("maj", "aug", "dim"):
        seventh = None
    tensions = {"b9": 1, "#9": 3, "#11": 6, "b13": 8}
    named = {tensions[one] for one in re.findall(r"[b#]\d+", kind) if one in tensions}
    plain = re.sub(r"[b#]\d+", "", kind)
    named |= {2} if re.search(r"9|11|13", plain) and not re.search(r"[b#]9", kind) else set()
    named |= {9} if "13" in plain else set()
    named |= {5} if "11" in plain else set()
    if "alt" in kind:
        tones = {0, 4, 10}
    else:
        tones = {0, third, fifth} | ({seventh} if seventh is not None else set()) | named
    bass = {(pitch_class(found[4] + (found[5] or "")) - root) % 12} if found[4] else set()
    return PlainChord(text, root, third, seventh, frozenset(tones | bass), start, end)


_CLAIM = re.compile(
    r"(?<!of )(?<![\w/])([A-G][♭♯♮]*)(?: is|, already|, now)?,? (?:already )?the "
    r"([a-z]+ ?(?:third|fifth|seventh|\d+)|[a-z]+|\d+) of "
    r"([A-G][^\s,;:]*(?:\u00a0minor)?)"
)
"""A name, what it is, and of which chord: "A, the third of F7", "B♭ is the seventh of Cm7"."""


def degree_claims(sentence: str) -> list[tuple[str, str, str]]:
    """Return what a sentence says of notes over chords, as texts."""
    return [(name, degree, chord.rstrip(".")) for name, degree, chord in _CLAIM.findall(sentence)]


def claim_holds(facts: Facts, claim: tuple[str, str, str]) -> bool:
    """Say whether some note of this name sounds over such a chord and is that degree of it."""
    name, degree, symbol = claim
    wanted = _DEGREES[degree]
    for at, note in enumerate(facts.notes):
        if note.midi % 12 != pitch_class(name):
            continue
        for chord in facts.over(at):
            if printed(chord.text) != symbol:
                continue
            above = chord.above(note.midi)
            own = {"third": chord.third, "seventh": chord.seventh, "fourth": 5}.get(degree, above)
            if above in wanted and above == own:
                return True
    return False


def printed(symbol: str) -> str:
    """Return a chord symbol as it stands in a text."""
    root, sign, rest = re.match(r"([A-G])([b#]*)(.*)", symbol).groups()  # type: ignore[union-attr]
    signs = str.maketrans({"b": "♭", "#": "♯"})
    rest = re.sub(r"[b#](?=\d)|(?<=/[A-G])[b#]", lambda found: found[0].translate(signs), rest)
    if rest == "m":
        rest = "\u00a0minor"
    return root + sign.translate(signs) + rest
