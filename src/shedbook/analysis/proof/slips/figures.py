"""The figures of real lines, read from the texts of their tables when they are first asked for.

The tables are texts because they are long: a text is loaded in no time, and read in some milliseconds.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache
from types import MappingProxyType

from shedbook.analysis.proof.slips.tables.chord_figures import PLACE_FIGURES, QUALITY_FIGURES
from shedbook.analysis.proof.slips.tables.line_figures import NOTE_FIGURES, OCTAVE_FIGURES

Figures = Mapping[str, Mapping[tuple[int, ...], int]]
"""For the name of a feature its table: hundredths of a natural logarithm of odds by key."""


@lru_cache(maxsize=1)
def note_figures() -> Figures:
    """Return the figures of notes."""
    return _read(NOTE_FIGURES)


@lru_cache(maxsize=1)
def octave_figures() -> Figures:
    """Return the figures of stretches in another octave."""
    return _read(OCTAVE_FIGURES)


@lru_cache(maxsize=1)
def quality_figures() -> Figures:
    """Return the figures of the qualities of chords."""
    return _read(QUALITY_FIGURES)


@lru_cache(maxsize=1)
def place_figures() -> Figures:
    """Return the figures of the places of chords."""
    return _read(PLACE_FIGURES)


def _read(texts: Mapping[str, str]) -> Figures:
    """Read tables, each a text of "key: figure;" with the numbers of a key divided by spaces."""
    tables: dict[str, Mapping[tuple[int, ...], int]] = {}
    for name, text in texts.items():
        rows = (item.split(":") for item in text.split(";") if item.strip())
        tables[name] = MappingProxyType({tuple(map(int, key.split())): int(figure) for key, figure in rows})
    return MappingProxyType(tables)
