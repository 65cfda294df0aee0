"""The instruments that can play the line, the chords or the bass.

Row format: name; General MIDI 1 program (MMA), counted from 0; lowest and highest note as sounding MIDI
numbers (Adler, The Study of Orchestration, from memory); source.
"""

from __future__ import annotations

from typing import NamedTuple


class BandInstrumentRow(NamedTuple):
    """An instrument that can play the line or comp."""

    name: str
    program: int
    lowest: int
    highest: int
    source: str


_ADLER = "General MIDI 1; Adler, from memory"

BAND_INSTRUMENTS: tuple[BandInstrumentRow, ...] = (
    BandInstrumentRow("piano", 0, 21, 108, _ADLER),
    BandInstrumentRow("electric piano", 4, 28, 100, "General MIDI 1; 73 keys, from memory"),
    BandInstrumentRow("organ", 16, 36, 96, "General MIDI 1; five octaves of manual, from memory"),
    BandInstrumentRow("vibraphone", 11, 53, 89, _ADLER),
    BandInstrumentRow("guitar", 26, 40, 88, _ADLER),
    BandInstrumentRow("nylon-string guitar", 24, 40, 83, _ADLER),
    BandInstrumentRow("acoustic bass", 32, 28, 67, _ADLER),
    BandInstrumentRow("electric bass", 33, 28, 67, _ADLER),
    BandInstrumentRow("fretless bass", 35, 28, 67, _ADLER),
    BandInstrumentRow("trumpet", 56, 52, 82, _ADLER),
    BandInstrumentRow("trombone", 57, 40, 77, _ADLER),
    BandInstrumentRow("soprano saxophone", 64, 56, 88, _ADLER),
    BandInstrumentRow("alto saxophone", 65, 49, 80, _ADLER),
    BandInstrumentRow("tenor saxophone", 66, 44, 75, _ADLER),
    BandInstrumentRow("baritone saxophone", 67, 36, 69, _ADLER),
    BandInstrumentRow("clarinet", 71, 50, 94, _ADLER),
    BandInstrumentRow("flute", 73, 60, 96, _ADLER),
)  # fmt: skip

LINE_INSTRUMENT, BASS_INSTRUMENT, COMPING_INSTRUMENT = "clarinet", "acoustic bass", "piano"
"""The clarinet holds every note that phrases for most instruments have, and plays without vibrato."""
