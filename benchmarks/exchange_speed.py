"""How fast MusicXML is read, against music21's parse of the same file (aim: 20 times faster).

Both start from the bytes on disk; music21's pickled copies are neither used nor left behind. The files
are single lines, so that both read all of it: two songs of music21's corpus, one of its folk-song-like
parts, and a line of our own making with a bar for each of its phrases. Run it with

    python benchmarks/exchange_speed.py
"""

from __future__ import annotations

import sys
import tempfile
import time
import tracemalloc
import warnings
from collections.abc import Callable
from pathlib import Path

from shedbook.exchange.musicxml_in import read_musicxml
from shedbook.exchange.musicxml_out import musicxml
from shedbook.phrase.fields import phrase_from_fields

CORPUS = (
    "leadSheet/fosterBrownHair.mxl",
    "leadSheet/berlinAlexandersRagtime.mxl",
    "schoenberg/opus19/movement6.mxl",
)
MUSICXML_ROUNDS, OUR_ROUNDS = 3, 15


def own_line(bars: int) -> bytes:
    """Return a score of so many bars of eighths over changes."""
    bar = "1/8 d5 f ab c6 bb5 ab g f"
    fields = {
        "title": "Long shore",
        "changes": " | ".join(["Dm7b5 G7b9", "Cm6 C7alt"] * (bars // 2)),
        "line": " | ".join([bar] * bars),
    }
    return musicxml(phrase_from_fields(fields)).encode()


def seconds(work: Callable[[], object], rounds: int) -> float:
    """Return the least processor time of some rounds."""
    times = []
    for _ in range(rounds):
        start = time.process_time()
        work()
        times.append(time.process_time() - start)
    return min(times)


def main() -> int:
    import music21  # noqa: PLC0415 - slow to load, and only this program needs it

    warnings.simplefilter("ignore")
    root = Path(music21.__file__).parent / "corpus"
    with tempfile.TemporaryDirectory() as folder:
        paths = [root / name for name in CORPUS]
        for bars in (16, 256):
            path = Path(folder) / f"own-line-{bars}-bars.musicxml"
            path.write_bytes(own_line(bars))
            paths.append(path)
        print(f"{'file':34} {'kB':>7} {'shedbook ms':>12} {'music21 ms':>11} {'ratio':>6} {'peak MB':>8}")
        for path in paths:
            row(path)
    return 0


def row(path: Path) -> None:
    from music21 import converter  # noqa: PLC0415

    data = path.read_bytes()
    theirs = seconds(lambda: converter.parse(path, forceSource=True, storePickle=False), MUSICXML_ROUNDS)
    ours = seconds(lambda: read_musicxml(path.read_bytes(), path.name), OUR_ROUNDS)
    tracemalloc.start()
    read_musicxml(data, path.name)
    peak = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    print(
        f"{path.name:34} {len(data) / 1000:7.1f} {ours * 1000:12.2f} {theirs * 1000:11.1f} "
        f"{theirs / ours:5.0f}x {peak / 1e6:8.1f}"
    )


if __name__ == "__main__":
    sys.exit(main())
