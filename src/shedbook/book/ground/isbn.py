"""The number of a book, ISBN-13, and its check digit. Pure.

Source: ISO 2108:2017 and the ISBN Users' Manual, 7th edition: the digits are weighted 1 and 3 in turn, and
their sum with the check digit is a multiple of 10 (from memory; the manual's example is in the tests).
"""

from __future__ import annotations

import re

_SHAPE = re.compile(r"97[89](?:[ -]?\d){10}")


def isbn_digits(text: str) -> str:
    """Return the thirteen digits of an ISBN.

    Raises:
        ValueError: if it is none, with what is wrong and the check digit that would be right.
    """
    said = text.strip().removeprefix("ISBN").lstrip(": ")
    if _SHAPE.fullmatch(said) is None:
        raise ValueError(f'"{text}" is not an ISBN: it has thirteen digits and begins with 978 or 979.')
    digits = re.sub(r"\D", "", said)
    right = check_digit(digits[:12])
    if digits[12] != right:
        raise ValueError(f'"{text}" is not an ISBN: its last digit would be {right}, not {digits[12]}.')
    return digits


def check_digit(first: str) -> str:
    """Return the check digit that goes with the first twelve digits."""
    total = sum(int(digit) * (3 if place % 2 else 1) for place, digit in enumerate(first))
    return str(-total % 10)
