"""The beat that a rhythm divides, and the grids into which it may be divided at a swing ratio.

Conventions: recorded times are grains, 1/5040 of a quarter; written places are slots, 1/1680 of a beat.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from shedbook.errors import MissingRowError
from shedbook.exchange.rhythm.tables.quantise_costs import (
    COMPOUND,
    GRACE_MS,
    GRIDS,
    SHORT,
    SIMPLE,
    SPREAD_MS,
    SPREAD_SHARE,
    GridRow,
)
from shedbook.theory.metre import Metre

_TABLE = "src/shedbook/exchange/rhythm/tables/quantise_costs.py"

GRAINS = 5040
"""How many grains make a quarter."""
SLOTS = 1680
"""How many slots make a beat. Every place of every grid is a whole slot."""

_EXACT_GRAINS = 6
"""How far the onsets of a written file lie from their places: half a tick, of 480 to the quarter."""


@dataclass(frozen=True, slots=True)
class Grid:
    """A row of the table of grids at one swing ratio.

    Attributes:
        row: the row.
        places: where notes may stand, each as (slot, grains) from the beginning of the grid.
    """

    row: GridRow
    places: tuple[tuple[int, int], ...]


@dataclass(frozen=True, slots=True)
class Beat:
    """The beat that a line divides.

    Attributes:
        grains: its length.
        kind: `SIMPLE`, `COMPOUND` or `SHORT` of the table.
        in_bar: how many of them make a bar.
        spread: how far onsets lie from their places, as a standard deviation in grains.
        crushed: the longest time between a grace note and its note, in grains.
        exact: whether the file was written, and not played.
    """

    grains: int
    kind: str
    in_bar: int
    spread: int
    crushed: int
    exact: bool = False

    @property
    def quarters(self) -> Fraction:
        """The length of the beat in quarters."""
        return Fraction(self.grains, GRAINS)


def divided_beat(metre: Metre, tempo_qpm: Fraction, *, exact: bool = False) -> Beat:
    """Return the beat that rhythms in a metre divide.

    Args:
        metre: the metre.
        tempo_qpm: the tempo in quarters a minute.
        exact: whether the file was written, and not played.
    """
    compound = metre.unit >= 8 and metre.beats % 3 == 0
    quarters = 3 * metre.beat_quarters if compound else min(Fraction(1), metre.beat_quarters)
    kind = COMPOUND if compound else SIMPLE if quarters == 1 else SHORT
    grains = int(quarters * GRAINS)
    a_ms = tempo_qpm * GRAINS / 60000
    spread = _EXACT_GRAINS if exact else max(int(SPREAD_MS * a_ms), int(SPREAD_SHARE * grains))
    crushed = 0 if exact else int(GRACE_MS * a_ms)
    return Beat(grains, kind, int(metre.bar_quarters / quarters), max(1, spread), crushed, exact)


def grids_for(beat: Beat, ratio: Fraction) -> tuple[Grid, ...]:
    """Return the grids for a beat; the off-beats of those that bend stand where the ratio puts them."""
    off = ratio / (ratio + 1)
    found = []
    for row in GRIDS:
        if beat.kind not in row.kinds or (row.exact and not beat.exact):
            continue
        if row.bent and ratio == 1 and len(row.places) > 2:
            continue
        places = []
        for place in row.places:
            bent = place
            if row.bent:
                half = Fraction(1, 2)
                bent = place * 2 * off if place <= half else off + (place - half) * 2 * (1 - off)
            places.append((int(place * row.beats * SLOTS), int(bent * row.beats * beat.grains)))
        found.append(Grid(row, tuple(places)))
    return tuple(found)


def check_grids(rows: Sequence[GridRow]) -> None:
    """Check that the first grid of each kind of beat does not divide it, because index 0 means just that.

    Raises:
        MissingRowError: if a kind of beat has no such row, or has it in another place.
    """
    for kind in (SIMPLE, COMPOUND, SHORT):
        first = next((row for row in rows if kind in row.kinds), None)
        if first is None or first.beats != 1 or first.places != (Fraction(0),):
            raise MissingRowError(
                "grids of a beat", f"the {kind} beat alone", _TABLE, "it comes first among those of its kind"
            )


check_grids(GRIDS)
