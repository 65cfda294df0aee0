"""Every error that shedbook raises on purpose, in one tree.

    ShedbookError            message and hint; the command line prints both and ends with status 1
    ├── ReadError            something that cannot be read; may carry a place
    │   ├── NotationError    the text of a line, of changes or of scales
    │   ├── ChordSymbolError one chord symbol
    │   └── ManuscriptError  the author's folder and its files
    ├── UnknownNameError     a name that stands in no table
    ├── TableError           a table of the program that says one half of a thing, or a thing twice
    │   └── MissingRowError  a row that the program itself needs and a table does not have
    ├── OutputError          a folder or file that cannot be written, or is not ours
    ├── RenderError          an engraving or page layout that failed
    ├── SoundError           a track that cannot be made to sound: no synthesiser, no SoundFont
    └── BuildError           everything that stopped one build, each with its own place

This module imports nothing of shedbook, so that every floor may raise these errors.
"""

from __future__ import annotations

import difflib
from collections.abc import Iterable
from dataclasses import dataclass, replace

_PICTURE_WIDTH = 100
"""How many characters of a long line an error shows."""


@dataclass(frozen=True, slots=True)
class Place:
    """Where something stands in the author's files.

    Attributes:
        file: the path of the file, "" where it is not known.
        line: the line, from 1.
        column: the column, from 1.
        phrase: the title of the phrase.
        bar: the bar, from 1; a pick-up is bar 0.
        beat: the beat as people write it, such as "3½", in the metre's denominator.
        excerpt: the text of the line.
        width: how many characters of the line are wrong, from `column` on.
    """

    file: str = ""
    line: int | None = None
    column: int | None = None
    phrase: str = ""
    bar: int | None = None
    beat: str = ""
    excerpt: str = ""
    width: int = 1

    def __str__(self) -> str:
        position = ":".join(
            [self.file, *(str(number) for number in (self.line, self.column) if number is not None)]
        )
        music = ", ".join(
            part
            for part in (
                f"bar {self.bar}" if self.bar is not None else "",
                f"beat {self.beat}" if self.beat else "",
            )
            if part
        )
        return "  ".join(part for part in (position, music) if part)

    def picture(self) -> str:
        """Return the line with the wrong characters underlined, or "" where the line is not known.

        Of a long line only the part around these characters is shown.
        """
        if not self.excerpt or self.column is None:
            return ""
        text, before = self.excerpt.replace("\t", " "), self.column - 1
        first = max(0, before - _PICTURE_WIDTH // 2) if len(text) > _PICTURE_WIDTH else 0
        shown = text[first : first + _PICTURE_WIDTH]
        head = "…" if first else ""
        tail = "…" if first + len(shown) < len(text) else ""
        mark = "^" * max(1, min(self.width, len(shown) - (before - first)))
        return f"    {head}{shown}{tail}\n    {' ' * (before - first + len(head))}{mark}"


class ShedbookError(Exception):
    """The root of the tree: `message` says what is wrong, and `hint` says how to mend it."""

    def __init__(self, message: str, *, hint: str = "") -> None:
        super().__init__(message)
        self.message = message
        self.hint = hint

    def __str__(self) -> str:
        return self.message


class ReadError(ShedbookError):
    """Something that cannot be read.

    A function that reads text raises it with offsets; whoever knows the file turns these into a place.

    Attributes:
        start: the offset of what is wrong in the text that was read.
        end: the offset after it.
        place: where it stands in the author's files, or None where that is not known yet.
        field: the key under which the text stands in its TOML table, or "" where it stands under none.
    """

    def __init__(
        self,
        message: str,
        *,
        hint: str = "",
        start: int = 0,
        end: int | None = None,
        place: Place | None = None,
        field: str = "",
    ) -> None:
        super().__init__(message, hint=hint)
        self.start = start
        self.end = start + 1 if end is None else end
        self.place = place
        self.field = field

    def moved(self, offset: int, *, place: Place | None = None, field: str = "") -> ReadError:
        """Return the same error for a longer text, in which the text that was read starts at `offset`.

        Args:
            offset: is added to `start` and `end`.
            place: a place to add, which replaces one that is known.
            field: a key to add, which replaces one that is known.
        """
        error = type(self)(
            self.message,
            hint=self.hint,
            start=self.start + offset,
            end=self.end + offset,
            place=place or self.place,
            field=field or self.field,
        )
        error.__cause__ = self.__cause__
        return error

    def at(self, place: Place) -> ReadError:
        """Return the same error with a place; a bar and a beat that are known already are kept."""
        known = self.place or Place()
        error = type(self)(
            self.message,
            hint=self.hint,
            start=self.start,
            end=self.end,
            place=replace(
                place,
                bar=known.bar if known.bar is not None else place.bar,
                beat=known.beat or place.beat,
                phrase=place.phrase or known.phrase,
            ),
            field=self.field,
        )
        error.__cause__ = self.__cause__
        return error


class NotationError(ReadError):
    """The text of a line, of changes or of scales cannot be read."""


class ChordSymbolError(ReadError):
    """A chord symbol cannot be read; `start` is the offset of the first character that was not understood."""


class ManuscriptError(ReadError):
    """The author's folder or one of its files cannot be read."""


class UnknownNameError(ShedbookError):
    """A name is in no table; the hint lists the nearest ones."""


class TableError(ShedbookError, ValueError):
    """A table of the program lacks what belongs to one of its rows, or says one thing twice.

    This is for whoever adds a row: the message says what is missing, the hint where to write it. It is
    raised where tables are joined, as a rule when the module that reads them is imported.
    """

    def __str__(self) -> str:
        return f"{self.message} {self.hint}".strip()


class MissingRowError(TableError, KeyError):
    """A row that the program itself needs and a table does not have; the hint says where to write it.

    `table` says what the rows of the table are, `row` is the name of the one that is missing, and `file` is
    the path of the module that holds them, from the root of the repository.
    """

    def __init__(self, table: str, row: str, file: str, why: str = "") -> None:
        needed = f" ({why})" if why else ""
        super().__init__(f'The table "{table}" has no row "{row}"{needed}.', hint=f"Write the row in {file}.")
        self.table, self.row, self.file = table, row, file

    def __reduce__(self) -> tuple[type[MissingRowError], tuple[str, str, str]]:
        """Keep the parts of the error when it comes back from a worker process."""
        return MissingRowError, (self.table, self.row, self.file)


class OutputError(ShedbookError):
    """A folder or a file cannot be written, or shedbook did not make it and leaves it alone."""


class RenderError(ShedbookError):
    """Engraving or page layout failed."""


class SoundError(ShedbookError):
    """A track cannot be made to sound: no synthesiser, no SoundFont, or a recording that cannot be used."""


class BuildError(ShedbookError):
    """Several things stopped a build; `errors` holds the error of each, in the order of the book."""

    def __init__(self, message: str, *, errors: Iterable[ShedbookError] = (), hint: str = "") -> None:
        super().__init__(message, hint=hint)
        self.errors = tuple(errors)


def shown(text: str, *, most: int = 40) -> str:
    """Return a text as a message quotes it: on one line, and cut off after `most` characters."""
    line = " ".join(text.split())
    return line if len(line) <= most else f"{line[: most - 1]}…"


def nearest(name: str, known: Iterable[str], *, most: int = 3) -> str:
    """Return a hint such as 'Did you mean "dorian"?', or "" where no name is near.

    Args:
        name: the name that is not known.
        known: the names that are.
        most: how many names the hint has at most.
    """
    close = near_names(name, known, most=most)
    if not close:
        return ""
    return "Did you mean " + " or ".join(f'"{found}"' for found in close) + "?"


def near_names(name: str, known: Iterable[str], *, most: int = 3) -> list[str]:
    """Return the known names that are near to one that is not known, `most` at most, the nearest first."""
    return difflib.get_close_matches(name.lower(), sorted(set(known)), n=most, cutoff=0.6)
