"""The text of a long score cut at its parts, so that one part can be read without the others.

The parser first checks the whole text, which is quick as long as nothing is kept. In a text that is
well-formed and has no CDATA, everything that looks like the tag of a part is one, unless it stands in a
comment or in a processing instruction. For this reason the text can be cut at those tags. Where that is not
certain the text is not cut, and the score is read as a whole.
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
"""The beginning and the end of a comment, and of a processing instruction."""


class PartTexts(NamedTuple):
    """The text of a score cut at its parts.

    Attributes:
        opening: everything up to the end of the tag of the root.
        frame: the whole score with empty parts.
        parts: the text of each part.
        closing: the end tag of the root.
    """

    opening: bytes
    frame: bytes
    parts: tuple[bytes, ...]
    closing: bytes = b"</score-partwise>"

    def alone(self, indices: list[int]) -> bytes:
        """Return a score that has only the parts with some indices, and nothing before them."""
        return b"".join([self.opening, *(self.parts[index] for index in indices), self.closing])


def cut_at_parts(data: bytes, name: str) -> PartTexts | None:
    """Return the text of a score cut at its parts; None where it cannot be cut, or has only one part.

    Args:
        data: the bytes of a partwise score.
        name: what errors call the file.

    Raises:
        ReadError: if the score is not well-formed, or declares anything in its document type.
    """
    source = source_of(data, name)
    if isinstance(source, str):
        data = source.encode()  # the text has no declaration any more, and UTF-8 needs none
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
    """Return where the tag of each part begins, where it ends, and where the part is closed.

    The answer is None where these places are not certain.
    """
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
    # If a part stood inside a part, the numbers of tags would differ.
    alike = data.count(_OPEN, root) == len(found) == data.count(_CLOSE, root)
    return found if alike else None


def _hidden(data: bytes, place: int, hiding: Hiding) -> bool:
    """Tell whether a place may lie in a comment or in a processing instruction."""
    for begin, end in hiding:
        begun = data.rfind(begin, 0, place)
        if begun >= 0 and not 0 <= data.find(end, begun + len(begin)) < place:
            return True
    return False
