"""Every error that shedbook raises on purpose, in one tree.

    ShedbookError            message and hint; the command line prints both and ends with status 1
    ├── ReadError            something that cannot be read; may carry a place
    │   ├── NotationError    the text of a line, of changes or of scales
    │   ├── ChordSymbolError one chord symbol
    │   └── ManuscriptError  the author's folder and its files
    ├── UnknownNameError     a name that stands in no table
    ├── TableError           a table of the program that says one half of a thing, or a thing twice
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
"""How many characters of a line an error shows."""


@dataclass(frozen=True, slots=True)
class Place:
    """Where in the author's files something stands.

    `line` and `column` count from 1; `bar` counts from 1, a pick-up being bar 0; `beat` is written
    as people say it ("3½") in the metre's denominator; `excerpt` is the text of the line and
    `width` how many characters of it, from `column` on, are meant.
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
        """Return the excerpt with the meant characters underlined, or an empty string.

        Of a long line only the part around them is shown.
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
    """The root of the tree: `message` says what is wrong, `hint` how to mend it."""

    def __init__(self, message: str, *, hint: str = "") -> None:
        super().__init__(message)
        self.message = message
        self.hint = hint

    def __str__(self) -> str:
        return self.message


class ReadError(ShedbookError):
    """Something that cannot be read.

    `start` and `end` are offsets into the text that was handed to the parser, and `field` is the key
    under which that text stands in its table ("" when it is not known, or the text is all there is);
    whoever knows the file turns them into a `place`.
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
        """Return the same error for a text in which the one that was read starts at `offset`."""
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
        """Return the same error with a place; bar and beat known here are kept."""
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
    """A chord symbol cannot be read; `start` is the first character not understood."""


class ManuscriptError(ReadError):
    """The author's folder or one of its files cannot be read."""


class UnknownNameError(ShedbookError):
    """A name that stands in no table; the hint lists the nearest ones."""


class TableError(ShedbookError, ValueError):
    """A table of the program lacks what belongs to one of its rows, or says one thing twice.

    This is for whoever adds a row: the message says what is missing, the hint where to write it. It is
    raised where tables are joined, as a rule when the module that reads them is imported.
    """

    def __str__(self) -> str:
        return f"{self.message} {self.hint}".strip()


class OutputError(ShedbookError):
    """A folder or file that cannot be written, or that is not ours to write."""


class RenderError(ShedbookError):
    """Engraving or page layout failed."""


class SoundError(ShedbookError):
    """A track cannot be made to sound: no synthesiser, no SoundFont, or a recording that cannot be used."""


class BuildError(ShedbookError):
    """Everything that stopped one build; `errors` holds each thing by itself, in the order of the book."""

    def __init__(self, message: str, *, errors: Iterable[ShedbookError] = (), hint: str = "") -> None:
        super().__init__(message, hint=hint)
        self.errors = tuple(errors)


def shown(text: str, *, most: int = 40) -> str:
    """Return a word as a message quotes it: on one line, and cut where it is overlong."""
    line = " ".join(text.split())
    return line if len(line) <= most else f"{line[: most - 1]}…"


def nearest(name: str, known: Iterable[str], *, most: int = 3) -> str:
    """Return a hint such as 'Did you mean "dorian"?', or an empty string when nothing is near."""
    close = difflib.get_close_matches(name.lower(), sorted(set(known)), n=most, cutoff=0.6)
    if not close:
        return ""
    return "Did you mean " + " or ".join(f'"{found}"' for found in close) + "?"
