"""Links of a phrase, which belong to its source and not to its notes, in a field of our MusicXML files."""

from __future__ import annotations

import json
from collections.abc import Sequence

from shedbook.errors import ShedbookError
from shedbook.exchange.ground.report import Reporter
from shedbook.phrase.fields import read_links


def print_links(links: Sequence[tuple[str, str]]) -> str:
    """Return names and web addresses as one text."""
    return json.dumps(dict(links), ensure_ascii=False)


def links_of(text: str, reporter: Reporter) -> tuple[tuple[str, str], ...]:
    """Return the names and addresses of such a text; none, and a remark, where it has been damaged."""
    if not text.strip():
        return ()
    try:
        return read_links(json.loads(text))
    except (ShedbookError, ValueError, RecursionError):
        reporter.note("the links cannot be read and are left out")
        return ()
