"""Reading XML that nobody vouches for: bounded in size, depth, numbers and time, and without entities.

The parser is the standard library's expat, which loads nothing from outside. Any declaration inside a
document type is refused before the first element is read, so no entity can be declared, let alone grow;
every limit is checked while reading. Elements reach the reader as small trees, one at a time, and are let
go of then, so that a long file needs little memory.
"""

from __future__ import annotations

import codecs
import contextlib
import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from typing import Any, NoReturn, Protocol
from xml.etree.ElementTree import Element as Element
from xml.etree.ElementTree import ParseError, XMLParser, XMLPullParser
from xml.parsers import expat

from shedbook.errors import Place, ReadError

MOST_BYTES = 48_000_000
"""The longest XML that is read, in bytes; a full score of a symphony stays below it."""
MOST_ELEMENTS = 1_500_000
MOST_DEPTH = 48
MOST_KEPT = 60_000
"""How many elements one tree (a bar, the list of parts) may have."""
MOST_TEXT = 1_000_000
"""How many characters may stand without an element that begins or ends."""
_PIECE = 1 << 16
_LOOKED_FOR_ROOT = 4096
_LARGE_PIECE = _SHORT = 1 << 20

DESCEND, KEEP, SKIP = range(3)
"""What a watcher answers to an element: look inside it, build its tree, or pass over it."""

_NATIVE = frozenset({"utf-8", "utf-16", "iso8859-1", "ascii"})
_DECODED = frozenset(
    {
        *(f"iso8859-{part}" for part in (2, 3, 4, 5, 6, 7, 8, 9, 10, 13, 14, 15, 16)),
        *(f"cp125{page}" for page in range(9)),
        "cp437", "cp850", "cp932", "mac-roman", "koi8-r", "koi8-u", "shift_jis", "euc_jp", "euc_kr", "gb2312",
        "gbk", "gb18030", "big5", "utf-16-le", "utf-16-be",
    }
)  # fmt: skip
_DECLARED = re.compile(rb"""<\?xml[^>]{0,200}?encoding\s*=\s*["']([A-Za-z0-9._:-]{1,40})["']""")
_NAMESPACE = re.compile(
    rb"""(<score-(?:part|time)wise(?:\s[^<>]{0,400}?)?)\sxmlns\s*=\s*(?:"[^"<]{0,200}"|'[^'<]{0,200}')"""
)
_DECLARATION = re.compile(r"\s*<\?xml[^>]{0,400}\?>")
_NUMBER = re.compile(r"[+-]?[0-9]{1,9}(?:\.[0-9]{0,9})?")
_CUT_OFF = frozenset(
    {
        expat.errors.codes[message]
        for message in (
            expat.errors.XML_ERROR_NO_ELEMENTS,
            expat.errors.XML_ERROR_UNCLOSED_TOKEN,
            expat.errors.XML_ERROR_PARTIAL_CHAR,
            expat.errors.XML_ERROR_UNCLOSED_CDATA_SECTION,
        )
    }
)


def text_of(element: Element) -> str:
    """Return the text of an element, white space around it dropped."""
    return (element.text or "").strip()


def said(element: Element, tag: str) -> str:
    """Return the text of the first child with a tag; "" for none."""
    return (element.findtext(tag) or "").strip()


class Watcher(Protocol):
    """Who reads a file: told of each element that opens, and handed the trees that it asked for."""

    def opened(self, tag: str, attributes: Mapping[str, str]) -> int:
        """Answer DESCEND, KEEP or SKIP."""
        ...

    def kept(self, element: Element) -> None:
        """Take in a finished tree."""
        ...


@dataclass(slots=True)
class _Walk:
    """How far a file has been read: `depth` counts open elements, `path` holds those looked into.

    `kept_from` and `skipped_from` are the depth of the tree at hand, 0 for none.
    """

    name: str
    watcher: Watcher
    path: list[Element]
    depth: int = 0
    kept_from: int = 0
    skipped_from: int = 0
    elements: int = 0
    in_tree: int = 0

    def take(self, events: Iterable[tuple[Any, ...]]) -> int:
        """Take in what has been read; return how many elements began or ended."""
        count = 0
        for event, element in events:
            count += 1
            if event == "start":
                self.start(element)
            else:
                self.end(element)
        return count

    def start(self, element: Element) -> None:
        self.depth += 1
        self.elements += 1
        _check_size(self.name, self.depth, self.elements)
        if self.kept_from:
            self.in_tree += 1
            if self.in_tree > MOST_KEPT:
                raise _refused(self.name, f"holds more than {MOST_KEPT} elements in one place")
        elif not self.skipped_from:
            self.outermost(element)

    def outermost(self, element: Element) -> None:
        """Ask the watcher about an element."""
        answer = self.watcher.opened(element.tag, element.attrib)
        if answer == KEEP:
            self.kept_from, self.in_tree = self.depth, 0
        elif answer == SKIP:
            self.skipped_from = self.depth
        else:
            self.path.append(element)

    def end(self, element: Element) -> None:
        if self.depth == self.kept_from:
            self.watcher.kept(element)
            self.kept_from = 0
            _forget(self.path)
        elif self.depth == self.skipped_from:
            self.skipped_from = 0
            _forget(self.path)
        elif self.skipped_from:
            element.clear()
        elif not self.kept_from:
            self.path.pop()
            _forget(self.path)
        self.depth -= 1


def _forget(path: list[Element]) -> None:
    """Let go of what the innermost open element holds, for it has been dealt with."""
    if path:
        del path[-1][:]


def read_xml(data: bytes, name: str, watcher: Watcher) -> None:
    """Read XML and hand its elements to a watcher.

    Args:
        data: the file, in any of the usual encodings, which its declaration names.
        name: what errors call it.
        watcher: asked about each element from the root on.

    Raises:
        ReadError: if it is not well-formed, too large in any way, or declares anything in a document
            type; with the line where there is one.
    """
    if len(data) > MOST_BYTES:
        raise ReadError(
            f"{name} holds {len(data) / 1e6:.0f} million bytes; at most {MOST_BYTES / 1e6:.0f} are read.",
            hint="Export only the part that holds the line.",
        )
    source = source_of(data, name)
    with _explained(name):
        _check_prolog(source, name)
        _walk(source, name, watcher)


@contextlib.contextmanager
def _explained(name: str) -> Iterator[None]:
    """Turn what the parser says into an error that names the file and the place."""
    try:
        yield
    except expat.ExpatError as error:
        raise _not_xml(error.code, error.lineno, error.offset, name) from None
    except ParseError as error:
        raise _not_xml(error.code, *error.position, name) from None
    except (ValueError, LookupError, UnicodeError):
        raise _wrong_encoding(name) from None


def check_xml(source: bytes, name: str) -> None:
    """Check that XML is well-formed and declares nothing, without keeping anything of it.

    Raises:
        ReadError: where it is not.
    """
    with _explained(name):
        parser = _refusing(name)
        for place in range(0, len(source), _LARGE_PIECE):
            parser.Parse(source[place : place + _LARGE_PIECE], False)
        parser.Parse(b"", True)


def _walk(source: bytes | str, name: str, watcher: Watcher) -> None:
    """Read the elements piece by piece, or all at once where the file is short enough for that.

    A long file may not have too many pieces in which no element begins or ends.
    """
    if len(source) <= _SHORT:
        _visit(source, name, watcher)
        return
    parser: XMLPullParser[Element] = XMLPullParser(("start", "end"))
    walk = _Walk(name, watcher, [])
    silent = 0
    for place in range(0, len(source), _PIECE):
        parser.feed(source[place : place + _PIECE])
        silent = 0 if walk.take(parser.read_events()) else silent + _PIECE
        if silent > MOST_TEXT:
            raise _refused(name, f"holds more than {MOST_TEXT} characters in one place")
    parser.close()
    walk.take(parser.read_events())


def _visit(source: bytes | str, name: str, watcher: Watcher) -> None:
    """Read a short file whole, which is quicker, and show its elements to the watcher in order."""
    parser = XMLParser()
    parser.feed(source)
    root: Element = parser.close()
    level, depth, elements = [root], 0, 0
    while level:
        depth, elements = depth + 1, elements + len(level)
        _check_size(name, depth, elements)
        level = [child for element in level for child in element]
    _show([root], watcher)


def _show(elements: Iterable[Element], watcher: Watcher) -> None:
    for element in elements:
        answer = watcher.opened(element.tag, element.attrib)
        if answer == KEEP:
            watcher.kept(element)
        elif answer == DESCEND:
            _show(element, watcher)


def _check_size(name: str, depth: int, elements: int) -> None:
    if depth > MOST_DEPTH:
        raise _refused(name, f"nests more than {MOST_DEPTH} elements")
    if elements > MOST_ELEMENTS:
        raise _refused(name, f"holds more than {MOST_ELEMENTS} elements")


class _RootReached(Exception):
    """The prolog has been read."""


def _check_prolog(source: bytes | str, name: str) -> None:
    """Read up to the root element, the only place where anything can be declared, and refuse it."""

    def reached(*_: object) -> NoReturn:
        raise _RootReached

    parser = _refusing(name, encoding="utf-8" if isinstance(source, str) else None)
    parser.StartElementHandler = reached
    with contextlib.suppress(_RootReached):
        for place in range(0, len(source), _PIECE):
            parser.Parse(source[place : place + _PIECE], False)
            if place > MOST_TEXT:
                raise _refused(name, f"holds more than {MOST_TEXT} characters before its first element")
        parser.Parse(source[:0], True)


def _refusing(name: str, encoding: str | None = None) -> expat.XMLParserType:
    """Return a parser that refuses every declaration."""

    def refuse(*_: object) -> NoReturn:
        raise _refused(name, "declares entities or elements of its own in its document type")

    parser = expat.ParserCreate(encoding=encoding)
    parser.EntityDeclHandler = refuse
    parser.UnparsedEntityDeclHandler = refuse
    parser.NotationDeclHandler = refuse
    parser.AttlistDeclHandler = refuse
    parser.ElementDeclHandler = refuse
    parser.ExternalEntityRefHandler = refuse
    return parser


def _refused(name: str, what: str) -> ReadError:
    return ReadError(
        f"{name} {what}; it was not read.",
        hint="A file of notes never does. Export it again from the program that wrote it.",
        place=Place(file=name),
    )


def source_of(data: bytes, name: str) -> bytes | str:
    """Return what expat can read: the bytes where it knows their encoding, else the text."""
    if data.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)):
        return _decoded(data, "utf-16", name)  # whatever it declares: the mark is sure
    if data.startswith(codecs.BOM_UTF8):
        return data
    found = _DECLARED.match(data.lstrip()[:300])
    if found is None:
        return data
    try:
        codec = codecs.lookup(found[1].decode("ascii")).name
    except LookupError:
        codec = ""
    if codec in _NATIVE:
        return data
    if codec not in _DECODED:
        raise _wrong_encoding(name, found[1].decode("ascii"))
    return _decoded(data, codec, name)


def without_namespace(data: bytes) -> bytes:
    """Return a score whose root puts all its elements in a namespace without that; others as they are."""
    if b"xmlns" not in data[:_LOOKED_FOR_ROOT]:
        return data
    head = _NAMESPACE.sub(rb"\1", data[:_LOOKED_FOR_ROOT], count=1)
    return head + data[_LOOKED_FOR_ROOT:]


def _decoded(data: bytes, codec: str, name: str) -> str:
    """Return a file's text without its declaration, which no longer holds."""
    try:
        text = data.decode(codec)
    except UnicodeDecodeError:
        raise _wrong_encoding(name, codec) from None
    return _DECLARATION.sub("", text, count=1)


def _wrong_encoding(name: str, said: str = "") -> ReadError:
    declared = f" as {said}, in which it should be written" if said else ""
    return ReadError(
        f"{name} cannot be read{declared}.", hint="Export it again, in UTF-8 if the program asks."
    )


def _not_xml(code: int, line: int, column: int, name: str) -> ReadError:
    place = Place(file=name, line=line, column=column + 1)
    if code in _CUT_OFF:
        return ReadError(f"{name} ends in the middle.", hint="Copy or export the file again.", place=place)
    return ReadError(
        f"{name} is not well-formed XML: {expat.ErrorString(code) or 'unknown fault'}.",
        hint="Its encoding may differ from the one that it declares, or it is damaged: export it again.",
        place=place,
    )


@lru_cache(maxsize=4096)
def number(text: str) -> Fraction | None:
    """Return a decimal number as MusicXML writes one, exactly; None for anything else, NaN among it."""
    found = _NUMBER.fullmatch(text.strip())
    return None if found is None else Fraction(found.group())


def bad_number(name: str, text: str, what: str) -> ReadError:
    """Return the error for a number that cannot stand where it does; whoever knows the bar adds it."""
    return ReadError(
        f'{name} has "{text[:40]}" as {what}.',
        hint="The file is damaged there: export it again, or mend that place.",
        place=Place(file=name),
    )
