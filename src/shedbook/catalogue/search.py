"""Phrases found in a catalogue: by their line, their changes, their words, and what the account says."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from itertools import islice
from typing import NamedTuple

from shedbook.catalogue.asked import Asked
from shedbook.catalogue.index_file import IndexFile
from shedbook.catalogue.melodies import Lines, Spot, lines_of, spots
from shedbook.errors import UnknownNameError, nearest

_SELECT = (
    "SELECT phrase.phrase, folder, book.title, file, place, number, id, phrase.title, key, changes, tempo,"
    " feel, level FROM phrase JOIN book USING (book) WHERE"
)


class Found(NamedTuple):
    """A phrase that was found, and where in its line; `spot` is None where nothing was asked of the line.

    `folder` is the manuscript's, from the catalogue's; `file` the phrase's, from the manuscript's. `place`
    counts the phrases of the file from 0, `level` is 0 where the phrase was not accounted for.
    """

    folder: str
    book: str
    file: str
    place: int
    number: int
    id: str
    title: str
    key: str
    changes: str
    tempo: int
    feel: str
    level: int
    spot: Spot | None = None


class Searcher:
    """A catalogue that is asked, perhaps often; the lines are loaded when a melody is first looked for."""

    def __init__(self, index: IndexFile) -> None:
        self._index = index
        self._lines: Lines | None = None

    def search(self, asked: Asked, *, most: int = 20) -> tuple[Found, ...]:
        """Return the phrases that have all that is asked, each once, at most so many.

        With wrong notes the best come first, else they come in the order of the books.
        """
        where, given = _conditions(asked)
        if asked.melody or asked.contour or asked.rhythm:
            found = self._by_line(asked, where, given)
        else:
            query = f"{_SELECT} {where} ORDER BY book, ordinal LIMIT ?"
            found = (_found(row, None) for row in self._index.rows(query, (*given, most)))
        return tuple(islice(found, most))

    def _by_line(self, asked: Asked, where: str, given: Sequence[object]) -> Iterator[Found]:
        if self._lines is None:
            self._lines = lines_of(self._index.tunes())
        query = f"{_SELECT} book = ? AND ordinal = ? AND {where}"
        seen = set()
        for spot in spots(self._lines, asked):
            if (spot.book, spot.ordinal) in seen:
                continue
            seen.add((spot.book, spot.ordinal))
            for row in self._index.rows(query, (spot.book, spot.ordinal, *given)):
                yield _found(row, spot)


def phrases_by_row(index: IndexFile, rows: Collection[int]) -> dict[int, Found]:
    """Return phrases by their numbers in the index."""
    query = f"{_SELECT} phrase.phrase = ?"
    return {row: _found(found, None) for row in rows for found in index.rows(query, (row,))}


def known_name(index: IndexFile, kind: str, name: str) -> tuple[str, str]:
    """Return a term that a person typed as the catalogue has it, as (kind, name).

    Raises:
        UnknownNameError: if no phrase of the catalogue has it.
    """
    names = [str(found) for (found,) in index.rows("SELECT DISTINCT name FROM term WHERE kind = ?", (kind,))]
    plain = {_plain(found): found for found in names}
    if _plain(name) in plain:
        return kind, plain[_plain(name)]
    raise UnknownNameError(f'No phrase has the {kind} "{name}".', hint=nearest(name, names))


def _plain(name: str) -> str:
    return "".join(letter for letter in name.casefold() if letter.isalnum() or letter in "#°")


def _conditions(asked: Asked) -> tuple[str, list[object]]:
    """Return what SQLite can decide, as conditions and their values."""
    where, given = ["1"], list[object]()
    for kind, name in asked.terms:
        where.append("phrase.phrase IN (SELECT phrase FROM term WHERE kind = ? AND name = ?)")
        given += [kind, name]
    if asked.levels:
        where.append(f"level IN ({', '.join('?' * len(asked.levels))})")
        given += asked.levels
    if asked.chords:
        where.append("instr(chords, ?)")
        given.append(asked.chords)
    if asked.words:
        where.append("phrase.phrase IN (SELECT rowid FROM words WHERE words MATCH ?)")
        given.append(" ".join(f'"{word}"' for word in asked.words) + "*")
    return " AND ".join(where), given


def _found(row: Sequence[object], spot: Spot | None) -> Found:
    return Found._make((*row[1:], spot))
