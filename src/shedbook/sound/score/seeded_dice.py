"""Chance that can be repeated: one stream of dice for each thing that is chosen.

Every choice has a stream of its own, so that a change in one player leaves the others' choices alone.
"""

from __future__ import annotations

import hashlib
import random


def seeded(seed: int, *names: object) -> random.Random:
    """Return dice that depend on the seed and the names alone, and are the same on every machine.

    Args:
        seed: the author's seed of the track.
        names: what the dice are for, as in "bass", the track's name and the number of a passage.
    """
    text = "\x1f".join(str(part) for part in (seed, *names))
    return random.Random(int.from_bytes(hashlib.blake2b(text.encode(), digest_size=8).digest(), "big"))
