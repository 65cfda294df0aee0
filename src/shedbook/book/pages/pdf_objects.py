"""A PDF of the typesetter's as its numbered objects, and those written as a small file. Pure.

It relies on how the typesetter writes (`N 0 obj … endobj`, a plain table at the end). All objects that are no
streams go into object streams (ISO 32000-1, 7.5.7), and the table of places becomes a stream (7.5.8).
"""

from __future__ import annotations

import re
import zlib
from collections.abc import Iterator, Mapping
from typing import NamedTuple

_OBJECT = re.compile(rb"(?<=\n)(\d+) 0 obj\n(.*?)\nendobj\n", re.DOTALL)
_TRAILER = re.compile(rb"trailer\n<<(.*?)>>\nstartxref\n\d+\n%%EOF\s*\Z", re.DOTALL)
_STREAM = b"\nstream\n"
_STRING = rb"\((?:[^()\\]|\\.|\((?:[^()\\]|\\.|\([^()]*\))*\))*\)"
"""A text in a PDF, with brackets in it up to two deep: what stands there is no reference."""
_REFERENCE = re.compile(_STRING + rb"|\b(\d+) 0 R\b", re.DOTALL)
_PACKED = 200
"""How many objects go into one object stream: what a reader unpacks for one of them."""
LEVEL = 6


class PdfObjects(NamedTuple):
    """The objects by their numbers, and what the trailer says."""

    objects: dict[int, bytes]
    trailer: bytes


def read_objects(pdf: bytes) -> PdfObjects | None:
    """Return the objects of a PDF; None for a file that is not written as the typesetter writes."""
    trailer = _TRAILER.search(pdf)
    objects = {int(found[1]): found[2] for found in _OBJECT.finditer(pdf)}
    if trailer is None or not objects or max(objects) != len(objects):
        return None
    return PdfObjects(objects, trailer[1])


def stream(head: bytes, data: bytes) -> bytes:
    """Return a stream object of its dictionary and its data."""
    return b"".join((head, _STREAM, data, b"\nendstream"))


def is_stream(body: bytes) -> bool:
    """Say whether an object is a stream."""
    return _STREAM in body


def references(body: bytes) -> list[int]:
    """Return the numbers of the objects that one names, in their order; those in texts are none."""
    head = body.partition(_STREAM)[0]
    return [int(found) for found in _REFERENCE.findall(head) if found]


def renumbered(body: bytes, numbers: Mapping[int, int]) -> bytes:
    """Return an object with other numbers for the objects that it names.

    Raises:
        KeyError: if it names one that has no number.
    """

    def other(found: re.Match[bytes]) -> bytes:
        return found[0] if found[1] is None else b"%d 0 R" % numbers[int(found[1])]

    head, mark, data = body.partition(_STREAM)
    return b"".join((_REFERENCE.sub(other, head), mark, data))


def written(objects: Mapping[int, bytes], trailer: bytes) -> bytes:
    """Return the file of some objects: streams first, then the packed objects, then the table."""
    size = max(objects) + 1
    out = [b"%PDF-1.7\n%\x80\x80\x80\x80\n"]
    length = len(out[0])
    places: dict[int, tuple[int, int, int]] = {}
    numbers = sorted(objects)
    streams = [number for number in numbers if is_stream(objects[number])]
    held = set(streams)
    packs = list(_packs(objects, [number for number in numbers if number not in held]))
    numbered = [(number, objects[number]) for number in streams]
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
        packed = zlib.compress(head + b"\n".join(objects[number] for number in members), LEVEL)
        said = b"<</Type/ObjStm/N %d/First %d/Filter/FlateDecode/Length %d>>" % (
            len(members), len(head), len(packed),
        )  # fmt: skip
        yield members, stream(said, packed)


_FREE = (0, 0, 65535)
"""The place of a number that no object has."""


def _table(places: Mapping[int, tuple[int, int, int]], size: int, trailer: bytes) -> bytes:
    """Return the cross-reference stream: a row of 1, 4 and 2 bytes for each object."""
    rows = []
    for number in range(size):
        kind, place, index = places.get(number, _FREE)
        rows.append(bytes((kind,)) + place.to_bytes(4, "big") + index.to_bytes(2, "big"))
    packed = zlib.compress(b"".join(rows), LEVEL)
    kept = re.sub(rb"/Size \d+", b"", trailer)
    head = b"<</Type/XRef/W[1 4 2]/Size %d%s/Filter/FlateDecode/Length %d>>" % (size, kept, len(packed))
    return stream(head, packed)
