"""The levels of the demonstration's phrases against a ranking by hand.

    python -m benchmarks.level_agreement

Every third phrase was given a level from 1 to 5 by one reader of the book, from line, changes and
tempo, before the program's own were looked at: 1 for a student who knows the modes of major and
reads eighths, 2 with one new thing (a blue note, a tie over every bar, a pattern in leaps), 3 for
altered and diminished sounds, two chords a bar or sixteenths, 4 for changes out of the key at that
speed, 5 for all of it at once. It is the project's own judgement, no teacher's.
"""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from types import MappingProxyType

from scipy.stats import spearmanr

from shedbook.analysis.account.phrase_account import account
from shedbook.book.manuscript.opening import open_manuscript
from shedbook.book.manuscript.source import read_phrase

DEMO = Path(__file__).parents[1] / "examples" / "tidewater"

BY_HAND = MappingProxyType(
    {
        "Salt on the rail": 1, "Swell under the pier": 1, "The pilot's warning": 3, "Rip tide": 3,
        "Harbour light": 2, "Rigging": 3, "Long swell": 3, "Crossed oars": 2, "Slack rope": 3,
        "Anchor chain": 2, "Old rope": 3, "Sandals": 2, "Ferry bell": 4, "Gangplank": 3, "Sea wall": 3,
        "Bilge pump": 3, "Five-oared boat": 3, "The neighbour's mooring": 3,
        "Four steps to the water": 4, "Up the shingle": 3, "Shutters": 2, "Night ferry": 2,
        "Saturday, late": 3, "Sunday, late": 2, "Bosun's ladder": 4, "Two harbours": 4,
        "Open moorings": 2, "Glass float": 2,
    }
)  # fmt: skip


AFTERWARDS = MappingProxyType(
    {
        "Ebb": 2, "Breakwater light": 2, "Cross-currents": 3, "Ring bolts": 3, "Under the awning": 3,
        "Fog signal": 3, "Lee shore": 4, "Low water": 3, "Cliff path": 3, "Capstan": 2,
        "Two flights down": 4, "Signal lamp": 3, "Short chop": 4, "Wet footprints": 2,
        "Down the slip": 3, "A cable's length": 3, "Below the waterline": 3, "Galley door": 2,
        "The last bend": 4, "The long breakwater": 2, "Ginger beer": 2, "Saturday, early": 2,
        "Sunday, early": 1, "Colour of the hulls": 2, "Drifting off": 3, "Three harbours": 4,
        "Lamp room": 2, "All round the lighthouse": 3,
    }
)  # fmt: skip
"""Phrases that were ranked after the limits had been set, and before their levels were looked at."""


def levels(by_hand: Mapping[str, int]) -> dict[str, tuple[int, int]]:
    """Return of each ranked phrase the level by hand and the program's."""
    return {
        source.title: (by_hand[source.title], account(read_phrase(source)).difficulty.level)
        for source in open_manuscript(DEMO).phrases
        if source.title in by_hand
    }


def main() -> None:
    for name, by_hand in (("by which limits were set", BY_HAND), ("ranked afterwards", AFTERWARDS)):
        found = levels(by_hand)
        hand, ours = zip(*found.values(), strict=True)
        apart = [abs(one - other) for one, other in found.values()]
        print(f"{len(found)} phrases {name}: {apart.count(0)} of the same level, {apart.count(1)} one apart")
        print(f"  Spearman's rank correlation {spearmanr(hand, ours).statistic:.2f}")
        for title, (one, other) in found.items():
            if abs(one - other) > 1:
                print(f"  {title}: {one} by hand, {other} by the program")


if __name__ == "__main__":
    main()
