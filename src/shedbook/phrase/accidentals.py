"""Which accidental each written note needs, and which sounds without being written.

An accidental holds for its line or space until the bar line (Gould 2011, Behind Bars, from memory).
A note tied over the bar line needs none, and leaves the rest of that bar as it was before it; because
the reader may still have it in mind, the next note in its place always shows its own accidental.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from shedbook.theory.key import Key
from shedbook.theory.pitch import Pitch

MEI_ACCIDENTALS: Mapping[int, str] = MappingProxyType(
    {-3: "tf", -2: "ff", -1: "f", 0: "n", 1: "s", 2: "x", 3: "ts"}
)
"""Half steps and the accidental as MEI writes it."""

_SHARPS = "FCGDAEB"


def signature_alterations(key: Key | int | None) -> dict[str, int]:
    """Return the letters that a key signature alters; a number counts its sharps, or flats below zero."""
    count = 0 if key is None else key if isinstance(key, int) else key.signature
    letters = _SHARPS[: min(count, 7)] if count >= 0 else _SHARPS[::-1][: min(-count, 7)]
    return {letter: (1 if count > 0 else -1) for letter in letters}


class AccidentalReader:
    """What a reader has in mind while reading one bar after another."""

    def __init__(self, key: Key | int | None = None) -> None:
        self._signature = signature_alterations(key)
        self._bar: dict[int, int | None] = {}

    def bar_line(self) -> None:
        """Forget the accidentals of the bar."""
        self._bar = {}

    def tied(self, pitch: Pitch, *, over_bar: bool) -> None:
        """Take in the further head of a tied note; it needs no accidental."""
        if over_bar and pitch.alteration != self._signature.get(pitch.letter, 0):
            self._bar[pitch.step] = None

    def needs(self, pitch: Pitch) -> bool:
        """Say whether this note must show its accidental, and remember it."""
        step, alteration = pitch.step, pitch.alteration
        shown = self._bar.get(step, self._signature.get(pitch.letter, 0)) != alteration
        self._bar[step] = alteration
        return shown
