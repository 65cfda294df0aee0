"""What is asked of a build: a plain value, and the names of the files that answer it."""

from __future__ import annotations

import hashlib
import re
from dataclasses import dataclass
from pathlib import Path

_LONGEST_PART = 40
_NOT_IN_A_NAME = re.compile(r"[^\w.-]+")


@dataclass(frozen=True, slots=True)
class Request:
    """What the author asks for; empty tuples mean everything, or what manuscript.toml says.

    `keys` are tonics, `editions` names or lists of names, `phrases` numbers or ranges of them. `jobs` is how
    many processes may work, 0 for as many as there are cores. `scheduler` is the address of a Dask cluster
    that works in their place. `licensee` is named on every page, `sample` asks for a book of the first so
    many phrases, `proof_sheet` for a sheet with every score in place of the book. `tracks` are kinds
    of tracks, or "none" or "all"; `tablature` names of editions, or the same. `read_back` asks that every
    score of the finished books is read and held against its phrase; `bundle` that the store keeps what the
    pages print, from which a bundle tells what its books hold;
    `practice_page` asks for the student's page.
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
    read_back: bool = False
    bundle: bool = False
    practice_page: bool = False

    @property
    def kind(self) -> str:
        """What is added to the names of the PDFs, so that none is written over the whole book."""
        asked = [
            f"-keys-{_named(self.keys)}" if self.keys else "",
            f"-phrases-{_named(self.phrases)}" if self.phrases else "",
            "-proof-sheet" if self.proof_sheet else "-sample" if self.sample else "",
            f"-for-{_named((self.licensee,))}" if self.licensee else "",
        ]
        return "".join(asked)


def _named(texts: tuple[str, ...]) -> str:
    """Return texts as a part of a file's name; long ones end in a hash of the whole."""
    plain = "-".join(texts).replace("#", "sharp")
    found = _NOT_IN_A_NAME.sub("-", plain).strip("-.")
    if found and len(found) <= _LONGEST_PART:
        return found
    digest = hashlib.sha256("\n".join(texts).encode()).hexdigest()[:8]
    return f"{found[: _LONGEST_PART - 9].rstrip('-.')}-{digest}".strip("-")


def book_name(root: Path) -> str:
    """Return the first part of the names of the PDF files.

    It is the name of the manuscript's folder, without what cannot stand in a file's name everywhere.
    """
    return _NOT_IN_A_NAME.sub("-", root.resolve().name).strip("-.") or "book"


def pdf_path(root: Path, out: Path, edition: str) -> Path:
    """Return where an edition's PDF lies.

    Args:
        root: the manuscript's folder, after which the file is called.
        out: the output folder.
        edition: the edition's slug, with "-sample" or the like behind it where it is one.
    """
    return out / f"{book_name(root)}-{edition}.pdf"


def practice_folder_name(root: Path, request: Request) -> str:
    """Return the name of the folder of the student's page in the output folder."""
    return f"{book_name(root)}-practice{request.kind}"
