"""How fast large lattices are walked: `python -m benchmarks.lattice_speed`.

The lattice has the size of a drafting automaton: 32 layers of 1,100 states, 7 arcs from each, weights from
dice with a fixed seed. The chain has 64 layers of 200 choices, every step a full table, in plain Python and
on NumPy.
"""

from __future__ import annotations

import random
import time
import tracemalloc
from collections.abc import Callable, Iterator
from itertools import islice

import numpy as np

from shedbook.dense_chains.least_cost import cheapest_pairs, k_cheapest_pairs
from shedbook.dense_chains.sums import count_pairs, log_totals, sampled_rows
from shedbook.lattice.chain import chain_totals, least_chain
from shedbook.lattice.graph import Lattice, count_paths, least_path, sample_paths, totals
from shedbook.lattice.grow import grow
from shedbook.lattice.ranked import best_paths
from shedbook.lattice.semiring import COUNT, LEAST, LOG_SUM

LAYERS, STATES, ARCS = 32, 1_100, 7
LONG, WIDE = 64, 200
SAMPLES, BEST = 2_000, 50


def automaton() -> Lattice[int]:
    dice = random.Random(4)

    def arcs(_: int, state: int) -> Iterator[tuple[int, int]]:
        return iter(
            [(dice.randrange(STATES), dice.randint(1, 9)) for _ in range(ARCS if state >= 0 else STATES)]
        )

    return grow(-1, LAYERS, arcs, lambda _: 0).lattice


def told(name: str, work: Callable[[], object]) -> None:
    start = time.process_time()
    work()
    print(f"{name}: {time.process_time() - start:.3f} s", flush=True)


def main() -> None:
    tracemalloc.start()
    lattice = automaton()
    mega, _ = tracemalloc.get_traced_memory()
    tracemalloc.stop()
    print(f"{sum(map(len, lattice.sources)):,} arcs, {mega / 2**20:.0f} MiB")
    told("grown", automaton)
    told("least path", lambda: least_path(lattice))
    told("number of paths, exactly", lambda: count_paths(lattice))
    told("log-sum", lambda: totals(lattice, LOG_SUM))
    told(f"{BEST} best paths", lambda: list(islice(best_paths(lattice), BEST)))
    ones = lattice.counting()
    told(f"{SAMPLES} samples", lambda: list(islice(sample_paths(ones, COUNT, random.Random(1)), SAMPLES)))

    dice = np.random.default_rng(2)
    single = [dice.integers(0, 100, WIDE) for _ in range(LONG)]
    pair = [dice.integers(0, 100, (WIDE, WIDE)) for _ in range(LONG - 1)]
    own, steps = [one.tolist() for one in single], [table.T.tolist() for table in pair]
    logs, log_pair = [-one / 10 for one in single], [-table / 10 for table in pair]
    told("plain chain, least", lambda: least_chain(own, steps))
    told("dense chain, least", lambda: cheapest_pairs(single, pair))
    assert least_chain(own, steps)[1] == cheapest_pairs(single, pair)
    assert min(chain_totals(own, steps, LEAST)[-1]) == k_cheapest_pairs(single, pair, 1)[0][0]
    told("plain chain, counted", lambda: chain_totals(own, steps, COUNT))
    told("dense chain, counted", lambda: count_pairs(single, pair))
    told(f"dense chain, {BEST} best", lambda: k_cheapest_pairs(single, pair, BEST))
    told("dense chain, log-sum", lambda: log_totals(logs, log_pair))
    found = log_totals(logs, log_pair)
    told(f"dense chain, {SAMPLES} samples", lambda: sampled_rows(found, log_pair, SAMPLES, random.Random(1)))


if __name__ == "__main__":
    main()
