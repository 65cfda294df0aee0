"""Keys: a tonic and a mode."""

from __future__ import annotations

from dataclasses import dataclass
from types import MappingProxyType

from shedbook.theory.interval import Interval
from shedbook.theory.pitch import NoteName

MODES = ("major", "minor")
_SIGNS = MappingProxyType({"flat": "b", "sharp": "#"})


@dataclass(frozen=True, slots=True)
class Key:
    """A key: its `tonic`, and its `mode`, "major" or "minor"."""

    tonic: NoteName
    mode: str = "major"

    @classmethod
    def parse(cls, text: str, *, mode: str = "major") -> Key:
        """Read a key such as "C minor", "Bb major", "F#" or "D flat major".

        Args:
            text: the key.
            mode: the mode where the text names none.

        Raises:
            ValueError: if the text is anything else.
        """
        words = text.split()
        if len(words) > 1 and words[1].lower() in _SIGNS:
            words[:2] = [words[0] + _SIGNS[words[1].lower()]]
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
