"""Where a change reaches: keys, editions, pages, tracks; and what customers of the old book must have."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from shedbook.book.bundle.manifest import TRACK
from shedbook.catalogue.book_state import EditionState
from shedbook.catalogue.errata import GONE, SCORES, TRACKS, WORDS, Errata, Erratum


@dataclass(frozen=True, slots=True)
class Reach:
    """Where one change is seen and heard in an edition.

    `keys` are written keys; `pages` the numbers that stand on those of the new book, none where they are not
    known; `tracks` names of files of the new zip.
    """

    edition: str
    keys: tuple[str, ...]
    pages: tuple[str, ...]
    tracks: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Download:
    """What a customer of an edition must have anew.

    `file` is the zip, of `size` bytes; `changed`, `new` and `gone` are the files in it that are not as they
    were, `changed_bytes` how long those are that changed or are new.
    """

    edition: str
    file: str
    size: int
    changed: tuple[str, ...]
    new: tuple[str, ...]
    gone: tuple[str, ...]
    changed_bytes: int


def reach_of(one: Erratum, found: Errata) -> Iterator[Reach]:
    """Yield in which editions a change is seen or heard, and where in each."""
    if found.new is None or one.happened == GONE or not one.anew:
        return
    for edition in found.new.editions:
        keys = edition.keys.get(one.number, {})
        seen = keys if SCORES in one.anew else dict(list(keys.items())[:1]) if WORDS in one.anew else {}
        pages = tuple(dict.fromkeys(page for page in seen.values() if page))
        tracks = tuple(_tracks(edition, one.number)) if TRACKS in one.anew else ()
        yield Reach(edition.title, tuple(seen), pages, tracks)


def _tracks(edition: EditionState, number: int) -> Iterator[str]:
    return (row.name for row in edition.files.values() if row.role == TRACK and row.number == number)


def downloads(found: Errata) -> tuple[Download, ...]:
    """Return what must be had anew of each edition of two bundles; nothing of manuscripts."""
    if found.old is None or found.new is None:
        return ()
    before = {one.name: one for one in found.old.editions if one.file}
    every = [_download(before.get(one.name), one) for one in found.new.editions if one.file]
    return tuple(one for one in every if one.changed or one.new or one.gone)


def _download(old: EditionState | None, new: EditionState) -> Download:
    was = {} if old is None else old.files
    changed = [name for name, row in new.files.items() if name in was and was[name].sha256 != row.sha256]
    added = [name for name in new.files if name not in was]
    return Download(
        new.title,
        new.file,
        new.size,
        tuple(changed),
        tuple(added),
        tuple(name for name in was if name not in new.files),
        sum(new.files[name].size for name in (*changed, *added)),
    )
