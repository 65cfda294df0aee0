"""Changes that players know by name, in C: for re-fitting phrases, for études and for drills.

Row format: name; aliases; the changes; source. All are common progressions that belong to nobody.
"""

from __future__ import annotations

from typing import NamedTuple


class StockRow(NamedTuple):
    """One progression: its name, other names, its changes in C, and the source."""

    name: str
    aliases: tuple[str, ...]
    changes: str
    source: str


_TRADE = "common practice"

STOCK_CHANGES: tuple[StockRow, ...] = (
    StockRow("blues", ("jazz blues",),
             "C7 | F7 | C7 | Gm7 C7 | F7 | F#dim7 | C7 | Em7b5 A7b9 | Dm7 | G7 | C7 A7 | Dm7 G7", _TRADE),
    StockRow("minor blues", (),
             "Cm7 | Fm7 | Cm7 | C7alt | Fm7 | % | Cm7 | % | Ab7 | G7alt | Cm7 | Dm7b5 G7alt", _TRADE),
    StockRow("sixteen bars", ("turnarounds",),
             "Cmaj7 A7 | Dm7 G7 | Em7 A7 | Dm7 G7 | Cmaj7 C7 | Fmaj7 Fm6 | Em7 A7 | Dm7 G7 | "
             "Cmaj7 A7 | Dm7 G7 | Em7 A7 | Dm7 G7 | Cmaj7 C7 | Fmaj7 Fm6 | Dm7 G7 | C6", _TRADE),
    StockRow("I-VI-ii-V with bridge", ("thirty-two bars", "aaba"),
             "C6 A7 | Dm7 G7 | Em7 A7 | Dm7 G7 | Gm7 C7 | F6 Fm6 | Em7 A7 | Dm7 G7 | "
             "C6 A7 | Dm7 G7 | Em7 A7 | Dm7 G7 | Gm7 C7 | F6 Fm6 | Dm7 G7 | C6 | "
             "E7 | % | A7 | % | D7 | % | G7 | % | "
             "C6 A7 | Dm7 G7 | Em7 A7 | Dm7 G7 | Gm7 C7 | F6 Fm6 | Dm7 G7 | C6", _TRADE),
    StockRow("ii-V-I", ("two five one",), "Dm7 | G7 | Cmaj7 | %", _TRADE),
    StockRow("minor ii-V-i", ("minor two five",), "Dm7b5 | G7b9 | Cm6 | %", _TRADE),
    StockRow("minor ii-V", (), "Dm7b5 | G7b9", _TRADE),
    StockRow("I-VI-ii-V", ("turnaround",), "Cmaj7 A7 | Dm7 G7", _TRADE),
    StockRow("rising diminished", ("rising-diminished opening",), "Cmaj7 C#dim7 | Dm7 D#dim7", _TRADE),
    StockRow("cycle of dominants", ("dominant cycle",), "E7 | A7 | D7 | G7 | Cmaj7 | %", _TRADE),
)  # fmt: skip
