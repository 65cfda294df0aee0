"""The feels by every name that people give them, in small letters."""

from __future__ import annotations

from shedbook.analysis.table_rows import Rows
from shedbook.phrase.tables.feels import FEELS

FEEL_NAMES = Rows(
    "names of feels",
    "src/shedbook/phrase/tables/feels.py",
    [(name.lower(), row.name) for row in FEELS for name in (row.name, *row.aliases)],
)
"""The name of a feel by that name and by each of its aliases. Two feels cannot share an alias."""
