"""A phrase as it stands in its file, and its notes when they are asked for."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from shedbook.book.ground.toml_files import read_text
from shedbook.book.ground.toml_places import placed
from shedbook.errors import ManuscriptError, ReadError
from shedbook.phrase.fields import FIELD_NAMES, phrase_from_fields
from shedbook.phrase.model import Phrase

PHRASE_TABLE = "phrase"
"""The name of the tables in a file that holds several phrases."""


@dataclass(frozen=True, slots=True)
class PhraseText:
    """The keys of a phrase with their values as TOML gives them: all on which notes and words depend."""

    fields: Mapping[str, Any]

    def without(self, names: Collection[str]) -> PhraseText:
        """Return the text without some of its keys."""
        return PhraseText({name: value for name, value in self.fields.items() if name not in names})

    def phrase(self) -> Phrase:
        """Read the notes, changes and scales.

        Raises:
            ReadError: if they cannot be read; its field and offsets say where, its place is not known.
        """
        return phrase_from_fields(self.fields)


@dataclass(frozen=True, slots=True)
class PhraseSource:
    """A phrase as it stands in its file, not yet read.

    `file` is named from the manuscript's folder, `path` leads to it. `index` counts the phrases of
    the file from 0, `number` those of the book from 1. `fields` are the keys as TOML gives them, with
    the book's own metre, tempo and feel where the phrase names none. `in_table` says that it stands
    under [[phrase]]. `untitled` is what a phrase without a title is called. `own` are the names of the keys
    that stand in the file itself, and `taken` says where the others come from, for a phrase of another book.
    """

    file: str
    path: Path
    index: int
    number: int
    fields: Mapping[str, Any]
    in_table: bool = False
    untitled: str = "Phrase {n}"
    own: tuple[str, ...] = ()
    taken: Taken | None = None

    @property
    def root(self) -> Path:
        """The manuscript's folder."""
        return self.path.parents[len(Path(self.file).parts) - 1]

    @property
    def title(self) -> str:
        """The phrase's title, or "Phrase" and its number."""
        title = self.fields.get("title")
        return (
            title.strip() if isinstance(title, str) and title.strip() else self.untitled.format(n=self.number)
        )

    @property
    def text(self) -> PhraseText:
        """The phrase's own text, under the title by which it is called."""
        title = self.fields.get("title", "")
        named = title if not isinstance(title, str) or title.strip() else self.title
        return PhraseText({**self.fields, "title": named})


@dataclass(frozen=True, slots=True)
class Taken:
    """Where a phrase was taken from.

    Attributes:
        reference: as the author wrote it.
        version: that of the source as it is now; "" where the source is not there.
        pinned: the version that the author named, "" where it is kept in step.
        source: the phrase as it stands in its own book; None where only the copy is there.
        copy: the file of a pinned copy that was read, None for none.
    """

    reference: str
    version: str
    pinned: str
    source: PhraseSource | None
    copy: Path | None = None

    @property
    def files(self) -> tuple[Path, ...]:
        """The files outside the manuscript on which the phrase depends."""
        if self.source is None:
            return ()
        below = self.source.taken.files if self.source.taken is not None else ()
        return (self.source.path, self.source.root / "manuscript.toml", *below)


def read_phrase(source: PhraseSource) -> Phrase:
    """Read the notes, changes and scales of a phrase.

    Raises:
        ReadError: if they cannot be read, with the place in the author's file.
    """
    try:
        return source.text.phrase()
    except ReadError as error:
        raise locate(error, source) from None


def locate(error: ReadError, source: PhraseSource) -> ReadError:
    """Return an error of a phrase with its place: file, line, column, bar and beat, and what stands there.

    The file is read once more; if it is gone, the error says that instead.
    """
    taken = source.taken
    if (
        taken is not None
        and error.field not in source.own
        and taken.copy is None
        and taken.source is not None
    ):
        theirs = locate(error, taken.source)
        if theirs.place is not None:
            book = taken.reference.rpartition("#")[0]
            theirs.place = replace(theirs.place, file=f"{book}/{theirs.place.file}")
        return theirs
    try:
        text = read_text(source.path, source.file)
    except ManuscriptError as gone:
        return gone
    found = placed(
        error,
        text,
        source.file,
        known=(*FIELD_NAMES, "from", "version"),
        table=PHRASE_TABLE if source.in_table else "",
        index=source.index,
    )
    if found.place is not None:
        found.place = replace(found.place, phrase=source.title)
    return found
