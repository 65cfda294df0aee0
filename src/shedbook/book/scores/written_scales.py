"""The scales of a phrase written out for the reader of an edition: notes, degrees, the chord. Pure.

A scale has the letters of the line above it. A note of the scale that the line does not play, or that it
writes in two ways, has the letter of the scale's own row.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from shedbook.analysis.hearing.chord_spans import Span, degree_names
from shedbook.book.scores.study import Studied
from shedbook.phrase.model import Phrase, sounding_notes
from shedbook.theory.chord import Chord
from shedbook.theory.pitch import NoteName, Pitch
from shedbook.theory.scale import Scale

_LOWEST_LINE: Mapping[str, Pitch] = MappingProxyType(
    {
        clef: Pitch.parse(note)
        for clef, note in (
            ("G2", "E4"), ("G2-8", "E3"), ("F4", "G2"), ("F4-8", "G1"), ("C3", "F3"), ("C4", "D3"),
        )
    }
)  # fmt: skip
"""By clef, the note on the lowest line of the staff, as it sounds where the clef says another octave."""
_STAFF = 8
"""Steps from the lowest line of the staff to the highest."""


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
        clef: the clef of the edition, as `engrave.notation.mei_score.CLEFS` names it.
    """
    found: dict[tuple[str, NoteName], WrittenScale] = {}
    letters = _letters_in_line(studied, written)
    for span in studied.account.spans:
        if span.scale is None or span.chord.root is None:
            continue
        chord = written.changes[span.first_change].chord
        if chord.root is None:
            continue
        scale = _scale_in(span, chord)
        if (scale.name, scale.root) not in found:
            called = letters.get((scale.name, scale.root), {})
            found[scale.name, scale.root] = _written(scale, called, chord, clef)
    return tuple(found.values())


def _scale_in(span: Span, chord: Chord) -> Scale:
    """Return the scale of a span over its chord as the chord is called for the reader."""
    assert span.scale is not None
    assert span.chord.root is not None
    assert chord.root is not None
    return Scale(chord.root + span.chord.root.interval_to(span.scale.root), span.scale.row)


def _letters_in_line(
    studied: Studied, written: Phrase
) -> Mapping[tuple[str, NoteName], Mapping[int, NoteName]]:
    """Return for each scale how the line calls its notes, by pitch class, where it calls them in one way."""
    found: dict[tuple[str, NoteName], dict[int, set[NoteName]]] = {}
    for note, seen in zip(studied.account.notes, sounding_notes(written), strict=True):
        chord = written.changes[note.span.first_change].chord
        if note.span.scale is None or note.span.chord.root is None or chord.root is None:
            continue
        scale, name = _scale_in(note.span, chord), seen.pitch.name
        found.setdefault((scale.name, scale.root), {}).setdefault(name.pitch_class, set()).add(name)
    return {
        scale: {pitch_class: min(names) for pitch_class, names in called.items() if len(names) == 1}
        for scale, called in found.items()
    }


def _written(scale: Scale, called: Mapping[int, NoteName], chord: Chord, clef: str) -> WrittenScale:
    """Spell a scale upwards from its root, and name what each note is over the chord.

    `called` are the names that the line gives to pitch classes. The scale stands in the octave with the
    fewest ledger lines, of two alike in the higher.
    """
    low = _LOWEST_LINE[clef]
    names = (scale.root, *(called.get(name.pitch_class, name) for name in scale.notes[1:]))
    octaves = [_upwards(names, low.octave + more) for more in (1, 0, -1)]
    pitches = min(octaves, key=lambda found: sum(_ledger_lines(pitch, low) for pitch in found))
    called_by_chord = degree_names(chord, scale)
    degrees = tuple(called_by_chord[pitch.midi % 12] for pitch in pitches)
    return WrittenScale(scale.name, chord, pitches, degrees)


def _upwards(names: tuple[NoteName, ...], octave: int) -> tuple[Pitch, ...]:
    """Return the notes of a scale by their names, from its root in an octave to the next root."""
    pitches = [Pitch.of(names[0], octave)]
    for name in names[1:]:
        pitch = Pitch.of(name, pitches[-1].octave - 1)
        while pitch.midi <= pitches[-1].midi:
            pitch = Pitch.of(name, pitch.octave + 1)
        pitches.append(pitch)
    return (*pitches, Pitch.of(names[0], octave + 1))


def _ledger_lines(pitch: Pitch, low: Pitch) -> int:
    """Return how many ledger lines a note has on a staff whose lowest line is `low`."""
    steps = pitch.step - low.step
    return max(0, -steps // 2, (steps - _STAFF) // 2)
