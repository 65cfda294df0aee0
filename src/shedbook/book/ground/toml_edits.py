"""Values written into a TOML text: only what changes is rewritten; comments, order and spacing stay. Pure.

The text is one that the standard library reads. A table is named as in `toml_places`: its dotted name, "" at
the top, and which one of an array of that name, from 0.
"""

from __future__ import annotations

import json
import re
from collections.abc import Mapping, Sequence
from typing import NamedTuple

from shedbook.book.ground.toml_places import Entry, entries

Value = str | int | bool | Mapping[str, str] | Sequence[str]
"""What may be written: a text, a whole number, true or false, a table of texts, a list of texts."""

_PLAIN_KEY = re.compile(r"[A-Za-z0-9_-]+")
_LONG = re.compile(r'("""|\'\'\')(\n?)(.*)\1', re.DOTALL)
_CONTROL = re.compile(r"[\x00-\x08\x0b-\x1f\x7f]")
_MANY = 3
"""A list of so many texts or more has a line for each."""


class Block(NamedTuple):
    """One table of an array: from the comments right above its header to where the next begins."""

    start: int
    end: int


def with_value(text: str, table: str, nth: int, key: str, value: Value | None) -> str:
    """Return a TOML text with another value under a key; None takes the key away.

    A key that is not there yet is written under the last key of its table.
    """
    own = [entry for entry in entries(text) if entry.table == table and (entry.nth == nth or not table)]
    entry = next((one for one in own if one.key and _bare(one.key) == key), None)
    inner = f"{table}.{key}" if table else key
    if entry is None and isinstance(value, Mapping):
        found = _into_table(text, inner, nth, value)
        if found is not None:
            return found
    if entry is None:
        return text if value is None else _added(text, own, key, value)
    if value is None:
        return _without(text, entry)
    raw = text[entry.start : entry.end]
    return text[: entry.start] + _like(raw, value) + text[entry.end :]


def blocks(text: str, table: str) -> tuple[Block, ...]:
    """Return the tables of an array in the order in which they stand, inner tables with them."""
    found = [one for one in entries(text) if not one.key]
    starts = [_with_comments(text, one.start) for one in found if one.table == table and _is_array(text, one)]
    others = [
        _with_comments(text, one.start)
        for one in found
        if one.table != table and not one.table.startswith(f"{table}.")
    ]
    ends = sorted([*starts, *others, len(text)])
    return tuple(Block(start, next(end for end in ends if end > start)) for start in starts)


def without_table(text: str, table: str) -> str:
    """Return a TOML text without a table and the tables inside it, whether it has a header or is a key."""
    text = with_value(text, "", 0, table, None)
    headers = [one for one in entries(text) if not one.key]
    for header in reversed(headers):
        if header.table == table or header.table.startswith(f"{table}."):
            after = (one.start for one in headers if one.start > header.start)
            text = text[: header.start] + text[next(after, len(text)) :]
            headers = [one for one in entries(text) if not one.key]
    return text


def written_value(value: Value) -> str:
    """Return a value as TOML, with a text of several lines between three quotation marks."""
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, int):
        return str(value)
    if isinstance(value, str):
        return _long(value) if "\n" in value else _quoted(value)
    if isinstance(value, Mapping):
        pairs = [f"{_key(name)} = {_quoted(one)}" for name, one in value.items()]
        return f"{{ {', '.join(pairs)} }}" if pairs else "{}"
    if len(value) < _MANY:
        return f"[{', '.join(map(_quoted, value))}]"
    return "[\n" + "".join(f"  {_quoted(one)},\n" for one in value) + "]"


def _like(raw: str, value: Value) -> str:
    """Return a value in the form in which another one is written, where that can hold it."""
    if not isinstance(value, str):
        return written_value(value)
    long = _LONG.fullmatch(raw)
    fits = "\\" not in value and _CONTROL.search(value) is None
    if long is not None:
        quote, opening, _ = long.groups()
        if fits and quote not in value and not value.endswith(quote[0]) and (opening or value[:1] != "\n"):
            return f"{quote}{opening}{value}{quote}"
        return _long(value) if opening else written_value(value)
    if raw[:1] == "'" and fits and "'" not in value and "\n" not in value:
        return f"'{value}'"
    return written_value(value)


def _quoted(text: str) -> str:
    """Return a text between quotation marks; TOML escapes what JSON does, and the sign "delete"."""
    return json.dumps(text, ensure_ascii=False).replace("\x7f", "\\u007f")


def _long(text: str) -> str:
    """Return a text between three quotation marks, from a line of its own on."""
    escaped = text.replace("\\", "\\\\").replace('"""', '""\\"')
    escaped = _CONTROL.sub(lambda found: f"\\u{ord(found[0]):04x}", escaped)
    if escaped.endswith('"'):
        escaped = escaped[:-1] + '\\"'
    return f'"""\n{escaped}"""'


def _key(name: str) -> str:
    return name if _PLAIN_KEY.fullmatch(name) else _quoted(name)


def _bare(key: str) -> str:
    """Return a key without its quotes."""
    return key[1:-1] if key[:1] in ("'", '"') else key


def _added(text: str, own: Sequence[Entry], key: str, value: Value) -> str:
    """Write a new key under the last key, or the header, of its table."""
    line = f"{_key(key)} = {written_value(value)}\n"
    if not own:
        return line + text
    at = _line_end(text, own[-1].end)
    before = "" if text[:at].endswith("\n") or not at else "\n"
    return text[:at] + before + line + text[at:]


def _into_table(text: str, table: str, nth: int, value: Mapping[str, str]) -> str | None:
    """Write a table of texts that stands under a header of its own; None where there is none."""
    own = [one for one in entries(text) if one.table == table and (one.nth == nth)]
    if not own:
        return None
    for one in own:
        if one.key and _bare(one.key) not in value:
            text = with_value(text, table, nth, _bare(one.key), None)
    for name, said in value.items():
        text = with_value(text, table, nth, name, said)
    return text


def _without(text: str, entry: Entry) -> str:
    """Take away the lines of a key."""
    start = text.rfind("\n", 0, entry.key_start) + 1
    return text[:start] + text[_line_end(text, entry.end) :]


def _line_end(text: str, at: int) -> int:
    """Return the offset behind the line feed that ends a line."""
    found = text.find("\n", at)
    return len(text) if found < 0 else found + 1


def _is_array(text: str, header: Entry) -> bool:
    return text.startswith("[[", header.start)


def _with_comments(text: str, at: int) -> int:
    """Return where the comment lines begin that stand right above a line."""
    start = text.rfind("\n", 0, at) + 1
    while start:
        before = text.rfind("\n", 0, start - 1) + 1
        if not text[before:start].lstrip().startswith("#"):
            break
        start = before
    return start
