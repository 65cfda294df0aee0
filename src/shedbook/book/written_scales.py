"""The scales of a phrase written out for the reader of an edition: notes, degrees, the chord. Pure."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from shedbook.analysis.heard import Span
from shedbook.book.study import Studied
from shedbook.book.words import Words
from shedbook.phrase.model import Phrase
from shedbook.theory.chord import Chord
from shedbook.theory.pitch import NoteName, Pitch
from shedbook.theory.scale import Scale

_LOWEST_TOP: dict[str, str] = {"G2": "D4", "G2-8": "D4", "F4": "F2", "F4-8": "F2", "C3": "E3", "C4": "C3"}
"""By clef, the lowest root whose octave still lies on the staff or near it."""


@dataclass(frozen=True, slots=True)
class WrittenScale:
    """One scale: `name` is the scale's own name, `chord` what it is played over."""

    name: str
    chord: Chord
    pitches: tuple[Pitch, ...]
    degrees: tuple[str, ...]


def written_scales(studied: Studied, written: Phrase, clef: str) -> tuple[WrittenScale, ...]:
    """Return each scale of a phrase once, as it is read in the key of `written`, with its first chord.

    Args:
        studied: the phrase in concert pitch.
        written: the same phrase as it is read.
        clef: the clef of the edition, as `engrave.score.CLEFS` names it.
    """
    found: dict[tuple[str, NoteName], WrittenScale] = {}
    for span in studied.account.spans:
        if span.scale is None or span.chord.root is None:
            continue
        chord = written.changes[span.first_change].chord
        if chord.root is None:
            continue
        root = chord.root + span.chord.root.interval_to(span.scale.root)
        scale = Scale(root, span.scale.row)
        found.setdefault((scale.name, root), _written(scale, span, chord, clef))
    return tuple(found.values())


def scale_data(scales: tuple[WrittenScale, ...], words: Words) -> list[dict[str, Any]]:
    """Return what the page prints beside each scale."""
    return [{"name": words.named("scale", scale.name)} for scale in scales]


def _written(scale: Scale, span: Span, chord: Chord, clef: str) -> WrittenScale:
    """Spell a scale upwards from its root, and name what each note is over the chord."""
    lowest = Pitch.parse(_LOWEST_TOP[clef])
    root = Pitch.of(scale.root, lowest.octave)
    if root.midi < lowest.midi:
        root = Pitch.of(scale.root, lowest.octave + 1)
    pitches = [root]
    for name in scale.notes[1:]:
        pitch = Pitch.of(name, pitches[-1].octave - 1)
        while pitch.midi <= pitches[-1].midi:
            pitch = Pitch.of(name, pitch.octave + 1)
        pitches.append(pitch)
    top = Pitch.of(scale.root, root.octave + 1)
    degrees = tuple(chord.degree_of(pitch.midi % 12) for pitch in (*pitches, top))
    return WrittenScale(scale.name, chord, (*pitches, top), degrees)
