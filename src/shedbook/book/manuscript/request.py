"""What is asked of a build and what it gives back: plain values, and how they read."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any, NamedTuple

from shedbook.errors import BuildError, ShedbookError

_NOT_IN_A_NAME = re.compile(r"[^\w.-]+")


@dataclass(frozen=True, slots=True)
class Request:
    """What the author asks for; empty tuples mean everything, or what manuscript.toml says.

    `keys` are tonics, `editions` names or lists of names, `phrases` numbers or ranges of them. `jobs` is how
    many processes may work, 0 for as many as there are cores. `scheduler` is the address of a Dask cluster
    that works in their place. `licensee` is named on every page, `sample` asks for a book of the first so
    many phrases, `proof_sheet` for a sheet with every score in place of the book. `tracks` are kinds
    of tracks, or "none" or "all"; `tablature` names of editions, or the same.
    """

    manuscript: Path
    out: Path | None = None
    keys: tuple[str, ...] = ()
    editions: tuple[str, ...] = ()
    phrases: tuple[str, ...] = ()
    jobs: int = 0
    final: bool = False
    scheduler: str = ""
    licensee: str = ""
    sample: int = 0
    proof_sheet: bool = False
    tracks: tuple[str, ...] = ()
    tablature: tuple[str, ...] = ()

    @property
    def kind(self) -> str:
        """What is added to the names of the PDFs: "-sample", "-proof-sheet", or nothing."""
        return "-proof-sheet" if self.proof_sheet else "-sample" if self.sample else ""


class Step(NamedTuple):
    """How far a phase is: "reading", "engraving", "pages" or "tracks", so many of so many."""

    phase: str
    done: int
    of: int


Tell = Callable[[Step], None]


class BookFinding(NamedTuple):
    """A finding with the phrase it belongs to: its number in the book, its title, its file.

    Number 0 is the book itself. One of a single edition names it and the reader's key.
    """

    number: int
    title: str
    file: str
    rule: str
    severity: str
    bar: int | None
    beat: str
    message: str
    mend: str
    edition: str = ""
    key: str = ""


@dataclass(frozen=True, slots=True)
class Built:
    """What a build gave: where the books are, what was found, and how much of it had to be made.

    `tracks` are the files of the tracks, `played_with` says what they were made with, `warnings` which of
    them do not sound and why.
    """

    pdfs: tuple[Path, ...]
    findings: tuple[BookFinding, ...]
    jobs_run: int
    seconds: float
    tracks: tuple[Path, ...] = ()
    played_with: tuple[str, ...] = ()
    warnings: tuple[ShedbookError, ...] = ()


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
    if finding.edition:
        place += f", {finding.edition} edition"
    mend = f" {finding.mend}" if finding.mend else ""
    whose = f"{finding.number} “{finding.title}”" if finding.number else finding.file
    return f"{whose}{place}: {finding.severity} ({finding.rule}): {finding.message}{mend}"


def findings_from(record: Mapping[str, Any]) -> tuple[BookFinding, ...]:
    """Return the findings that a record holds."""
    return tuple(BookFinding(**finding) for finding in record["findings"])
