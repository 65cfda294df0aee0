"""Data as plain scripts: what a page opened from the disk may load. Pure.

A browser refuses to fetch a file from a page that was opened from the disk, but it runs scripts. So a piece
of data is a script that hands the page a text: JSON, packed (RFC 1951) and written in base 64 (RFC 4648).
"""

from __future__ import annotations

import base64
import json
import zlib

_RAW = -15
"""Deflate without a wrapper (zlib's manual), the "deflate-raw" of browsers (WHATWG, Compression)."""


def packed_script(name: str, value: object) -> str:
    """Return the script that hands a value to the page under a name."""
    packer = zlib.compressobj(9, zlib.DEFLATED, _RAW, 9)
    content = packer.compress(compact_json(value).encode()) + packer.flush()
    return f"practice.put({json.dumps(name)},{json.dumps(base64.b64encode(content).decode())});\n"


def bytes_script(name: str, content: bytes) -> str:
    """Return the script that hands the bytes of a file to the page, as they are."""
    return f"practice.put({json.dumps(name)},{json.dumps(base64.b64encode(content).decode())},true);\n"


def compact_json(value: object) -> str:
    """Return JSON without white space, safe inside a script: no text in it ends one."""
    text = json.dumps(value, ensure_ascii=False, separators=(",", ":"))
    return text.replace("</", "<\\/").replace("\u2028", "\\u2028").replace("\u2029", "\\u2029")
