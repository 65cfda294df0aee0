"""What was read from a file: its phrases, and the report of what could not be kept.

Each remark of the report says one thing and lists the bars to which it applies. Bars are called by the
numbers that the file prints.
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
    """One thing that was changed or left out; `bars` are the labels of its bars, each once."""

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
    """The remarks on one file in the order in which they were first made; `name` is the file's."""

    name: str
    remarks: tuple[Remark, ...] = ()


@dataclass(frozen=True, slots=True)
class Piece:
    """A phrase that was read from a file.

    Attributes:
        phrase: the phrase, in concert pitch.
        first_bar: the label that the file gives to the first bar.
        last_bar: the label that the file gives to the last bar.
        links: the names and web addresses that a file written by shedbook holds for the phrase.
    """

    phrase: Phrase
    first_bar: str = ""
    last_bar: str = ""
    links: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True, slots=True)
class Imported:
    """Everything that was read from one file."""

    pieces: tuple[Piece, ...]
    report: Report

    @property
    def phrases(self) -> tuple[Phrase, ...]:
        """The phrases without the bars from which they come."""
        return tuple(piece.phrase for piece in self.pieces)


class Reporter:
    """Collects the remarks on one file while it is read."""

    def __init__(self, name: str) -> None:
        self.name = name
        self._bars: dict[str, dict[str, None]] = {}

    def note(self, message: str, bar: str = "") -> None:
        """Add a remark, or add a bar to the remark that has the same message.

        Args:
            message: what was changed or left out, without a full stop.
            bar: the label of the bar, "" for the whole file. After 200 different messages no more are kept.
        """
        if message in self._bars or len(self._bars) < _MOST_REMARKS:
            bars = self._bars.setdefault(message, {})
            if bar:
                bars[bar] = None

    def report(self) -> Report:
        """Return the remarks that were collected."""
        return Report(self.name, tuple(Remark(message, tuple(bars)) for message, bars in self._bars.items()))
