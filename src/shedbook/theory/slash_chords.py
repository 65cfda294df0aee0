"""Slash chords: which chord sounds where a chord stands over a bass that is none of its tones.

F/G is a suspended dominant on G and no chord on F. The rows stand in `tables.slash_chords`; a chord that has
none, such as an inversion, is heard on its own root.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache
from types import MappingProxyType

from shedbook.table_index import need
from shedbook.theory.chord import Chord
from shedbook.theory.chord_symbol import parse_chord
from shedbook.theory.interval import degree_interval
from shedbook.theory.pitch import NoteName
from shedbook.theory.tables.slash_chords import SLASH_CHORDS, SlashChordRow

FILE = "src/shedbook/theory/tables/slash_chords.py"
"""Where the table of slash chords stands."""

_C = NoteName(0)
_Upper = tuple[str, str, str, int]
"""Third, fifth and seventh of a chord, and the half steps from the bass up to its root."""


@lru_cache(maxsize=512)
def over_bass(chord: Chord) -> Chord:
    """Return the chord that sounds: for F/G that is G9sus4, and for a chord without a row the chord itself.

    The bass of the chord that is returned is its root, so that it has no slash.
    """
    if chord.root is None or chord.bass is None:
        return chord
    above = (chord.root.pitch_class - chord.bass.pitch_class) % 12
    heard = _HEARD.get((chord.third, chord.fifth, chord.seventh, above))
    return chord if heard is None else heard.transposed(_C.interval_to(chord.bass))


def index(table: tuple[SlashChordRow, ...]) -> Mapping[_Upper, Chord]:
    """Map every upper structure to the chord on C that it is heard as.

    Raises:
        TableError: if two rows are for one upper structure, its bass is one of its tones, or a row has no
            source.
    """
    found: dict[_Upper, Chord] = {}
    for row in table:
        need(bool(row.source), f'"{row.example}" has no source.', f"Write one in {FILE}.")
        above = degree_interval(row.above).semitones % 12
        for quality in row.uppers:
            upper = parse_chord(f"C{quality}")
            need(
                -above % 12 not in upper.pitch_classes,
                f'"{row.example}" stands over one of its own tones.',
                f"It is an inversion: take its row out of {FILE}.",
            )
            key = (upper.third, upper.fifth, upper.seventh, above)
            need(key not in found, f'"{row.example}" has two rows.', f"Take one out of {FILE}.")
            found[key] = parse_chord(f"C{row.heard}")
    return MappingProxyType(found)


_HEARD = index(SLASH_CHORDS)
