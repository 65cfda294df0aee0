"""Keys: a tonic and a mode."""

from __future__ import annotations

import re
from dataclasses import dataclass
from types import MappingProxyType

from shedbook.theory.interval import Interval
from shedbook.theory.pitch import NoteName

MODES = ("major", "minor")
_SHORT = re.compile(r"([A-Ga-g][b#♭♯]?) ?(m|min|mi|-|maj|ma|M|Maj|Min)\.?")
"""A key as its chord is written: "Am", "F#min", "Bb maj"."""
_MINOR = ("m", "min", "mi", "-", "Min")
_SIGNS = MappingProxyType({"flat": "b", "sharp": "#"})


@dataclass(frozen=True, slots=True)
class Key:
    """A key: its `tonic`, and its `mode`, "major" or "minor"."""

    tonic: NoteName
    mode: str = "major"

    @classmethod
    def parse(cls, text: str, *, mode: str = "major") -> Key:
        """Read a key such as "C minor", "Bb major", "F#", "D flat major", "Am" or "F#min".

        Args:
            text: the key.
            mode: the mode where the text names none.

        Raises:
            ValueError: if the text is anything else.
        """
        words = text.split()
        if len(words) > 1 and words[1].lower() in _SIGNS:
            words[:2] = [words[0] + _SIGNS[words[1].lower()]]
        short = _SHORT.fullmatch(" ".join(words))
        if short is not None:
            words = [short[1], "minor" if short[2] in _MINOR else "major"]
        if not 1 <= len(words) <= 2 or (len(words) == 2 and words[1].lower() not in MODES):
            raise ValueError(f"{text!r} is not a key")
        return cls(NoteName.parse(words[0]), words[1].lower() if len(words) == 2 else mode)

    def __str__(self) -> str:
        return f"{self.tonic} {self.mode}"

    @property
    def signature(self) -> int:
        """How many sharps the key signature has; flats are negative."""
        return self.tonic.fifths - (3 if self.mode == "minor" else 0)

    def transposed(self, interval: Interval) -> Key:
        """Return the key moved by an interval."""
        return Key(self.tonic + interval, self.mode)
