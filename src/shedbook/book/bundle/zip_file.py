"""Zip files that are the same bytes for the same members: one time, one order, one way to pack.

What is packed already is stored as it is. A member or a file beyond four gigabytes takes the longer form by
itself (Zip64, APPNOTE 4.3.14). A zip is written under another name and moved into its place when it is whole.
"""

from __future__ import annotations

import contextlib
import hashlib
import os
import shutil
import zipfile
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from shedbook.book.ground.writing import refused
from shedbook.errors import OutputError

_FIRST_DAY = (1980, 1, 1, 0, 0, 0)
"""The earliest time that a zip can say (APPNOTE 4.4.6)."""
_UNIX, _PLAIN_FILE = 3, 0o100644 << 16
_PACKED = (".pdf", ".mp3", ".opus", ".flac", ".png", ".jpg", ".zip")
_HEADS = 30 + 46
"""Bytes of the two heads of a member without its name, which stands in both (APPNOTE 4.3.7, 4.3.12)."""
_END, _BLOCK = 22, 1 << 20


@dataclass(frozen=True, slots=True)
class Member:
    """A file that goes into a zip: bytes, or the path of a file."""

    name: str
    content: bytes | Path

    @property
    def size(self) -> int:
        """Its size in bytes."""
        return len(self.content) if isinstance(self.content, bytes) else self.content.stat().st_size

    def sha256(self) -> str:
        """Return the hash of its bytes."""
        if isinstance(self.content, bytes):
            return hashlib.sha256(self.content).hexdigest()
        with self.content.open("rb") as file:
            return hashlib.file_digest(file, "sha256").hexdigest()


def most_bytes(members: Sequence[Member]) -> int:
    """Return how long a zip of these members is at most: exactly that where nothing of it can be packed."""
    return _END + sum(_HEADS + 2 * len(one.name.encode()) + one.size for one in members)


def check_room(folder: Path, needed: int) -> None:
    """See that a disk has room for so many bytes.

    Raises:
        OutputError: if it has not.
    """
    there = shutil.disk_usage(folder).free
    if there < needed:
        raise OutputError(
            f"The bundle takes up to {needed / 1e6:,.0f} MB; the disk of {folder} has {there / 1e6:,.0f}.",
            hint="Make room on it, or name a folder on another disk with --out.",
        )


def write_zip(target: Path, members: Sequence[Member], unfinished: Path) -> None:
    """Write a zip whole; members lie in it in the order of their names.

    Raises:
        OutputError: if the disk refuses it.
    """
    beginning = unfinished / f".{os.getpid()}-{target.name}.part"
    with refused(target):
        try:
            with beginning.open("wb") as file:
                with zipfile.ZipFile(file, "w") as made:
                    for member in sorted(members, key=lambda one: one.name):
                        _add(made, member)
                file.flush()
                os.fsync(file.fileno())
            beginning.replace(target)
        except BaseException:
            with contextlib.suppress(OSError):
                beginning.unlink()
            raise


def _add(made: zipfile.ZipFile, member: Member) -> None:
    info = zipfile.ZipInfo(member.name, _FIRST_DAY)
    info.create_system, info.external_attr = _UNIX, _PLAIN_FILE
    stored = member.name.lower().endswith(_PACKED)
    info.compress_type = zipfile.ZIP_STORED if stored else zipfile.ZIP_DEFLATED
    info.file_size = member.size  # by this the longer form is chosen
    with made.open(info, "w") as into:
        if isinstance(member.content, bytes):
            into.write(member.content)
            return
        with member.content.open("rb") as file:
            shutil.copyfileobj(file, into, _BLOCK)
