"""`shedbook build DIR` makes the book."""

from __future__ import annotations

import argparse
import contextlib
import signal
import sys
import threading
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path
from types import FrameType
from typing import TYPE_CHECKING

from shedbook.cli.argument_types import named_path, names_in
from shedbook.cli.batch import print_json
from shedbook.cli.colour import coloured
from shedbook.cli.progress import Progress

if TYPE_CHECKING:
    from shedbook.book.ground.findings import BookFinding
    from shedbook.book.manuscript.request import Request
    from shedbook.book.verbs.build import Built
    from shedbook.book.verbs.bundle import Bundled
    from shedbook.errors import BuildError, ShedbookError

_STOPPED = 128 + signal.SIGTERM
_PHASES = {"engraving": "Reading and engraving", "pages": "Laying out pages", "tracks": "Playing tracks"}
"""What the phases are called of which the memory is told."""
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
    parser.add_argument(
        "dirs", metavar="DIR", nargs="+", type=Path, help="the manuscript's folder, or those of several books"
    )
    parser.add_argument(
        "--out", metavar="DIR", type=named_path,
        help="where the books go: a new or empty folder, or one of an earlier build (default: a folder "
        "beside the manuscript, its name with -build); with several books a folder in it for each",
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
        "--bundle", action="store_true",
        help="pack what is sold too: a zip an edition, sample, cover, previews, listing, manifest",
    )  # fmt: skip
    parser.add_argument(
        "--since", metavar="OLD", default="",
        help="with --bundle: the version before, a bundle or FOLDER@VERSION: it then says what changed",
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


def _request(options: argparse.Namespace, folder: Path, out: Path | None) -> Request:
    """Return what the arguments ask for, for one of the books."""
    from shedbook.book.manuscript.request import Request

    return Request(
        manuscript=folder,
        out=out,
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
    """Build, and print where the books are; return 1 if something could not be read or engraved, else 0.

    Of several books each is built though another cannot be.
    """
    from shedbook.errors import ShedbookError

    if len(options.dirs) == 1:
        status, found = _build_one(options, options.dirs[0], options.out)
        if options.json:
            print_json(found)
        return status
    outs: list[Path | None] = [None] * len(options.dirs)
    if options.out is not None:
        outs = _folders_in(options.out, options.dirs)
    failed: list[str] = []
    objects: list[dict[str, object]] = []
    for folder, out in zip(options.dirs, outs, strict=True):
        if not options.quiet:
            print(f"{folder}:", file=sys.stderr)
        try:
            status, found = _build_one(options, folder, out)
        except ShedbookError as error:
            status, found = 1, _told(error, folder, as_json=options.json)
        objects += found
        if status:
            failed.append(str(folder))
    if options.json:
        print_json(objects)
    if failed:
        done = len(options.dirs) - len(failed)
        print(f"{_counted(done, 'book', 'books')} made; not made: {', '.join(failed)}.", file=sys.stderr)
    return 1 if failed else 0


def _folders_in(out: Path, folders: Sequence[Path]) -> list[Path | None]:
    """Return a folder for each of several books inside one.

    Raises:
        OutputError: if two books have the same name.
    """
    from shedbook.book.manuscript.request import book_name
    from shedbook.errors import OutputError

    names = [book_name(folder) for folder in folders]
    twice = next((name for at, name in enumerate(names) if name in names[:at]), None)
    if twice is not None:
        raise OutputError(
            f'Two of the books are called "{twice}" and would lie in one folder.',
            hint="Build them one by one, each with an --out of its own.",
        )
    return [out / name for name in names]


def _told(error: ShedbookError, folder: Path, *, as_json: bool) -> list[dict[str, object]]:
    """Print what kept one of several books from being made, or return it for JSON."""
    from shedbook.cli.error_text import error_item, error_text

    if as_json:
        return [dict[str, object](error_item(error, str(folder)))]
    print(error_text(error), file=sys.stderr)
    return []


def _build_one(
    options: argparse.Namespace, folder: Path, out: Path | None
) -> tuple[int, list[dict[str, object]]]:
    """Build a book and print where it is; return the exit status and the objects for JSON."""
    from shedbook.book.verbs.build import build
    from shedbook.errors import BuildError

    progress = Progress(quiet=options.quiet, verbose=options.verbose)
    try:
        with _ended_by_sigterm():
            request = _request(options, folder, out)
            bundled = _bundled(options, request, progress) if options.bundle else None
            built = bundled.built if bundled else build(request, progress)
    except BuildError as error:
        progress.close()
        return 1, _errors_told(error, as_json=options.json)
    finally:
        progress.close()
    if options.json:
        return 0, [built_json(built) | (_bundle_json(bundled) if bundled else {})]
    _print_built(built, bundled, quiet=options.quiet, verbose=options.verbose)
    return 0, []


def _print_built(built: Built, bundled: Bundled | None, *, quiet: bool, verbose: bool) -> None:
    """Print where the books are, what was found and what was made."""
    from shedbook.cli.error_text import error_text

    if not quiet:
        _list_findings(built.findings)
    pages = (*built.pdfs, *filter(None, (built.practice_page,)))
    for path in bundled.files if bundled else pages:
        print(path)
    if quiet:
        for warning in built.warnings:
            print(error_text(warning), file=sys.stderr)
        return
    _tell_of_tracks(built, error_text)
    if built.read_back:
        print(f"{_counted(built.read_back, 'score', 'scores')} read back, as written.", file=sys.stderr)
    if verbose:
        for one in built.memory:
            print(
                f"{_PHASES[one.phase]}: at most {one.largest} MB in one process, {one.together} MB in all.",
                file=sys.stderr,
            )
    if bundled:
        _tell_of_bundle(bundled)
    made = (
        "nothing had changed" if built.jobs_run == 0 else _counted(built.jobs_run, "part made", "parts made")
    )
    print(f"Done in {built.seconds:.1f} s, {made}.", file=sys.stderr)


def _bundled(options: argparse.Namespace, request: Request, progress: Progress) -> Bundled:
    from shedbook.book.verbs.bundle import bundle

    changes = None
    if options.since:
        from shedbook.catalogue.comparing import changes_since
        from shedbook.cli.verbs.errata import phrase_rows

        changes = changes_since(options.since, request.manuscript, phrase_rows)
    return bundle(request, progress, changes)


def _bundle_json(bundled: Bundled) -> dict[str, object]:
    return {
        "bundle": [str(path) for path in bundled.files],
        "bundle_bytes": bundled.size,
        "zips_made": bundled.packed,
        "told": list(bundled.told),
    }


def _tell_of_bundle(bundled: Bundled) -> None:
    for said in bundled.told:
        print(said, file=sys.stderr)
    print(f"The bundle: {bundled.size / 1e6:,.1f} MB in {bundled.folder}.", file=sys.stderr)


def _errors_told(error: BuildError, *, as_json: bool) -> list[dict[str, object]]:
    """Print what stopped the build, or return it for JSON."""
    from shedbook.cli.error_text import error_item, error_text

    if as_json:
        return [dict[str, object](error_item(one, "")) for one in (*error.errors, error)]
    for one in error.errors:
        print(error_text(one), end="\n\n", file=sys.stderr)
    print(error_text(error), file=sys.stderr)
    return []


def built_json(built: Built) -> dict[str, object]:
    """Return the JSON object of a build: files, findings, warnings, what was made, seconds."""
    from shedbook.book.ground.findings import finding_values

    return {
        "books": [str(path) for path in built.pdfs],
        "tracks": [str(path) for path in built.tracks],
        "practice_page": str(built.practice_page or ""),
        "played_with": list(built.played_with),
        "findings": [finding_values(finding) for finding in built.findings],
        "warnings": [f"{one.message} {one.hint}".strip() for one in built.warnings],
        "parts_made": built.jobs_run,
        "seconds": round(built.seconds, 3),
        "memory_mb": {one.phase: {"largest": one.largest, "together": one.together} for one in built.memory},
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
