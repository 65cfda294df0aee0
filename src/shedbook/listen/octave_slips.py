"""Notes that begin an octave away from where they go on, which some instruments and most players do.

A flute, and a saxophone in its middle octave, may start on the octave below for a tenth of a second before
the tone speaks. It is heard as one note.
"""

from __future__ import annotations

from collections.abc import Sequence

from shedbook.listen.evidence import Evidence
from shedbook.listen.note_search import FoundNote

_LONGEST_S = 0.17
_CHANGE_DB = 4.0
_APART_FRAMES = 1
_LOOK_FRAMES = 4


def with_octaves_mended(notes: Sequence[FoundNote], evidence: Evidence) -> tuple[FoundNote, ...]:
    """Return notes with a short one joined to the note an octave away that follows it at an even level.

    Args:
        notes: as they were found.
        evidence: in what they were found.
    """
    found: list[FoundNote] = []
    for note in notes:
        before = found[-1] if found else None
        if before is not None and _goes_on(before, note, evidence):
            found[-1] = note._replace(first=before.first)
        else:
            found.append(note)
    return tuple(found)


def _goes_on(before: FoundNote, note: FoundNote, evidence: Evidence) -> bool:
    if abs(note.midi - before.midi) != 12 or note.first - before.end > _APART_FRAMES:
        return False
    if (before.end - before.first) * evidence.frame_s > _LONGEST_S:
        return False
    level = evidence.level_db
    earlier = level[max(before.first, note.first - _LOOK_FRAMES) : note.first]
    later = level[note.first : note.first + _LOOK_FRAMES]
    if not len(earlier) or not len(later):
        return False
    lowest = float(earlier.min())
    return float(earlier.max()) - lowest < _CHANGE_DB and float(later.max()) - lowest < _CHANGE_DB
