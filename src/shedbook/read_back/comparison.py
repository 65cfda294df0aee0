"""What a page says held against the phrase that it should show."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import lru_cache

from shedbook.errors import ChordSymbolError
from shedbook.phrase.feels import feel_row
from shedbook.phrase.model import MARKS, ChangeAt, Phrase, Sounding, sounding_notes
from shedbook.read_back.reading import ReadBar, ReadNote, ReadPitch, ReadScore
from shedbook.read_back.tempo_marks import ReadTempo
from shedbook.read_back.written_notes import HEAD_WIDTH
from shedbook.theory.chord import Chord
from shedbook.theory.chord_symbol import parse_chord
from shedbook.theory.metre import beat_words
from shedbook.theory.pitch import Pitch

_ASTRAY = 1.6
"""How far a chord symbol may begin from what stands on its beat, in staff spaces."""


_UNDER = 1.3
"""How far from the middle of its head the middle of a degree may stand, in staff spaces."""

_SET_FREELY = str.maketrans(
    {"(": "", ")": "", ",": "", "♭": "b", "♯": "#", "△": "Δ", "∆": "Δ", "º": "°", "˚": "°", "∅": "ø"}
    | {"Ø": "ø", "–": "-", "−": "-", "𝄫": "bb", "𝄪": "##", "♮": ""}
)
"""How the characters of a chord symbol are compared: "" for those that a page adds or leaves out."""


@dataclass(frozen=True, slots=True)
class Mismatch:
    """One place where a page does not say what it should.

    Attributes:
        bar: the bar, a pick-up being 0.
        beat: the beat from 1 in the metre's denominator.
        expected: what the phrase has there.
        read: what the page says.
    """

    bar: int
    beat: Fraction
    expected: str
    read: str

    def __str__(self) -> str:
        return f"bar {self.bar}, beat {beat_words(self.beat)}: {self.expected}, but the page says {self.read}"


def bar_lengths(phrase: Phrase) -> tuple[Fraction, ...]:
    """Return how long each bar of a phrase is, in quarters, as `read_score` takes it."""
    full = phrase.metre.bar_quarters
    return tuple(full if bar.number else bar.quarters for bar in phrase.bars)


def mismatches(
    score: ReadScore, phrase: Phrase, *, signature: bool = False, reminders: frozenset[int] | None = None
) -> list[Mismatch]:
    """Return where a score does not say what a phrase has, from the first bar to the last.

    Pitches with their spelling, places, lengths and marks of struck notes, grace notes, the length of each
    bar, the metre, the key signature and the chord symbols are compared. A symbol has to mean the phrase's
    chord and to have its letters.

    Args:
        score: the score as it was read.
        phrase: the phrase in the key and the pitch in which it should be printed.
        signature: whether its key signature should be printed.
        reminders: the struck notes that should show a courtesy accidental, or None where that is not known.
    """
    found = list(_head(score, phrase, signature))
    numbers = [bar.number for bar in phrase.bars]
    if len(score.bars) != len(numbers):
        found.append(Mismatch(numbers[0], Fraction(1), f"{len(numbers)} bars", f"{len(score.bars)}"))
    for index, says in score.faults:
        found.append(Mismatch(numbers[min(index, len(numbers) - 1)], Fraction(1), "clear notation", says))
    if len(score.bars) == len(numbers):
        notes = sounding_notes(phrase)
        for number, bar, lasts in zip(numbers, score.bars, bar_lengths(phrase), strict=True):
            if bar.quarters != lasts:
                found.append(
                    Mismatch(number, Fraction(1), f"{_quarters(lasts)} in the bar", _quarters(bar.quarters))
                )
            found += _notes(phrase, number, bar, [note for note in notes if note.bar == number])
            found += _symbols(phrase, number, bar)
        found += _slurs(phrase, score)
        found += _signs(phrase, score, notes, reminders)
    return sorted(dict.fromkeys(found), key=lambda one: (one.bar, one.beat))


def _quarters(length: Fraction) -> str:
    return f"{length} quarter{'s' if length != 1 else ''}"


def _head(score: ReadScore, phrase: Phrase, signature: bool) -> Iterator[Mismatch]:
    first = phrase.bars[0].number
    metre = (phrase.metre.beats, phrase.metre.unit)
    if score.metre != metre:
        read = "no metre" if score.metre is None else f"{score.metre[0]}/{score.metre[1]}"
        yield Mismatch(first, Fraction(1), f"{metre[0]}/{metre[1]}", read)
    count = phrase.key.signature if signature else 0
    count = max(-7, min(7, count))
    if score.signature != count:
        yield Mismatch(first, Fraction(1), f"a key signature of {count}", f"one of {score.signature}")


# Notes.


def _notes(phrase: Phrase, number: int, bar: ReadBar, notes: Sequence[Sounding]) -> Iterator[Mismatch]:
    """Yield what is wrong with the struck notes of a bar."""
    start = phrase.bar_start(number)
    wanted = {note.start - start: note for note in notes}
    read = {note.start: note for note in bar.notes}
    for place in sorted(wanted.keys() | read.keys()):
        beat = _beat(phrase, number, place)
        expected, found = wanted.get(place), read.get(place)
        if expected is None or found is None:
            yield Mismatch(number, beat, _said(expected), "no note" if found is None else str(found.pitch))
        elif (wrong := _difference(phrase, expected, found)) is not None:
            yield Mismatch(number, beat, *wrong)


def _said(note: Sounding | None) -> str:
    return "no note struck" if note is None else str(note.pitch)


def _beat(phrase: Phrase, number: int, place: Fraction) -> Fraction:
    """Return the beat of a place in a bar; a pick-up's beats are the last of a whole bar."""
    if number == 0:
        place += phrase.metre.bar_quarters - phrase.bars[0].quarters
    return place / phrase.metre.beat_quarters + 1


def _difference(phrase: Phrase, expected: Sounding, found: ReadNote) -> tuple[str, str] | None:
    if str(expected.pitch) != str(found.pitch):
        return str(expected.pitch), str(found.pitch)
    if expected.quarters != found.quarters:
        return f"{expected.pitch} for {_quarters(expected.quarters)}", f"{_quarters(found.quarters)}"
    bar, event = expected.event
    grace = " ".join(str(pitch) for pitch in phrase.bars[bar].events[event].grace)
    read = " ".join(str(pitch) for pitch in found.grace)
    if grace != read:
        return f"the grace notes {grace or 'none'}", read or "none"
    if found.marks != set(expected.marks):
        return f"{expected.pitch} with {_marks(expected.marks)}", _marks(found.marks)
    return None


def _marks(marks: Collection[str]) -> str:
    return " and ".join(mark for mark in MARKS if mark in marks) or "no mark"


def _slurs(phrase: Phrase, score: ReadScore) -> Iterator[Mismatch]:
    """Yield that there are too many or too few slurs; one that a system's end divides has two arcs."""
    system_of = [bar.system for bar in score.bars]
    begun: list[int] = []
    arcs = 0
    for index, bar in enumerate(phrase.bars):
        for event in bar.events:
            for _ in range(min(event.slurs_close, len(begun))):
                arcs += 1 + system_of[index] - system_of[begun.pop()]
            begun += [index] * event.slurs_open
    if arcs != score.slurs:
        yield Mismatch(phrase.bars[0].number, Fraction(1), f"{arcs} arcs of slurs", f"{score.slurs}")


def _signs(
    phrase: Phrase, score: ReadScore, notes: Sequence[Sounding], reminders: frozenset[int] | None
) -> Iterator[Mismatch]:
    """Yield courtesy accidentals that are missing, where it is known which there should be."""
    read = [note for bar in score.bars for note in bar.notes]
    if reminders is None or len(read) != len(notes):
        return
    for index in sorted(reminders):
        if read[index].sign is None:
            note = notes[index]
            yield Mismatch(note.bar, note.beat, f"{note.pitch} with its accidental", "none")


# Chord symbols.


def _symbols(phrase: Phrase, number: int, bar: ReadBar) -> Iterator[Mismatch]:
    changes = [change for change in phrase.changes if change.bar == number]
    for index in range(max(len(changes), len(bar.symbols))):
        change = changes[index] if index < len(changes) else None
        symbol = bar.symbols[index] if index < len(bar.symbols) else None
        beat = change.beat if change is not None else changes[-1].beat if changes else Fraction(1)
        expected = change.chord.text if change is not None else "no chord symbol"
        if change is None or symbol is None:
            yield Mismatch(number, beat, expected, symbol.text if symbol is not None else "no chord symbol")
        elif not _says(symbol.text, change.chord):
            yield Mismatch(number, beat, expected, symbol.text)
        elif _is_astray(phrase, change, symbol.x, bar):
            yield Mismatch(number, beat, f"{expected} on this beat", "it stands elsewhere")


def _says(text: str, chord: Chord) -> bool:
    """Say whether a symbol means a chord, in the letters in which it was written, brackets apart."""
    return _meaning(text) == _nameless(chord) and _bare(text) == _bare(chord.text)


@lru_cache(maxsize=1024)
def _bare(text: str) -> str:
    """Return a symbol without what a page sets in its own way: brackets, commas, signs that look alike."""
    return re.sub("(?<=[A-G#b])o", "°", text).translate(_SET_FREELY)


@lru_cache(maxsize=1024)
def _nameless(chord: Chord) -> Chord:
    """Return what a chord means, however it is written."""
    return replace(chord, text="")


@lru_cache(maxsize=1024)
def _meaning(text: str) -> Chord | None:
    try:
        return replace(parse_chord(text), text="")
    except ChordSymbolError:
        return None


def _is_astray(phrase: Phrase, change: ChangeAt, x: float, bar: ReadBar) -> bool:
    """Say whether a symbol stands away from its beat, as far as a note or rest there shows it."""
    place = (change.beat - 1) * phrase.metre.beat_quarters
    for at, anchor in bar.anchors:
        if at == place and len(bar.anchors) > 1:
            return abs(anchor - x) > _ASTRAY
    return False


# Tempo, degrees, tablature and scales.


def tempo_mismatches(score: ReadScore, phrase: Phrase, feel: str) -> Iterator[Mismatch]:
    """Yield that feel and tempo over a score are other than they should be.

    Args:
        score: the score as it was read.
        phrase: the phrase that it should show.
        feel: the words for its feel; "" where nothing should stand over the score.
    """
    wanted: ReadTempo | None = None
    if feel:
        steady = feel_row(phrase.feel).steady
        beat, number = (phrase.metre.tapped_quarters, str(phrase.tempo_bpm)) if steady else (None, None)
        wanted = ReadTempo(feel.replace(" ", ""), beat, number)
    read = score.tempo
    if wanted is not None and read is not None and _same_letters(wanted.feel, read.feel):
        read = replace(read, feel=wanted.feel)
    if wanted != read:
        yield Mismatch(phrase.bars[0].number, Fraction(1), _tempo(wanted), _tempo(read))


def _same_letters(wanted: str, read: str) -> bool:
    """Say whether two texts agree wherever a letter could be read."""
    return len(wanted) == len(read) and all(two in (one, "?") for one, two in zip(wanted, read, strict=True))


def _tempo(tempo: ReadTempo | None) -> str:
    if tempo is None:
        return "no feel and no tempo over the score"
    if tempo.beat is None:
        return f"{tempo.feel or 'no feel'} and no tempo"
    return f"{tempo.feel or 'no feel'}, {_quarters(tempo.beat)} = {tempo.number or 'nothing'}"


def degree_mismatches(score: ReadScore, phrase: Phrase, under: Mapping[int, str]) -> Iterator[Mismatch]:
    """Yield the degrees under notes that are other than they should be, missing, too many or astray.

    Args:
        score: the score as it was read.
        phrase: the phrase that it should show.
        under: by struck note the degree that should stand under it.
    """
    struck = [(bar, note) for bar in score.bars for note in bar.notes]
    notes = sounding_notes(phrase)
    if len(struck) != len(notes):
        return
    left = {id(bar): list(bar.degrees) for bar in score.bars}
    for index, ((bar, read), note) in enumerate(zip(struck, notes, strict=True)):
        here = [one for one in left[id(bar)] if abs(one.x - read.x - HEAD_WIDTH / 2) < _UNDER]
        nearest = min(here, key=lambda one: abs(one.x - read.x - HEAD_WIDTH / 2), default=None)
        wanted = under.get(index, "")
        if wanted and nearest is not None:
            left[id(bar)].remove(nearest)
        if wanted and (nearest is None or nearest.text != wanted):
            said = nearest.text if nearest is not None else "nothing"
            yield Mismatch(note.bar, note.beat, f"the degree {wanted} under {note.pitch}", said)
    for number, bar in zip((bar.number for bar in phrase.bars), score.bars, strict=False):
        for one in left[id(bar)]:
            yield Mismatch(number, Fraction(1), "no further degree", one.text)


def tab_mismatches(
    score: ReadScore, phrase: Phrase, stops: Sequence[tuple[int, int] | None]
) -> Iterator[Mismatch]:
    """Yield the struck notes whose figure in the tablature is another than it should be, or is missing.

    Args:
        score: the score as it was read.
        phrase: the phrase that it should show.
        stops: for each struck note its string and its fret, None where it is not on the fingerboard.
    """
    struck = [(bar, note) for bar in score.bars for note in bar.notes]
    notes = sounding_notes(phrase)
    if len(struck) != len(notes):
        return
    for (bar, read), note, stop in zip(struck, notes, stops, strict=True):
        near = [
            (fret.string, fret.fret)
            for fret in bar.frets
            if not fret.small and not fret.bracketed and abs(fret.x - read.x - HEAD_WIDTH / 2) < 0.7
        ]
        wanted = [] if stop is None else [stop]
        if near != wanted:
            yield Mismatch(note.bar, note.beat, f"the tablature {_stops(wanted)}", _stops(near))
    figures = sum(1 for bar in score.bars for fret in bar.frets if not fret.small and not fret.bracketed)
    if figures != sum(1 for stop in stops if stop is not None):
        yield Mismatch(phrase.bars[0].number, Fraction(1), "a figure for each note", f"{figures} figures")


def _stops(stops: Sequence[tuple[int, int]]) -> str:
    return " and ".join(f"fret {fret} on string {string}" for string, fret in stops) or "no figure"


def scale_mismatch(pitches: Sequence[ReadPitch], symbol: str, expected: Sequence[Pitch], chord: Chord) -> str:
    """Return what is wrong with a written-out scale, "" where nothing is."""
    wanted, read = " ".join(map(str, expected)), " ".join(map(str, pitches))
    if wanted != read:
        return f"{wanted}, but the page says {read or 'nothing'}"
    if not _says(symbol, chord):
        return f"over {chord.text}, but the page says {symbol or 'nothing'}"
    return ""
