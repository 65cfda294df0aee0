"""The ink of the scores in a finished PDF, and the words on its pages, in the order in which they are read.

pypdf opens the file and unpacks its streams; what stands in them is read here. Pictures are expected as
outlines in blocks "q … cm … Q" between marks of the structure tree, as the typesetter writes them, and words
as shown strings with a ToUnicode table. Places are in points, ordinates grow downwards.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import lru_cache
from pathlib import Path
from typing import BinaryIO, NamedTuple

from pypdf import PageObject, PdfReader
from pypdf.generic import DictionaryObject

from shedbook.read_back.ink import Glyph, Ink
from shedbook.read_back.outlines import Placement, Subpath, glyph_of, marks_of, pdf_subpaths, shape_digest
from shedbook.read_back.staves import CLEFS

_PART = re.compile(rb"BDC|BMC|EMC|q (\S+) 0 0 (\S+) (\S+) (\S+) cm(.*?)\nQ", re.DOTALL)
_PATH = re.compile(rb"-?[\d.]+ -?[\d.]+ m\b")
_PEN = re.compile(rb"([\d.]+) w\b")
_FORM = re.compile(rb"/(\w+) Do(?=\n)")
_FONT = re.compile(rb"/(\w+) (-?[\d.]+) Tf")
_INNER = rb"\((?:[^\\()]|\\.|\((?:[^\\()]|\\.|\((?:[^\\()]|\\.)*\))*\))*\)"
"""Brackets in a string that are balanced need no escape (ISO 32000-1, 7.3.4.2): here up to three deep."""
_STRING = re.compile(rb"\(((?:[^\\()]|\\.|" + _INNER + rb")*)\)|<([0-9A-Fa-f]+)>", re.DOTALL)
_ESCAPED = re.compile(rb"\\([0-7]{1,3}|.)", re.DOTALL)
_ESCAPES = {b"n": b"\n", b"r": b"\r", b"t": b"\t", b"b": b"\b", b"f": b"\f"}
_HEX_ALTERNATIVE = re.compile(rb"/Alt<[0-9A-Fa-f]*>")
_HEX = re.compile(r"<([0-9A-Fa-f]+)>")
_CLEFS = frozenset(CLEFS)


@dataclass(frozen=True, slots=True)
class Words:
    """Words that are shown in one go: where they begin, in points, and what they say."""

    page: int
    x: float
    y: float
    text: str


@dataclass(slots=True)
class Picture:
    """A picture that holds a clef. `whole` is False for a further piece of a score that a page turn cuts."""

    page: int
    ink: Ink = field(default_factory=Ink)
    whole: bool = True


def parts_of_pdf(path: Path | BinaryIO) -> Iterator[Words | Picture]:
    """Yield the words and the scores of a PDF in the order in which its pages, counted from 1, draw them."""
    fonts: dict[str, dict[int, str]] = {}
    forms: dict[int, bytes] = {}
    for number, page in enumerate(PdfReader(path).pages, 1):
        contents = page.get_contents()
        if contents is not None:
            content = _with_forms(contents.get_data(), page, forms)
            yield from _page(number, content, _fonts(page, fonts))


def _with_forms(content: bytes, page: PageObject, known: dict[int, bytes]) -> bytes:
    """Return a page's content with the outlines of its forms in the places where they are drawn."""
    resources = page["/Resources"]
    objects: object = resources.get("/XObject") if isinstance(resources, DictionaryObject) else None
    outlines = {}
    for name, reference in objects.items() if isinstance(objects, DictionaryObject) else ():
        if reference.idnum not in known:
            form = reference.get_object()
            known[reference.idnum] = form.get_data() if form["/Subtype"] == "/Form" else b""
        outlines[str(name)[1:].encode()] = known[reference.idnum]
    return _FORM.sub(lambda found: b" " + outlines.get(found[1], b""), content)


def _fonts(page: PageObject, known: dict[str, dict[int, str]]) -> dict[bytes, dict[int, str]]:
    """Return for each font of a page the text of its codes; a font that several pages use is read once."""
    found = {}
    resources = page["/Resources"]
    of_page: object = (
        resources["/Font"] if isinstance(resources, DictionaryObject) and "/Font" in resources else {}
    )
    for name, reference in of_page.items() if isinstance(of_page, DictionaryObject) else ():
        font = reference.get_object()
        base = str(font["/BaseFont"])
        if base not in known:
            known[base] = _texts(font["/ToUnicode"].get_data().decode("latin-1"))
        found[str(name)[1:].encode()] = known[base]
    return found


def _texts(table: str) -> dict[int, str]:
    """Return the text of each code by a ToUnicode table."""
    found: dict[int, str] = {}
    for kind, body in re.findall(r"begin(bfchar|bfrange)(.*?)endbf", table, re.DOTALL):
        size = 2 if kind == "bfchar" else 3
        words = _HEX.findall(body)
        for first in range(0, len(words) - size + 1, size):
            text = bytes.fromhex(words[first + size - 1]).decode("utf-16-be")
            low, high = int(words[first], 16), int(words[first + size - 2], 16)
            for code in range(low, high + 1):
                found[code] = text[:-1] + chr(ord(text[-1]) + code - low)
    return found


def _page(number: int, content: bytes, fonts: dict[bytes, dict[int, str]]) -> Iterator[Words | Picture]:
    picture = Picture(number)
    for block in _PART.finditer(_without_alternatives(content)):
        if block[5] is None:
            if any(isinstance(mark, Glyph) and mark.name in _CLEFS for mark in picture.ink.marks):
                yield picture
            if block[0] != b"EMC":
                before = block.string[max(0, block.start() - 400) : block.start()]
                picture = Picture(number, whole=before.rfind(b"/Alt()") > before.rfind(b"<<"))
            else:
                picture = Picture(number)
            continue
        place = Placement(float(block[1]), -float(block[2]), float(block[3]), -float(block[4]))
        if b"\nBT" in block[5] or b"BT " in block[5]:
            yield Words(number, place.x, place.y, _shown(block[5], fonts))
        else:
            _draw(picture.ink, block[5], place)
    if any(isinstance(mark, Glyph) and mark.name in _CLEFS for mark in picture.ink.marks):
        yield picture


def _without_alternatives(content: bytes) -> bytes:
    """Return a page's content without the words of alternative texts, which may hold anything."""
    out: list[bytes] = []
    place = 0
    while (start := content.find(b"/Alt(", place)) >= 0:
        end, depth = start + 5, 1
        while depth:
            byte = content[end]
            if byte == 0x5C:
                end += 1
            elif byte in b"()":
                depth += 1 if byte == 0x28 else -1
            end += 1
        out += [content[place:start], b"/Alt()"]
        place = end
    return _HEX_ALTERNATIVE.sub(b"/Alt()", b"".join([*out, content[place:]]))


def _shown(block: bytes, fonts: dict[bytes, dict[int, str]]) -> str:
    """Return the words of a text block."""
    font = _FONT.search(block)
    texts = fonts.get(font[1], {}) if font else {}
    said = []
    for literal, digits in _STRING.findall(block):
        codes = bytes.fromhex(digits.decode()) if digits else _ESCAPED.sub(_unescaped, literal)
        said += [texts.get(high << 8 | low, "?") for high, low in zip(codes[::2], codes[1::2], strict=False)]
    return "".join(said)


def _unescaped(found: re.Match[bytes]) -> bytes:
    what = found[1]
    return bytes([int(what, 8)]) if what.isdigit() else _ESCAPES.get(what, what)


class _Painted(NamedTuple):
    glyph: tuple[str, str] | None
    runs: tuple[Subpath, ...]
    filled: bool
    pen: float


@lru_cache(maxsize=4096)
def _painted(body: bytes) -> _Painted:
    """Return what a block paints: the glyph that it is, else its runs, whether filled, and its pen."""
    path = _PATH.search(body)
    if path is None:
        return _Painted(None, (), False, 0)
    words = body[path.start() :].decode().rsplit(None, 1)
    runs = tuple(pdf_subpaths(words[0]))
    pen = _PEN.search(body, 0, path.start())
    stroked, filled = words[1][0] in "SsBb", words[1][0] in "fFBb"
    glyph = glyph_of(runs) if filled else None
    if glyph is None and filled and not stroked and len(runs) > 1:
        glyph = ("?", shape_digest(runs))
    return _Painted(glyph, runs, filled, float(pen[1]) if pen and stroked else 0.0)


def _draw(ink: Ink, body: bytes, place: Placement) -> None:
    painted = _painted(body)
    if painted.glyph is not None:
        ink.marks.append(Glyph(*painted.glyph, place.x, place.y, abs(place.scale_x)))
    else:
        ink.marks += marks_of(painted.runs, place, filled=painted.filled, pen=painted.pen)
