"""The one way from frozen values to JSON and back.

A value is a frozen dataclass or a NamedTuple whose fields are plain values, tuples, dicts, or such values
again. The same value gives the same bytes on every machine. What is read back must have the fields of its
type: msgspec checks that, and takes missing fields from their defaults.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from pathlib import PurePath
from typing import TypeVar

T = TypeVar("T")


def to_json(value: object) -> bytes:
    """Return a value as JSON in UTF-8; the keys of every object stand in a fixed order."""
    import msgspec  # noqa: PLC0415 - a build in which nothing has changed is done sooner than this is loaded

    return msgspec.json.encode(value, enc_hook=_plain, order="deterministic")


def from_json(kind: type[T], content: bytes) -> T:
    """Return the value of a type that JSON holds.

    Raises:
        ValueError: if the content is no JSON, or not that of the type.
    """
    import msgspec  # noqa: PLC0415 - as above

    return msgspec.json.decode(content, type=kind)


def _plain(value: object) -> object:
    """Return what stands for a value that msgspec does not know: a read-only mapping, a fraction, a path.

    Raises:
        TypeError: for anything else, which might say the same of two different values.
    """
    if isinstance(value, Mapping):
        return dict(value)
    if isinstance(value, Fraction | PurePath):
        return str(value)
    raise TypeError(f"{type(value).__name__} has no form in JSON: write it in {__name__}.")
