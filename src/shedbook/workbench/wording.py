"""The words of the screens by their names, and pages with their words put in."""

from __future__ import annotations

import html
import json
import re
from functools import lru_cache
from importlib.resources import files

from shedbook.table_index import Rows
from shedbook.workbench.tables.words import WORDS

_GAP = re.compile(r"\{\{([a-z][\w.-]*)\}\}")

ROWS: Rows[str] = Rows("words of the workbench", "src/shedbook/workbench/tables/words.py", dict(WORDS))


def words(name: str, /, **inside: object) -> str:
    """Return a word of the screens, with what stands in braces filled in.

    Raises:
        MissingRowError: if there is no row of that name.
    """
    return ROWS[name].format(**inside) if inside else ROWS[name]


@lru_cache(maxsize=32)
def page(name: str) -> str:
    """Return a screen as HTML; its words are in it, and once more as data for its scripts.

    Raises:
        MissingRowError: if the screen asks for a word that is not there.
    """
    folder = files("shedbook.workbench") / "pages"
    frame = (folder / "frame.html").read_text(encoding="utf-8")
    body = (folder / f"{name}.html").read_text(encoding="utf-8")
    data = json.dumps(dict(WORDS), ensure_ascii=False).replace("<", "\\u003c")
    whole = (
        frame.replace("<!-- body -->", body).replace("<!-- words -->", data).replace("<!-- name -->", name)
    )
    return _GAP.sub(lambda gap: html.escape(words(gap[1])), whole)
