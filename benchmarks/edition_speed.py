"""A book in four editions against the bare cost of Verovio and Typst on the same scores.

65 phrases, twelve keys and a large score in the home key each, for concert, B flat, E flat and bass clef:
3,380 scores, 3,120 of them the keys, and the phrases' written-out scales. Bare: processes that load each
score into Verovio and write its SVG, then one Typst call an edition, as many at a time as there are
processes. Ours: `shedbook build` cold, again with nothing changed, and with a fifth edition added. Peak
memory is that of the largest process, and of all processes of a build together, looked at every twentieth
of a second.
"""

from __future__ import annotations

import json
import shutil
import subprocess
import sys
import tempfile
import time
from collections.abc import Sequence
from pathlib import Path

from benchmarks.build_speed import BARE, JOBS, PHRASES, ROOT, Timed, given_to_verovio, timed, write_book

from shedbook.engrave.engraver import verovio_door

EDITIONS = ("concert", "bflat", "eflat", "bass")
FEW = 10
"""A smaller book, to see whether memory grows with the number of phrases."""


def main() -> None:
    with tempfile.TemporaryDirectory(prefix="shedbook-bench-") as name:
        folder = Path(name)
        book = write_book(folder / "book")
        scores = folder / "scores.json"
        phrases = given_to_verovio(book, singly=True, editions=EDITIONS)
        work = {"options": verovio_door._OPTIONS, "phrases": phrases, "books": len(EDITIONS)}
        scores.write_text(json.dumps(work), encoding="utf-8")
        _report(folder, book, scores)


def _report(folder: Path, book: Path, scores: Path) -> None:
    out = folder / "out"
    build = [sys.executable, "-m", "shedbook", "build", str(book), "--out", str(out), "--jobs", str(JOBS)]
    four = [*build, "--editions", ",".join(EDITIONS)]
    start = min(timed([sys.executable, "-c", "pass"]).seconds for _ in range(7))
    bare, cold = [], []
    for _ in range(2):
        bare.append(timed([*BARE, str(scores), str(folder / "bare"), str(JOBS)]))
        shutil.rmtree(out, ignore_errors=True)
        cold.append(timed(four))
    warm = [timed(four) for _ in range(5)]
    more = timed([*build, "--editions", ",".join([*EDITIONS, "f"])])
    phases = json.loads((folder / "bare" / "phases.json").read_text())
    bare_s, cold_s, warm_s = (_seconds(runs) for runs in (bare, cold, warm))
    print(f"{PHRASES} phrases, twelve keys, {len(EDITIONS)} editions, {JOBS} processes, best of several runs")
    print(f"  bare Verovio and Typst   {bare_s:7.2f} s   {phases['verovio']:.2f} and {phases['typst']:.2f}")
    ratio = (cold_s - start) / (bare_s - start)
    processor = min(run.processor_s for run in cold) / min(run.processor_s for run in bare)
    print(
        f"  build, cold              {cold_s:7.2f} s   {ratio:.2f} of bare ({processor:.2f} in processor s); "
        "aim: at most 1.15"
    )
    share = (warm_s - start) / cold_s
    print(f"  build, nothing changed   {warm_s:7.3f} s   {share:.2%} of cold beyond the start")
    print(f"  build, one edition more  {more.seconds:7.2f} s")
    for label, runs in (("bare", bare), ("cold", cold), ("nothing changed", warm), ("one more", [more])):
        print(f"  largest process, {label:<16} {max(run.megabytes for run in runs):5.0f} MB")
    for count in (FEW, PHRASES):
        shutil.rmtree(out, ignore_errors=True)
        together = peak([*four, "--phrases", f"1-{count}"])
        print(f"  all processes together, {count:2} phrases {together:5.0f} MB")


def peak(command: Sequence[str]) -> float:
    """Run a command and return the most that it and its children held at once, in megabytes."""
    process = subprocess.Popen(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, cwd=ROOT)
    most = 0.0
    while process.poll() is None:
        most = max(most, sum(_megabytes(one) for one in (process.pid, *_children(process.pid))))
        time.sleep(0.05)
    return most


def _children(parent: int) -> list[int]:
    try:
        text = Path(f"/proc/{parent}/task/{parent}/children").read_text(encoding="utf-8")
    except OSError:
        return []
    return [int(word) for word in text.split()]


def _megabytes(process: int) -> float:
    """Return a process's share of memory: what several share is divided among them."""
    try:
        text = Path(f"/proc/{process}/smaps_rollup").read_text(encoding="utf-8")
    except OSError:
        return 0.0
    return next(int(line.split()[1]) / 1024 for line in text.splitlines() if line.startswith("Pss:"))


def _seconds(runs: Sequence[Timed]) -> float:
    return min(run.seconds for run in runs)


if __name__ == "__main__":
    main()
