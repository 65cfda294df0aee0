"""Instruments: what a player of each reads, and how far it goes.

Row format: name; other names; the interval from what sounds up to what is written, as letters and half
steps; clefs, the usual one first; three written ranges, each inside the next: what lies well, all that the
instrument is expected to have, and what a few players can; source. A written range is what stands on the
staff: a tenor saxophone's C4 sounds B flat 2. Under a clef with an 8 the notes stand by their sound, since
the clef itself says that they sound an octave lower.

"Adler" is Samuel Adler, The Study of Orchestration, from memory: the full ranges. "Solos" are the sounding
ranges measured over transcribed jazz solos, which the full range then follows. The comfortable bands are
common practice: no more than three ledger lines, no weak or shrill ends.
"""

from __future__ import annotations

from typing import NamedTuple


class InstrumentRow(NamedTuple):
    """One instrument; ranges as two pitches, lowest and highest."""

    name: str
    aliases: tuple[str, ...]
    written_above: tuple[int, int]
    clefs: tuple[str, ...]
    comfortable: str
    full: str
    extreme: str
    source: str


_SOLOS = "Adler, from memory, with the range of solos; comfortable: common practice"
_ADLER = "Adler, from memory; comfortable: common practice"
_VOICE = "solo voices: Adler, from memory; comfortable: common practice"

INSTRUMENTS: tuple[InstrumentRow, ...] = (
    InstrumentRow("flute", (), (0, 0), ("G2",), "E4 G6", "C4 C7", "B3 D7", _SOLOS),
    InstrumentRow("clarinet", ("clarinet in b flat", "b flat clarinet"), (1, 2), ("G2",),
                  "G3 C6", "E3 G6", "E3 C7", _SOLOS),
    InstrumentRow("bass clarinet", ("bass clarinet in b flat",), (8, 14), ("G2",),
                  "G3 A5", "Eb3 E6", "C3 G6", _ADLER),
    InstrumentRow("soprano saxophone", ("soprano sax",), (1, 2), ("G2",),
                  "D4 B5", "Bb3 F#6", "Bb3 C7", _SOLOS),
    InstrumentRow("alto saxophone", ("alto sax",), (5, 9), ("G2",),
                  "D4 C6", "Bb3 F6", "Bb3 C7", _SOLOS),
    InstrumentRow("tenor saxophone", ("tenor sax",), (8, 14), ("G2",),
                  "D4 C6", "Bb3 F6", "Bb3 C7", _SOLOS),
    InstrumentRow("baritone saxophone", ("baritone sax", "bari sax"), (12, 21), ("G2",),
                  "D4 C6", "A3 F#6", "A3 C7", _SOLOS),
    InstrumentRow("trumpet", ("trumpet in b flat", "b flat trumpet"), (1, 2), ("G2",),
                  "B3 A5", "F#3 C6", "F#3 E6", _SOLOS),
    InstrumentRow("flugelhorn", ("flugel", "flugel horn"), (1, 2), ("G2",),
                  "A3 A5", "F#3 C6", "F#3 D6", "as the trumpet; comfortable: common practice"),
    InstrumentRow("trombone", ("tenor trombone",), (0, 0), ("F4", "C4"),
                  "F2 G4", "E2 F5", "C2 Bb5", _SOLOS),
    InstrumentRow("horn in F", ("horn", "french horn"), (4, 7), ("G2", "F4"),
                  "G3 G5", "C3 C6", "F#2 E6", _ADLER),
    InstrumentRow("violin", (), (0, 0), ("G2",), "G3 D6", "G3 E7", "G3 A7", _SOLOS),
    InstrumentRow("viola", (), (0, 0), ("C3", "G2"), "C3 E5", "C3 E6", "C3 A6", _ADLER),
    InstrumentRow("cello", ("violoncello",), (0, 0), ("F4", "C4", "G2"),
                  "C2 G4", "C2 E5", "C2 A5", _ADLER),
    InstrumentRow("guitar", ("electric guitar", "jazz guitar"), (7, 12), ("G2",),
                  "E3 C6", "E3 E7", "D3 G7", _SOLOS),
    InstrumentRow("double bass", ("upright bass", "acoustic bass", "contrabass", "string bass"), (7, 12),
                  ("F4", "C4", "G2"), "E2 E4", "E2 G5", "C2 C6", _SOLOS),
    InstrumentRow("electric bass", ("bass guitar",), (7, 12), ("F4",),
                  "E2 E4", "E2 G5", "B1 C6", _SOLOS),
    InstrumentRow("piano", ("piano right hand",), (0, 0), ("G2",),
                  "A3 E6", "C3 C7", "A0 C8", "the compass of the keyboard; bands: common practice"),
    InstrumentRow("vibraphone", ("vibes",), (0, 0), ("G2",), "F3 C6", "F3 F6", "C3 F6", _SOLOS),
    InstrumentRow("soprano voice", (), (0, 0), ("G2",), "D4 G5", "B3 C6", "A3 Eb6", _VOICE),
    InstrumentRow("mezzo-soprano voice", ("mezzo soprano", "mezzo", "mezzo voice"), (0, 0), ("G2",),
                  "B3 E5", "G3 A5", "F3 C6", _VOICE),
    InstrumentRow("alto voice", ("contralto",), (0, 0), ("G2",), "A3 D5", "F3 F5", "E3 A5", _VOICE),
    InstrumentRow("tenor voice", (), (0, 0), ("G2-8",), "D3 G4", "B2 C5", "A2 D5", _VOICE),
    InstrumentRow("baritone voice", (), (0, 0), ("F4",), "B2 E4", "G2 G4", "F2 A4", _VOICE),
    InstrumentRow("bass voice", (), (0, 0), ("F4",), "G2 C4", "E2 F4", "C2 G4", _VOICE),
)  # fmt: skip


class ClefRow(NamedTuple):
    """A clef: its names, and the sign and line that engravers call it by."""

    names: tuple[str, ...]
    clef: str


CLEFS: tuple[ClefRow, ...] = (  # common practice
    ClefRow(("treble", "g"), "G2"),
    ClefRow(("octave treble", "treble 8", "vocal tenor"), "G2-8"),
    ClefRow(("bass", "f"), "F4"),
    ClefRow(("octave bass", "bass 8"), "F4-8"),
    ClefRow(("alto",), "C3"),
    ClefRow(("tenor",), "C4"),
)
