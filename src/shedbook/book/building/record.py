"""The record of a finished build: under a name made from all that went into it, what came of it.

A build in which nothing has changed is answered from its record, before anything that knows notes is loaded.
That takes less time than loading the library that writes all other values as JSON. So the outcome, which has
a plain form, is written and read here by the standard library, and a test holds it against that library.
"""

from __future__ import annotations

import json
import os
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, fields, replace
from pathlib import Path
from types import MappingProxyType
from typing import Any

from shedbook.book.ground.findings import BookFinding
from shedbook.book.manuscript.request import Request
from shedbook.book.workshop.memory import PhaseMemory
from shedbook.book.workshop.naming import content_hash, digest
from shedbook.book.workshop.output_folder import STORE
from shedbook.book.workshop.store import Seal, Store, file_seal
from shedbook.book.workshop.versions import fingerprint

_READ_SUFFIXES = (".toml", ".txt")


@dataclass(frozen=True, slots=True)
class Outcome:
    """What came of a build.

    `pdfs` are hashes of the books by their names, `tracks` seals of the tracks from the output folder,
    `practice` those of the student's page, `watched` seals of files from outside the manuscript's texts.
    `warnings` are messages and hints, `moved` those of what this build put apart. `uses` are names in the
    store, `memory` is what each phase held, `read_back` the number of scores that were read back and are
    right. No record keeps `memory` and `moved`. Only a `complete` outcome answers the next build.
    """

    pdfs: Mapping[str, str]
    findings: tuple[BookFinding, ...] = ()
    tracks: Mapping[str, Seal | None] = field(default_factory=dict)
    watched: Mapping[str, Seal | None] = field(default_factory=dict)
    played_with: tuple[str, ...] = ()
    warnings: tuple[tuple[str, str], ...] = ()
    jobs_run: int = 0
    uses: tuple[str, ...] = ()
    complete: bool = True
    read_back: int = 0
    memory: tuple[PhaseMemory, ...] = ()
    practice: Mapping[str, Seal | None] = field(default_factory=dict)
    moved: tuple[tuple[str, str], ...] = ()

    def to_json(self) -> bytes:
        """Return the outcome as JSON, in the form of `ground.json_values`."""
        values = {one.name: getattr(self, one.name) for one in fields(self)}
        return json.dumps(values, ensure_ascii=False, separators=(",", ":"), default=dict).encode()

    @classmethod
    def from_json(cls, content: bytes) -> Outcome | None:
        """Return the outcome that JSON holds, or None where it holds another form."""
        try:
            values = json.loads(content)
            return cls(**{one.name: _READERS[one.name](values[one.name]) for one in fields(cls)})
        except (ValueError, KeyError, TypeError):
            return None


def _seals(found: Mapping[str, Sequence[int] | None]) -> dict[str, Seal | None]:
    return {name: None if seal is None else (seal[0], seal[1]) for name, seal in found.items()}


_READERS: Mapping[str, Callable[[Any], Any]] = MappingProxyType(
    {
        "pdfs": dict,
        "findings": lambda found: tuple(BookFinding(*one) for one in found),
        "tracks": _seals,
        "watched": _seals,
        "played_with": tuple,
        "warnings": lambda found: tuple((message, hint) for message, hint in found),
        "jobs_run": int,
        "uses": tuple,
        "complete": bool,
        "read_back": int,
        "memory": lambda found: tuple(PhaseMemory(*one) for one in found),
        "practice": _seals,
        "moved": lambda found: tuple((message, hint) for message, hint in found),
    }
)
"""How each field of an outcome is read from JSON; a field without a reader is refused when it is read."""


@dataclass(frozen=True, slots=True)
class _Given:
    """Everything on which the outcome of a build depends, besides the versions.

    `request` is without what decides only how and where it is built; `files` are those that are read beneath
    the manuscript, each with the hash of its bytes.
    """

    root: str
    request: Request
    files: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class Record:
    """Where the outcome of a build is kept."""

    store: Store
    out: Path
    name: str

    @classmethod
    def of(cls, request: Request, root: Path, out: Path) -> Record:
        """Return the record, there or not, of a build of the manuscript as it is now."""
        asked = replace(request, manuscript=Path(), out=None, jobs=0, final=False, scheduler="")
        given = _Given(str(root.resolve()), asked, _inputs(root))
        return cls(Store(out / STORE), out, digest("build", repr(given), fingerprint()))

    def read(self, *, makings: bool = False) -> Outcome | None:
        """Return the outcome if the books and tracks it tells of are as told.

        With `makings` what the store holds of them must be sound too: a bundle is made of it.
        """
        content = self.store.read("build", self.name)
        found = None if content is None else Outcome.from_json(content)
        if found is None:
            return None
        for name, known in found.pdfs.items():
            try:
                if content_hash((self.out / name).read_bytes()) != known:
                    return None
            except OSError:
                return None
        sealed = {
            str(self.out / name): seal for name, seal in {**found.tracks, **found.practice}.items()
        } | dict(found.watched)
        same = all(file_seal(Path(path)) == seal for path, seal in sealed.items())
        if same and makings:
            same = all(self.store.is_sound(name) for name in found.uses)
        return found if same else None

    def write(self, outcome: Outcome) -> None:
        """Keep what a build gave.

        Raises:
            OutputError: if the disk refuses it.
        """
        self.store.write("build", self.name, replace(outcome, memory=(), moved=()).to_json())

    def use(self) -> None:
        """Count the record among the latest builds."""
        self.store.path("build", self.name).touch()


def is_watched(file: str) -> bool:
    """Say whether a record notices a change of this file of the manuscript."""
    return file.endswith(".toml") and not any(part.startswith(".") for part in file.split("/"))


def _inputs(root: Path) -> tuple[tuple[str, str], ...]:
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
    return tuple(found)
