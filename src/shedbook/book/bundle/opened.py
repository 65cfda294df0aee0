"""A bundle as whoever checks it finds it: a folder or a zip, its files by name, what is wrong with it."""

from __future__ import annotations

import zipfile
import zlib
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from hashlib import sha256
from pathlib import Path
from typing import IO, NamedTuple

from shedbook.book.bundle.manifest import MANIFEST, TRACK, ZIP, FileRow

_LONG = (TRACK, ZIP)
_PIECE = 1 << 20


class Fault(NamedTuple):
    """Something that is not as it should be: in which file, and what, as a sentence."""

    file: str
    says: str


class Opened:
    """The files of a folder or of a zip, read when they are asked for."""

    def __init__(self, path: Path, packed: zipfile.ZipFile | None) -> None:
        self.path = path
        self._packed = packed

    def names(self) -> list[str]:
        """Return the names of its files, of a zip in the order in which it lists them."""
        if self._packed is not None:
            return [one.filename for one in self._packed.infolist() if not one.is_dir()]
        found = (one for one in self.path.rglob("*") if one.is_file())
        return sorted(one.relative_to(self.path).as_posix() for one in found)

    def read(self, name: str) -> bytes:
        """Return a file.

        Raises:
            ValueError: if it is not there, or damaged.
        """
        with self._stream(name) as file:
            return file.read()

    def measured(self, name: str) -> tuple[int, str]:
        """Return size and SHA-256 of a file, read piece by piece.

        Raises:
            ValueError: if it is not there, or damaged.
        """
        size, found = 0, sha256()
        with self._stream(name) as file:
            while piece := file.read(_PIECE):
                size += len(piece)
                found.update(piece)
        return size, found.hexdigest()

    @contextmanager
    def _stream(self, name: str) -> Iterator[IO[bytes]]:
        try:
            with (self.path / name).open("rb") if self._packed is None else self._packed.open(name) as file:
                yield file
        except (KeyError, OSError, zipfile.BadZipFile, zlib.error, EOFError, NotImplementedError) as error:
            raise ValueError(f"it cannot be read: {error}") from None


@contextmanager
def opened(path: Path) -> Iterator[Opened]:
    """Give a folder, or a zip, to be read.

    Raises:
        ValueError: if it is neither.
    """
    if path.is_dir():
        yield Opened(path, None)
        return
    try:
        packed = zipfile.ZipFile(path)
    except (OSError, zipfile.BadZipFile) as error:
        raise ValueError(f"it is no whole zip file: {error}") from None
    with packed:
        yield Opened(path, packed)


def file_faults(there: Opened, rows: Sequence[FileRow]) -> tuple[list[Fault], Mapping[str, bytes]]:
    """Hold the files of a bundle against its manifest; return what is wrong, and the files that are there.

    What is listed and can be read is given, damaged or not; but tracks and zips, which are long, are not.
    """
    names, faults, found = there.names(), list[Fault](), dict[str, bytes]()
    listed = {row.name for row in rows}
    if len(listed) != len(rows):
        faults.append(Fault(MANIFEST, "It names a file twice."))
    if len(set(names)) != len(names):
        faults.append(Fault(MANIFEST, "The zip holds two files of one name."))
    faults += [
        Fault(name, "It is in no list of the manifest.") for name in names if name not in {*listed, MANIFEST}
    ]
    for row in rows:
        try:
            size, digest = there.measured(row.name)
            if row.role not in _LONG:
                found[row.name] = there.read(row.name)
        except ValueError as error:
            faults.append(Fault(row.name, f"It should be there, but {error}."))
            continue
        if size != row.size:
            faults.append(Fault(row.name, f"It has {size} bytes in place of {row.size}."))
        elif digest != row.sha256:
            faults.append(Fault(row.name, "Its checksum is not that of the manifest."))
    return faults, found
