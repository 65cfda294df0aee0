"""The store: artefacts by name, written whole or not at all.

An artefact is a file `<kind>/<name>.<kind>` whose last line is a seal: the SHA-256 of what
stands before it. A file that is cut short, or changed by anybody, no longer matches its seal; it counts
as missing and is made again. The seal is a comment in SVG, so that other programs can read the file.

The sound of a track is kept plain, for it is shared with the folder of tracks; its hash stands in a card.

Files are first written under `unfinished/` and then moved, so a reader sees all of a file or none. Every
running build holds a shared lock; whoever cleans up needs the lock alone.
"""

from __future__ import annotations

import contextlib
import hashlib
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import TypeVar

from shedbook.book.ground.json_values import from_json, to_json
from shedbook.book.ground.writing import put, refused

try:
    import fcntl
except ImportError:  # not on Windows; there nothing is cleaned up while it might be in use
    fcntl = None  # type: ignore[assignment]

T = TypeVar("T")

KINDS = ("card", "svg", "piece", "sound", "build")
"""What the store holds: what was read of a phrase, a score picture, pages that were laid out apart, the
sound of a track, the record of a finished build."""

PLAIN = "sound"
"""The kind that is kept plain."""

KEPT_BUILDS = 8
"""An artefact that none of this many latest builds used is thrown away."""

_SEAL_START = b"\n<!-- sealed "
_SEAL_END = b" -->\n"
_SEAL_LENGTH = len(_SEAL_START) + 64 + len(_SEAL_END)


@dataclass(frozen=True, slots=True)
class _Used:
    """What of the record of a build says which artefacts it used."""

    uses: tuple[str, ...] = ()


Seal = tuple[int, int]
"""Size in bytes and time of the last change in ns of a file that is too long to be read at every build."""


@dataclass(frozen=True, slots=True)
class Holding:
    """How much of one kind a store holds: files, bytes, seconds since 1970 of the oldest and the newest."""

    kind: str
    files: int
    bytes: int
    oldest_s: float
    newest_s: float


@dataclass(frozen=True, slots=True)
class Store:
    """The artefacts beneath one folder."""

    folder: Path

    def path(self, kind: str, name: str) -> Path:
        """Return where an artefact lies, whether it is there or not."""
        return Path(self._path(kind, name))

    @staticmethod
    def inner_path(kind: str, name: str) -> str:
        """Return where an artefact lies, from the store's folder."""
        return f"{kind}/{name}.{kind}"

    def _path(self, kind: str, name: str) -> str:
        # Plain text: a build asks for a thousand of these, and `Path` is ten times as slow.
        return f"{self.folder}/{self.inner_path(kind, name)}"

    def read(self, kind: str, name: str) -> bytes | None:
        """Return an artefact without its seal, or None when it is missing or damaged."""
        try:
            with open(self._path(kind, name), "rb") as file:  # noqa: PTH123 - see _path
                sealed = file.read()
        except OSError:
            return None
        return _unsealed(sealed)

    def read_value(self, value: type[T], kind: str, name: str) -> T | None:
        """Return the value that an artefact holds, or None if it is missing, damaged, or of another form."""
        content = self.read(kind, name)
        if content is None:
            return None
        try:
            return from_json(value, content)
        except ValueError:
            return None

    def has(self, kind: str, name: str) -> bool:
        """Say whether an artefact is there and sound."""
        return self.read(kind, name) is not None

    def is_sound(self, name: str) -> bool:
        """Say whether something is there by that name, and whatever is sealed of it is sound."""
        there = [kind for kind in KINDS if self.path(kind, name).exists()]
        return bool(there) and all(kind == PLAIN or self.has(kind, name) for kind in there)

    def write(self, kind: str, name: str, content: bytes) -> None:
        """Put an artefact in its place.

        Raises:
            OutputError: if the disk refuses it.
        """
        with refused(self.folder.parent):
            put(self._path(kind, name), _sealed(content), self.folder / "unfinished")

    def read_plain(self, kind: str, name: str, sha256: str) -> bytes | None:
        """Return an artefact that was written plain; None where it is missing or has another hash."""
        try:
            content = self.path(kind, name).read_bytes()
        except OSError:
            return None
        return content if hashlib.sha256(content).hexdigest() == sha256 else None

    def write_plain(self, kind: str, name: str, content: bytes) -> str:
        """Put an artefact in its place just as it is, so that it can be shared; return its hash (SHA-256).

        Raises:
            OutputError: if the disk refuses it.
        """
        with refused(self.folder.parent):
            put(self._path(kind, name), content, self.folder / "unfinished", lasting=True)
        return hashlib.sha256(content).hexdigest()

    def write_value(self, kind: str, name: str, value: object) -> None:
        """Put a frozen value in its place, as JSON.

        Raises:
            OutputError: if the disk refuses it.
        """
        self.write(kind, name, to_json(value))

    @contextlib.contextmanager
    def held(self) -> Iterator[None]:
        """Hold the shared lock while a build runs; clean up first when nobody else is at work.

        Raises:
            OutputError: if the disk refuses the store its folders.
        """
        with refused(self.folder.parent):
            for inner in (*KINDS, "unfinished"):
                (self.folder / inner).mkdir(parents=True, exist_ok=True)
            opened = (self.folder / "lock").open("ab")
        with opened as lock:
            if fcntl is not None:
                with contextlib.suppress(OSError):
                    fcntl.flock(lock, fcntl.LOCK_EX | fcntl.LOCK_NB)
                    self._sweep()
                fcntl.flock(lock, fcntl.LOCK_SH)
            yield

    def holdings(self) -> tuple[Holding, ...]:
        """Return how much of each kind the store holds; of what is left half-written too."""
        return tuple(_holding(kind, _files(self.folder / kind)) for kind in (*KINDS, "unfinished"))

    def tidy(self, kept_builds: int = KEPT_BUILDS) -> bool:
        """Throw away what was left half-written and what none of the latest builds used.

        Args:
            kept_builds: how many of the latest builds count; 0 throws everything away.

        Returns:
            Whether it was done: not where a build is running.

        Raises:
            OutputError: if the disk refuses it.
        """
        if not self.folder.is_dir():
            return True
        with refused(self.folder.parent), (self.folder / "lock").open("ab") as lock:
            if fcntl is not None:
                try:
                    fcntl.flock(lock, fcntl.LOCK_EX | fcntl.LOCK_NB)
                except OSError:
                    return False
            self._sweep(kept_builds)
        return True

    def _sweep(self, kept_builds: int = KEPT_BUILDS) -> None:
        """Remove what was left half-written, and what the latest builds did not use."""
        for left in _files(self.folder / "unfinished"):
            left.unlink(missing_ok=True)
        records = sorted(_files(self.folder / "build"), key=lambda path: path.stat().st_mtime, reverse=True)
        if kept_builds and len(records) <= kept_builds:
            return
        used: set[str] = set()
        for record in records[:kept_builds]:
            used.update((self.read_value(_Used, "build", record.stem) or _Used()).uses)
        for record in records[kept_builds:]:
            record.unlink(missing_ok=True)
        for kind in KINDS[:-1]:
            for path in _files(self.folder / kind):
                if path.stem not in used:
                    path.unlink(missing_ok=True)


def file_seal(path: Path) -> Seal | None:
    """Return the seal of a file: its size in bytes and the time of its last change in ns; None for no file.

    A file of which both are the same counts as unchanged: tracks and fonts are too long to be read each time.
    """
    try:
        found = path.stat()
    except OSError:
        return None
    return found.st_size, found.st_mtime_ns


def _sealed(content: bytes) -> bytes:
    return b"".join((content, _SEAL_START, hashlib.sha256(content).hexdigest().encode(), _SEAL_END))


def _unsealed(sealed: bytes) -> bytes | None:
    content, seal = sealed[:-_SEAL_LENGTH], sealed[-_SEAL_LENGTH:]
    expected = b"".join((_SEAL_START, hashlib.sha256(content).hexdigest().encode(), _SEAL_END))
    return content if seal == expected else None


def _holding(kind: str, files: Iterable[Path]) -> Holding:
    found = []
    for path in files:
        with contextlib.suppress(OSError):  # a build that is running moves them
            found.append(path.stat())
    times = [one.st_mtime for one in found] or [0.0]
    return Holding(kind, len(found), sum(one.st_size for one in found), min(times), max(times))


def _files(folder: Path) -> Iterable[Path]:
    return [path for path in folder.rglob("*") if path.is_file()] if folder.is_dir() else ()
