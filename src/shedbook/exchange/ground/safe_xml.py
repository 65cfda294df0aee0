"""XML from anybody, read safely: limited in size, depth, numbers and time, and without entities.

The parser is expat from the standard library, which loads nothing from outside. A declaration inside the
document type is refused before the first element is read, so that no entity can be declared. Every limit is
checked while the file is read. The caller gets the elements as small trees, one after another, and each tree
is dropped afterwards, so that a long file needs little memory.
"""

from __future__ import annotations

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
from shedbook.exchange.ground.xml_encoding import source_of, wrong_encoding

MOST_BYTES = 48_000_000
"""The longest XML that is read, in bytes. The full score of a symphony is shorter."""
MOST_ELEMENTS = 1_500_000
MOST_DEPTH = 48
MOST_KEPT = 60_000
"""How many elements a tree (a bar, the list of parts) may have."""
MOST_TEXT = 1_000_000
"""How many characters may follow one another without the beginning or the end of an element."""
_PIECE = 1 << 16
_LARGE_PIECE = _SHORT = 1 << 20

DESCEND, KEEP, SKIP = range(3)
"""The answers of a `Watcher` about an element: go into it, build its tree, or pass over it."""

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
    """Return the text of an element without the white space around it."""
    return (element.text or "").strip()


def child_text(element: Element, tag: str) -> str:
    """Return the text of the first child with a tag, without the white space around it; "" for none."""
    return (element.findtext(tag) or "").strip()


class Watcher(Protocol):
    """The caller's side of `read_xml`: it decides about each element, and takes in the trees it asked for."""

    def opened(self, tag: str, attributes: Mapping[str, str]) -> int:
        """Return DESCEND, KEEP or SKIP for an element that begins."""
        ...

    def kept(self, element: Element) -> None:
        """Take in the finished tree of an element for which the answer was KEEP."""
        ...


@dataclass(slots=True)
class _Walk:
    """The state while a long file is read piece by piece.

    Attributes:
        name: what errors call the file.
        watcher: the caller's side.
        path: the open elements that the watcher went into, the root first.
        depth: how many elements are open.
        kept_from: the depth of the tree that is being built, 0 for none.
        skipped_from: the depth of the element that is being passed over, 0 for none.
        elements: how many elements have begun.
        in_tree: how many elements the tree has that is being built.
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
        """Handle the events of a piece of the file; return how many there were."""
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
        """Ask the watcher about an element that lies in no kept or skipped one."""
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
    """Drop the children of the innermost open element, which have been handled."""
    if path:
        del path[-1][:]


def read_xml(data: bytes, name: str, watcher: Watcher) -> None:
    """Read XML and hand its elements to a watcher.

    Args:
        data: the bytes of the file, in UTF-8 or another usual encoding that the file declares.
        name: what errors call the file.
        watcher: the caller's side, which is asked about each element from the root on.

    Raises:
        ReadError: if the file is not well-formed, exceeds one of the limits, or declares anything in its
            document type. The error has the line where the parser knows it.
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
    """Turn the errors of the parser into a `ReadError` that names the file and the place."""
    try:
        yield
    except expat.ExpatError as error:
        raise _not_xml(error.code, error.lineno, error.offset, name) from None
    except ParseError as error:
        raise _not_xml(error.code, *error.position, name) from None
    except (ValueError, LookupError, UnicodeError):
        raise wrong_encoding(name) from None


def check_xml(source: bytes, name: str) -> None:
    """Check that XML is well-formed and declares nothing in a document type; keep nothing of it.

    Args:
        source: the bytes of the file, in an encoding that expat knows.
        name: what errors call the file.

    Raises:
        ReadError: if the file is not well-formed, or declares anything.
    """
    with _explained(name):
        parser = _refusing(name)
        for place in range(0, len(source), _LARGE_PIECE):
            parser.Parse(source[place : place + _LARGE_PIECE], False)
        parser.Parse(b"", True)


def _walk(source: bytes | str, name: str, watcher: Watcher) -> None:
    """Read a short file at once and a long one piece by piece.

    A long file is refused when no element begins or ends in too many pieces that follow one another.
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
    """Parse a short file at once, which is quicker, and show its elements to the watcher in order."""
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
    """Raised when the root element begins, to end the reading of the prolog."""


def _check_prolog(source: bytes | str, name: str) -> None:
    """Read up to the root element, and refuse a declaration; declarations can stand nowhere else."""

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
    """Return a parser that raises an error at every declaration of a document type."""

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
    """Return a decimal number (MusicXML 4.0, `xs:decimal`) as a fraction; None for any other text."""
    found = _NUMBER.fullmatch(text.strip())
    return None if found is None else Fraction(found.group())


def bad_number(name: str, text: str, what: str) -> ReadError:
    """Return the error for a text that is no possible number where it stands.

    Args:
        name: the name of the file.
        text: the text that stands in the file.
        what: what the number should be, such as "a duration". The caller adds the bar to the error.
    """
    return ReadError(
        f'{name} has "{text[:40]}" as {what}.',
        hint="The file is damaged there: export it again, or mend that place.",
        place=Place(file=name),
    )
