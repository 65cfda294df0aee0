"""Every place of a phrase that cannot be read, not only the first.

Reading stops at the first place that it does not understand. To go on, something readable is put there on
trial: a note for a word of the line, a whole note for a bar that does not add up, a plain chord for a symbol.
A bar in which a place was found already is not blamed for its length: that follows from the place.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import NamedTuple

from shedbook.book.manuscript.source import PhraseSource, locate, read_phrase
from shedbook.errors import BuildError, ReadError
from shedbook.phrase.fields import phrase_from_fields, read_metre
from shedbook.phrase.line_words import VALUE, WORD, read_word
from shedbook.phrase.model import Phrase
from shedbook.phrase.value_text import print_length

_MOST = 40
"""After how many places reading is given up."""

_NEEDED = ("line", "changes")
"""Keys that a phrase cannot do without; any other that cannot be read is left out on trial."""


class _Trial(NamedTuple):
    """A stretch of a text, and what is put in its place."""

    field: str
    start: int
    end: int
    text: str

    def back(self, field: str, offset: int) -> int:
        """Return where an offset into the text on trial lay before."""
        after = self.start + len(self.text)
        if field != self.field or offset < self.start:
            return offset
        return offset - after + self.end if offset >= after else self.start


def read_every_place(source: PhraseSource) -> Phrase:
    """Read a phrase as `read_phrase` does, but tell every place that cannot be read.

    Raises:
        ReadError: if one place cannot be read.
        BuildError: if several cannot; it holds the error of each.
    """
    try:
        return read_phrase(source)
    except ReadError as error:
        places = unread_places(source)
        if len(places) < 2:
            raise error from None
        raise BuildError(f"{len(places)} places of “{source.title}” cannot be read.", errors=places) from None


def unread_places(source: PhraseSource) -> tuple[ReadError, ...]:
    """Return what cannot be read of a phrase, with its places in the file, in the order of reading."""
    fields: Mapping[str, object] = source.text.fields
    trials: list[_Trial] = []
    found: list[ReadError] = []
    bars: set[int] = set()
    for _ in range(_MOST):
        try:
            phrase_from_fields(fields)
            break
        except ReadError as error:
            bar = error.place.bar if error.place is not None else None
            word = _unread_word(fields, error)
            follows = error.field == "line" and not word and bar in bars
            start = error.start
            for trial in reversed(trials):
                start = trial.back(error.field, start)
            known = any((one.field, one.start) == (error.field, start) for one in found)
            if known and not follows:
                break
            if not follows:
                found.append(error.moved(start - error.start))
            if error.field == "line" and bar is not None:
                bars.add(bar)
            put = _trial(fields, error, word)
            if put is not None:
                trials.append(put)
                text = str(fields[put.field])
                fields = {**fields, put.field: text[: put.start] + put.text + text[put.end :]}
            elif error.field in fields and error.field not in _NEEDED:
                fields = {name: value for name, value in fields.items() if name != error.field}
            else:
                break
    return tuple(locate(error, source) for error in found)


def _unread_word(fields: Mapping[str, object], error: ReadError) -> tuple[int, int] | None:
    """Return the offsets of the word at which an error stands, if the word itself cannot be read."""
    line = fields.get("line")
    if error.field != "line" or not isinstance(line, str):
        return None
    for word in WORD.finditer(line):
        if word.start() <= error.start < word.end():
            try:
                read_word(word.group())
            except ReadError:
                return word.span()
    return None


def _trial(fields: Mapping[str, object], error: ReadError, word: tuple[int, int] | None) -> _Trial | None:
    """Return what is put where an error stands, or None where nothing can be."""
    text = fields.get(error.field)
    if error.field not in _NEEDED or not isinstance(text, str):
        return None
    if word is not None:
        start, end = word
        return _Trial("line", start, end, ("c" if end - start == 1 else "c4").ljust(end - start))
    if error.field == "changes":
        symbol = next((one for one in WORD.finditer(text) if one.start() <= error.start < one.end()), None)
        return None if symbol is None else _Trial("changes", *symbol.span(), "C".ljust(len(symbol.group())))
    return _whole_bar(text, error, fields)


def _whole_bar(line: str, error: ReadError, fields: Mapping[str, object]) -> _Trial | None:
    """Return a whole note in place of the bar in which an error stands, and the value that held after it.

    None is returned where slurs go over its bar lines: they would be missed elsewhere.
    """
    start = line.rfind("|", 0, error.start + 1) + 1
    end = line.find("|", start)
    end = len(line) if end < 0 else end
    bar = line[start:end]
    if bar.count("(") != bar.count(")"):
        return None
    pickup = error.place is not None and error.place.bar == 0
    due = Fraction(0) if pickup else read_metre(fields.get("metre", "4/4")).bar_quarters
    value = str(fields.get("pickup", "")) if pickup else print_length(due)
    values = [word.group() for word in WORD.finditer(bar) if _is_value(word.group())]
    if not value:
        return None
    return _Trial("line", start, end, f" {value} c4 {values[-1] if values else ''} ")


def _is_value(word: str) -> bool:
    try:
        return read_word(word).kind == VALUE
    except ReadError:
        return False
