"""Building a book against the bare cost of Verovio and Typst on the same scores, with as many processes.

The book: 65 phrases in twelve keys, one edition, made from the demonstration's phrases. Bare: processes
that do nothing but load each score into Verovio and write its SVG, then one Typst call that puts these
pictures on pages. Ours: `shedbook build` cold, again with nothing changed, and after one edited phrase.
Everything is timed as a command, from outside; the interpreter's start is shown beside it.
"""

from __future__ import annotations

import json
import os
import re
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Iterator, Sequence
from pathlib import Path
from statistics import median
from typing import NamedTuple

from shedbook.book.manuscript import open_manuscript, read_phrase
from shedbook.book.plan import Look
from shedbook.book.study import marks_of, study
from shedbook.editions.in_key import in_keys
from shedbook.editions.keys import key_cycle
from shedbook.engrave import verovio_door
from shedbook.engrave.layout import lay_out
from shedbook.engrave.score import mei
from shedbook.engrave.style import Style

ROOT = Path(__file__).parents[1]
DEMO = ROOT / "examples" / "tidewater"
PHRASES = 65
BARE = (sys.executable, str(ROOT / "benchmarks" / "bare_work.py"))
JOBS = os.cpu_count() or 1
_FIRST_NOTE = re.compile(r'^(line = """[^a-g]*)([a-g])', re.MULTILINE)
_NEXT = dict(zip("abcdefg", "bcdefga", strict=True))
_TITLE = re.compile(r'^title = "(.*)"$', re.MULTILINE)


class Timed(NamedTuple):
    """Seconds from start to end, processor seconds in all, and megabytes of the largest process."""

    seconds: float
    processor_s: float
    megabytes: float


def main() -> None:
    with tempfile.TemporaryDirectory(prefix="shedbook-bench-") as name:
        folder = Path(name)
        book = write_book(folder / "book")
        scores = folder / "scores.json"
        # The engraver's own options, so that both draw the same.
        work = {"options": verovio_door._OPTIONS, "scores": list(bare_scores(book))}
        scores.write_text(json.dumps(work), encoding="utf-8")
        _report(folder, book, scores)


def _report(folder: Path, book: Path, scores: Path) -> None:
    out = folder / "out"
    build = [sys.executable, "-m", "shedbook", "build", str(book), "--out", str(out), "--jobs", str(JOBS)]
    start = median(timed([sys.executable, "-c", "pass"]).seconds for _ in range(7))
    help_s = median(timed([sys.executable, "-m", "shedbook", "--help"]).seconds for _ in range(7))
    timed([*build, "--phrases", "1"])  # the disk's first reads, paid by nobody
    bare, cold, verovio, typst = [], [], [], []
    for _ in range(3):
        bare.append(timed([*BARE, str(scores), str(folder / "bare"), str(JOBS)]))
        phases = json.loads((folder / "bare" / "phases.json").read_text())
        verovio.append(phases["verovio"])
        typst.append(phases["typst"])
        shutil.rmtree(out, ignore_errors=True)
        cold.append(timed(build))
    warm = [timed(build) for _ in range(7)]
    edited, pages = [], []
    for number in range(3):
        edit(book, number)
        run, layout = timed_with_layout(book, out)
        edited.append(run)
        pages.append(layout)
    bare_s, cold_s, warm_s, edited_s = map(_seconds, (bare, cold, warm, edited))
    pages_s = median(pages)
    processor = median(run.processor_s for run in cold) / median(run.processor_s for run in bare)
    print(f"A book of {PHRASES} phrases in twelve keys, {JOBS} processes, medians of several runs")
    print(f"  interpreter start        {start:7.3f} s")
    print(f"  shedbook --help          {help_s:7.3f} s   aim: under 0.15")
    print(f"  bare Verovio and Typst   {bare_s:7.3f} s   {median(verovio):.2f} and {median(typst):.2f}")
    ratio = (cold_s - start) / (bare_s - start)
    print(
        f"  build, cold              {cold_s:7.3f} s   {ratio:.2f} of bare ({processor:.2f} in processor s); "
        "aim: at most 1.15"
    )
    share = (warm_s - start) / cold_s
    print(f"  build, nothing changed   {warm_s:7.3f} s   {share:.1%} of cold beyond the start; aim: under 2%")
    share = (edited_s - start - pages_s) / cold_s
    print(
        f"  build, one phrase edited {edited_s:7.3f} s   {share:.1%} of cold beyond the start "
        f"and the page layout of {pages_s:.2f} s; aim: under 5%"
    )
    for label, runs in (("bare", bare), ("cold", cold), ("nothing changed", warm), ("one edited", edited)):
        print(f"  largest process, {label:<16} {max(run.megabytes for run in runs):5.0f} MB")


def write_book(folder: Path) -> Path:
    """Write the demonstration's phrases again and again, each time with new titles and first notes."""
    (folder / "phrases").mkdir(parents=True)
    (folder / "manuscript.toml").write_text('title = "Measured"\nauthor = "Nobody"\n', encoding="utf-8")
    demo = sorted((DEMO / "phrases").glob("*.toml"))
    for number in range(PHRASES):
        text = demo[number % len(demo)].read_text(encoding="utf-8")
        text = _TITLE.sub(rf'title = "\1 {number + 1}"', text)
        for _ in range(number // len(demo)):
            text = _FIRST_NOTE.sub(lambda found: found[1] + _NEXT[found[2]], text, count=1)
        (folder / "phrases" / f"{number + 1:02}.toml").write_text(text, encoding="utf-8")
    return folder


def edit(book: Path, number: int) -> None:
    """Change what one phrase sounds like: its tempo."""
    path = sorted((book / "phrases").iterdir())[7 + number]
    text = re.sub(
        r"^tempo = \d+$", f"tempo = {61 + number}", path.read_text(encoding="utf-8"), flags=re.MULTILINE
    )
    path.write_text(text, encoding="utf-8")


def timed(command: Sequence[str]) -> Timed:
    """Run a command and time it, with the largest resident size among it and its children."""
    code = (
        "import resource, subprocess, sys, time\n"
        "start = time.perf_counter()\n"
        "subprocess.run(sys.argv[1:], check=True, stdout=subprocess.DEVNULL, stderr=subprocess.PIPE)\n"
        "end, used = time.perf_counter(), resource.getrusage(resource.RUSAGE_CHILDREN)\n"
        "print(end - start, used.ru_utime + used.ru_stime, used.ru_maxrss)"
    )
    done = subprocess.run(
        [sys.executable, "-c", code, *command], check=True, capture_output=True, text=True, cwd=ROOT
    )
    seconds, processor_s, kilobytes = done.stdout.split()
    return Timed(float(seconds), float(processor_s), int(kilobytes) / 1024)


def timed_with_layout(book: Path, out: Path) -> tuple[Timed, float]:
    """Build through the library, and say too how long the layout of the pages took."""
    marks = out.parent / "marks.json"
    code = (
        "import json, sys, time\n"
        "from pathlib import Path\n"
        "from shedbook.book.build import build\n"
        "from shedbook.book.request import Request\n"
        "marks = {}\n"
        "def tell(step): marks[f'{step.phase} {step.done}'] = time.perf_counter()\n"
        "build(Request(Path(sys.argv[1]), Path(sys.argv[2]), jobs=int(sys.argv[3])), tell)\n"
        "Path(sys.argv[4]).write_text(json.dumps(marks))"
    )
    run = timed([sys.executable, "-c", code, str(book), str(out), str(JOBS), str(marks)])
    times = json.loads(marks.read_text(encoding="utf-8"))
    return run, times["pages 1"] - times["pages 0"]


def bare_scores(book: Path) -> Iterator[tuple[str, int]]:
    """Yield what the build gives to Verovio: each phrase large in its home key, then in every key."""
    look = Look()
    for source in open_manuscript(book).phrases:
        phrase = read_phrase(source)
        marks = marks_of(study(phrase), under=look.degrees, scales=look.scale_names)
        for number, moved in enumerate(in_keys(phrase, (phrase.key, *key_cycle(phrase.key)))):
            staff_mm = look.home_staff_mm if number == 0 else look.staff_mm
            layout = lay_out(moved, marks, Style(staff_mm=staff_mm, width_mm=look.width_mm))
            yield mei(moved, marks, per_system=layout.per_system, room=layout.room), layout.width


def _seconds(runs: Sequence[Timed]) -> float:
    return median(run.seconds for run in runs)


if __name__ == "__main__":
    main()
