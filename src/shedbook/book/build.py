"""The build: a manuscript in, one PDF an edition out. What the interfaces call.

A build in which nothing has changed is answered from its record here, before anything that knows notes
is loaded; every other one is made in `make`.
"""

from __future__ import annotations

import os
import re
import time
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any, NamedTuple

from shedbook.book.outfolder import STORE, default_output, examine
from shedbook.book.store import Store, content_hash, digest
from shedbook.book.versions import fingerprint
from shedbook.errors import BuildError, ManuscriptError

_NOT_IN_A_NAME = re.compile(r"[^\w.-]+")


@dataclass(frozen=True, slots=True)
class Request:
    """What the author asks for; empty tuples mean everything, or what manuscript.toml says.

    `keys` are tonics, `phrases` numbers or ranges of them. `jobs` is how many processes may work, 0 for
    as many as there are cores. `scheduler` is the address of a Dask cluster that works in their place.
    """

    manuscript: Path
    out: Path | None = None
    keys: tuple[str, ...] = ()
    editions: tuple[str, ...] = ()
    phrases: tuple[str, ...] = ()
    jobs: int = 0
    final: bool = False
    scheduler: str = ""


class Step(NamedTuple):
    """How far a phase is: "reading", "engraving" or "pages", so many of so many."""

    phase: str
    done: int
    of: int


Tell = Callable[[Step], None]


class BookFinding(NamedTuple):
    """A finding with the phrase it belongs to: its number in the book, its title, its file."""

    number: int
    title: str
    file: str
    rule: str
    severity: str
    bar: int | None
    beat: str
    message: str
    mend: str


@dataclass(frozen=True, slots=True)
class Built:
    """What a build gave: where the books are, what was found, and how much of it had to be made."""

    pdfs: tuple[Path, ...]
    findings: tuple[BookFinding, ...]
    jobs_run: int
    seconds: float


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
        return Built(_pdfs(out, found), findings, 0, time.perf_counter() - started)

    # Loaded only now: everything that reads, engraves and lays out.
    from shedbook.book.make import make  # noqa: PLC0415

    made = make(request, root, out, tell)
    if made["recorded"] and Record.of(request, root, out) == record:  # not if a file was saved meanwhile
        record.write(made)
    return Built(_pdfs(out, made), findings_from(made), int(made["jobs_run"]), time.perf_counter() - started)


def book_name(root: Path) -> str:
    """Return the first part of the PDF files' names: the manuscript folder's own name."""
    return _NOT_IN_A_NAME.sub("-", root.resolve().name).strip("-.") or "book"


def pdf_path(root: Path, out: Path, edition: str) -> Path:
    """Return where an edition's PDF lies."""
    return out / f"{book_name(root)}-{edition}.pdf"


def refuse_final(request: Request, findings: Sequence[BookFinding]) -> None:
    """Stop a final build that has error findings; no PDF has been written then."""
    errors = [finding for finding in findings if finding.severity == "error"]
    if request.final and errors:
        count = "one finding is an error" if len(errors) == 1 else f"{len(errors)} findings are errors"
        raise BuildError(
            f"The final book was not made: {count}.\n" + "\n".join(finding_line(one) for one in errors),
            hint="Mend them, silence them with a reason, or build without --final.",
        )


def finding_line(finding: BookFinding) -> str:
    """Return a finding in one line: phrase, place, what it is, how to mend it."""
    place = "".join(
        [
            "" if finding.bar is None else f", bar {finding.bar}",
            f", beat {finding.beat}" if finding.beat else "",
        ]
    )
    mend = f" {finding.mend}" if finding.mend else ""
    return (
        f"{finding.number} “{finding.title}”{place}: {finding.severity} ({finding.rule}): "
        f"{finding.message}{mend}"
    )


def findings_from(record: Mapping[str, Any]) -> tuple[BookFinding, ...]:
    """Return the findings that a record holds."""
    return tuple(BookFinding(**finding) for finding in record["findings"])


@dataclass(frozen=True, slots=True)
class Record:
    """What a finished build left behind, under a name made from everything that went into it."""

    store: Store
    out: Path
    name: str

    @classmethod
    def of(cls, request: Request, root: Path, out: Path) -> Record:
        """Return the record, there or not, of a build of the manuscript as it is now."""
        asked = [",".join(part) for part in (request.keys, request.editions, request.phrases)]
        read = [text for file, seal in _inputs(root) for text in (file, seal)]
        name = digest("build", str(root.resolve()), *asked, fingerprint(), *read)
        return cls(Store(out / STORE), out, name)

    def read(self) -> dict[str, Any] | None:
        """Return the record if the PDFs it tells of are still what they were."""
        found = self.store.read_json("build", self.name)
        if found is None:
            return None
        for name, seal in found["pdfs"].items():
            try:
                if content_hash((self.out / name).read_bytes()) != seal:
                    return None
            except OSError:
                return None
        return found

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
    """Return every TOML file beneath the manuscript with the hash of its bytes, in a fixed order."""
    found = []
    for folder, inner, files in os.walk(root):
        inner[:] = sorted(name for name in inner if not name.startswith("."))
        for name in sorted(files):
            if name.endswith(".toml"):
                path = Path(folder, name)
                try:
                    found.append((path.relative_to(root).as_posix(), content_hash(path.read_bytes())))
                except OSError:
                    found.append((path.relative_to(root).as_posix(), "unreadable"))
    return found


def _pdfs(out: Path, record: Mapping[str, Any]) -> tuple[Path, ...]:
    return tuple(out / name for name in record["pdfs"])
