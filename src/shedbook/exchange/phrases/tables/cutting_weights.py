"""How much each share that the analysis counts matters when passages are ranked.

Row format: the name of the share, which is 0 to 1; its weight in hundredths of the rank; the source.
"""

from __future__ import annotations

from typing import NamedTuple


class WeightRow(NamedTuple):
    """One share and its weight."""

    measure: str
    weight: int
    source: str


WEIGHTS: tuple[WeightRow, ...] = (
    WeightRow("accounted", 20, "common practice"),  # notes that have a role
    WeightRow("landings", 15, "common practice"),  # how firm the notes on strong beats are
    WeightRow("links", 15, "common practice"),  # changes of chord entered by step, guide tone or held note
    WeightRow("coverage", 10, "common practice"),  # degrees of the chord scales that are touched
    WeightRow("whole", 25, "common practice"),  # how likely it begins and ends where a phrase does
    WeightRow("played", 15, "common practice"),  # chords over which a note begins: silence teaches nothing
)

FEWEST_NOTES = 4
"""A passage with fewer notes is no phrase to study (common practice)."""
