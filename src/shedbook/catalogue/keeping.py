"""A catalogue brought up to date: the books that changed since it was last looked at are read again.

A file counts as unchanged while its time and size are; what was found of a phrase is taken over as long as
its text is the same to the letter. A phrase that cannot be read is told and left out; the others are found.
"""

from __future__ import annotations

import contextlib
import os
from collections.abc import Iterator, Mapping, Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path
from typing import NamedTuple

from shedbook.book.ground.json_values import to_json
from shedbook.book.ground.progress import Step, Tell
from shedbook.book.manuscript.opening import MANUSCRIPT_FILE, open_manuscript
from shedbook.book.manuscript.source import read_phrase
from shedbook.book.workshop.output_folder import MARKER
from shedbook.book.workshop.versions import fingerprint
from shedbook.catalogue.entry import Entry, entry_of
from shedbook.catalogue.index_file import IndexFile, KeptBook, default_index
from shedbook.errors import ManuscriptError, ReadError

_MOST_BOOKS_AT_ONCE = 16
"""So many books are kept in one change; a run that is stopped loses no more than these."""


class Unread(NamedTuple):
    """What could not be read: the folder of the book, from the catalogue's, and the error."""

    folder: str
    error: ReadError


@dataclass(frozen=True, slots=True)
class UpToDate:
    """What bringing a catalogue up to date came to: books read and taken out, and what could not be read."""

    read: int
    gone: int
    unread: tuple[Unread, ...]


@contextlib.contextmanager
def open_catalogue(
    root: Path,
    file: Path | None = None,
    *,
    processes: int = 1,
    tell: Tell | None = None,
) -> Iterator[tuple[IndexFile, UpToDate]]:
    """Give the index of a folder of books, brought up to date, and what that came to.

    Args:
        root: the folder.
        file: the file of the index; None for the usual place.
        processes: how many processes may read.
        tell: is told how many books are done.

    Raises:
        ManuscriptError: if there is no such folder, or no manuscript in it.
        OutputError: if the index cannot be written.
    """
    with IndexFile(file or default_index(root)) as index:
        yield index, bring_up_to_date(index, root, processes=processes, tell=tell)


class _Order(NamedTuple):
    """A book to be read: its folder, and what is known of its phrases."""

    root: Path
    known: Mapping[str, Entry]
    accounted: bool


class _Read(NamedTuple):
    title: str
    entries: tuple[Entry, ...]
    errors: tuple[ReadError, ...]


def bring_up_to_date(
    index: IndexFile,
    root: Path,
    *,
    only: Path | None = None,
    accounted: bool = True,
    processes: int = 1,
    tell: Tell | None = None,
) -> UpToDate:
    """Read again what changed since the last time.

    Args:
        index: the catalogue's index.
        root: the catalogue's folder.
        only: a file or folder inside it, where the caller knows that nothing else has changed.
        accounted: whether levels, progressions, scales and devices are found out too.
        processes: how many processes may read.
        tell: is told how many books are done.

    Raises:
        ManuscriptError: if there is no such folder, or no manuscript in it.
        OutputError: if the index cannot be written; what was there stays.
    """
    folders = _folders(root) if only is None else _folder_of(root, only)
    kept = index.books(None if only is None else folders[0])
    seals = {folder: _seals(root / folder, accounted) for folder in folders}
    gone = [book for folder, book in kept.items() if folder not in seals and only is None]
    gone += [kept[folder] for folder in seals if not seals[folder] and folder in kept]
    changed = [folder for folder, seal in seals.items() if seal and not _same(kept.get(folder), seal)]
    if not folders and only is None:
        raise ManuscriptError(
            f"There is no manuscript in {root}.", hint=f"A manuscript is a folder with a {MANUSCRIPT_FILE}."
        )
    if gone:
        with index.changing():
            for book in gone:
                index.forget(book.row)
    unread: list[Unread] = []
    for start in range(0, len(changed), _MOST_BOOKS_AT_ONCE):
        now = changed[start : start + _MOST_BOOKS_AT_ONCE]
        orders = [
            _Order(root / folder, index.known(kept[folder].row) if folder in kept else {}, accounted)
            for folder in now
        ]
        read = list(_all_read(orders, processes))
        with index.changing():
            for folder, found in zip(now, read, strict=True):
                if folder in kept:
                    index.forget(kept[folder].row)
                seal, *files = seals[folder].items()
                index.put(folder, found.title, seal[1], dict(files), found.entries)
                unread += [Unread(folder, error) for error in found.errors]
        if tell is not None:
            tell(Step("books", start + len(now), len(changed)))
    return UpToDate(len(changed), len(gone), tuple(unread))


def _folders(root: Path) -> list[str]:
    """Return the folders of all manuscripts beneath a folder, itself included, from it and in order.

    Raises:
        ManuscriptError: if there is no such folder.
    """
    if not root.is_dir():
        raise ManuscriptError(f"There is no folder {root}.", hint="Give the folder in which the books lie.")
    found = []
    for folder, inner, files in os.walk(root):
        if MANUSCRIPT_FILE in files:
            found.append(Path(folder).relative_to(root).as_posix())
            inner[:] = []
        else:
            inner[:] = sorted(name for name in inner if not name.startswith("."))
    return sorted(found)


def _folder_of(root: Path, only: Path) -> list[str]:
    """Return the manuscript to which a path belongs."""
    full, top = only.resolve(), root.resolve()
    for folder in (full, *full.parents):
        if (folder / MANUSCRIPT_FILE).is_file() and folder.is_relative_to(top):
            return [folder.relative_to(top).as_posix()]
    raise ManuscriptError(
        f"{only} belongs to no manuscript in {root}.", hint="Give a file or a folder of one of its books."
    )


def _seals(folder: Path, accounted: bool) -> dict[str, str]:
    """Return the seals of a book's settings and of its files; {} where there is no manuscript any more.

    Phrase files may lie anywhere in the folder if manuscript.toml lists them.
    """
    settings = folder / MANUSCRIPT_FILE
    try:
        first = _seal(settings.stat())
        listed = sorted(_toml_files(str(folder)))
    except OSError:
        return {}
    with_account = fingerprint() if accounted else ""
    seals = {name: seal for name, seal in listed if name != str(settings)}
    return {MANUSCRIPT_FILE: f"{first} {with_account}", **seals}


def _toml_files(folder: str) -> Iterator[tuple[str, str]]:
    """Yield the path and the seal of each file that may hold phrases; what was built from them does not."""
    with os.scandir(folder) as found:
        entries = [entry for entry in found if not entry.name.startswith(".") or entry.name == MARKER]
    if any(entry.name == MARKER for entry in entries):
        return
    for entry in entries:
        if entry.name.endswith(".toml"):
            with contextlib.suppress(OSError):
                yield entry.path, _seal(entry.stat())
        elif entry.is_dir(follow_symlinks=False):
            yield from _toml_files(entry.path)


def _seal(found: os.stat_result) -> str:
    return f"{found.st_mtime_ns} {found.st_size}"


def _same(kept: KeptBook | None, seals: Mapping[str, str]) -> bool:
    if kept is None:
        return False
    first, *files = seals.items()
    return kept.seal == first[1] and kept.files == dict(files)


def _all_read(orders: Sequence[_Order], processes: int) -> Iterator[_Read]:
    """Read books, in the order in which they are given."""
    if processes < 2 or len(orders) < 2:
        yield from map(_read, orders)
        return
    with ProcessPoolExecutor(min(processes, len(orders))) as pool:
        yield from pool.map(_read, orders)


def _read(order: _Order) -> _Read:
    """Read a book; the entries of phrases whose text is known are taken over."""
    try:
        manuscript = open_manuscript(order.root, keep_going=True)
    except ReadError as error:
        return _Read(order.root.name, (), (error,))
    entries: list[Entry] = []
    errors = list(manuscript.unread)
    for source in manuscript.phrases:
        if source.taken is not None:
            continue  # it is found in its own book: one phrase, one source
        content = sha256(to_json(source.text.fields)).hexdigest()
        known = order.known.get(content)
        if known is not None:
            entries.append(
                known._replace(file=source.file, place=source.index, number=source.number, title=source.title)
            )
            continue
        try:
            entries.append(entry_of(source, read_phrase(source), content, accounted=order.accounted))
        except ReadError as error:
            errors.append(error)
    return _Read(manuscript.title, tuple(entries), tuple(errors))
