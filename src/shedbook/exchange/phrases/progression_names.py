"""The names of progressions as people type them, and the rows of the table that they mean.

Dashes and spaces mean the same, and digits may stand for numerals ("2-5-1", "251"). Capital and small letters
are told apart only where two progressions differ in nothing else: in "II–V–I" every chord is a major or a
dominant chord.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator, Mapping
from functools import lru_cache
from types import MappingProxyType

from shedbook.errors import UnknownNameError, nearest
from shedbook.theory.tables.progressions import BLUES, PROGRESSIONS, BluesRow, ProgressionRow

ALL = "all"

_ROWS: tuple[ProgressionRow | BluesRow, ...] = (*PROGRESSIONS, *BLUES)
_BETWEEN = re.compile(r"[\s\-\u2010-\u2015]+")
_DIGITS = re.compile(r"[1-7]+")
_NUMERALS = ("i", "ii", "iii", "iv", "v", "vi", "vii")


def _key(name: str) -> str:
    """Return a name in the form in which names are compared: one dash between its words and numerals."""
    return "–".join(_words(name.replace("♭", "b").replace("♯", "#")))


def _words(name: str) -> Iterator[str]:
    """Yield the words and numerals of a name; digits are turned into small numerals."""
    for word in _BETWEEN.split(name.strip()):
        if _DIGITS.fullmatch(word):
            yield from (_NUMERALS[int(digit) - 1] for digit in word)
        elif word:
            yield word


@lru_cache(maxsize=1)
def _known() -> tuple[Mapping[str, str], Mapping[str, tuple[str, ...]]]:
    """Return two maps: from names to a row, and from names in small letters to rows in the table's order."""
    exact: dict[str, str] = {}
    folded: dict[str, tuple[str, ...]] = {}
    for row in _ROWS:
        for name in (row.name, *row.aliases):
            exact[_key(name)] = row.name
            small = _key(name).casefold()
            folded[small] = tuple(dict.fromkeys((*folded.get(small, ()), row.name)))
    return MappingProxyType(exact), MappingProxyType(folded)


def _row(name: str) -> str | None:
    """Return the name of the row that a typed name means, None for no row.

    The name as it is typed comes first, then its minor form, then any row that differs in capitals only.
    """
    exact, folded = _known()
    key = _key(name)
    return exact.get(key) or exact.get(f"minor–{key}") or next(iter(folded.get(key.casefold(), ())), None)


def wanted_rows(names: Collection[str]) -> frozenset[str] | None:
    """Return the names of the rows that typed names mean; None where one of them is "all".

    Args:
        names: names of progressions as people type them.

    Raises:
        UnknownNameError: if a name is that of no progression; the hint lists the nearest.
    """
    found = set()
    for name in names:
        if name.strip().lower() == ALL:
            return None
        row = _row(name)
        if row is None:
            known = {one: one for row in _ROWS for one in (row.name, *row.aliases)}
            raise UnknownNameError(
                f'"{name[:60]}" is not a progression in the table.',
                hint=nearest(name.replace("-", "–"), known)
                or f'Write "{ALL}", or a name such as "minor ii–V–i".',
            )
        found.add(row)
    return frozenset(found)


def other_rows(names: Collection[str]) -> tuple[str, ...]:
    """Return the rows that the names would also mean if capitals and small letters were the same.

    Args:
        names: names of progressions as people type them.

    Raises:
        UnknownNameError: if a name is that of no progression.
    """
    asked = wanted_rows(names) or frozenset()
    found = (row for name in names for row in _known()[1].get(_key(name).casefold(), ()))
    return tuple(dict.fromkeys(row for row in found if row not in asked))
