"""Which accidental each written note must show by the rule of the bar.

An accidental holds for its line or space until the bar line (Gould 2011, Behind Bars, from memory). A note
that is tied over the bar line shows none, and has no effect on the rest of the new bar. Because the reader
may still have its accidental in mind, the next note on its line or space always shows its own.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from shedbook.theory.key import Key
from shedbook.theory.pitch import Pitch

MEI_ACCIDENTALS: Mapping[int, str] = MappingProxyType(
    {-3: "tf", -2: "ff", -1: "f", 0: "n", 1: "s", 2: "x", 3: "ts"}
)
"""The accidentals as MEI writes them, by the half steps by which they alter a note."""

_SHARPS = "FCGDAEB"


def signature_alterations(key: Key | int | None) -> dict[str, int]:
    """Return the letters that a key signature alters, each with 1 for a sharp or -1 for a flat.

    Args:
        key: a key; or the number of sharps of its signature, flats being negative; or None for no signature.
    """
    count = 0 if key is None else key if isinstance(key, int) else key.signature
    letters = _SHARPS[: min(count, 7)] if count >= 0 else _SHARPS[::-1][: min(-count, 7)]
    return {letter: (1 if count > 0 else -1) for letter in letters}


class AccidentalReader:
    """Reads the notes of one bar after another, and says which of them must show an accidental.

    Call `needs` or `tied` for each note in order, and `bar_line` after each bar. Without a key there is no
    key signature.
    """

    def __init__(self, key: Key | int | None = None) -> None:
        self._signature = signature_alterations(key)
        self._bar: dict[int, int | None] = {}

    def bar_line(self) -> None:
        """Begin a new bar, in which no accidental holds yet."""
        self._bar = {}

    def tied(self, pitch: Pitch, *, over_bar: bool) -> None:
        """Read a note that is tied to the one before and shows no accidental.

        Args:
            pitch: its pitch.
            over_bar: whether the tie leads over the bar line.
        """
        if over_bar and pitch.alteration != self._signature.get(pitch.letter, 0):
            self._bar[pitch.step] = None

    def needs(self, pitch: Pitch) -> bool:
        """Read a note that is struck, and say whether it must show its accidental."""
        step, alteration = pitch.step, pitch.alteration
        shown = self._bar.get(step, self._signature.get(pitch.letter, 0)) != alteration
        self._bar[step] = alteration
        return shown
