"""The instruments that can play the line, the chords or the bass of a track, by their names."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from shedbook.errors import UnknownNameError, nearest
from shedbook.sound.arranging.tables.band_instruments import (
    BAND_INSTRUMENTS,
    BASS_INSTRUMENT,
    COMPING_INSTRUMENT,
    LINE_INSTRUMENT,
    BandInstrumentRow,
)
from shedbook.table_index import by_names, need

_FILE = "src/shedbook/sound/arranging/tables/band_instruments.py"
_USUAL = (LINE_INSTRUMENT, BASS_INSTRUMENT, COMPING_INSTRUMENT)


def joined_band(
    rows: Iterable[BandInstrumentRow], usual: Iterable[str] = _USUAL
) -> Mapping[str, BandInstrumentRow]:
    """Return instruments by their names.

    Args:
        rows: the rows of the table.
        usual: who plays where the author names nobody.

    Raises:
        TableError: if a name stands twice, a row has no source, no General MIDI program or no range, or one
            of the usual players is not there.
    """
    found = by_names(rows, what="an instrument of the band", file=_FILE)
    for name, row in found.items():
        need(
            0 <= row.program <= 127,
            f'"{name}" has no program.',
            f"Write one of General MIDI, from 0, in {_FILE}.",
        )
        need(
            0 < row.lowest < row.highest < 128,
            f'"{name}" has no range.',
            f"Write its lowest and its highest sounding MIDI number in {_FILE}.",
        )
    for name in usual:
        need(
            name in found,
            f'"{name}" plays where nobody is named, but is no instrument.',
            f"Write it in {_FILE}.",
        )
    return found


_BAND = joined_band(BAND_INSTRUMENTS)


def band_instrument(name: str) -> BandInstrumentRow:
    """Return the row of an instrument; upper and lower case are alike.

    Raises:
        UnknownNameError: if there is none of this name; the hint lists the nearest.
    """
    found = _BAND.get(name.lower())
    if found is None:
        raise UnknownNameError(
            f'"{name}" is not an instrument in the table.',
            hint=nearest(name, _BAND) or f"Known are {', '.join(_BAND)}.",
        )
    return found
