"""Which phrases are meant: by number or by title."""

from __future__ import annotations

from collections.abc import Sequence

from shedbook.book.manuscript import PhraseSource
from shedbook.errors import UnknownNameError, nearest


def one_phrase(sources: Sequence[PhraseSource], wanted: str) -> PhraseSource:
    """Return the phrase with this number among `sources`, counted from 1, or this title.

    Raises:
        UnknownNameError: if there is none; the hint says which there are.
    """
    name = wanted.strip()
    if name.isdecimal() and 1 <= int(name) <= len(sources):
        return sources[int(name) - 1]
    for source in sources:
        if source.title.casefold() == name.casefold():
            return source
    titles = [source.title for source in sources]
    hint = nearest(name, [title.lower() for title in titles]) or (
        f"There are {len(titles)}: " + ", ".join(f"{place} {title}" for place, title in enumerate(titles[:12], 1))
        + (" …" if len(titles) > 12 else "")
        if titles
        else ""
    )  # fmt: skip
    raise UnknownNameError(f'There is no phrase "{wanted}" here.', hint=hint)
