"""Sound that is kept while it is listened to, in half the room: an hour of it is long."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

_LOUDEST = 32_767
_BLOCK = 24_000


class KeptSound:
    """One channel in 16 bits a sample, each block with a scale of its own.

    What is rounded away lies 100 dB under the loudest sample of its block, however softly it was recorded.
    """

    def __init__(self) -> None:
        self._blocks: list[NDArray[np.int16]] = []
        self._scales: list[np.float32] = []
        self._rest = np.zeros(0, np.float32)

    def add(self, samples: NDArray[np.float32]) -> None:
        """Keep more samples."""
        rest = np.concatenate([self._rest, samples])
        whole = len(rest) // _BLOCK * _BLOCK
        for block in rest[:whole].reshape(-1, _BLOCK):
            scale = np.float32(max(float(np.abs(block).max()), 1e-9) / _LOUDEST)
            self._blocks.append(np.rint(block / scale).astype(np.int16))
            self._scales.append(scale)
        self._rest = rest[whole:].copy()

    def __len__(self) -> int:
        """How many samples are kept."""
        return len(self._blocks) * _BLOCK + len(self._rest)

    def __getitem__(self, which: slice) -> NDArray[np.float32]:
        """Return the samples from one place up to another."""
        first, end, _ = which.indices(len(self))
        found = np.empty(max(0, end - first), np.float32)
        at = first
        while at < end:
            number, inside = divmod(at, _BLOCK)
            count = min(end - at, _BLOCK - inside)
            part = slice(inside, inside + count)
            if number < len(self._blocks):
                np.multiply(self._blocks[number][part], self._scales[number], out=found[at - first :][:count])
            else:
                found[at - first :][:count] = self._rest[part]
            at += count
        return found
