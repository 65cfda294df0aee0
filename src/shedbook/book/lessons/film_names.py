"""What the video of each phrase is called: as the link in the book expects it.

The last part of the address names the file; {n} stands for the phrase's number, {nn} for the same with as
many figures as the book's largest number, so that files sort as the book does. A phrase whose own link ends
in a video's ending has the name that it says. Without any of these a video has number and title.
"""

from __future__ import annotations

import re
from urllib.parse import unquote, urlsplit

from shedbook.book.ground.addresses import filled
from shedbook.book.manuscript.file_names import file_words
from shedbook.book.manuscript.opening import Manuscript
from shedbook.book.manuscript.source import PhraseSource
from shedbook.errors import ManuscriptError

ENDING = ".mp4"
_NOT_IN_A_NAME = re.compile(r"[^\w.-]+")


def film_names(manuscript: Manuscript) -> dict[int, str]:
    """Return the name of each phrase's video by the phrase's number.

    Raises:
        ManuscriptError: if two phrases would have one name.
    """
    address = manuscript.settings.shop.videos_address
    largest = max((source.number for source in manuscript.phrases), default=1)
    found: dict[int, str] = {}
    for source in manuscript.phrases:
        name = _linked(source) or _addressed(address, source.number, largest)
        found[source.number] = name or _titled(source, largest)
    taken: dict[str, int] = {}
    for number, name in found.items():
        if name in taken:
            raise ManuscriptError(
                f"The videos of phrases {taken[name]} and {number} would both be called {name}.",
                hint="Give the links of the two phrases different ends.",
            )
        taken[name] = number
    return found


def _addressed(address: str, number: int, largest: int) -> str:
    """Return the name that the book's address gives, "" where its last part is the same for every phrase."""
    last = urlsplit(address.replace("{", "%7B").replace("}", "%7D")).path.rpartition("/")[2]
    last = unquote(last)
    return _as_file(filled(last, number, largest)) if "{n" in last else ""


def _linked(source: PhraseSource) -> str:
    """Return the name of the first of a phrase's links that leads to a video file."""
    links = source.fields.get("links", {})
    for address in links.values() if isinstance(links, dict) else ():
        last = urlsplit(address).path.rpartition("/")[2] if isinstance(address, str) else ""
        if last.lower().endswith(ENDING):
            return _as_file(unquote(last))
    return ""


def _titled(source: PhraseSource, largest: int) -> str:
    return f"{source.number:0{max(2, len(str(largest)))}}-{file_words(source.title)}{ENDING}"


def _as_file(name: str) -> str:
    plain = _NOT_IN_A_NAME.sub("-", name).strip(".-")
    return plain if plain.lower().endswith(ENDING) else f"{plain}{ENDING}"
