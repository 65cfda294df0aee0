"""The file of a catalogue: a SQLite database that can be made again from the text at any time.

One row for each phrase, its terms, its words in a full-text table, and for each book the tunes of its phrases
one after the other, in the order of the rows. A file of another version, or a damaged one, is made anew.
"""

from __future__ import annotations

import contextlib
import os
import sqlite3
from collections.abc import Iterator, Mapping, Sequence
from hashlib import sha256
from pathlib import Path
from typing import NamedTuple

from shedbook.catalogue.entry import Entry
from shedbook.catalogue.tune import Tune, joined
from shedbook.errors import OutputError

VERSION = 1
"""Is raised when a table, or what is written into one, changes."""

_SCHEMA = """
CREATE TABLE book (
  book INTEGER PRIMARY KEY, folder TEXT NOT NULL UNIQUE, title TEXT NOT NULL, seal TEXT NOT NULL,
  pitches BLOB NOT NULL, steps BLOB NOT NULL, gaps BLOB NOT NULL, bars BLOB NOT NULL, beats BLOB NOT NULL);
CREATE TABLE file (book INTEGER NOT NULL, file TEXT NOT NULL, seal TEXT NOT NULL, PRIMARY KEY (book, file))
  WITHOUT ROWID;
CREATE TABLE phrase (
  phrase INTEGER PRIMARY KEY, book INTEGER NOT NULL, ordinal INTEGER NOT NULL, content TEXT NOT NULL,
  file TEXT NOT NULL, place INTEGER NOT NULL, number INTEGER NOT NULL, id TEXT NOT NULL, title TEXT NOT NULL,
  key TEXT NOT NULL, metre TEXT NOT NULL, tempo INTEGER NOT NULL, feel TEXT NOT NULL,
  full_bars INTEGER NOT NULL, changes TEXT NOT NULL, chords TEXT NOT NULL, level INTEGER NOT NULL);
CREATE UNIQUE INDEX phrase_in_book ON phrase (book, ordinal);
CREATE TABLE term (kind TEXT NOT NULL, name TEXT NOT NULL, phrase INTEGER NOT NULL,
  PRIMARY KEY (kind, name, phrase)) WITHOUT ROWID;
CREATE INDEX term_of_phrase ON term (phrase);
CREATE VIRTUAL TABLE words USING fts5 (text, tokenize = 'unicode61 remove_diacritics 2');
"""
_PHRASE = (
    "INSERT INTO phrase (book, ordinal, content, file, place, number, id, title, key, metre, tempo, feel,"
    " full_bars, changes, chords, level) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)"
)


class KeptBook(NamedTuple):
    """A book of the catalogue: its row, its folder, the seal of its settings and of each of its files."""

    row: int
    folder: str
    seal: str
    files: Mapping[str, str]


def default_index(root: Path) -> Path:
    """Return where the index of a folder of books is kept: among what of a user may be thrown away."""
    cache = os.environ.get("XDG_CACHE_HOME") or str(Path.home() / ".cache")
    return Path(cache) / "shedbook" / f"{sha256(os.fsencode(root.resolve())).hexdigest()[:16]}.sqlite"


class IndexFile:
    """An open index.

    Raises:
        OutputError: if it cannot be written.
    """

    def __init__(self, path: Path) -> None:
        self.path = path
        try:
            path.parent.mkdir(parents=True, exist_ok=True)
            self._base = _opened(path)
        except (OSError, sqlite3.Error) as error:
            raise OutputError(
                f"The catalogue's index {path} cannot be opened: {error}.",
                hint="Give a place that can be written with --index, or remove the file: it is made again.",
            ) from None

    def close(self) -> None:
        """Close the file."""
        self._base.close()

    def __enter__(self) -> IndexFile:
        return self

    def __exit__(self, *_: object) -> None:
        self.close()

    @contextlib.contextmanager
    def changing(self) -> Iterator[None]:
        """Do what is inside as one change: all of it is kept, or nothing."""
        try:
            with self._base:
                self._base.execute("BEGIN IMMEDIATE")
                yield
        except sqlite3.Error as error:
            raise OutputError(
                f"The catalogue's index {self.path} cannot be written: {error}.",
                hint="Nothing in it has changed. Make room, or wait until another run has ended.",
            ) from None

    def rows(self, query: str, given: Sequence[object] = ()) -> list[tuple[object, ...]]:
        """Return what a query gives."""
        return self._base.execute(query, given).fetchall()

    def books(self, only: str | None = None) -> dict[str, KeptBook]:
        """Return the books by their folders, or the one of a folder."""
        where, given = ("1", ()) if only is None else ("folder = ?", (only,))
        files: dict[int, dict[str, str]] = {}
        for book, file, seal in self._base.execute(
            f"SELECT book, file, file.seal FROM file JOIN book USING (book) WHERE {where}", given
        ):
            files.setdefault(book, {})[file] = seal
        return {
            folder: KeptBook(book, folder, seal, files.get(book, {}))
            for book, folder, seal in self._base.execute(
                f"SELECT book, folder, seal FROM book WHERE {where}", given
            )
        }

    def known(self, book: int) -> dict[str, Entry]:
        """Return the entries of a book by the hashes of their contents, those without an account left out."""
        (texts,) = self._base.execute(
            "SELECT pitches, steps, gaps, bars, beats FROM book WHERE book = ?", (book,)
        ).fetchall()
        tunes = _divided(Tune(*texts))
        terms: dict[int, list[tuple[str, str]]] = {}
        for kind, name, phrase in self._base.execute(
            "SELECT kind, name, phrase FROM term WHERE phrase IN (SELECT phrase FROM phrase WHERE book = ?)",
            (book,),
        ):
            terms.setdefault(phrase, []).append((kind, name))
        found = {}
        for row in self._base.execute(
            "SELECT phrase.phrase, ordinal, content, file, place, number, id, title, key, metre, tempo, feel,"
            " full_bars, changes, chords, words.text, level"
            " FROM phrase JOIN words ON words.rowid = phrase.phrase WHERE book = ?",
            (book,),
        ):
            phrase, ordinal, *kept = row
            entry = Entry._make((*kept, tuple(terms.get(phrase, ())), tunes[ordinal]))
            if entry.level:
                found[entry.content] = entry
        return found

    def forget(self, book: int) -> None:
        """Take a book out."""
        own = "(SELECT phrase FROM phrase WHERE book = ?)"
        for statement in (
            f"DELETE FROM term WHERE phrase IN {own}",
            f"DELETE FROM words WHERE rowid IN {own}",
            "DELETE FROM phrase WHERE book = ?",
            "DELETE FROM file WHERE book = ?",
            "DELETE FROM book WHERE book = ?",
        ):
            self._base.execute(statement, (book,))

    def put(
        self, folder: str, title: str, seal: str, files: Mapping[str, str], entries: Sequence[Entry]
    ) -> None:
        """Put a book in; one of the same folder must have been taken out."""
        texts = joined([entry.tune for entry in entries])
        book = self._base.execute(
            "INSERT INTO book (folder, title, seal, pitches, steps, gaps, bars, beats)"
            " VALUES (?, ?, ?, ?, ?, ?, ?, ?)",
            (folder, title, seal, *texts),
        ).lastrowid
        self._base.executemany(
            "INSERT INTO file VALUES (?, ?, ?)", [(book, file, seal) for file, seal in files.items()]
        )
        terms: list[tuple[str, str, int | None]] = []
        words: list[tuple[int | None, str]] = []
        for ordinal, entry in enumerate(entries):
            kept = (*entry[:13], entry.level)  # words, terms and tune have tables of their own
            phrase = self._base.execute(_PHRASE, (book, ordinal, *kept)).lastrowid
            terms += [(kind, name, phrase) for kind, name in entry.terms]
            words.append((phrase, entry.words))
        self._base.executemany("INSERT OR IGNORE INTO term VALUES (?, ?, ?)", terms)
        self._base.executemany("INSERT INTO words (rowid, text) VALUES (?, ?)", words)

    def tunes(self) -> list[tuple[int, Tune]]:
        """Return each book's number and the texts of its phrases."""
        return [
            (book, Tune(*texts))
            for book, *texts in self._base.execute(
                "SELECT book, pitches, steps, gaps, bars, beats FROM book ORDER BY book"
            )
        ]


def _divided(texts: Tune) -> list[Tune]:
    """Return the texts of single phrases; every text has its zeros in the same places."""
    starts = [place for place, byte in enumerate(texts.pitches) if byte == 0]
    ends = [*starts[1:], len(texts.pitches)] if starts else []
    return [Tune(*(text[start:end] for text in texts)) for start, end in zip(starts, ends, strict=True)]


def _opened(path: Path) -> sqlite3.Connection:
    """Open the database; one of another version, or one that cannot be read, is made anew."""
    try:
        return _ready(path)
    except sqlite3.DatabaseError as error:
        if isinstance(error, sqlite3.OperationalError) and "not a database" not in str(error):
            raise
        for beside in ("", "-wal", "-shm"):
            path.with_name(path.name + beside).unlink(missing_ok=True)
        return _ready(path)


def _ready(path: Path) -> sqlite3.Connection:
    base = sqlite3.connect(path, timeout=10, isolation_level=None)
    try:
        base.execute("PRAGMA journal_mode = WAL")
        base.execute("PRAGMA synchronous = NORMAL")
        (version,) = base.execute("PRAGMA user_version").fetchone()
        if version != VERSION:
            _make(base)
    except BaseException:
        base.close()
        raise
    return base


def _make(base: sqlite3.Connection) -> None:
    """Make the tables, in place of those of another version."""
    base.execute("BEGIN IMMEDIATE")
    for name in ("book", "file", "phrase", "term", "words"):
        base.execute(f"DROP TABLE IF EXISTS {name}")
    for statement in _SCHEMA.split(";\n"):
        if statement.strip():
            base.execute(statement)
    base.execute(f"PRAGMA user_version = {VERSION}")
    base.execute("COMMIT")
