"""`shedbook build DIR` makes the book."""

from __future__ import annotations

import argparse
import contextlib
import signal
import sys
import threading
import time
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path
from types import FrameType
from typing import TYPE_CHECKING

from shedbook.cli.argument_types import named_path, names_in
from shedbook.cli.batch import print_json
from shedbook.cli.colour import coloured

if TYPE_CHECKING:
    from shedbook.book.ground.findings import BookFinding
    from shedbook.book.ground.progress import Step
    from shedbook.book.manuscript.request import Request
    from shedbook.book.verbs.build import Built
    from shedbook.errors import BuildError, ShedbookError

_STOPPED = 128 + signal.SIGTERM
_SEVERITIES = (("error", "errors"), ("warning", "warnings"), ("advice", "pieces of advice"))


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add the arguments of the verb."""
    _add_selection(parser)
    _add_manner(parser)
    _add_telling(parser)
    parser.epilog = (
        "A second build makes only what has changed. What the proof-reader finds is listed at the end and "
        "does not stop the book; while a finding is an error the pages say “proof” at the foot."
    )


def _add_selection(parser: argparse.ArgumentParser) -> None:
    """Add the arguments that say what is built."""
    parser.add_argument("dir", metavar="DIR", type=Path, help="the manuscript's folder")
    parser.add_argument(
        "--out", metavar="DIR", type=named_path,
        help="where the books go: a new or empty folder, or one of an earlier build (default: a folder "
        "beside the manuscript, its name with -build)",
    )  # fmt: skip
    parser.add_argument("--keys", metavar="KEYS", default="", help='only these keys, by tonic: "C F Bb"')
    parser.add_argument(
        "--editions",
        metavar="NAMES",
        default="",
        help="only these editions: concert, bflat, eflat, bass, f, or names of instruments",
    )
    parser.add_argument("--phrases", metavar="NUMBERS", default="", help="only these phrases: 3,7 or 5-8")


def _add_manner(parser: argparse.ArgumentParser) -> None:
    """Add the arguments that say how it is built."""
    parser.add_argument(
        "--jobs", metavar="N", type=_count, default=0, help="processes at work (default: one a core)"
    )
    parser.add_argument(
        "--licensee", metavar="NAME", default="", help="whose copy it is: a line on every page"
    )
    parser.add_argument(
        "--sample", metavar="N", type=_count, default=0, help="a free sample with the first N phrases"
    )
    parser.add_argument(
        "--proof-sheet", action="store_true", help="in place of each book a sheet of all scores, to tick"
    )
    parser.add_argument(
        "--tracks", metavar="KINDS", default="",
        help="none, all, or kinds of tracks such as play-along, in place of those in manuscript.toml",
    )  # fmt: skip
    parser.add_argument(
        "--tablature", metavar="NAMES", default="",
        help="none, all, or the editions of fretted instruments that shall have tablature, such as guitar, "
        "in place of those in manuscript.toml",
    )  # fmt: skip
    parser.add_argument(
        "--practice-page", action="store_true",
        help="make the student's page too, a folder to be opened in a browser",
    )  # fmt: skip
    parser.add_argument("--final", action="store_true", help="make no book while findings are errors")
    parser.add_argument(
        "--read-back", action="store_true",
        help="read every score of the finished books and hold it against its phrase",
    )  # fmt: skip
    parser.add_argument(
        "--scheduler", metavar="ADDRESS", default="",
        help="work on a Dask cluster that sees the same folders, such as tcp://host:8786",
    )  # fmt: skip


def _add_telling(parser: argparse.ArgumentParser) -> None:
    """Add the arguments that say how much is told."""
    parser.add_argument(
        "--json", action="store_true", help="print what was built and found as a JSON array of one object"
    )
    how_much = parser.add_mutually_exclusive_group()
    how_much.add_argument("--quiet", action="store_true", help="tell of errors and of the books alone")
    how_much.add_argument("--verbose", action="store_true", help="tell of every step, a line each")


def _count(text: str) -> int:
    number = int(text) if text.isdecimal() else 0
    if number < 1:
        raise argparse.ArgumentTypeError(f"{text!r} is not a number of processes, 1 or more")
    return number


def _request(options: argparse.Namespace) -> Request:
    """Return what the arguments ask for."""
    from shedbook.book.manuscript.request import Request

    return Request(
        manuscript=options.dir,
        out=options.out,
        keys=names_in(options.keys),
        editions=(options.editions,) if options.editions.strip() else (),
        phrases=names_in(options.phrases),
        jobs=options.jobs,
        final=options.final,
        scheduler=options.scheduler,
        licensee=" ".join(options.licensee.split()),
        sample=options.sample,
        proof_sheet=options.proof_sheet,
        read_back=options.read_back,
        practice_page=options.practice_page,
        tracks=names_in(options.tracks),
        tablature=(options.tablature,) if options.tablature.strip() else (),
    )


def run(options: argparse.Namespace) -> int:
    """Build, and print where the books are; return 1 if something could not be read or engraved, else 0."""
    from shedbook.book.verbs.build import build
    from shedbook.cli.error_text import error_text
    from shedbook.errors import BuildError

    progress = Progress(quiet=options.quiet, verbose=options.verbose)
    try:
        with _ended_by_sigterm():
            built = build(_request(options), progress)
    except BuildError as error:
        progress.close()
        _tell_of_errors(error, as_json=options.json)
        return 1
    finally:
        progress.close()
    if options.json:
        print_json([built_json(built)])
        return 0
    if not options.quiet:
        _list_findings(built.findings)
    for path in (*built.pdfs, *filter(None, (built.practice_page,))):
        print(path)
    if options.quiet:
        for warning in built.warnings:
            print(error_text(warning), file=sys.stderr)
        return 0
    _tell_of_tracks(built, error_text)
    if built.read_back:
        print(f"{_counted(built.read_back, 'score', 'scores')} read back, as written.", file=sys.stderr)
    made = (
        "nothing had changed" if built.jobs_run == 0 else _counted(built.jobs_run, "part made", "parts made")
    )
    print(f"Done in {built.seconds:.1f} s, {made}.", file=sys.stderr)
    return 0


def _tell_of_errors(error: BuildError, *, as_json: bool) -> None:
    """Print what stopped the build."""
    from shedbook.cli.error_text import error_item, error_text

    if as_json:
        print_json([error_item(one, "") for one in (*error.errors, error)])
        return
    for one in error.errors:
        print(error_text(one), end="\n\n", file=sys.stderr)
    print(error_text(error), file=sys.stderr)


def built_json(built: Built) -> dict[str, object]:
    """Return the JSON object of a build: files, findings, warnings, what was made, seconds."""
    return {
        "books": [str(path) for path in built.pdfs],
        "tracks": [str(path) for path in built.tracks],
        "practice_page": str(built.practice_page or ""),
        "played_with": list(built.played_with),
        "findings": [finding._asdict() for finding in built.findings],
        "warnings": [f"{one.message} {one.hint}".strip() for one in built.warnings],
        "parts_made": built.jobs_run,
        "seconds": round(built.seconds, 3),
    }


def _counted(number: int, one: str, many: str) -> str:
    return f"{number} {one if number == 1 else many}"


def _tell_of_tracks(built: Built, error_text: Callable[[ShedbookError], str]) -> None:
    """Print how many tracks there are, where they are, what played them, and which could not be made."""
    for warning in built.warnings:
        print(error_text(warning), file=sys.stderr)
    if built.tracks:
        said = f"{_counted(len(built.tracks), 'track', 'tracks')} in {built.tracks[0].parent}."
        if built.played_with:
            said += f" Sound: {'; '.join(built.played_with)}."
        print(said, file=sys.stderr)


def _list_findings(findings: Sequence[BookFinding]) -> None:
    """Print what the proof-reader found, and how many findings of each severity there are."""
    from shedbook.book.ground.findings import finding_line

    for finding in findings:
        line, told = finding_line(finding), f": {finding.severity} ("
        shown = coloured(finding.severity, finding.severity, sys.stderr)
        print(line.replace(told, f": {shown} (", 1), file=sys.stderr)
    counts = []
    for severity, many in _SEVERITIES:
        number = sum(1 for finding in findings if finding.severity == severity)
        if number:
            one = "piece of advice" if severity == "advice" else severity
            counts.append(_counted(number, one, many))
    if counts:
        print(f"The proof-reader found {', '.join(counts)}.", file=sys.stderr)


@contextlib.contextmanager
def _ended_by_sigterm() -> Iterator[None]:
    """Let SIGTERM end the build in order, workers first, as the keyboard does; the exit status is 143."""

    def end(number: int, frame: FrameType | None) -> None:
        raise SystemExit(_STOPPED)

    if threading.current_thread() is not threading.main_thread():
        yield
        return
    before = signal.signal(signal.SIGTERM, end)
    try:
        yield
    finally:
        signal.signal(signal.SIGTERM, before)


_SAYS = {
    "reading": ("Reading {done} of {of} phrase", "Reading {done} of {of} phrases"),
    "books": ("Reading {done} of {of} book", "Reading {done} of {of} books"),
    "engraving": ("Engraving phrase {done} of {of}",) * 2,
    "tracks": ("Playing track {done} of {of}",) * 2,
    "practice": ("Making the student's page, phrase {done} of {of}",) * 2,
    "back": ("Reading back {done} of {of} book", "Reading back {done} of {of} books"),
    "pages": ("Laying out pages, {done} of {of} book", "Laying out pages, {done} of {of} books"),
}
"""What is said of each phase, where it has one step and where it has several."""


class Progress:
    """Prints on standard error how far a build is, with the time since it began.

    A terminal shows one line that changes; elsewhere there is a line for each phase when it is over, or, if
    it is `verbose`, for each step. If it is `quiet` nothing is printed.
    """

    def __init__(self, *, quiet: bool = False, verbose: bool = False) -> None:
        self._started = time.perf_counter()
        self._quiet, self._verbose = quiet, verbose
        self._moves = sys.stderr.isatty() and not verbose
        self._open = ""

    def __call__(self, step: Step) -> None:
        """Print how far a phase is."""
        if self._quiet:
            return
        if step.said:
            print(step.said, file=sys.stderr, flush=True)
            return
        says = _SAYS[step.phase][step.of != 1].format(done=step.done, of=step.of)
        text = f"{says}  {time.perf_counter() - self._started:.1f} s"
        over = step.done >= step.of
        if self._moves:
            end = "\n" if over else ""
            print(f"\r{text:<{len(self._open)}}", end=end, file=sys.stderr, flush=True)
            self._open = "" if over else text
        elif over or self._verbose:
            print(text, file=sys.stderr, flush=True)

    def close(self) -> None:
        """End the line that is still open, so that other text begins on a new one."""
        if self._open:
            print(file=sys.stderr, flush=True)
            self._open = ""
