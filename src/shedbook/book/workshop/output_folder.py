"""The output folder: which one may be used, and the marker that says it is ours."""

from __future__ import annotations

import contextlib
import shutil
from collections.abc import Collection
from pathlib import Path

from shedbook.book.ground.writing import ANOTHER_FOLDER, missing_folders, refused, remove_empty
from shedbook.errors import OutputError

MARKER = ".shedbook-output"
STORE = ".store"
_KINDS = ("keys-", "phrases-", "sample", "proof-sheet", "for-")
"""How what is added to the names of books that are not whole begins (`request.Request.kind`)."""
_COSTLY = ("svg", "sound")
"""Kinds of artefacts in the store that take long to make."""

_MARKER_TEXT = """\
shedbook writes here: one PDF an edition, and its store of finished parts under .store.
Remove the whole folder when you like; the next build makes it again.
"""


def default_output(manuscript: Path, book: str) -> Path:
    """Return the folder beside the manuscript that is used when the author names none."""
    return manuscript.resolve().parent / f"{book}-build"


def examine(folder: Path) -> bool:
    """Say whether a folder is already ours; nothing is written.

    Raises:
        OutputError: if the folder is a file, cannot be read, or holds anything and is not ours.
    """
    try:
        if not folder.exists():
            return False
        if not folder.is_dir():
            raise OutputError(
                f"{folder} is a file, so no book can be put there.",
                hint="Name a folder with --out; it is made when it is missing.",
            )
        if (folder / MARKER).is_file():
            return True
        held = next(iter(sorted(path.name for path in folder.iterdir())), None)
    except OSError as error:
        raise OutputError(f"{folder} cannot be read: {error.strerror}.", hint=ANOTHER_FOLDER) from error
    if held is not None:
        raise OutputError(
            f"{folder} holds files that shedbook did not put there ({held}); nothing was written.",
            hint="Name an empty folder or a new one with --out.",
        )
    return False


def claim(folder: Path) -> None:
    """Make the folder with its parents and mark it as ours.

    Raises:
        OutputError: as `examine`, or if the folder cannot be written.
    """
    ours = examine(folder)
    marker, unfinished = folder / MARKER, folder / STORE / "unfinished"
    made = missing_folders(unfinished)
    with refused(folder):
        try:
            folder.mkdir(parents=True, exist_ok=True)
            if not ours:  # the marker comes first: a folder with anything else in it must be known as ours
                marker.write_text(_MARKER_TEXT, encoding="utf-8")
            unfinished.mkdir(parents=True, exist_ok=True)
            trial = unfinished / "writable"
            trial.write_bytes(b"")
            with contextlib.suppress(FileNotFoundError):
                trial.unlink()
        except OSError:
            if not ours:
                with contextlib.suppress(OSError):
                    marker.unlink()
            remove_empty(made)
            raise


EARLIER = "earlier"
"""The folder in the output folder for books and a student's page that are no longer asked for."""
_PAGE_FILE = "book.js"
"""A file of every student's page, by which it is known."""


def no_longer_asked_for(
    out: Path, book: str, slugs: Collection[str], made: Collection[str]
) -> list[tuple[str, str]]:
    """Put books of editions that the manuscript asks for no longer apart, and return what to tell of each.

    A book that belongs to an edition of now, such as somebody's copy or a sample, stays where it is.

    Args:
        out: the output folder.
        book: the first part of the names of the books.
        slugs: the names of the editions of now, as they stand in the names of files.
        made: the names of the books that have just been made.

    Raises:
        OutputError: if the disk refuses it.
    """
    told = []
    for path in sorted(out.glob(f"{book}-*.pdf")):
        edition = path.stem.removeprefix(f"{book}-")
        ours = any(
            edition == slug or edition.startswith(tuple(f"{slug}-{kind}" for kind in _KINDS))
            for slug in slugs
        )
        if path.name in made or (ours and not edition.endswith(("-print", "-cover"))):
            continue
        told.append(_put_apart(path, "a book"))
    return told


def page_is_stray(folder: Path) -> bool:
    """Whether a student's page lies in a place where none is asked for."""
    return (folder / _PAGE_FILE).is_file()


def page_no_longer_asked_for(folder: Path) -> list[tuple[str, str]]:
    """Put a student's page that is asked for no longer apart, and return what to tell of it.

    Raises:
        OutputError: if the disk refuses it.
    """
    return [_put_apart(folder, "a student's page")] if page_is_stray(folder) else []


def _put_apart(path: Path, what: str) -> tuple[str, str]:
    """Move what is no longer asked for into a folder beside it; what lay there by this name before goes."""
    target = path.parent / EARLIER / path.name
    with refused(target):
        target.parent.mkdir(exist_ok=True)
        if target.is_dir():
            shutil.rmtree(target)
        path.replace(target)
    return (
        f"{path.name} is {what} that manuscript.toml no longer asks for.",
        f"It was put into {EARLIER}/, so that it is not sold by mistake.",
    )


def abandon(folder: Path, made: list[Path]) -> None:
    """Take away a folder in which a first build has failed, if nothing in it is worth keeping.

    It is kept where it holds anything but the marker and the store, and where the store holds finished
    pictures or sounds: the next build goes on from these.

    Args:
        folder: the output folder.
        made: it and its parents as far as they were not there before the build (`missing_folders`).
    """
    with contextlib.suppress(OSError):
        finished = any(path.is_file() for kind in _COSTLY for path in (folder / STORE / kind).glob("*"))
        if not finished and {path.name for path in folder.iterdir()} <= {MARKER, STORE}:
            shutil.rmtree(folder / STORE, ignore_errors=True)
            (folder / MARKER).unlink(missing_ok=True)
    remove_empty(made)
