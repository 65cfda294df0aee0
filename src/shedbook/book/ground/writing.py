"""Writing files: whole or not at all, and one way to say why a disk refuses.

A file is first written beside its place under a hidden name and then moved, so whoever looks sees all of
it or none; where that fails, what was begun is removed.
"""

from __future__ import annotations

import contextlib
import errno
import os
import time
from collections.abc import Iterator
from pathlib import Path

from shedbook.errors import OutputError

ANOTHER_FILE = "Name another file with --out."
ANOTHER_FOLDER = "Name another folder with --out."

_FULL = frozenset((errno.ENOSPC, errno.EDQUOT))


def put(
    target: Path | str, content: bytes, unfinished: Path, *, lasting: bool = False, new: bool = False
) -> None:
    """Write a file whole: under another name first, then moved into its place; both folders are there.

    `lasting` waits until the disk has it; a sealed artefact needs no such wait, since a damaged one is
    found out and made again. With `new` a file that is there already is left alone.

    Raises:
        OSError: if it cannot be written, or is `new` and there already.
    """
    beginning = f"{unfinished}/.{os.getpid()}-{time.monotonic_ns()}.part"
    try:
        # Plain text: a build puts a thousand files, and `Path` is ten times as slow.
        with open(beginning, "wb") as file:  # noqa: PTH123
            file.write(content)
            if lasting:
                file.flush()
                os.fsync(file.fileno())
        if new:
            os.link(beginning, target)  # fails where a file of that name is there, as a move would not
            os.unlink(beginning)  # noqa: PTH108
        else:
            os.replace(beginning, target)  # noqa: PTH105
    except BaseException:
        with contextlib.suppress(OSError):
            os.unlink(beginning)  # noqa: PTH108
        raise


def write_whole(out: Path, content: bytes) -> None:
    """Write a file that a person named, whole or not at all, its folder made where it is missing.

    Raises:
        OutputError: if that is not possible; folders that were made for it are gone again.
    """
    made = missing_folders(out.parent)
    with refused(out, ANOTHER_FILE):
        try:
            out.parent.mkdir(parents=True, exist_ok=True)
            put(out, content, out.parent, lasting=True)
        except BaseException:
            remove_empty(made)
            raise


@contextlib.contextmanager
def refused(where: Path, hint: str = ANOTHER_FOLDER) -> Iterator[None]:
    """Turn what the disk refuses while `where` is written into an error for people.

    Raises:
        OutputError: in place of an OSError.
    """
    try:
        yield
    except OSError as error:
        raise refusal(error, where, hint) from error


def refusal(error: OSError, where: Path, hint: str = ANOTHER_FOLDER) -> OutputError:
    """Return the error for people that stands for what the operating system refused.

    Args:
        error: what was refused; a full disk is told from everything else.
        where: what was to be written.
        hint: what the author can do.
    """
    if error.errno in _FULL:
        return OutputError(
            f"The disk is full: {where} cannot be written.",
            hint=f"Make room on it. {hint}",
        )
    return OutputError(f"{where} cannot be written: {error.strerror or error}.", hint=hint)


def missing_folders(folder: Path) -> list[Path]:
    """Return a folder and its parents as far as they do not exist yet, the innermost first."""
    return [path for path in (folder, *folder.parents) if not path.exists()]


def remove_empty(folders: list[Path]) -> None:
    """Remove folders as far as nothing is in them, the innermost first."""
    for folder in folders:
        with contextlib.suppress(OSError):
            folder.rmdir()
