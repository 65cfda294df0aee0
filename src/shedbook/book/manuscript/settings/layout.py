"""What manuscript.toml says of the room on the pages. Each setting is one row of `LayoutSettings`."""

from __future__ import annotations

from dataclasses import dataclass

from shedbook.book.manuscript.settings.rows import row
from shedbook.phrase.toml_values import flag, one_of, text_value, whole_number

OPENING, PAGE = "opening", "page"
STARTS = (OPENING, PAGE)
"""Where a phrase begins: on a left page, so that it lies open with its keys, or on the next page."""
FEW_KEYS = 3
"""With so many keys or fewer a phrase has room on one page, an opening is half empty [common practice]."""

ONE_COLUMN, TWO_COLUMNS = "one", "two"
COLUMNS = (ONE_COLUMN, TWO_COLUMNS)

_MOST_SYSTEMS = 12


def _starts(key: str, value: object) -> str:
    return one_of(key, text_value(key, value, f'"{OPENING}"'), STARTS, "a place for a phrase to begin")


def _columns(key: str, value: object) -> str:
    return one_of(key, text_value(key, value, f'"{TWO_COLUMNS}"'), COLUMNS, "a number of columns")


def _systems(key: str, value: object) -> int:
    return whole_number(key, value, 1, _MOST_SYSTEMS)


@dataclass(frozen=True, slots=True)
class LayoutSettings:
    """How the phrases stand on the pages: a part of the table of the keys of manuscript.toml.

    `systems` is 0 where the paper decides, `starts` is "" where the number of keys does.
    """

    systems: int = row(
        0, _systems, "whole number", "as many as the paper bears: 8, on a tablet 6",
        "how many systems stand on a page at most",
    )  # fmt: skip
    starts: str = row(
        "", _starts, "text", "opening; page where a book has three keys or fewer",
        'where a phrase begins: on an "opening" of two facing pages, or on the next "page"',
        key="phrase_starts",
    )  # fmt: skip
    columns: str = row(
        TWO_COLUMNS, _columns, "text", "two",
        'whether the keys of phrases of one or two bars stand in "one" column or in "two"', key="key_columns",
    )  # fmt: skip
    home_again: bool = row(
        False, flag, "true or false", "false", "whether the home key stands among the keys once more",
        key="home_key_again",
    )  # fmt: skip

    def on_openings(self, keys: int) -> bool:
        """Say whether phrases begin on openings in a book of so many keys."""
        return self.starts == OPENING or (not self.starts and keys > FEW_KEYS)
