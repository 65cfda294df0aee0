"""How often a phrase ends before a note, by the time since the note before and by the silence between them.

Counted on two thirds of half of the solos of the Weimar Jazz Database (Pfleiderer et al., Inside the
Jazzomat, 2017), where analysts marked the phrases: aggregate figures of some 68,000 notes. Row format: the
least time from the note before, in quarters; then for each class of silence the share of such places that
divide phrases.
"""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple


class BreathRow(NamedTuple):
    """The shares for places where the note before began at least so many quarters earlier."""

    quarters: Fraction
    shares: tuple[float, ...]


SILENCES: tuple[Fraction, ...] = tuple(Fraction(text) for text in ("0", "1/5", "9/20", "3/4", "5/4", "2"))
"""The least silence before the note, in quarters, of each class."""

BREATHS: tuple[BreathRow, ...] = (
    BreathRow(Fraction(0), (0.001, 0.02, 0.28, 0.5, 0.5, 0.5)),
    BreathRow(Fraction(3, 4), (0.002, 0.02, 0.08, 0.54, 0.54, 0.54)),
    BreathRow(Fraction(5, 4), (0.01, 0.11, 0.32, 0.52, 0.8, 0.8)),
    BreathRow(Fraction(7, 4), (0.01, 0.08, 0.39, 0.67, 0.84, 0.93)),
    BreathRow(Fraction(5, 2), (0.02, 0.05, 0.19, 0.76, 0.93, 0.97)),
    BreathRow(Fraction(4), (0.05, 0.15, 0.33, 0.58, 0.96, 0.999)),
)

FEW_NOTES: tuple[float, ...] = (0.007, 0.024, 0.043, 0.045)
"""The share of phrases with one note, two, three and four; those with five to twenty are each about as
frequent as the last, and longer ones have no less than a tenth of that."""
LONGEST_NOTES = 80
"""A phrase of more notes is divided at its likeliest place."""
