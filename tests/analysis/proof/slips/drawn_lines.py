"""Lines drawn by chance over one row of changes, as an author might have typed them; each is heard once."""

from __future__ import annotations

import random
from functools import lru_cache

from analysis.helpers import read
from shedbook.analysis.proof.slips.typed_line import TypedLine, typed_line

CHORDS = "Dm7 G7 | Cmaj7 | Eb7#9 | Bm7b5 E7b9 | Am6 | N.C. | F6 Bdim7 | C7sus4"
NAMES = ("c", "c#", "d", "eb", "e", "f", "f#", "g", "ab", "a", "bb", "b")


def _drawn(dice: random.Random, most: int) -> TypedLine:
    """Draw a line within so many half steps, so that much comes back; a note in eight is a rest."""
    return typed_line(read(CHORDS, " | ".join(_bar(dice, most) for _ in CHORDS.split(" | "))))


def _bar(dice: random.Random, most: int) -> str:
    midis = [dice.randint(62, 62 + most) for _ in range(8)]
    return "1/8 " + " ".join(
        "-" if dice.random() < 1 / 8 else f"{NAMES[midi % 12]}{midi // 12 - 1}" for midi in midis
    )


@lru_cache(maxsize=1)
def drawn() -> tuple[TypedLine, ...]:
    """Return the lines, heard when they are first asked for."""
    return tuple(_drawn(random.Random(seed), most) for seed, most in enumerate((4, 9, 9, 20)))
