"""Where a value stands in a TOML file: offsets in a decoded text become offsets in the file.

The standard library reads TOML without places. This walks over a file that it has already accepted,
only when an error needs its place, and finds keys, values and the characters of strings.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from shedbook.book.ground.toml_files import place_of
from shedbook.errors import ManuscriptError, ReadError

_SPACE = re.compile(r"(?:[ \t\n]|#[^\n]*)*")
_HEADER = re.compile(r"(\[\[?)[ \t]*([^\]\n]*?)[ \t]*\]\]?")
_KEY = re.compile(
    r"""(?:[A-Za-z0-9_-]+|"(?:\\.|[^"\\\n])*"|'[^'\n]*')"""
    r"""(?:[ \t]*\.[ \t]*(?:[A-Za-z0-9_-]+|"(?:\\.|[^"\\\n])*"|'[^'\n]*'))*"""
)
_EQUALS = re.compile(r"[ \t]*=[ \t]*")
_STRING = re.compile(
    r'"""(?:\\.|[^\\])*?"""(?:"{0,2})' r"|'''.*?'''(?:'{0,2})" r'|"(?:\\.|[^"\\\n])*"' r"|'[^'\n]*'",
    re.DOTALL,
)
_ESCAPE = re.compile(r"\\(?:u[0-9A-Fa-f]{4}|U[0-9A-Fa-f]{8}|[ \t]*\n[ \t\n]*|.)", re.DOTALL)
_SCALAR = re.compile(r"[^\n#,\]}]*")


class Entry(NamedTuple):
    """A key and its value: the table it belongs to and offsets in the file.

    `table` is the dotted name of the table ("" at the top), `nth` counts the tables of an array of
    that name from 0.
    """

    table: str
    nth: int
    key: str
    key_start: int
    key_end: int
    start: int
    end: int


def entries(text: str) -> Iterator[Entry]:
    """Yield the keys of a TOML text, and each table's header as a key "" of its own."""
    table, index, counts = "", 0, dict[str, int]()
    at = _skip(text, 0)
    while at < len(text):
        header = _HEADER.match(text, at)
        if header is not None:
            table = header[2]
            if header[1] == "[[":
                counts[table] = counts.get(table, -1) + 1
            first = table.split(".")[0]
            index = counts.get(first if first in counts else table, 0)
            yield Entry(table, index, "", at, header.end(), at, header.end())
            at = _skip(text, header.end())
            continue
        key = _KEY.match(text, at)
        equals = _EQUALS.match(text, key.end()) if key is not None else None
        if key is None or equals is None:
            return  # not TOML after all: nothing more can be placed
        end = _value_end(text, equals.end())
        yield Entry(table, index, key.group(), at, key.end(), equals.end(), end)
        at = _skip(text, end)


def _skip(text: str, at: int) -> int:
    """Return the offset of what follows white space and comments."""
    found = _SPACE.match(text, at)
    return at if found is None else found.end()


def _value_end(text: str, at: int) -> int:
    """Return where the value that starts at an offset ends; brackets may nest."""
    depth = 0
    while at < len(text):
        string = _STRING.match(text, at)
        if string is not None:
            at = string.end()
        elif text[at] in "[{":
            depth += 1
            at += 1
        elif text[at] in "]}":
            depth -= 1
            at += 1
        elif depth:
            at = max(at + 1, _skip(text, at))
        else:
            return _scalar_end(text, at)
        if depth <= 0:
            return at
    return at


def _scalar_end(text: str, at: int) -> int:
    """Return where a number, date, or true or false ends."""
    found = _SCALAR.match(text, at)
    end = at + 1 if found is None else max(at + 1, found.end())
    return at + max(1, len(text[at:end].rstrip()))


def string_offset(raw: str, offset: int) -> int:
    """Return where a character of a decoded string stands in the string as written, quotes included."""
    quote = next((mark for mark in ('"""', "'''", '"', "'") if raw.startswith(mark)), "")
    if not quote:
        return 0
    at, end = len(quote), len(raw) - len(quote)
    if len(quote) == 3 and raw.startswith("\n", at):
        at += 1
    escapes = quote[0] == '"'
    while at < end:
        escape = _ESCAPE.match(raw, at) if escapes and raw[at] == "\\" else None
        trimmed = escape is not None and escape.group().lstrip("\\ \t").startswith("\n")
        if not trimmed:
            if offset == 0:
                return at
            offset -= 1
        at = at + 1 if escape is None else escape.end()
    return min(at, end)


def find(text: str, field: str, *, table: str = "", nth: int = 0) -> Entry | None:
    """Return where a key stands in the nth table of a name, or else that table's header.

    A table that belongs to the key ("[silence]", "silence.rule = …") counts as the key.
    """
    own = f"{table}.{field}" if table else field
    header: Entry | None = None
    for entry in entries(text):
        if entry.nth != nth and entry.table:
            continue
        if entry.table == own:
            return entry
        if entry.table == table:
            name = entry.key
            if name and (_plain(name) == field or name.partition(".")[0].strip() == field):
                return entry
            header = header or (entry if not name else None)
    return header


def _plain(key: str) -> str:
    """Return a key without its quotes."""
    return key[1:-1] if key[:1] in ("'", '"') else key


def placed(
    error: ReadError,
    text: str,
    file: str,
    *,
    known: Sequence[str],
    table: str = "",
    index: int = 0,
    word: str = "",
) -> ReadError:
    """Return an error with its place in a file's text.

    A key that is not `known`, where known ones are given, is underlined itself; else the part of its
    value that is meant, or `word` in it.
    """
    entry = find(text, error.field, table=table, nth=index) if error.field or table else None
    if entry is None and table:
        entry = find(text, table)  # the phrases stand in a list between square brackets
    if entry is None:
        return error.at(place_of(text, file, 0, 1))
    raw = text[entry.start : entry.end]
    start, end = entry.start, entry.end
    if not entry.key or (known and error.field not in known):
        start, end = entry.key_start, entry.key_end
    elif word and word in raw:
        start = entry.start + raw.index(word)
        end = start + len(word)
    elif not isinstance(error, ManuscriptError) or error.start:
        start = entry.start + string_offset(raw, error.start)
        end = max(start + 1, entry.start + string_offset(raw, error.end))
    return error.at(place_of(text, file, start, end))
