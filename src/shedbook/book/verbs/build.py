"""The build: a manuscript in, one PDF an edition out. What the interfaces call.

A build in which nothing has changed is answered from its record here, before anything that knows notes
is loaded; every other one is made in `make`.
"""

from __future__ import annotations

import os
import time
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from shedbook.book.manuscript.request import Built, Request, Tell, book_name, findings_from, refuse_final
from shedbook.book.workshop.output_folder import STORE, default_output, examine
from shedbook.book.workshop.store import Store, content_hash, digest, file_seal
from shedbook.book.workshop.versions import fingerprint
from shedbook.errors import ManuscriptError, SoundError

_READ_SUFFIXES = (".toml", ".txt")


def build(request: Request, tell: Tell = lambda step: None) -> Built:
    """Build the editions of a manuscript.

    Raises:
        ManuscriptError: if the manuscript cannot be opened.
        BuildError: if phrases cannot be read or engraved; or, for a final build, have error findings.
        UnknownNameError: for a key, edition or phrase that is not there.
        OutputError: if the output folder is not ours or cannot be written.
    """
    started = time.perf_counter()
    root = _root(request.manuscript)
    out = request.out or default_output(root, book_name(root))
    ours = examine(out)
    record = Record.of(request, root, out)
    found = record.read() if ours else None
    if found is not None:
        findings = findings_from(found)
        refuse_final(request, findings)
        record.use()
        return _built(out, found, 0, started)

    made = _made(request, root, out, tell, ours=ours)
    if made["recorded"] and Record.of(request, root, out) == record:  # not if a file was saved meanwhile
        record.write(made)
    return _built(out, made, int(made["jobs_run"]), started)


def _built(out: Path, record: Mapping[str, Any], jobs_run: int, started: float) -> Built:
    return Built(
        pdfs=tuple(out / name for name in record["pdfs"]),
        findings=findings_from(record),
        jobs_run=jobs_run,
        seconds=time.perf_counter() - started,
        tracks=tuple(out / name for name in sorted(record["tracks"])),
        played_with=tuple(record["played_with"]),
        warnings=tuple(SoundError(message, hint=hint) for message, hint in record["warnings"]),
    )


def _made(request: Request, root: Path, out: Path, tell: Tell, *, ours: bool) -> dict[str, Any]:
    """Make the book with workers that are gone afterwards, however it ends.

    Only here is loaded what reads, engraves and lays out. Where something was built before, little is
    expected to be missing, and one worker begins to load while this process finds out what.
    """
    from shedbook.book.workshop.crew import Crew, load_engraver, open_cluster  # noqa: PLC0415

    crew = Crew(
        request.jobs or os.cpu_count() or 1, open_cluster(request.scheduler) if request.scheduler else None
    )
    try:
        if ours:
            crew.prepare(load_engraver)
        from shedbook.book.build.make import make  # noqa: PLC0415

        made = make(request, root, out, tell, crew)
    except BaseException:
        crew.stop()
        raise
    crew.close()
    return made


@dataclass(frozen=True, slots=True)
class Record:
    """What a finished build left behind, under a name made from everything that went into it."""

    store: Store
    out: Path
    name: str

    @classmethod
    def of(cls, request: Request, root: Path, out: Path) -> Record:
        """Return the record, there or not, of a build of the manuscript as it is now."""
        lists = (request.keys, request.editions, request.phrases, request.tracks, request.tablature)
        asked = [",".join(part) for part in lists]
        asked += [request.licensee, str(request.sample), str(request.proof_sheet)]
        read = [text for file, seal in _inputs(root) for text in (file, seal)]
        name = digest("build", str(root.resolve()), *asked, fingerprint(), *read)
        return cls(Store(out / STORE), out, name)

    def read(self) -> dict[str, Any] | None:
        """Return the record if the books and tracks it tells of, and their makings, are as told."""
        found = self.store.read_json("build", self.name)
        if found is None:
            return None
        for name, seal in found["pdfs"].items():
            try:
                if content_hash((self.out / name).read_bytes()) != seal:
                    return None
            except OSError:
                return None
        tracks = {str(self.out / name): seal for name, seal in found["tracks"].items()}
        same = all(file_seal(Path(path)) == seal for path, seal in (tracks | found["watched"]).items())
        return found if same else None

    def write(self, made: Mapping[str, Any]) -> None:
        """Keep what a build gave."""
        self.store.write_json("build", self.name, made)

    def use(self) -> None:
        """Count the record among the latest builds."""
        self.store.path("build", self.name).touch()


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


def _inputs(root: Path) -> list[tuple[str, str]]:
    """Return every file that is read beneath the manuscript with its bytes' hash, in a fixed order."""
    found = []
    for folder, inner, files in os.walk(root):
        inner[:] = sorted(name for name in inner if not name.startswith("."))
        for name in sorted(files):
            if name.endswith(_READ_SUFFIXES):
                path = Path(folder, name)
                try:
                    found.append((path.relative_to(root).as_posix(), content_hash(path.read_bytes())))
                except OSError:
                    found.append((path.relative_to(root).as_posix(), "unreadable"))
    return found
