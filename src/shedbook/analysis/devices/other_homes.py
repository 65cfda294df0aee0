"""Other homes: the chords over which the notes of one dominant, or diminished chord, fit as well.

Which they are is common practice; whether these notes fit is computed: each note that was inside has to be
inside there too, none on a strong beat may be one to pass through, and the third or the seventh of the other
chord has to sound on an accent or first of all.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache

from shedbook.analysis.account import Account
from shedbook.analysis.account.note_account import NoteAccount, notes_by_span
from shedbook.analysis.hearing.chord_spans import Span
from shedbook.theory.chord import Chord, easy_name
from shedbook.theory.chord_symbol import parse_chord
from shedbook.theory.interval import Interval
from shedbook.theory.pitch import NoteName
from shedbook.theory.scale import Scale, parse_scale

TRITONE, FIFTH_UP, DIMINISHED = "tritone substitute", "minor a fifth up", "same diminished scale"

_TRITONE_SCALES = {
    "altered": "lydian dominant", "lydian dominant": "altered", "whole tone": "whole tone",
    "half-whole diminished": "half-whole diminished",
}  # fmt: skip
"""The scale that a tritone away has the same notes, or for a diminished one too [common practice]."""
_FIFTH_UP_SCALES = {"mixolydian": ("m7", "dorian"), "lydian dominant": ("m6", "melodic minor")}
"""The chord and scale a fifth up that have the same notes [common practice]."""
_SYMBOLS = {"altered": "7alt", "lydian dominant": "7#11", "whole tone": "7#5", "half-whole diminished": "7b9"}
_FEWEST_NOTES, _FEWEST_PITCHES = 5, 4


@dataclass(frozen=True, slots=True)
class OtherHome:
    """Chords over which the notes of a span fit too; `third` and `seventh` are notes that are theirs.

    `third` is the index of a note that is the third of the first of the `chords`, and `seventh` of one that
    is its seventh or sixth; either may be None. The chords are in concert pitch.
    """

    kind: str
    span: int
    chords: tuple[Chord, ...]
    third: int | None
    seventh: int | None


def other_homes(account: Account) -> tuple[OtherHome, ...]:
    """Return the other homes of the notes over each dominant and diminished seventh chord, in order."""
    heard = notes_by_span(account.notes)
    found = []
    for span in account.spans:
        notes = heard.get(span.index, [])
        pitches = {note.midi % 12 for note in notes}
        if span.scale is None or len(notes) < _FEWEST_NOTES or len(pitches) < _FEWEST_PITCHES:
            continue
        for kind, homes in _candidates(span):
            fitting = [(chord, scale) for chord, scale in homes if _fits(notes, span, chord, scale)]
            if len(fitting) == len(homes) and not _is_there(account, span, [one for one, _ in fitting]):
                chords = tuple(chord for chord, _ in fitting)
                third = _note_on(notes, chords[0], (chords[0].third,))
                seventh = _note_on(notes, chords[0], (chords[0].seventh,))
                found.append(OtherHome(kind, span.index, chords, third, seventh))
    return tuple(found)


def _candidates(span: Span) -> Iterator[tuple[str, list[tuple[Chord, Scale]]]]:
    """Yield the other homes that common practice names for a chord with its scale."""
    root, scale = span.heard.root, span.scale
    if root is None or scale is None or scale.root.pitch_class != root.pitch_class:
        return
    if span.heard.family == "dominant":
        if scale.name in _TRITONE_SCALES:
            other = _TRITONE_SCALES[scale.name]
            yield TRITONE, [_home(root, 6, _SYMBOLS[other], other)]
        if scale.name in _FIFTH_UP_SCALES:
            yield FIFTH_UP, [_home(root, 7, *_FIFTH_UP_SCALES[scale.name])]
        if scale.name == "half-whole diminished":
            yield DIMINISHED, [_home(root, up, "7b9", scale.name) for up in (3, 6, 9)]
    elif span.heard.seventh == "bb7" and scale.name == "whole-half diminished":
        yield DIMINISHED, [_home(root, up, "dim7", scale.name) for up in (3, 6, 9)]


@lru_cache(maxsize=256)
def _home(root: NoteName, up: int, kind: str, scale: str) -> tuple[Chord, Scale]:
    """Return a chord some semitones above a root, by its easiest name, with its scale."""
    steps = {3: 2, 6: 4, 7: 4, 9: 5}[up]
    name = easy_name(root + Interval(steps, up))
    return parse_chord(f"{name}{kind}"), parse_scale(scale, root=name)


def _fits(notes: list[NoteAccount], span: Span, chord: Chord, scale: Scale) -> bool:
    inside = scale.pitch_classes
    root = 0 if chord.root is None else chord.root.pitch_class
    named = [tone.pitch_class for tone in chord.tones]
    dominant = chord.family == "dominant"
    guides = {named[chord.degrees.index(one)] for one in (chord.third, chord.seventh) if one}
    if any(note.inside and note.midi % 12 not in inside for note in notes):
        return False
    for note in notes:
        rubs = not dominant and note.midi % 12 not in named and (note.midi - 1) % 12 in named
        if note.strong and (not note.inside or rubs or (dominant and (note.midi - root) % 12 == 5)):
            return False
    return any(note.midi % 12 in guides for note in notes if note.landing)


def _is_there(account: Account, span: Span, chords: list[Chord]) -> bool:
    """Whether the phrase itself has one of the chords beside the span, so that it is no news."""
    around = account.spans[max(0, span.index - 1) : span.index + 2]
    roots = {chord.root.pitch_class for chord in chords if chord.root is not None}
    return any(
        one.index != span.index and one.chord.root is not None and one.chord.root.pitch_class in roots
        for one in around
    )


def _note_on(notes: list[NoteAccount], chord: Chord, degrees: tuple[str, ...]) -> int | None:
    """Return the first note that has one of these degrees over a chord."""
    return next((note.index for note in notes if chord.degree_of(note.midi % 12) in degrees), None)
