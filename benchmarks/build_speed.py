"""Building a book against the bare cost of Verovio and Typst on the same scores, with as many processes.

The book: 65 phrases in twelve keys, one edition, made from the demonstration's phrases. Bare: processes
that do nothing but load each score into Verovio and write its SVG, then one Typst call that puts these
pictures on pages. Ours: `shedbook build` cold, again with nothing changed, and after one edited phrase.
A build gives Verovio all keys of a phrase as one page; what that alone saves is measured too, as bare
Verovio called on such pages. Everything is timed as a command, from outside, with compiled modules, as an
installed program has them; the interpreter's start is shown beside it. The best of several runs counts, for
other work on the machine only ever adds.
"""

from __future__ import annotations

import json
import os
import re
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from pathlib import Path
from typing import Any, NamedTuple
from unittest import mock

from shedbook.book.building.make import make
from shedbook.book.manuscript.request import Request
from shedbook.book.scores.worker import PhraseOrder
from shedbook.book.workshop.crew import Crew
from shedbook.engrave.engraver import verovio_door

ROOT = Path(__file__).parents[1]
DEMO = ROOT / "examples" / "tidewater"
PHRASES = 65
BARE = (sys.executable, str(ROOT / "benchmarks" / "bare_work.py"))
JOBS = os.cpu_count() or 1
COMPILED = tempfile.gettempdir() + "/shedbook-bench-compiled"
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
        scores, pages = folder / "scores.json", folder / "pages.json"
        for path, singly in ((scores, True), (pages, False)):
            # The engraver's own options, so that both draw the same.
            work = {"options": verovio_door._OPTIONS, "phrases": given_to_verovio(book, singly=singly)}
            path.write_text(json.dumps(work), encoding="utf-8")
        _report(folder, book, scores, pages)


def _report(folder: Path, book: Path, scores: Path, pages_of_scores: Path) -> None:
    out = folder / "out"
    build = [sys.executable, "-m", "shedbook", "build", str(book), "--out", str(out), "--jobs", str(JOBS)]
    start = min(timed([sys.executable, "-c", "pass"]).seconds for _ in range(7))
    help_s = min(timed([sys.executable, "-m", "shedbook", "--help"]).seconds for _ in range(7))
    timed([*build, "--phrases", "1"])  # the disk's first reads and the compiling, paid by nobody
    bare, cold, verovio, typst, joined = [], [], [], [], []
    for _ in range(5):
        bare.append(timed([*BARE, str(scores), str(folder / "bare"), str(JOBS)]))
        phases = json.loads((folder / "bare" / "phases.json").read_text())
        verovio.append(phases["verovio"])
        typst.append(phases["typst"])
        timed([*BARE, str(pages_of_scores), str(folder / "joined"), str(JOBS)])
        joined.append(json.loads((folder / "joined" / "phases.json").read_text())["verovio"])
        shutil.rmtree(out, ignore_errors=True)
        cold.append(timed(build))
    warm = [timed(build) for _ in range(7)]
    edited, beyond = [], []
    for number in range(7):
        edit(book, number)
        run, layout = timed_with_layout(book, out)
        edited.append(run)
        beyond.append(run.seconds - layout)
    bare_s, cold_s, warm_s, edited_s = map(_seconds, (bare, cold, warm, edited))
    processor = min(run.processor_s for run in cold) / min(run.processor_s for run in bare)
    print(f"A book of {PHRASES} phrases in twelve keys, {JOBS} processes, the best of several runs")
    print(f"  interpreter start        {start:7.3f} s")
    print(f"  shedbook --help          {help_s:7.3f} s   aim: under 0.15")
    print(f"  bare Verovio and Typst   {bare_s:7.3f} s   {min(verovio):.2f} and {min(typst):.2f}")
    print(f"  Verovio on shared pages  {min(joined):7.3f} s   as the build calls it, without the rest")
    ratio = (cold_s - start) / (bare_s - start)
    print(
        f"  build, cold              {cold_s:7.3f} s   {ratio:.2f} of bare ({processor:.2f} in processor s); "
        "aim: at most 1.15"
    )
    share = (warm_s - start) / cold_s
    print(f"  build, nothing changed   {warm_s:7.3f} s   {share:.1%} of cold beyond the start; aim: under 2%")
    share, without = (edited_s - start) / cold_s, (min(beyond) - start) / cold_s
    print(
        f"  build, one phrase edited {edited_s:7.3f} s   {share:.1%} of cold beyond the start, "
        f"{without:.1%} without the page layout; aim: under 5%"
    )
    for label, runs in (("bare", bare), ("cold", cold), ("nothing changed", warm), ("one edited", edited)):
        print(f"  largest process, {label:<16} {max(run.megabytes for run in runs):5.0f} MB")


def write_book(folder: Path, phrases: int = PHRASES) -> Path:
    """Write the demonstration's phrases again and again, each time with new titles and first notes."""
    (folder / "phrases").mkdir(parents=True)
    (folder / "manuscript.toml").write_text('title = "Measured"\nauthor = "Nobody"\n', encoding="utf-8")
    files = sorted((DEMO / "phrases").glob("*.toml"))
    demo = [text for text in (file.read_text(encoding="utf-8") for file in files) if "[[phrase]]" not in text]
    for number in range(phrases):
        text = demo[number % len(demo)]
        text = _TITLE.sub(rf'title = "\1 {number + 1}"', text)
        for _ in range(number // len(demo)):
            text = _FIRST_NOTE.sub(lambda found: found[1] + _NEXT[found[2]], text, count=1)
        (folder / "phrases" / f"{number + 1:03}.toml").write_text(text, encoding="utf-8")
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
    environment = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    done = subprocess.run(
        [sys.executable, "-c", code, *command],
        check=True,
        capture_output=True,
        text=True,
        cwd=ROOT,
        env=environment | {"PYTHONPYCACHEPREFIX": COMPILED},
    )
    seconds, processor_s, kilobytes = done.stdout.split()
    return Timed(float(seconds), float(processor_s), int(kilobytes) / 1024)


def timed_with_layout(book: Path, out: Path) -> tuple[Timed, float]:
    """Build through the library, and say too how long laying out what had changed and joining took."""
    marks = out.parent / "marks.json"
    code = (
        "import json, sys, time\n"
        "from pathlib import Path\n"
        "from shedbook.book.verbs.build import build\n"
        "from shedbook.book.manuscript.request import Request\n"
        "marks = {}\n"
        "def tell(step): marks[f'{step.phase} {step.done}'] = time.perf_counter()\n"
        "build(Request(Path(sys.argv[1]), Path(sys.argv[2]), jobs=int(sys.argv[3])), tell)\n"
        "Path(sys.argv[4]).write_text(json.dumps(marks))"
    )
    run = timed([sys.executable, "-c", code, str(book), str(out), str(JOBS), str(marks)])
    times = json.loads(marks.read_text(encoding="utf-8"))
    pages = [when for step, when in times.items() if step.startswith("pages ")]
    return run, max(pages) - min(pages)


def given_to_verovio(
    book: Path, *, singly: bool, editions: Sequence[str] = ("concert",)
) -> list[list[tuple[str, int]]]:
    """Return what a build gives to Verovio for each phrase, as (MEI, width): each score alone, or pages."""
    phrases: list[list[tuple[str, int]]] = []
    svg = verovio_door.svg

    def recorded(mei: str, *, width: int, **more: Any) -> str:
        phrases[-1].append((mei, width))
        return svg(mei, width=width, **more)

    class Here(Crew):
        """Runs every call in this process."""

        def run(self, function: Callable[[Any], Any], orders: Sequence[Any]) -> Iterator[tuple[Any, Any]]:
            for order in orders:
                phrases.append([])
                yield (
                    order,
                    function(replace(order, singly=singly) if isinstance(order, PhraseOrder) else order),
                )

    with mock.patch.object(verovio_door, "svg", recorded), tempfile.TemporaryDirectory() as out:
        make(
            Request(book, Path(out) / "out", editions=tuple(editions)),
            book,
            Path(out) / "out",
            lambda step: None,
            Here(1),
        )
    found = [pages for pages in phrases if pages]
    count = sum(len(re.findall("<mdiv>", mei)) for pages in found for mei, _ in pages)
    if count < 13 * PHRASES * len(editions):  # scales may be drawn too
        raise RuntimeError(f"The build drew only {count} scores.")
    return found


def _seconds(runs: Sequence[Timed]) -> float:
    return min(run.seconds for run in runs)


if __name__ == "__main__":
    main()
