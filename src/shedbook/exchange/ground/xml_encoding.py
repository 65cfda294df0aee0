"""The encoding of an XML file, and the namespace of its root: made such that expat can read them.

Expat knows four encodings. A file in another usual encoding is decoded to text before it is parsed.
"""

from __future__ import annotations

import codecs
import re

from shedbook.errors import ReadError

_LOOKED_FOR_ROOT = 4096
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


def source_of(data: bytes, name: str) -> bytes | str:
    """Return what expat can parse: the bytes where expat knows their encoding, else the decoded text.

    Args:
        data: the bytes of an XML file.
        name: what errors call the file.

    Raises:
        ReadError: if the file declares an unknown encoding, or cannot be decoded as it declares.
    """
    if data.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)):
        return _decoded(data, "utf-16", name)  # the byte order mark is surer than the declaration
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
        raise wrong_encoding(name, found[1].decode("ascii"))
    return _decoded(data, codec, name)


def without_namespace(data: bytes) -> bytes:
    """Return a score without the default namespace of its root; return any other bytes unchanged."""
    if b"xmlns" not in data[:_LOOKED_FOR_ROOT]:
        return data
    head = _NAMESPACE.sub(rb"\1", data[:_LOOKED_FOR_ROOT], count=1)
    return head + data[_LOOKED_FOR_ROOT:]


def _decoded(data: bytes, codec: str, name: str) -> str:
    """Return the text of a file without its XML declaration, whose encoding no longer holds."""
    try:
        text = data.decode(codec)
    except UnicodeDecodeError:
        raise wrong_encoding(name, codec) from None
    return _DECLARATION.sub("", text, count=1)


def wrong_encoding(name: str, said: str = "") -> ReadError:
    """Return the error for a file that is not in the encoding that it declares, `said` ("" for none)."""
    declared = f" as {said}, in which it should be written" if said else ""
    return ReadError(
        f"{name} cannot be read{declared}.", hint="Export it again, in UTF-8 if the program asks."
    )
