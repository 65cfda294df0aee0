"""One part of a long score read without building the others.

The whole text is checked once by the parser, which is quick where nothing is kept of it. In a text that is
well-formed and holds no CDATA, whatever looks like the tag of a part is one, unless it stands in a comment or
a processing instruction: so the text can be cut at those tags. Wherever that cannot be relied on the answer
is None, and the score is read as a whole.
"""

from __future__ import annotations

import re
from typing import NamedTuple

from shedbook.exchange.safety import check_xml, source_of

_OPEN = re.compile(rb"<part[\s>]")
_CLOSE = b"</part>"
_ROOT = b"<score-partwise"
_MOST_PIECES = 500


class Cut(NamedTuple):
    """A score cut at its parts: `opening` goes up to the end of the root's tag, `closing` ends it.

    `frame` is the whole score with the parts empty, `parts` are they themselves.
    """

    opening: bytes
    frame: bytes
    parts: tuple[bytes, ...]
    closing: bytes = b"</score-partwise>"

    def alone(self, indices: list[int]) -> bytes:
        """Return a score of some parts, without what stands before them."""
        return b"".join([self.opening, *(self.parts[index] for index in indices), self.closing])


def cut_at_parts(data: bytes, name: str) -> Cut | None:
    """Return a score cut at its parts; None where it has one part only, too many, or cannot be cut safely.

    Raises:
        ReadError: if it is not well-formed, or declares anything.
    """
    source = source_of(data, name)
    if isinstance(source, str):
        data = source.encode()  # what it declared is gone from it, and UTF-8 needs no declaration
    if not 1 < data.count(_CLOSE) <= _MOST_PIECES or b"<![CDATA[" in data:
        return None
    check_xml(data, name)
    root = data.find(_ROOT)
    if root < 0 or _hidden(data, root):
        return None
    places = _places(data, root)
    if places is None:
        return None
    frame, parts, before = [], [], 0
    for start, tag_end, close in places:
        frame += [data[before:tag_end], _CLOSE]
        parts.append(data[start : close + len(_CLOSE)])
        before = close + len(_CLOSE)
    opening = data[: data.find(b">", root) + 1]
    return Cut(opening, b"".join([*frame, data[before:]]), tuple(parts))


def _places(data: bytes, root: int) -> list[tuple[int, int, int]] | None:
    """Return where the tag of each part begins and ends, and where it is closed; None where it is unsure."""
    found: list[tuple[int, int, int]] = []
    place = root
    for match in _OPEN.finditer(data, root):
        start = match.start()
        close = data.find(_CLOSE, start)
        if start < place or close < 0 or _hidden(data, start) or _hidden(data, close):
            return None  # a part within a part, or one that only looks like it
        found.append((start, data.find(b">", start) + 1, close))
        place = close
    return found if len(found) == data.count(_CLOSE, root) else None


def _hidden(data: bytes, place: int) -> bool:
    """Say whether a place may lie in a comment or in a processing instruction."""
    for begin, end in ((b"<!--", b"-->"), (b"<?", b"?>")):
        begun = data.rfind(begin, 0, place)
        if begun >= 0 and not 0 <= data.find(end, begun + len(begin)) < place:
            return True
    return False
