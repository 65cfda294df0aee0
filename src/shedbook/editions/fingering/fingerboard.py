"""Fingerboards: the open strings and the frets of an instrument, and where on them a note is found."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import lru_cache

from shedbook.editions.tables.fingerboards import FINGERBOARDS, FingerboardRow
from shedbook.editions.tables.instruments import INSTRUMENTS, InstrumentRow
from shedbook.table_index import need
from shedbook.theory.pitch import Pitch

FEWEST_STRINGS, MOST_STRINGS = 3, 12
FEWEST_FRETS, MOST_FRETS = 5, 36
USUAL_FRETS = 24


@dataclass(frozen=True, slots=True)
class Fingerboard:
    """The strings and frets of an instrument.

    Attributes:
        strings: the open strings as they sound, in the order in which tablature draws them, from the lowest
            line up. Players count them from the other end: string 1 is the last one here.
        frets: the number of frets.
    """

    strings: tuple[Pitch, ...]
    frets: int

    def places(self, midi: int) -> tuple[tuple[int, int], ...]:
        """Return every place of a sounding MIDI number, as (string from 1, fret); () where there is none."""
        count = len(self.strings)
        return tuple(
            (count - index, midi - string.midi)
            for index, string in enumerate(self.strings)
            if 0 <= midi - string.midi <= self.frets
        )

    def open_midi(self, string: int) -> int:
        """Return the MIDI number of a string, counted from 1, when it is open."""
        return self.strings[len(self.strings) - string].midi

    @property
    def tuning(self) -> str:
        """The open strings as the author writes them: "E2 A2 D3 G3 B3 E4"."""
        return " ".join(map(str, self.strings))


def read_strings(text: str) -> tuple[Pitch, ...]:
    """Read a tuning such as "D2 A2 D3 G3 B3 E4": the open strings as they sound, from the lowest line up.

    Raises:
        ValueError: if a name is not a note with its octave, or there are too few or too many strings. Its
            text says what is wrong, as the end of a sentence.
    """
    names = text.replace("♭", "b").replace("♯", "#").replace(",", " ").split()
    found = []
    for name in names:
        try:
            found.append(Pitch.parse(name))
        except ValueError:
            raise ValueError(f'"{name[:20]}" is not a note with its octave') from None
    if not FEWEST_STRINGS <= len(found) <= MOST_STRINGS:
        raise ValueError(f"it names {len(found)} strings, not {FEWEST_STRINGS} to {MOST_STRINGS}")
    return tuple(found)


FILE = "src/shedbook/editions/tables/fingerboards.py"
"""Where the fingerboards stand."""


@lru_cache(maxsize=1)
def fingerboards() -> Mapping[str, Fingerboard]:
    """Return the fingerboards of the table, by the name of the instrument.

    Raises:
        TableError: as `joined_fingerboards`.
    """
    return joined_fingerboards(FINGERBOARDS, INSTRUMENTS)


def joined_fingerboards(
    rows: Iterable[FingerboardRow], instruments: Iterable[InstrumentRow]
) -> Mapping[str, Fingerboard]:
    """Return the fingerboards of some rows, by the name of the instrument.

    Raises:
        TableError: if one belongs to no instrument, stands twice, cannot be tuned, or has no source.
    """
    names = {row.name for row in instruments}
    found: dict[str, Fingerboard] = {}
    for row in rows:
        said = f"The fingerboard of the {row.instrument or 'instrument without a name'}"
        need(
            row.instrument in names,
            f"{said} belongs to no instrument.",
            f'Write InstrumentRow("{row.instrument}", …) in src/shedbook/editions/tables/instruments.py.',
        )
        need(row.instrument not in found, f"{said} stands twice.", f"Take one of the two out of {FILE}.")
        need(bool(row.source), f"{said} has no source.", f"Write one in {FILE}.")
        need(
            FEWEST_FRETS <= row.frets <= MOST_FRETS,
            f"{said} has {row.frets} frets.",
            f"Write {FEWEST_FRETS} to {MOST_FRETS} in {FILE}.",
        )
        try:
            found[row.instrument] = Fingerboard(read_strings(row.strings), row.frets)
        except ValueError as error:
            need(
                False, f"{said} cannot be tuned: {error}.", f'Write its strings in {FILE}, as "E1 A1 D2 G2".'
            )
    return found
