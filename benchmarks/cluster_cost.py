"""What a book costs on a cluster: `python -m benchmarks.cluster_cost [--phrases N] [--price P]`.

Builds an invented book on a Dask cluster of two processes of this machine, without tracks and with them, and
prints processor seconds of all workers for a thousand scores and a thousand tracks, what lies in the shared
folder for them, and what 1,000 books of 65 phrases in 12 keys and 4 editions would take: core hours, hours on
64 cores, and money at a price for a core hour (default .04, a guess: write your own).
Seconds of the clock grow on a busy machine; processor seconds less so.
"""

from __future__ import annotations

import argparse
import importlib
import sys
import tempfile
import time
from pathlib import Path
from typing import Any, NamedTuple

from shedbook.book.manuscript.request import Request
from shedbook.book.verbs.build import build

LINES = (
    "1/8 f4 ab c5 eb d f ab g | f d b4 ab g f d b3 | 1/2 eb4 1/4 c4 - | 1/1 c4",
    "1/8 d4 f a c5 b4 d5 f e | d b4 g f e d c b3 | 1/2 c4 1/4 e g | 1/1 c5",
)
BOOKS, PHRASES, KEYS, EDITIONS, CORES = 1_000, 65, 12, 4, 64


class Spent(NamedTuple):
    """Processor seconds and seconds of the clock."""

    processor_s: float
    clock_s: float
    bytes: int


def processor_time() -> float:
    """Return the processor seconds of a worker so far; runs there."""
    return time.process_time()


def book(root: Path, phrases: int, tracks: bool) -> Path:
    """Write an invented book."""
    (root / "phrases").mkdir(parents=True)
    kinds = '[tracks]\nkinds = ["play-along"]\nformats = ["opus"]\nrounds = 2\n' if tracks else ""
    (root / "manuscript.toml").write_text(
        f'title = "Cost"\neditions = "concert, bflat, eflat, bass"\n{kinds}'
    )
    for number in range(phrases):
        changes = ("Dm7b5 | G7b9 | Cm6 | %", "Dm7 | G7 | Cmaj7 | %")[number % 2]
        (root / "phrases" / f"{number:03}.toml").write_text(
            f'title = "Line {number}"\nchanges = "{changes}"\nline = "{LINES[number % 2]}"\n'
            f"tempo = {100 + number}\n"
        )
    return root


def spent(cluster: Any, client: Any, root: Path, out: Path) -> Spent:
    """Build a book and return what all workers together spent, and how much lies in the store."""
    before, started = sum(client.run(processor_time).values()), time.perf_counter()
    build(Request(root, out, scheduler=cluster.scheduler_address))
    clock = time.perf_counter() - started
    after = sum(client.run(processor_time).values())
    size = sum(path.stat().st_size for path in out.rglob("*") if path.is_file())
    return Spent(after - before, clock, size)


def main() -> int:
    """Measure and print."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--phrases", type=int, default=12)
    parser.add_argument("--price", type=float, default=0.04)
    options = parser.parse_args()
    distributed: Any = importlib.import_module("distributed")
    with (
        tempfile.TemporaryDirectory(prefix="shedbook-cluster-") as name,
        distributed.LocalCluster(
            n_workers=2, threads_per_worker=1, processes=True, dashboard_address=":0", memory_limit=0
        ) as cluster,
        cluster.get_client() as client,
    ):
        folder = Path(name)
        pages = spent(cluster, client, book(folder / "a", options.phrases, tracks=False), folder / "a-out")
        both = spent(cluster, client, book(folder / "b", options.phrases, tracks=True), folder / "b-out")
    scores, tracks = options.phrases * KEYS * EDITIONS, options.phrases * KEYS
    a_score = pages.processor_s / scores
    a_track = max(0.0, both.processor_s - pages.processor_s) / tracks
    print(f"{scores} scores: {1000 * a_score:.1f} processor s a thousand, with their pages")
    print(f"{tracks} tracks of two rounds: {1000 * a_track:.0f} processor s a thousand")
    print(f"in the shared folder: {pages.bytes / scores / 1000:.1f} kB a score, {both.bytes / 1e6:.1f} MB")
    hours = BOOKS * PHRASES * KEYS * (EDITIONS * a_score + a_track) / 3600
    print(f"{BOOKS} books of {PHRASES} phrases, {KEYS} keys, {EDITIONS} editions, a track a key:")
    print(f"{hours:.0f} core hours, {hours / CORES:.1f} h on {CORES} cores")
    print(f"{hours * options.price:.0f} at {options.price} a core hour")
    return 0


if __name__ == "__main__":
    sys.exit(main())
