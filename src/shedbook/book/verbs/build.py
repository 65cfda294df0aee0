"""The build: a manuscript in, one PDF an edition out, with the tracks.

A build in which nothing has changed is answered from its record here, before anything that knows notes
is loaded; every other one is made in the room `building`.
"""

from __future__ import annotations

import os
import time
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from shedbook.book.building.record import Outcome, Record
from shedbook.book.ground.findings import BookFinding, refuse_final
from shedbook.book.ground.progress import Tell
from shedbook.book.ground.writing import missing_folders
from shedbook.book.manuscript.request import Request, book_name, practice_folder_name
from shedbook.book.workshop.memory import PhaseMemory
from shedbook.book.workshop.output_folder import abandon, default_output, examine, page_is_stray
from shedbook.errors import ManuscriptError, OutputError, ShedbookError, SoundError

if TYPE_CHECKING:
    from shedbook.book.workshop.crew import OpenExecutor


@dataclass(frozen=True, slots=True)
class Built:
    """What a build gave: where the books are, what was found, and how much of it had to be made.

    `tracks` are the files of the tracks, `played_with` says what they were made with, `warnings` which of
    them do not sound and why. `read_back` is how many scores of the finished books were read and are right.
    `memory` is what the processes of each phase held at most; a build that finds nothing to do does not tell.
    `practice_page` is what a browser opens, None where it was not asked for.
    """

    pdfs: tuple[Path, ...]
    findings: tuple[BookFinding, ...]
    jobs_run: int
    seconds: float
    tracks: tuple[Path, ...] = ()
    played_with: tuple[str, ...] = ()
    warnings: tuple[ShedbookError, ...] = ()
    read_back: int = 0
    memory: tuple[PhaseMemory, ...] = ()
    practice_page: Path | None = None


def build(request: Request, tell: Tell = lambda step: None) -> Built:
    """Build the editions of a manuscript. A first build that fails leaves no folder behind.

    Args:
        request: what is asked for.
        tell: is called with every step, from this process.

    Raises:
        ManuscriptError: if the manuscript cannot be opened.
        BuildError: if phrases cannot be read or engraved; or, for a final build, have error findings; or if
            a score that is read back does not say what its phrase does.
        UnknownNameError: for a key, edition or phrase that is not there.
        OutputError: if the output folder is not ours or cannot be written.
    """
    started = time.perf_counter()
    root = _root(request.manuscript)
    out = request.out or default_output(root, book_name(root))
    ours = examine(out)
    record = Record.of(request, root, out)
    found = record.read(makings=request.bundle) if ours else None
    if found is not None and not _page_is_stray(request, root, out, found):
        refuse_final(found.findings, final=request.final)
        record.use()
        return _built(out, found, 0, started)

    folders = missing_folders(out)
    try:
        made = _made(request, root, out, tell, ours=ours)
    except OutputError:
        raise  # the folder is not ours to take away
    except ShedbookError:
        if not ours:
            abandon(out, folders)
        raise
    if made.complete and Record.of(request, root, out) == record:  # not if a file was saved meanwhile
        record.write(made)
    return _built(out, made, made.jobs_run, started)


def _page_is_stray(request: Request, root: Path, out: Path, found: Outcome) -> bool:
    """Whether a student's page lies there that was made since, and is not asked for now."""
    whole = not request.editions and not request.kind
    return whole and not found.practice and page_is_stray(out / practice_folder_name(root, request))


def _built(out: Path, outcome: Outcome, jobs_run: int, started: float) -> Built:
    return Built(
        pdfs=tuple(out / name for name in outcome.pdfs),
        findings=outcome.findings,
        jobs_run=jobs_run,
        seconds=time.perf_counter() - started,
        tracks=tuple(out / name for name in sorted(outcome.tracks)),
        played_with=outcome.played_with,
        warnings=tuple(
            SoundError(message, hint=hint) for message, hint in (*outcome.warnings, *outcome.moved)
        ),
        read_back=outcome.read_back,
        memory=outcome.memory,
        practice_page=next((out / name for name in outcome.practice if name.endswith("index.html")), None),
    )


def _made(request: Request, root: Path, out: Path, tell: Tell, *, ours: bool) -> Outcome:
    """Make the book with workers that are gone afterwards, however it ends.

    Only here is loaded what reads, engraves and lays out. Where something was built before, little is
    expected to be missing, and one worker begins to load while this process finds out what.
    """
    from shedbook.book.scores.loading import load_engraver  # noqa: PLC0415
    from shedbook.book.workshop.crew import Crew  # noqa: PLC0415

    crew = Crew(request.jobs or os.cpu_count() or 1, _cluster(request.scheduler))
    try:
        if ours:
            crew.prepare(load_engraver)
        from shedbook.book.building.make import make  # noqa: PLC0415

        made = make(request, root, out, tell, crew)
    except BaseException:
        crew.stop()
        raise
    crew.close()
    return made


def _cluster(address: str) -> OpenExecutor | None:
    """Return what opens the workers of a cluster, None where this machine works alone."""
    if not address:
        return None
    from shedbook.book.workshop.cluster import open_cluster  # noqa: PLC0415

    return open_cluster(address)


def _root(manuscript: Path) -> Path:
    """Return the manuscript's folder."""
    if manuscript.is_file() and manuscript.name == "manuscript.toml":
        return manuscript.parent
    if manuscript.is_file():
        raise ManuscriptError(
            f"{manuscript} is one file; a book is built from a manuscript's folder.",
            hint="To see a single phrase: shedbook show FILE --out picture.png",
        )
    return manuscript
