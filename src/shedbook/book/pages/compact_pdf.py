"""The typesetter's PDF written again, smaller: glyphs that come again are forms, plain objects packed. Pure.

The typesetter writes every score as outlines, so the same note head stands some thousand times in a book.
Here each outline that is long enough becomes one form (a form XObject, ISO 32000-1, 8.10), drawn where it
stood: the page is the same to the pixel, and its tags are untouched. All objects that are no streams go into
object streams (7.5.7), and the table of places becomes a stream (7.5.8).

This is done on the bytes, because it is done at every layout: a library of objects takes several seconds a
book and packs none. It relies on how the typesetter writes (`N 0 obj … endobj`, one content stream a page, a
plain table at the end); what does not look like that is returned as it is.
"""

from __future__ import annotations

import re
import zlib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

_OBJECT = re.compile(rb"(?<=\n)(\d+) 0 obj\n(.*?)\nendobj\n", re.DOTALL)
_TRAILER = re.compile(rb"trailer\n<<(.*?)>>\nstartxref\n\d+\n%%EOF\s*\Z", re.DOTALL)
_CONTENTS = re.compile(rb"/Contents (\d+) 0 R")
_RESOURCES = re.compile(rb"/Resources (?:(\d+) 0 R|<<)")
_LENGTH = re.compile(rb"/Length \d+")
_LEAST = 60
"""The least length of an outline that becomes a form, in bytes: a shorter one is no longer than the call."""
_PACKED = 200
"""How many objects go into one object stream: what a reader unpacks for one of them."""
_LEVEL = 6
_BOX = b"[-99999 -99999 99999 99999]"
"""The box of a form, beyond any outline: a dot or a slur has the places of its whole score."""


@dataclass(slots=True)
class _Forms:
    """The outlines that have become forms: their numbers by what they draw."""

    first: int
    numbers: dict[bytes, int] = field(default_factory=dict)

    def number(self, outline: bytes) -> int:
        found = self.numbers.get(outline)
        if found is None:
            found = self.numbers[outline] = self.first + len(self.numbers)
        return found


def compacted(pdf: bytes, bleed_pt: float = 0.0) -> bytes:
    """Return a PDF of the typesetter's written smaller; one that it does not know is returned as it is.

    Args:
        pdf: the bytes of the file.
        bleed_pt: how far a page's picture goes beyond its trim box, which then gets a bleed box, in points.
    """
    trailer = _TRAILER.search(pdf)
    objects = {int(found[1]): found[2] for found in _OBJECT.finditer(pdf)}
    if trailer is None or not objects or max(objects) != len(objects):
        return pdf
    forms = _Forms(len(objects) + 1)
    for number, body in list(objects.items()):
        if b"/Type/Page/" in body or b"/Type/Page\n" in body or body.endswith(b"/Type/Page>>"):
            contents = _CONTENTS.search(body)
            if contents is not None:
                used = _with_forms(objects, int(contents[1]), forms)
                body = _with_resources(objects, body, used)
            objects[number] = _with_bleed_box(body, bleed_pt) if bleed_pt else body
    for outline, number in forms.numbers.items():
        objects[number] = _form(outline)
    return _written(objects, trailer[1])


def _with_forms(objects: dict[int, bytes], number: int, forms: _Forms) -> dict[bytes, int]:
    """Put forms into the content of a page and return them by the names that they have there."""
    head, _, rest = objects[number].partition(b"\nstream\n")
    data = rest[: rest.rindex(b"\nendstream")]
    content = zlib.decompress(data) if b"/FlateDecode" in head else data
    used: dict[bytes, int] = {}
    pieces = content.split(b"\nQ")
    for place, piece in enumerate(pieces):
        if not piece.endswith(b"\nf"):
            continue
        start = piece.rfind(b" scn ") + 5
        if start < 5 or len(piece) - start < _LEAST or piece.find(b" cm", 0, start) < 0:
            continue
        form = forms.number(piece[start:])
        name = b"g%d" % form
        used[name] = form
        pieces[place] = piece[: start - 1] + b"/" + name + b" Do"
    packed = zlib.compress(b"\nQ".join(pieces), _LEVEL)
    plain = head if b"/FlateDecode" in head else head.replace(b"<<", b"<</Filter/FlateDecode", 1)
    objects[number] = _stream(_LENGTH.sub(b"/Length %d" % len(packed), plain), packed)
    return used


def _with_resources(objects: dict[int, bytes], page: bytes, used: Mapping[bytes, int]) -> bytes:
    """Return a page whose resources name its forms; resources may be an object of their own."""
    found = _RESOURCES.search(page)
    if not used or found is None:
        return page
    names = b"".join(b"/%s %d 0 R" % item for item in sorted(used.items()))
    if found[1] is None:
        return _named(page, found.end(), names)
    number = int(found[1])
    objects[number] = _named(objects[number], objects[number].index(b"<<") + 2, names)
    return page


def _named(body: bytes, start: int, names: bytes) -> bytes:
    """Return a dictionary with names added to its XObjects; `start` is where its own entries begin."""
    there = body.find(b"/XObject<<", start)
    if there >= 0:
        there += len(b"/XObject<<")
        return body[:there] + names + body[there:]
    return body[:start] + b"/XObject<<" + names + b">>" + body[start:]


def _with_bleed_box(page: bytes, bleed_pt: float) -> bytes:
    """Return a page with a bleed box about its trim box (ISO 32000-1, 14.11.2)."""
    trim = re.search(rb"/TrimBox\[([\d. -]+)\]", page)
    if trim is None:
        return page
    left, low, right, high = (float(number) for number in trim[1].split())
    box = (left - bleed_pt, low - bleed_pt, right + bleed_pt, high + bleed_pt)
    said = b" ".join(b"%.3f" % max(0.0, edge) for edge in box)
    return page[: trim.end()] + b"/BleedBox[" + said + b"]" + page[trim.end() :]


def _form(outline: bytes) -> bytes:
    packed = zlib.compress(outline, _LEVEL)
    head = b"<</Type/XObject/Subtype/Form/BBox%s/Filter/FlateDecode/Length %d>>" % (_BOX, len(packed))
    return _stream(head, packed)


def _stream(head: bytes, data: bytes) -> bytes:
    return b"".join((head, b"\nstream\n", data, b"\nendstream"))


# The file.


def _written(objects: Mapping[int, bytes], trailer: bytes) -> bytes:
    """Return the file of some objects: streams first, then the packed objects, then the table."""
    size = len(objects) + 1
    out = [b"%PDF-1.7\n%\x80\x80\x80\x80\n"]
    length = len(out[0])
    places: dict[int, tuple[int, int, int]] = {}
    plain = [number for number in sorted(objects) if b"\nstream\n" not in objects[number]]
    packs = list(_packs(objects, plain))
    held = set(plain)
    numbered = [(number, objects[number]) for number in sorted(objects) if number not in held]
    for place, (members, pack) in enumerate(packs):
        places |= {number: (2, size + place, index) for index, number in enumerate(members)}
        numbered.append((size + place, pack))
    table = size + len(packs)
    for number, body in numbered:
        places[number] = (1, length, 0)
        out.append(b"%d 0 obj\n%s\nendobj\n" % (number, body))
        length += len(out[-1])
    places[table] = (1, length, 0)
    out.append(b"%d 0 obj\n%s\nendobj\n" % (table, _table(places, table + 1, trailer)))
    out.append(b"startxref\n%d\n%%%%EOF\n" % length)
    return b"".join(out)


def _packs(objects: Mapping[int, bytes], numbers: list[int]) -> Iterator[tuple[list[int], bytes]]:
    """Yield object streams with the numbers of what they hold."""
    for first in range(0, len(numbers), _PACKED):
        members = numbers[first : first + _PACKED]
        heads, place = [], 0
        for number in members:
            heads.append(b"%d %d" % (number, place))
            place += len(objects[number]) + 1
        head = b" ".join(heads) + b"\n"
        packed = zlib.compress(head + b"\n".join(objects[number] for number in members), _LEVEL)
        said = b"<</Type/ObjStm/N %d/First %d/Filter/FlateDecode/Length %d>>" % (
            len(members), len(head), len(packed),
        )  # fmt: skip
        yield members, _stream(said, packed)


def _table(places: Mapping[int, tuple[int, int, int]], size: int, trailer: bytes) -> bytes:
    """Return the cross-reference stream: a row of 1, 4 and 2 bytes for each object."""
    rows = [b"\x00\x00\x00\x00\x00\xff\xff"]
    for number in range(1, size):
        kind, place, index = places[number]
        rows.append(bytes((kind,)) + place.to_bytes(4, "big") + index.to_bytes(2, "big"))
    packed = zlib.compress(b"".join(rows), _LEVEL)
    kept = re.sub(rb"/Size \d+", b"", trailer)
    head = b"<</Type/XRef/W[1 4 2]/Size %d%s/Filter/FlateDecode/Length %d>>" % (size, kept, len(packed))
    return _stream(head, packed)
