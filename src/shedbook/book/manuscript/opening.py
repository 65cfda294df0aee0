"""The manuscript: the author's folder, opened; its phrases in order, each read when it is asked for.

Opening reads TOML only. The text of a phrase is read by `read_phrase`, so that a build in which little
has changed reads little. The folder:

    manuscript.toml         settings of the book
    phrases/01-first.toml   a phrase, or several [[phrase]] tables
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path
from typing import Any

from shedbook.book.ground.toml_files import inside, place_of, read_text, read_toml, refuse
from shedbook.book.ground.toml_places import find, placed
from shedbook.book.ground.words import words_of
from shedbook.book.manuscript.chapters import Chapter, chapters_of
from shedbook.book.manuscript.settings.whole_book import (
    BOOK_FIELD_NAMES,
    Settings,
    settings_from_fields,
)
from shedbook.book.manuscript.shared_phrases import with_source
from shedbook.book.manuscript.source import PHRASE_TABLE, PhraseSource, locate
from shedbook.errors import ManuscriptError, Place, ReadError

MANUSCRIPT_FILE = "manuscript.toml"
PHRASES_FOLDER = "phrases"
_TRIES = 3
_INNER_FIELD = re.compile(r"(\w+(?:\.recordings(?=\.))?)\.(?:(\d+)\.)?(.+)")
"""A key inside a table, such as "tunings.guitar", or inside one of several, counted from 0; the recordings
stand in a table of their own inside [tracks]."""


@dataclass(frozen=True, slots=True)
class Manuscript:
    """An author's folder, or a phrase file that stands alone.

    `unread` holds the errors of files that could not be read, where `open_manuscript` was told to go on.
    Drills
    stand after the phrases; `last_phrase` is the number of the last that is none, None where there are no
    drills.
    """

    root: Path
    settings: Settings
    phrases: tuple[PhraseSource, ...]
    unread: tuple[ReadError, ...] = ()
    chapters: tuple[Chapter, ...] = ()
    last_phrase: int | None = None

    @property
    def title(self) -> str:
        """The title of the book; the folder's name where the author gives none."""
        return self.settings.title or self.root.resolve().name or "Phrases"


def open_manuscript(path: str | Path, *, keep_going: bool = False) -> Manuscript:
    """Open a manuscript's folder, its manuscript.toml, or one phrase file.

    A file inside a manuscript is read with that manuscript's settings and its numbers, and is then the
    only file of the result; a file outside one stands alone.

    Args:
        path: the folder or file.
        keep_going: keep errors of single phrase files in `unread` instead of raising the first.

    Raises:
        ManuscriptError: if anything cannot be read, with place and mend.
    """
    path = Path(path)
    try:
        exists, is_folder = path.exists(), path.is_dir()
    except (OSError, ValueError):
        exists = is_folder = False
    if not exists:
        raise ManuscriptError(
            f"There is no file or folder {path}.", hint="Check the name; shedbook new DIR makes a manuscript."
        )
    if is_folder:
        return _open_folder(path, keep_going)
    if path.name == MANUSCRIPT_FILE:
        return _open_folder(path.parent, keep_going)
    return _open_file(path, keep_going)


def _open_folder(root: Path, keep_going: bool) -> Manuscript:
    """Open a whole manuscript; once more where its list of files was written while it was being read."""
    for _ in range(_TRIES):
        before = _written(root)
        try:
            return _opened(root, keep_going)
        except ReadError:
            if _written(root) == before:
                raise
    return _opened(root, keep_going)


def _written(root: Path) -> tuple[int, int] | None:
    """Return by what a manuscript.toml that was written anew is known."""
    try:
        found = (root / MANUSCRIPT_FILE).stat()
    except OSError:
        return None
    return found.st_mtime_ns, found.st_ino


def _opened(root: Path, keep_going: bool) -> Manuscript:
    """Open a whole manuscript, read once."""
    settings = _settings(root)
    files = _phrase_files(root, settings)
    phrases, unread = _sources(root, files, settings)
    unread += _same_ids(phrases)
    if unread and not keep_going:
        raise unread[0]
    if not phrases and not unread:
        raise refuse(
            MANUSCRIPT_FILE,
            "This book has no phrases.",
            f"Write each phrase into a file of its own, {PHRASES_FOLDER}/01-first.toml and so on.",
        )
    own = len(phrases) + len(unread)
    drills = _drills(root, settings, own)
    everything = (*phrases, *drills)
    return Manuscript(root, settings, everything, tuple(unread), chapters_of(root), own if drills else None)


def _drills(root: Path, settings: Settings, after: int) -> list[PhraseSource]:
    """Return the drills of a book; what writes them is loaded only where there are some."""
    if not settings.drills:
        return []
    from shedbook.book.manuscript.drills import drill_sources  # noqa: PLC0415

    return drill_sources(root / MANUSCRIPT_FILE, MANUSCRIPT_FILE, settings, after)


def _open_file(path: Path, keep_going: bool) -> Manuscript:
    """Open one phrase file, with the settings of the manuscript it belongs to, if any."""
    root = _manuscript_of(path)
    if root is None:
        phrases, unread = _sources(path.parent, (path.name,), Settings())
        found = Manuscript(path.parent, Settings(title=path.stem), tuple(phrases), tuple(unread))
    else:
        settings = _settings(root)
        files = _phrase_files(root, settings)
        own = _unlinked(path).relative_to(root).as_posix()
        phrases, unread = _sources(root, files if own in files else (own,), settings)
        found = Manuscript(
            root,
            settings,
            tuple(source for source in phrases if source.file == own),
            tuple(error for error in unread if error.place is not None and error.place.file == own),
        )
    if found.unread and not keep_going:
        raise found.unread[0]
    return found


def _manuscript_of(path: Path) -> Path | None:
    """Return the folder of the manuscript that a phrase file belongs to."""
    path = _unlinked(path)
    root = next((folder for folder in path.parents if (folder / MANUSCRIPT_FILE).is_file()), None)
    if root is None:
        return None
    if path.parent == root / PHRASES_FOLDER:
        return root
    listed = _phrase_files(root, _settings(root))
    return root if path.relative_to(root).as_posix() in listed else None


def _unlinked(path: Path) -> Path:
    """Return a file's full path; the file itself may be a symbolic link, which `inside` judges."""
    return path.parent.resolve() / path.name


def _settings(root: Path) -> Settings:
    """Read manuscript.toml."""
    path = root / MANUSCRIPT_FILE
    if not path.exists():
        raise refuse(
            MANUSCRIPT_FILE,
            f"The folder {root} holds no {MANUSCRIPT_FILE}.",
            f"shedbook new DIR makes a manuscript; an empty {MANUSCRIPT_FILE} is enough to begin with.",
        )
    inside(root, MANUSCRIPT_FILE, MANUSCRIPT_FILE, hint="Put the file itself into the folder.")
    text = read_text(path, MANUSCRIPT_FILE)
    try:
        return settings_from_fields(read_toml(text, MANUSCRIPT_FILE))
    except ReadError as error:
        if error.place is not None:
            raise
        raise _in_settings(error, text) from None


def _in_settings(error: ReadError, text: str) -> ReadError:
    """Return an error of manuscript.toml with its place; its field may name a key inside a table."""
    inner = _INNER_FIELD.fullmatch(error.field)
    if inner is None or inner[1].partition(".")[0] not in BOOK_FIELD_NAMES:
        return placed(error, text, MANUSCRIPT_FILE, known=BOOK_FIELD_NAMES)
    table, index, key = inner.groups()
    return placed(
        error.moved(0, field=key), text, MANUSCRIPT_FILE, known=(), table=table, index=int(index or 0)
    )


def placed_in_book(manuscript: Manuscript, error: ReadError) -> ReadError:
    """Return an error of manuscript.toml with its place, for what shows only after the phrases are known.

    Args:
        manuscript: the book.
        error: the error; its field names a key of manuscript.toml, as "tracks.recordings.0.file".
    """
    return _in_settings(error, read_text(manuscript.root / MANUSCRIPT_FILE, MANUSCRIPT_FILE))


def _phrase_files(root: Path, settings: Settings) -> tuple[str, ...]:
    """Return the names of the phrase files, from the manuscript's folder, in the order of the book."""
    if settings.phrases:
        return _listed_files(root, settings.phrases)
    folder = root / PHRASES_FOLDER
    if not folder.exists():
        return ()
    inside(root, PHRASES_FOLDER, PHRASES_FOLDER, hint="Put the folder itself into the manuscript.")
    try:
        names = sorted(path.name for path in folder.iterdir())
    except OSError as error:
        raise refuse(PHRASES_FOLDER, f"{PHRASES_FOLDER} cannot be read: {error.strerror}.") from None
    return tuple(
        f"{PHRASES_FOLDER}/{name}" for name in names if name.endswith(".toml") and not name.startswith(".")
    )


def _listed_files(root: Path, names: Sequence[str]) -> tuple[str, ...]:
    """Return the phrase files that manuscript.toml lists; a bare name lies in the folder of phrases."""
    hint = "List files of this folder only, as 01-first.toml or phrases/01-first.toml."
    found: list[str] = []
    for name in names:
        try:
            path = inside(root, name, MANUSCRIPT_FILE, hint=hint)
            bare = f"{PHRASES_FOLDER}/{name}"
            file = bare if "/" not in name and (root / bare).exists() else path.relative_to(root).as_posix()
            if not (root / file).exists():
                raise ManuscriptError(f'"{name}" is listed, but there is no such file.', hint=hint)
            if file in found:
                raise ManuscriptError(f'"{name}" is listed twice.', hint="List each phrase file once.")
        except ManuscriptError as error:
            text = read_text(root / MANUSCRIPT_FILE, MANUSCRIPT_FILE)
            listed = ManuscriptError(error.message, hint=error.hint, field="phrases")
            raise placed(listed, text, MANUSCRIPT_FILE, known=(), word=name) from None
        found.append(file)
    return tuple(found)


def _sources(
    root: Path, files: Sequence[str], settings: Settings
) -> tuple[list[PhraseSource], list[ReadError]]:
    """Read the TOML of phrase files; a file that cannot be read counts as one phrase in the numbers."""
    found: list[PhraseSource] = []
    unread: list[ReadError] = []
    defaults = settings.defaults.fields
    read = cache(_as_written)
    untitled = words_of(settings.language, dict(settings.pages.words)).table["phrase.untitled"]
    for file in files:
        number = len(found) + len(unread) + 1
        try:
            sources = [with_source(one, read) for one in _file_sources(root, file, number, defaults)]
            found.extend(replace(source, untitled=untitled) for source in sources)
        except ReadError as error:
            unread.append(error)
    return found, unread


def _as_written(root: Path) -> list[PhraseSource]:
    """Return the phrases of another book as they stand in its files; what cannot be read is left out."""
    settings = _settings(root)
    found: list[PhraseSource] = []
    for file in _phrase_files(root, settings):
        with suppress(ReadError):
            found += _file_sources(root, file, len(found) + 1, settings.defaults.fields)
    return found


def _file_sources(root: Path, file: str, number: int, defaults: Mapping[str, Any]) -> list[PhraseSource]:
    """Read the TOML of one phrase file."""
    path = inside(root, file, file, hint="Put the file itself into the manuscript.")
    text = read_text(path, file)
    fields = read_toml(text, file)
    tables = fields.get(PHRASE_TABLE)
    if tables is None:
        if not fields:
            raise refuse(
                file, f"{file} holds no phrase.", 'Write one: title = "…", changes = "…", line = "…"'
            )
        return [PhraseSource(file, path, 0, number, {**defaults, **fields}, own=tuple(fields))]
    if not isinstance(tables, list) or not tables or not all(isinstance(table, dict) for table in tables):
        error = ManuscriptError(
            f'"{PHRASE_TABLE}" is not a list of phrases.',
            hint=f"Begin each phrase of a file with a line [[{PHRASE_TABLE}]].",
            field=PHRASE_TABLE,
        )
        raise placed(error, text, file, known=())
    for name in fields:
        if name != PHRASE_TABLE:
            error = ManuscriptError(
                f'"{name}" stands before the first [[{PHRASE_TABLE}]].',
                hint=f"In a file of several phrases each key stands under its own [[{PHRASE_TABLE}]].",
                field=name,
            )
            raise placed(error, text, file, known=(PHRASE_TABLE,))
    return [
        PhraseSource(file, path, index, number + index, {**defaults, **table}, True, own=tuple(table))
        for index, table in enumerate(tables)
    ]


def _same_ids(phrases: Sequence[PhraseSource]) -> list[ReadError]:
    """Return an error for each phrase whose id another one has already."""
    seen: dict[str, PhraseSource] = {}
    errors: list[ReadError] = []
    for source in phrases:
        own = source.fields.get("id")
        if not isinstance(own, str) or not own.strip():
            continue
        first = seen.setdefault(own.strip(), source)
        if first is not source:
            error = ManuscriptError(
                f'The id "{own}" is that of "{first.title}" ({first.file}) too.',
                hint="Give each phrase an id of its own.",
                field="id",
            )
            errors.append(locate(error, source))
    return errors


def place_in_book(manuscript: Manuscript, field: str, word: str) -> Place:
    """Return where a word stands in manuscript.toml.

    Args:
        manuscript: the book.
        field: a table, of which `word` is a key, or a key, of whose value `word` is a part.
        word: what is looked for; where it is not found, the place is that of the field, or of the file.
    """
    error = ManuscriptError("", field=field)
    text = read_text(manuscript.root / MANUSCRIPT_FILE, MANUSCRIPT_FILE)
    entry = find(text, word, table=field)
    if entry is not None and entry.key:
        return place_of(text, MANUSCRIPT_FILE, entry.key_start, entry.key_end)
    return placed(error, text, MANUSCRIPT_FILE, known=(), word=word).place or Place(file=MANUSCRIPT_FILE)
