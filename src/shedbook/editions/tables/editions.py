"""Editions for a group of instruments, as the trade sells them.

Row format: name; other names; title; the interval from what sounds up to what is written, as letters and
half steps; clef; three written ranges, of which the group shares the first two, while the third is what at
least one of it can (the octave that sounds is each player's own: a tenor saxophone sounds an octave under a
trumpet); the register policy of `register_costs`; source.
"""

from __future__ import annotations

from typing import NamedTuple


class EditionRow(NamedTuple):
    """One edition for a group."""

    name: str
    aliases: tuple[str, ...]
    title: str
    written_above: tuple[int, int]
    clef: str
    comfortable: str
    full: str
    extreme: str
    policy: str
    source: str


_SHARED = "the table of instruments, voices left out"

EDITIONS: tuple[EditionRow, ...] = (
    EditionRow("concert", ("concert pitch", "concert treble", "c", "treble"),
               "Concert edition", (0, 0), "G2", "G3 E6", "A0 C8", "A0 C8", "author",
               "the author's own register, common practice; three ledger lines lie well; limits: a piano's "
               "compass"),
    EditionRow("bflat", ("b flat", "bb"), "B♭ edition", (1, 2), "G2",
               "D4 A5", "Bb3 C6", "C3 C7", "reader", _SHARED),
    EditionRow("eflat", ("e flat", "eb"), "E♭ edition", (5, 9), "G2",
               "D4 C6", "Bb3 F6", "A3 C7", "reader", _SHARED),
    EditionRow("bass", ("bass clef",), "Bass clef edition", (0, 0), "F4",
               "F2 E4", "E2 E5", "B1 C6", "reader", _SHARED),
    EditionRow("f", ("in f",), "F edition", (4, 7), "G2",
               "G3 G5", "C3 C6", "F#2 E6", "reader", _SHARED),
)  # fmt: skip
