"""How fast MusicXML is read, against music21's parse of the same file (aim: 20 times faster).

Both start from the bytes on disk. "notes" is what music21's parse does too: the file becomes notes and
chord symbols in memory. "phrases" goes on to what `import` writes: repeats written out, the home key
found, every bar put into the manuscript's form and read back. music21's pickled copies are neither used
nor left behind. The files are single lines, so that both read all of it: two songs and a piano piece of
music21's corpus, and lines of our own making. Ours are timed before music21 is loaded, so that neither
has the other's memory to look after. Times are processor time, the best of some rounds. Run it with

    python benchmarks/exchange_speed.py
    python benchmarks/exchange_speed.py --corpus 6
    python benchmarks/exchange_speed.py --corpus 3 --folder FOLDER

The second way reads every so-manieth file of the corpus and gives the spread of the ratios, the third does so
with the files of a folder. There music21
reads all parts of a score and we the one that `import` takes, having checked the whole file; the spread of
files with one part, of which both read all, stands apart.
"""

from __future__ import annotations

import argparse
import gc
import importlib.util
import sys
import tempfile
import time
import tracemalloc
import warnings
from collections.abc import Callable
from functools import partial
from pathlib import Path
from statistics import median

from shedbook.exchange.ground.report import Reporter
from shedbook.exchange.musicxml.reader import read_line, read_musicxml
from shedbook.exchange.musicxml.writer import musicxml
from shedbook.phrase.fields import phrase_from_fields

CORPUS = (
    "leadSheet/fosterBrownHair.mxl",
    "leadSheet/berlinAlexandersRagtime.mxl",
    "schoenberg/opus19/movement6.mxl",
)
THEIR_ROUNDS, OUR_ROUNDS = 4, 20
AIM = 20


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


def ours_of(path: Path) -> tuple[float, float, float]:
    """Return the times to notes and to phrases in seconds, and the peak of memory in bytes."""
    data = path.read_bytes()
    notes = seconds(partial(_notes_of, path), OUR_ROUNDS)
    phrases = seconds(lambda: read_musicxml(path.read_bytes(), path.name), OUR_ROUNDS)
    tracemalloc.start()
    read_musicxml(data, path.name)
    peak = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    return notes, phrases, peak


def theirs_of(path: Path, rounds: int = THEIR_ROUNDS) -> float:
    """Return the time of music21's parse in seconds."""
    from music21 import converter  # noqa: PLC0415 - loaded after our own reading has been timed

    return seconds(lambda: converter.parse(path, forceSource=True, storePickle=False), rounds)


def _notes_of(path: Path) -> object:
    return read_line(path.read_bytes(), path.name, Reporter(path.name), unroll=False)


def spread(root: Path, every: int) -> None:
    """Print how the ratios are spread over the corpus."""
    from shedbook.exchange.ground.mxl_container import is_container, score_of  # noqa: PLC0415

    files = sorted(path for path in root.rglob("*") if path.suffix in (".xml", ".mxl", ".musicxml"))
    ours: dict[Path, float] = {}
    single: set[Path] = set()
    for path in files[::every]:
        data = path.read_bytes()
        xml = score_of(data, path.name) if is_container(data) else data
        if xml.count(b"<score-part ") == 1:
            single.add(path)
        ours[path] = seconds(partial(_notes_of, path), 5)
    ratios: dict[Path, float] = {}
    for number, path in enumerate(ours):
        gc.collect()
        try:
            ratios[path] = theirs_of(path, 2) / ours[path]
        except Exception as error:  # whatever music21 says, the file cannot be compared
            print(f"{path.name}: music21: {type(error).__name__}")
        if number % 25 == 24:
            print(f"{number + 1} of {len(ours)} files", file=sys.stderr)
    for path in sorted(ratios, key=lambda path: ratios[path])[:3]:
        print(f"{ratios[path]:.1f} times, {ours[path] * 1000:.1f} ms: {path.relative_to(root)}")
    for called, kept in (
        ("all", list(ratios.values())),
        ("one part", [ratio for path, ratio in ratios.items() if path in single]),
        ("several parts", [ratio for path, ratio in ratios.items() if path not in single]),
    ):
        if kept:
            fast = sum(ratio >= AIM for ratio in kept)
            print(
                f"{called:14} {len(kept):4} files: least {min(kept):.1f}, median {median(kept):.1f}, "
                f"most {max(kept):.0f}; {AIM} times or more: {fast}"
            )


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0] if __doc__ else "")
    parser.add_argument("--corpus", type=int, default=0, metavar="N", help="every Nth file of the corpus")
    parser.add_argument("--folder", type=Path, default=None, help="a folder of files instead of the corpus")
    options = parser.parse_args()
    warnings.simplefilter("ignore")
    spec = importlib.util.find_spec("music21")
    if spec is None or spec.origin is None:
        print("music21 is not installed: nothing to compare with")
        return 1
    if options.corpus:
        spread(options.folder or Path(spec.origin).parent / "corpus", options.corpus)
        return 0
    with tempfile.TemporaryDirectory() as folder:
        paths = [Path(spec.origin).parent / "corpus" / name for name in CORPUS]
        for bars in (16, 256):
            path = Path(folder) / f"own-line-{bars}-bars.musicxml"
            path.write_bytes(own_line(bars))
            paths.append(path)
        ours = [ours_of(path) for path in paths]
        print("file                               kB  notes ms  phrases ms  music21 ms     ratios  peak MB")
        for path, (notes, phrases, peak) in zip(paths, ours, strict=True):
            theirs = theirs_of(path)
            print(
                f"{path.name:30} {path.stat().st_size / 1000:6.1f} {notes * 1000:9.2f} {phrases * 1000:11.2f}"
                f" {theirs * 1000:11.1f} {theirs / notes:4.0f}x {theirs / phrases:3.0f}x {peak / 1e6:8.1f}"
            )
    return 0


if __name__ == "__main__":
    sys.exit(main())
