"""A file in a second place without its bytes being there twice.

Where the file system can, the second file is a copy that shares the blocks until one of the two is written
to (a reflink: Linux' ioctl FICLONE). Else it is a second name of a file that is read-only; whoever has leave
to write all the same writes into both, and the hash of what is kept finds it out. Else it is a copy.
"""

from __future__ import annotations

import contextlib
import os
import sys
import time
from pathlib import Path

try:
    import fcntl
except ImportError:  # not on Windows
    fcntl = None  # type: ignore[assignment]

REFLINK, LINK, COPY = "reflink", "link", "copy"

_FICLONE = 0x40049409
"""_IOW(0x94, 9, int): linux/fs.h."""
_READ_ONLY = 0o444


def share(source: Path, target: Path, unfinished: Path) -> str:
    """Put a file into a second place, whole or not at all; return how: REFLINK, LINK or COPY.

    Args:
        source: the file; where nothing but a link can be had, it becomes read-only.
        target: the second place; what lies there is replaced.
        unfinished: a folder on the same disk as `target`.

    Raises:
        OSError: if the disk refuses it.
    """
    beginning = unfinished / f".{os.getpid()}-{time.monotonic_ns()}.part"
    try:
        how = _shared(source, beginning)
        beginning.replace(target)
    finally:
        with contextlib.suppress(OSError):  # a link that replaces itself stays
            beginning.unlink()
    return how


def _shared(source: Path, beginning: Path) -> str:
    if _cloned(source, beginning):
        return REFLINK
    if sys.platform != "win32":  # there a file that is read-only cannot be taken away
        with contextlib.suppress(OSError):
            source.chmod(_READ_ONLY)
            os.link(source, beginning)
            return LINK
    beginning.write_bytes(source.read_bytes())
    return COPY


def _cloned(source: Path, beginning: Path) -> bool:
    """Whether the file system made a copy that shares its blocks."""
    if fcntl is None or not sys.platform.startswith("linux"):
        return False
    with source.open("rb") as one, beginning.open("wb") as other:
        try:
            fcntl.ioctl(other.fileno(), _FICLONE, one.fileno())
        except OSError:
            pass
        else:
            return True
    beginning.unlink()
    return False


def same_file(one: Path, other: Path) -> bool:
    """Whether two places are names of one file."""
    try:
        return one.samefile(other)
    except OSError:
        return False
