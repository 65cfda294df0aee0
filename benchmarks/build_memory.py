"""What a build of a long book takes, by its phrases: memory by phase, processor seconds, size of the PDF.

    python -m benchmarks.build_memory [--phrases 20,40,80,160] [--editions concert] [--picture OUT.svg]

Each book is made of the demonstration's phrases (`build_speed.write_book`), in twelve keys and the editions
asked for, and is built cold, as a command, by two processes. The memory is what the build itself reports
(`--json`): the largest process of a phase, and the sum of all peaks. The picture shows the largest process.
"""

from __future__ import annotations

import argparse
import json
import resource
import subprocess
import sys
import tempfile
import time
from collections.abc import Sequence
from pathlib import Path
from typing import NamedTuple

from benchmarks.build_speed import ROOT, write_book

BUILD = (sys.executable, "-m", "shedbook", "build", "--jobs", "2", "--json")
SIZES = (20, 40, 80, 160)
_WIDE, _HIGH, _LEFT, _LOW = 560, 300, 60, 40
_PHASES = (("engraving", "#5f5a54"), ("pages", "#8a2f1d"))


class Cost(NamedTuple):
    """The cost of a book: phrases, seconds, processor seconds, megabytes of all PDFs, megabytes by phase."""

    phrases: int
    wall_s: float
    processor_s: float
    pdf_mb: float
    largest: dict[str, int]
    together: dict[str, int]


def cost_of(phrases: int, editions: str) -> Cost:
    """Build a book of so many phrases and return what it took."""
    with tempfile.TemporaryDirectory(prefix="shedbook-memory-") as name:
        book = write_book(Path(name) / "book", phrases)
        before, begun = _processor_s(), time.perf_counter()
        done = subprocess.run(
            [*BUILD, str(book), "--editions", editions],
            check=True,
            capture_output=True,
            text=True,
            cwd=ROOT,
        )
        (told,) = json.loads(done.stdout)
        memory = told["memory_mb"]
        return Cost(
            phrases,
            time.perf_counter() - begun,
            _processor_s() - before,
            sum(Path(one).stat().st_size for one in told["books"]) / 1e6,
            {phase: memory[phase]["largest"] for phase in memory},
            {phase: memory[phase]["together"] for phase in memory},
        )


def _processor_s() -> float:
    used = resource.getrusage(resource.RUSAGE_CHILDREN)
    return used.ru_utime + used.ru_stime


def picture(costs: Sequence[Cost]) -> str:
    """Return a curve for each phase as SVG: phrases to the right, megabytes upwards."""
    widest = max(one.phrases for one in costs)
    highest = max(value for one in costs for value in one.largest.values())
    step = next(size for size in (50, 100, 200, 500, 1000) if highest / size <= 8)
    top = (highest // step + 1) * step

    def x(phrases: float) -> float:
        return _LEFT + phrases / widest * (_WIDE - _LEFT - 90)

    def y(megabytes: float) -> float:
        return _HIGH - _LOW - megabytes / top * (_HIGH - _LOW - 20)

    drawn = []
    for value in range(0, top + 1, step):
        drawn.append(f'<path d="M{_LEFT} {y(value):.1f}H{x(widest):.1f}" stroke="#ddd"/>')
        drawn.append(f'<text x="{_LEFT - 6}" y="{y(value) + 4:.1f}" text-anchor="end">{value}</text>')
    for one in costs:
        at = f'x="{x(one.phrases):.1f}" y="{_HIGH - _LOW + 16}"'
        drawn.append(f'<text {at} text-anchor="middle">{one.phrases}</text>')
    for phase, ink in _PHASES:
        points = [(x(one.phrases), y(one.largest[phase])) for one in costs]
        line = " ".join(f"{left:.1f},{up:.1f}" for left, up in points)
        drawn.append(f'<polyline points="{line}" fill="none" stroke="{ink}" stroke-width="2"/>')
        drawn += [f'<circle cx="{left:.1f}" cy="{up:.1f}" r="3" fill="{ink}"/>' for left, up in points]
        drawn.append(
            f'<text x="{points[-1][0] + 8:.1f}" y="{points[-1][1] + 4:.1f}" fill="{ink}">{phase}</text>'
        )
    drawn.append(f'<text x="{_LEFT}" y="12">MB, largest process</text>')
    drawn.append(f'<text x="{x(widest):.1f}" y="{_HIGH - 6}" text-anchor="end">phrases</text>')
    box = f'viewBox="0 0 {_WIDE} {_HIGH}" font-family="sans-serif" font-size="11"'
    head = f'<svg xmlns="http://www.w3.org/2000/svg" {box}>'
    return "\n".join((head, '<rect width="100%" height="100%" fill="#fff"/>', *drawn, "</svg>", ""))


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    parser.add_argument("--phrases", default=",".join(map(str, SIZES)))
    parser.add_argument("--editions", default="concert")
    parser.add_argument("--picture", type=Path)
    options = parser.parse_args()
    costs = []
    for phrases in map(int, options.phrases.split(",")):
        costs.append(cost_of(phrases, options.editions))
        one = costs[-1]
        print(
            f"{one.phrases:5} phrases: {one.wall_s:6.1f} s, {one.processor_s:6.1f} processor s, "
            f"PDF {one.pdf_mb:.2f} MB",
            flush=True,
        )
        for phase, largest in one.largest.items():
            print(f"      {phase:<10} largest {largest} MB, together {one.together[phase]} MB", flush=True)
    if options.picture:
        options.picture.write_text(picture(costs), encoding="utf-8")


if __name__ == "__main__":
    main()
