"""What an edition of a book holds, so that it can be compared: of a manuscript, or of a finished bundle."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path

from shedbook.book.bundle.manifest import (
    MANIFEST,
    ZIP,
    BookMusic,
    FileRow,
    FolderManifest,
    Source,
    ZipManifest,
)
from shedbook.book.bundle.opened import opened
from shedbook.book.ground.json_values import from_json, to_json
from shedbook.book.manuscript.choice import chosen_editions
from shedbook.book.manuscript.opening import Manuscript
from shedbook.book.manuscript.source import PhraseSource, read_phrase
from shedbook.book.reading_back.expected_scores import SCALE
from shedbook.book.scores.inputs import key_order
from shedbook.book.scores.placing import keys_of
from shedbook.book.workshop.naming import content_hash
from shedbook.editions.instruments.edition import Edition
from shedbook.errors import ManuscriptError

_FIRST_VERSION = "1"


@dataclass(frozen=True, slots=True)
class EditionState:
    """An edition: by the numbers of its phrases the written keys, with the number on the page of each.

    That is "" where it is not known. `file` is its zip with `size` in bytes, "" for a manuscript; `files` are
    those of the zip by name.
    """

    name: str
    title: str
    keys: Mapping[int, Mapping[str, str]]
    file: str = ""
    size: int = 0
    files: Mapping[str, FileRow] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class BookState:
    """A book as it is or was; `settings` are hashes of the values of its settings by their names."""

    title: str
    version: str
    language: str
    words: tuple[tuple[str, str], ...]
    phrases: tuple[PhraseSource, ...]
    settings: Mapping[str, str]
    editions: tuple[EditionState, ...]


def state_of_manuscript(book: Manuscript, *, keys: bool = True) -> BookState:
    """Return what a manuscript holds.

    Args:
        book: the manuscript.
        keys: whether the keys of every phrase are worked out, for which each is read.

    Raises:
        ReadError: if a phrase cannot be read.
    """
    settings = book.settings
    editions = chosen_editions((), settings) if keys else ()
    return BookState(
        book.title,
        settings.shop.version or _FIRST_VERSION,
        settings.language,
        settings.pages.words,
        book.phrases,
        {name: _hash(getattr(settings, name)) for name in type(settings).__dataclass_fields__},
        tuple(EditionState(one.name, one.title, dict(_keys(book, one))) for one in editions),
    )


def _hash(value: object) -> str:
    return content_hash(to_json(value))[:16]


def _keys(book: Manuscript, edition: Edition) -> Iterator[tuple[int, Mapping[str, str]]]:
    order = key_order(book.settings)
    for source in book.phrases:
        keys = keys_of(read_phrase(source), order, edition)
        yield source.number, {str(key.written): "" for key in keys.wanted}


def is_bundle(path: Path) -> bool:
    """Say whether a path leads to a bundle: a zip, or a folder with a manifest."""
    return path.suffix == ".zip" or (path / MANIFEST).is_file()


def state_of_bundle(path: Path) -> BookState:
    """Return what a bundle holds: a folder with all its zips, or one zip.

    Raises:
        ManuscriptError: if it cannot be read.
    """
    try:
        zips = [path] if path.suffix == ".zip" else [path / name for name in _zips(path)]
        found = [(one, _manifest(one)) for one in zips]
    except ValueError as error:
        raise ManuscriptError(f"{path} is no whole bundle: {error}.", hint="See: shedbook verify") from None
    if not found:
        raise ManuscriptError(f"{path} holds no zip of an edition.", hint="Name the folder of a bundle.")
    about = found[0][1].about
    return BookState(
        about.title,
        about.version,
        about.language,
        about.words,
        tuple(_source(one, path) for one in found[0][1].phrases),
        found[0][1].settings,
        tuple(_edition(one, said) for one, said in found),
    )


def _zips(path: Path) -> Sequence[str]:
    with opened(path) as there:
        said = from_json(FolderManifest, there.read(MANIFEST))
    return [row.name for row in said.files if row.role == ZIP]


def _manifest(path: Path) -> ZipManifest:
    with opened(path) as there:
        return from_json(ZipManifest, there.read(MANIFEST))


def _source(one: Source, path: Path) -> PhraseSource:
    return PhraseSource(f"{one.number:02}", path, 0, one.number, {**one.fields, "title": one.title})


def _edition(path: Path, said: ZipManifest) -> EditionState:
    return EditionState(
        said.edition.name,
        said.edition.title,
        _pages(said.music),
        path.name,
        path.stat().st_size,
        {row.name: row for row in said.files},
    )


def _pages(music: BookMusic) -> Mapping[int, Mapping[str, str]]:
    """Return the page of each key of each phrase, that of the home key the first."""
    found: dict[int, dict[str, str]] = {}
    for row in music.scores:
        if row.kind != SCALE:
            found.setdefault(row.number, {}).setdefault(row.written, row.printed)
    return found
