"""What a reader found, and what of it could not be kept.

A remark names a thing once and lists the bars in which it stands; bars are named as the file names them.
"""

from __future__ import annotations

from dataclasses import dataclass

from shedbook.phrase.model import Phrase

OPEN_TIE = "ties that lead to no note of their pitch are left out"
"""The remark on a tie that leads nowhere, which is found inside a bar and between two bars."""

_MOST_REMARKS = 200
_MOST_BARS_SHOWN = 12


@dataclass(frozen=True, slots=True)
class Remark:
    """One thing that is not as it was in the file; `bars` names where, each bar once."""

    message: str
    bars: tuple[str, ...] = ()

    def __str__(self) -> str:
        if not self.bars:
            return f"{self.message}."
        shown = ", ".join(self.bars[:_MOST_BARS_SHOWN])
        more = f" and {len(self.bars) - _MOST_BARS_SHOWN} more" if len(self.bars) > _MOST_BARS_SHOWN else ""
        return f"{self.message} ({'bar' if len(self.bars) == 1 else 'bars'} {shown}{more})."


@dataclass(frozen=True, slots=True)
class Report:
    """The remarks on one file, in the order in which they were first made."""

    name: str
    remarks: tuple[Remark, ...] = ()


@dataclass(frozen=True, slots=True)
class Piece:
    """A phrase that was read, and the bars of the file from which it comes, as the file names them.

    `links` are names and web addresses that a file of ours carries.
    """

    phrase: Phrase
    first_bar: str = ""
    last_bar: str = ""
    links: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True, slots=True)
class Imported:
    """All that was read from one file."""

    pieces: tuple[Piece, ...]
    report: Report

    @property
    def phrases(self) -> tuple[Phrase, ...]:
        """The phrases alone."""
        return tuple(piece.phrase for piece in self.pieces)


class Reporter:
    """Gathers remarks while a file is read."""

    def __init__(self, name: str) -> None:
        self.name = name
        self._bars: dict[str, dict[str, None]] = {}

    def note(self, message: str, bar: str = "") -> None:
        """Add a remark; a message that stands already gets one bar more."""
        if message in self._bars or len(self._bars) < _MOST_REMARKS:
            bars = self._bars.setdefault(message, {})
            if bar:
                bars[bar] = None

    def report(self) -> Report:
        """Return what was gathered."""
        return Report(self.name, tuple(Remark(message, tuple(bars)) for message, bars in self._bars.items()))
