"""Note values as text: "1/8", dotted "1/4.", triplet "1/8t", other tuplets "1/16(5:4)", tied "1/8+1/4"."""

from __future__ import annotations

import re
from fractions import Fraction
from functools import lru_cache

from shedbook.errors import NotationError, shown
from shedbook.phrase.model import Value

PARTS = (1, 2, 4, 8, 16, 32)
"""The values that can be written, as parts of a whole note."""

MOST_DOTS = 2
MOST_IN_TUPLET = 15

EXPECTED = (
    'Values are 1/1 1/2 1/4 1/8 1/16 1/32, dotted "1/4.", triplet "1/8t", other tuplets "1/16(5:4)", '
    'tied "1/8+1/4".'
)

_VALUE = re.compile(r"1/([0-9]{1,3})(\.*)(?:(t)|\(([0-9]{1,2}):([0-9]{1,2})\))?")
_PLAIN_LENGTH = re.compile(r"([1-9][0-9]?)/(1|2|4|8|16|32)")


@lru_cache(maxsize=1024)
def read_values(text: str) -> tuple[Value, ...]:
    """Read one value, or several that are tied by "+".

    Raises:
        NotationError: if one is not a value, with offsets into `text`.
    """
    values = []
    start = 0
    for part in text.split("+"):
        values.append(_read_value(part, start))
        start += len(part) + 1
    return tuple(values)


def _read_value(text: str, start: int) -> Value:
    """Read one value, which stands at the offset `start` of the whole text."""
    found = _VALUE.fullmatch(text)
    end = start + max(1, len(text))
    if found is None:
        raise NotationError(f'"{shown(text)}" is not a note value.', hint=EXPECTED, start=start, end=end)
    part, dots, triplet, actual, normal = found.groups()
    if int(part) not in PARTS or len(dots) > MOST_DOTS:
        raise NotationError(
            f'"{shown(text)}" is not among the note values.', hint=EXPECTED, start=start, end=end
        )
    if triplet:
        return Value(int(part), len(dots), 3, 2)
    if actual is None:
        return Value(int(part), len(dots))
    if not (2 <= int(actual) <= MOST_IN_TUPLET and 1 <= int(normal) <= MOST_IN_TUPLET and actual != normal):
        raise NotationError(
            f'"{shown(text)}" is not a tuplet that can be written.',
            hint=f'"1/16(5:4)" is five in the time of four; no number is over {MOST_IN_TUPLET}.',
            start=start,
            end=end,
        )
    return Value(int(part), len(dots), int(actual), int(normal))


@lru_cache(maxsize=1024)
def print_values(values: tuple[Value, ...]) -> str:
    """Return tied values as text, in the normal form."""
    return "+".join(_print_value(value) for value in values)


def _print_value(value: Value) -> str:
    """Return one value as text."""
    plain = f"1/{value.part}{'.' * value.dots}"
    ratio = (value.actual, value.normal)
    if ratio == (1, 1):
        return plain
    return plain + ("t" if ratio == (3, 2) else f"({value.actual}:{value.normal})")


def read_length(text: str) -> Fraction:
    """Return a length in quarters, read from a value, tied values, or a plain fraction such as "3/8".

    Raises:
        NotationError: if the text is none of these.
    """
    plain = _PLAIN_LENGTH.fullmatch(text)
    if plain is not None:
        return Fraction(4 * int(plain[1]), int(plain[2]))
    return sum((value.quarters for value in read_values(text)), Fraction(0))


def print_length(quarters: Fraction) -> str:
    """Return a length in quarters as the plainest text that `read_length` reads, or "" if there is none."""
    for part in PARTS:
        for value in (Value(part), Value(part, 1), Value(part, 0, 3, 2)):
            if value.quarters == quarters:
                return _print_value(value)
    whole = quarters / 4
    found = next((part for part in PARTS if (whole * part).denominator == 1), None)
    return "" if found is None else f"{whole * found}/{found}"
