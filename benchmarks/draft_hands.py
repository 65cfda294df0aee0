"""How awkward drafts are for the hands, with and without the weight of fingerings.

    python -m benchmarks.draft_hands [--count 8]

Drafts over five progressions in the comfortable range of each instrument, once as they are and once with the
weight of awkward fingerings taken out, from the same seeds. Printed are points a move
(`editions/tables/awkward_moves.py`), less where there is time, the share of moves of two points and more, and
processor seconds.
"""

from __future__ import annotations

import argparse
import time
from itertools import pairwise

from shedbook.draft.drafting import draft
from shedbook.draft.ground import ground_of
from shedbook.draft.hands import haste
from shedbook.draft.order import Order
from shedbook.draft.places import places_of
from shedbook.draft.tables.leanings import LEANINGS
from shedbook.editions.instruments.awkward import awkward
from shedbook.editions.instruments.instrument import Instrument, instrument_named

CHANGES = (
    "Dm7b5 | G7b9 | Cm6 | %",
    "Dm7 | G7 | Cmaj7 | %",
    "F7 | Bb7 | F7 | Cm7 F7",
    "Bbmaj7 Gm7 | Cm7 F7",
    "Ebm7 Ab7 | Dbmaj7",
)
PLAYERS = (
    "clarinet",
    "tenor saxophone",
    "flute",
    "trumpet",
    "horn in F",
    "trombone",
    "guitar",
    "violin",
    "piano",
)
NAME = "awkward fingerings"


def points(instrument: Instrument, count: int, lean: int) -> list[float]:
    """Return the points of every move of the drafts of an instrument."""
    up, band = instrument.transposition.semitones, instrument.bands.comfortable
    low, high = band.low.midi - up, band.high.midi - up
    found: list[float] = []
    for seed, changes in enumerate(CHANGES):
        ground = ground_of(changes)
        order = Order(
            count=count, seed=200 + seed, low=low, high=high, instrument=instrument, leans={NAME: lean}
        )
        for one in draft(ground, order).drafts:
            shares = haste(places_of(one.rhythm, ground), order.tempo)
            moves = zip(pairwise(one.midi), shares[1:].tolist(), strict=True)
            found += [awkward(instrument, *pair) * share for pair, share in moves]
    return found


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--count", type=int, default=8)
    count = parser.parse_args().count
    (weight,) = [row.weight for row in LEANINGS if row.name == NAME]
    for name in PLAYERS:
        said = []
        for lean in (-weight, 0):
            start = time.process_time()
            found = points(instrument_named(name), count, lean)
            hard = sum(one >= 2 for one in found) / len(found)
            said.append(
                f"{sum(found) / len(found):.2f} points a move, {hard:.1%} of 2 and more, "
                f"{time.process_time() - start:.1f} s"
            )
        print(f"{name}: without {said[0]}; with {said[1]}", flush=True)


if __name__ == "__main__":
    main()
