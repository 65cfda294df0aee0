"""Phrases from music21's streams: melodies with chord symbols, and chorale tunes with their analyses."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from typing import Any

from music21 import converter, corpus, harmony, key, meter, note, stream

from shedbook.phrase.model import Bar, ChangeAt, Event, Phrase, Value
from shedbook.theory.chord_symbol import parse_chord
from shedbook.theory.key import Key
from shedbook.theory.metre import Metre
from shedbook.theory.pitch import NoteName, Pitch
from shedbook.theory.progression import infer_key

WITH_CHORDS = (
    # Every monophonic melody in music21's corpus whose file carries chord symbols (the files searched).
    "leadSheet/berlinAlexandersRagtime",
    "leadSheet/fosterBrownHair",
    "nottingham-dataset/reelsa-c",
)

_KINDS = {
    "major": "", "minor": "m", "diminished": "dim", "augmented": "+", "dominant-seventh": "7",
    "major-seventh": "maj7", "minor-seventh": "m7", "half-diminished-seventh": "m7b5",
    "half-diminished": "m7b5", "diminished-seventh": "dim7", "suspended-fourth": "sus4",
    "major-sixth": "6", "minor-sixth": "m6", "dominant-ninth": "9", "dominant": "7",
    "augmented-seventh": "7#5", "augmented-major-seventh": "maj7#5", "minor-major-seventh": "m(maj7)",
}  # fmt: skip


def melodies() -> Iterator[Phrase]:
    """Every melody with chord symbols, cut where the metre changes."""
    for name in WITH_CHORDS:
        parsed = corpus.parse(name)
        for score in getattr(parsed, "scores", None) or [parsed]:
            yield from _phrases(score.parts[0] if score.parts else score, name)


def _phrases(part: Any, name: str) -> Iterator[Phrase]:
    metre = Metre()
    bars: list[Bar] = []
    symbols: list[tuple[int, Fraction, str]] = []
    for measure in part.getElementsByClass(stream.Measure):
        signature = measure.timeSignature
        if signature is not None and Metre.parse(signature.ratioString) != metre:
            if bars:
                yield _phrase(name, metre, bars, symbols)
            metre, bars, symbols = Metre.parse(signature.ratioString), [], []
        read = [_event(one) for one in measure.notesAndRests if not isinstance(one, harmony.ChordSymbol)]
        events = [event for event in read if event is not None]
        if not events:
            continue
        bars.append(Bar(len(bars) + 1, tuple(events)))
        for symbol in measure.getElementsByClass(harmony.ChordSymbol):
            symbols.append((len(bars), Fraction(symbol.offset), _symbol(symbol)))
    if bars:
        yield _phrase(name, metre, bars, symbols)


def _phrase(name: str, metre: Metre, bars: list[Bar], symbols: list[tuple[int, Fraction, str]]) -> Phrase:
    full = metre.bar_quarters
    first = bars[0]
    if first.quarters < full and len(bars) > 1:
        bars = [replace(bar, number=bar.number - 1) for bar in bars]
        symbols = [
            (max(1, bar - 1), offset if bar > 1 else Fraction(0), text) for bar, offset, text in symbols
        ]
    changes = [
        ChangeAt(bar, offset / metre.beat_quarters + 1, parse_chord(text)) for bar, offset, text in symbols
    ]
    changes = changes or [ChangeAt(1, Fraction(1), parse_chord("N.C."))]
    home = infer_key([change.chord for change in changes])
    return Phrase(name, home, metre, tuple(bars), tuple(changes), (None,) * len(changes))


def _event(one: Any) -> Event | None:
    length = Fraction(one.duration.quarterLength)
    if length == 0:
        return None
    if isinstance(one, note.Note):
        tied = one.tie is not None and one.tie.type in ("stop", "continue")
        return Event(pitch_of(one.pitch), values(length), tie_in=tied)
    return Event(None, values(length))


def pitch_of(pitch: Any) -> Pitch:
    """The same pitch in our model."""
    return Pitch.of(NoteName.of(pitch.step, int(pitch.alter)), pitch.octave)


def values(length: Fraction) -> tuple[Value, ...]:
    """Note values that add up to a length in quarters, tied."""
    for triplet in (False, True):
        left = length * 3 / 2 if triplet else length
        found = []
        for part in (1, 2, 4, 8, 16, 32, 64):
            while left >= Fraction(4, part):
                found.append(Value(part, 0, 3, 2) if triplet else Value(part))
                left -= Fraction(4, part)
        if not left:
            return tuple(found)
    raise ValueError(f"{length} is no sum of note values")


def _symbol(symbol: Any) -> str:
    root = str(symbol.root().name).replace("-", "b")
    return root + _KINDS[str(symbol.chordKind)]


_SEVENTHS = {
    ("major", 10): "7", ("major", 11): "maj7", ("minor", 10): "m7", ("minor", 11): "m(maj7)",
    ("diminished", 10): "m7b5", ("diminished", 9): "dim7",
}  # fmt: skip


def chorales(numbers: range) -> Iterator[Phrase]:
    """Tunes of Bach chorales over the chords of the analyses that the corpus carries."""
    for number in numbers:
        analysis = corpus.getWork(f"bach/choraleAnalyses/riemenschneider{number:03d}.rntxt")
        roman = converter.parse(analysis, format="romantext")
        tune = corpus.parse(f"bach/bwv{_BWV[number]}").parts[0]
        yield _chorale(number, tune, roman)


_BWV = {1: "269", 2: "347", 3: "153.1", 4: "86.6", 5: "267", 6: "281", 7: "17.7", 8: "40.8"}


def _chorale(number: int, tune: Any, roman: Any) -> Phrase:
    metre = Metre.parse(tune.recurse().getElementsByClass(meter.TimeSignature).first().ratioString)
    tonic = roman.recurse().getElementsByClass(key.Key).first()
    bars = []
    for measure in tune.getElementsByClass(stream.Measure):
        events = [_event(one) for one in measure.notesAndRests]
        bars.append(Bar(measure.number, tuple(event for event in events if event is not None)))
    changes = []
    for measure in roman.recurse().getElementsByClass(stream.Measure):
        for one in measure.getElementsByClass("RomanNumeral"):
            text = _roman_symbol(one)
            if measure.number and text is not None:
                beat = Fraction(one.offset) / metre.beat_quarters + 1
                changes.append(ChangeAt(measure.number, beat, parse_chord(text)))
    mode = "minor" if tonic.mode == "minor" else "major"
    home = Key(NoteName.parse(tonic.tonic.name.replace("-", "b")), mode)
    return Phrase(
        f"Riemenschneider {number}", home, metre, tuple(bars), tuple(changes), (None,) * len(changes)
    )


def _roman_symbol(one: Any) -> str | None:
    qualities: dict[str, str] = {"major": "", "minor": "m", "diminished": "dim", "augmented": "+"}
    quality = qualities.get(str(one.quality))
    if quality is None:
        return None
    root = str(one.root().name).replace("-", "b")
    if len(one.pitchClasses) < 4:
        return root + quality
    seventh = -1 if one.seventh is None else (one.seventh.pitchClass - one.root().pitchClass) % 12
    return root + _SEVENTHS.get((str(one.quality), int(seventh)), quality)
