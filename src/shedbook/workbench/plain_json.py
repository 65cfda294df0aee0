"""Errors and the keys of phrases as JSON has them; loads nothing that knows notes."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from shedbook.errors import ReadError, ShedbookError

Json = dict[str, Any]


def error_json(error: ShedbookError) -> Json:
    """Return an error: what is wrong, what to do, and where it stands in which key of the phrase."""
    found: Json = {"message": error.message, "hint": error.hint}
    if isinstance(error, ReadError):
        place = error.place
        found |= {"field": error.field, "start": error.start, "end": error.end}
        found |= {"bar": None if place is None else place.bar, "beat": "" if place is None else place.beat}
    return found


def fields_json(fields: Mapping[str, Any]) -> Json:
    """Return the keys of a phrase as JSON has them; dates and other things that no key takes become text."""
    return {name: value if _plain(value) else str(value) for name, value in fields.items()}


def _plain(value: object) -> bool:
    if isinstance(value, dict):
        return all(isinstance(name, str) and _plain(one) for name, one in value.items())
    if isinstance(value, list):
        return all(map(_plain, value))
    return isinstance(value, str | int | bool)
