"""One part of a long score read without building the others.

The whole text is checked once by the parser, which is quick where nothing is kept of it. In a text that is
well-formed and holds no CDATA, whatever looks like the tag of a part is one, unless it stands in a comment or
a processing instruction: so the text can be cut at those tags. Wherever that cannot be relied on the answer
is None, and the score is read as a whole.
"""

from __future__ import annotations

from typing import NamedTuple

from shedbook.exchange.ground.safe_xml import check_xml
from shedbook.exchange.ground.xml_encoding import source_of

_OPEN = b"<part "
_CLOSE = b"</part>"
_ROOT = b"<score-partwise"
_MOST_PIECES = 500

Hiding = tuple[tuple[bytes, bytes], ...]
_HIDING: Hiding = ((b"<!--", b"-->"), (b"<?", b"?>"))
"""What begins and ends a comment, and a processing instruction."""


class PartTexts(NamedTuple):
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


def cut_at_parts(data: bytes, name: str) -> PartTexts | None:
    """Return a score cut at its parts; None where it has one part only, too many, or cannot be cut safely.

    Raises:
        ReadError: if it is not well-formed, or declares anything.
    """
    source = source_of(data, name)
    if isinstance(source, str):
        data = source.encode()  # what it declared is gone from it, and UTF-8 needs no declaration
    first = data.find(_CLOSE)
    root = data.find(_ROOT)
    if root < 0 or first < root or data.find(_CLOSE, first + 1) < 0 or b"<![CDATA[" in data:
        return None
    check_xml(data, name)
    hiding = _HIDING if data.find(b"<?", root) >= 0 else _HIDING[:1]
    places = None if _hidden(data, root, _HIDING) else _places(data, root, hiding)
    if places is None:
        return None
    frame, parts, before = [], [], 0
    for start, tag_end, close in places:
        frame += [data[before:tag_end], _CLOSE]
        parts.append(data[start : close + len(_CLOSE)])
        before = close + len(_CLOSE)
    opening = data[: data.find(b">", root) + 1]
    return PartTexts(opening, b"".join([*frame, data[before:]]), tuple(parts))


def _places(data: bytes, root: int, hiding: Hiding) -> list[tuple[int, int, int]] | None:
    """Return where the tag of each part begins and ends, and where it is closed; None where it is unsure."""
    found: list[tuple[int, int, int]] = []
    start = data.find(_OPEN, root)
    while start >= 0:
        close = data.find(_CLOSE, start)
        if close < 0 or len(found) == _MOST_PIECES:
            return None
        if _hidden(data, start, hiding) or _hidden(data, close, hiding):
            return None
        found.append((start, data.find(b">", start) + 1, close))
        start = data.find(_OPEN, close)
    # A part within a part would make more of the one than of the other.
    alike = data.count(_OPEN, root) == len(found) == data.count(_CLOSE, root)
    return found if alike else None


def _hidden(data: bytes, place: int, hiding: Hiding) -> bool:
    """Say whether a place may lie in a comment or in a processing instruction."""
    for begin, end in hiding:
        begun = data.rfind(begin, 0, place)
        if begun >= 0 and not 0 <= data.find(end, begun + len(begin)) < place:
            return True
    return False
