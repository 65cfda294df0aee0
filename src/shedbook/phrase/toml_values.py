"""Values of a TOML table, checked: each has the form that its key asks for, or an error says what is wrong.

Every function here raises a `ManuscriptError` whose `field` is the key. In all of them `field` is the key,
`value` what stands under it, and `example` a value that would do, for the error.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable, Mapping, Sequence
from types import MappingProxyType
from typing import NoReturn

from shedbook.errors import ManuscriptError, nearest, shown


def refuse(field: str, message: str, hint: str = "") -> NoReturn:
    """Raise the error for the value of a key.

    Raises:
        ManuscriptError: always.
    """
    raise ManuscriptError(message, hint=hint, field=field)


def kind_words(value: object) -> str:
    """Return what kind of TOML value this is, in words, such as "a whole number"."""
    if isinstance(value, bool):
        return "true or false"
    for kind, words in _KINDS:
        if isinstance(value, kind):
            return words
    return "a date or time"


_KINDS: tuple[tuple[type, str], ...] = (
    (str, "text"),
    (int, "a whole number"),
    (float, "a number with a decimal point"),
    (list, "a list"),
    (dict, "a table"),
)


def known_keys(
    fields: Mapping[str, object],
    known: Sequence[str],
    owner: str,
    *,
    renamed: Mapping[str, str] = MappingProxyType({}),
) -> None:
    """Refuse a key that stands in no table.

    Args:
        fields: the keys that the author has written.
        known: the keys that there are.
        owner: whose keys they are, as in "a phrase".
        renamed: keys of earlier versions to what they are called now.
    """
    for name in fields:
        if name in renamed:
            new = renamed[name]
            refuse(name, f'"{name}" is now called "{new}".', f"Write {new} in the place of {name}.")
        if name not in known:
            refuse(
                name,
                f'"{shown(name)}" is not a key of {owner}.',
                nearest(name, known) or f"The keys are {', '.join(known)}.",
            )


def text_value(field: str, value: object, example: str, *, lines: bool = False, item: bool = False) -> str:
    """Return a text without the white space around it.

    Args:
        field: the key.
        value: what stands under it.
        example: a value that would do.
        lines: whether the text may have several lines.
        item: whether it is one of several values under the key.

    Raises:
        ManuscriptError: if it is not such a text, or holds characters that no page can show.
    """
    if not isinstance(value, str):
        refuse(
            field,
            f"{_named(field, item)} must be text, but is {kind_words(value)}.",
            f"Write {field} = {example}",
        )
    check_characters(field, value)
    text = value.strip()
    if not lines and "\n" in text:
        refuse(field, f'"{field}" must stand on one line.', f"Write {field} = {example}")
    return text


def check_characters(field: str, text: str) -> None:
    """Refuse characters that no page can show: control characters and halves of surrogate pairs.

    Raises:
        ManuscriptError: at the first such character.
    """
    if text.isprintable():
        return
    for at, character in enumerate(text):
        if character not in "\n\t" and unicodedata.category(character) in ("Cc", "Cs"):
            raise ManuscriptError(
                f'"{field}" holds the control character U+{ord(character):04X}.',
                hint="Remove it; only line breaks and tabs are allowed.",
                start=at,
                field=field,
            )


def _named(field: str, item: bool) -> str:
    return f'An item of "{field}"' if item else f'"{field}"'


_USUAL = 120
"""The number that an error shows as an example where it is allowed, a usual tempo."""


def whole_number(field: str, value: object, low: int, high: int, *, item: bool = False) -> int:
    """Return a whole number from `low` to `high`, both included.

    Raises:
        ManuscriptError: if the value is anything else.
    """
    example = "[80, 120]" if item else _USUAL if low <= _USUAL <= high else (low + high) // 2
    hint = f"Write a number from {low} to {high}, without quotes: {field} = {example}"
    if isinstance(value, bool) or not isinstance(value, int):
        refuse(field, f"{_named(field, item)} must be a whole number, but is {kind_words(value)}.", hint)
    if not low <= value <= high:
        refuse(field, f"{_named(field, item)} is {value}, which is not between {low} and {high}.", hint)
    return value


def flag(field: str, value: object) -> bool:
    """Return true or false.

    Raises:
        ManuscriptError: if the value is anything else.
    """
    if not isinstance(value, bool):
        refuse(
            field, f'"{field}" must be true or false, but is {kind_words(value)}.', f"Write {field} = true"
        )
    return value


def text_list(field: str, value: object, example: str) -> tuple[str, ...]:
    """Return a list of texts. A single text is divided at commas and white space.

    Raises:
        ManuscriptError: if the value is anything else.
    """
    if isinstance(value, str):
        return tuple(text_value(field, value, example, lines=True).replace(",", " ").split())
    if not isinstance(value, list):
        refuse(field, f'"{field}" must be a list, but is {kind_words(value)}.', f"Write {field} = {example}")
    return tuple(text_value(field, item, example, item=True) for item in value)


def text_table(field: str, value: object, example: str) -> tuple[tuple[str, str], ...]:
    """Return (name, text) for each line of a table of texts, in the order in which they are written.

    Raises:
        ManuscriptError: if the value is anything else, or a text is empty.
    """
    if not isinstance(value, dict):
        refuse(field, f'"{field}" must be a table, but is {kind_words(value)}.', f"Write {field} = {example}")
    pairs = []
    for name, text in value.items():
        if not isinstance(text, str) or not text.strip():
            refuse(field, f'"{shown(name)}" in "{field}" needs a text.', f"Write {field} = {example}")
        check_characters(field, text)
        pairs.append((name, text.strip()))
    return tuple(pairs)


def one_of(field: str, text: str, names: Iterable[str], what: str) -> str:
    """Return a name in lower case, which must be one of `names`.

    Args:
        field: the key.
        text: the name.
        names: the names that are known.
        what: what the name should be, for the error, such as "a feel in the table".

    Raises:
        ManuscriptError: if the name is not known. The hint lists the nearest names.
    """
    known = tuple(names)
    if text.lower() not in known:
        hint = nearest(text, known) or f"Known are {', '.join(known)}."
        refuse(field, f'"{shown(text)}" is not {what}.', hint)
    return text.lower()
