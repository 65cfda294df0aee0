"""The scales of a phrase written out for the reader of an edition: notes, degrees, the chord. Pure."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from shedbook.analysis.hearing.chord_spans import Span, degree_names
from shedbook.book.scores.study import Studied
from shedbook.phrase.model import Phrase
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


def _written(scale: Scale, span: Span, chord: Chord, clef: str) -> WrittenScale:
    """Spell a scale upwards from its root, and name what each note is over the chord.

    It stands in the octave with the fewest ledger lines, of two alike in the higher.
    """
    low = _LOWEST_LINE[clef]
    octaves = [_upwards(scale, low.octave + more) for more in (1, 0, -1)]
    pitches = min(octaves, key=lambda found: sum(_ledger_lines(pitch, low) for pitch in found))
    names = degree_names(chord, scale)
    degrees = tuple(names[pitch.midi % 12] for pitch in pitches)
    return WrittenScale(scale.name, chord, pitches, degrees)


def _upwards(scale: Scale, octave: int) -> tuple[Pitch, ...]:
    """Return the notes of a scale from its root in an octave to the next root."""
    pitches = [Pitch.of(scale.root, octave)]
    for name in scale.notes[1:]:
        pitch = Pitch.of(name, pitches[-1].octave - 1)
        while pitch.midi <= pitches[-1].midi:
            pitch = Pitch.of(name, pitch.octave + 1)
        pitches.append(pitch)
    return (*pitches, Pitch.of(scale.root, octave + 1))


def _ledger_lines(pitch: Pitch, low: Pitch) -> int:
    """Return how many ledger lines a note has on a staff whose lowest line is `low`."""
    steps = pitch.step - low.step
    return max(0, -steps // 2, (steps - _STAFF) // 2)
