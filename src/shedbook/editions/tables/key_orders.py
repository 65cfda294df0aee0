"""Orders in which a book goes through the keys.

Row format: name; aliases; twelve intervals above the home key as half steps, in order; source.
"""

from __future__ import annotations

from typing import NamedTuple


class OrderRow(NamedTuple):
    """One order; `semitones` starts with 0, the home key, and names each key once."""

    name: str
    aliases: tuple[str, ...]
    semitones: tuple[int, ...]
    source: str


KEY_ORDERS: tuple[OrderRow, ...] = (
    OrderRow("fourths", ("circle of fourths",), (0, 5, 10, 3, 8, 1, 6, 11, 4, 9, 2, 7), "common practice"),
    OrderRow("fifths", ("circle of fifths",), (0, 7, 2, 9, 4, 11, 6, 1, 8, 3, 10, 5), "common practice"),
    OrderRow("chromatic", ("chromatic up",), (0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11), "common practice"),
    OrderRow("chromatic down", (), (0, 11, 10, 9, 8, 7, 6, 5, 4, 3, 2, 1), "common practice"),
    OrderRow("whole steps", ("whole tones",), (0, 2, 4, 6, 8, 10, 1, 3, 5, 7, 9, 11), "common practice"),
    OrderRow("whole steps down", (), (0, 10, 8, 6, 4, 2, 11, 9, 7, 5, 3, 1), "common practice"),
    OrderRow("minor thirds", (), (0, 3, 6, 9, 1, 4, 7, 10, 2, 5, 8, 11), "common practice"),
    OrderRow("major thirds", (), (0, 4, 8, 1, 5, 9, 2, 6, 10, 3, 7, 11), "common practice"),
)  # fmt: skip
