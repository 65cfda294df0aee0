"""Links of a phrase, each with a QR code: a small picture of squares that a camera reads.

Conventions: a code is a tuple of rows, each a text of "1" for a dark module and "0" for a light one, without
the quiet zone, which the page keeps white (four modules wide: ISO/IEC 18004, from memory).
"""

from __future__ import annotations

from collections.abc import Iterable
from functools import lru_cache
from importlib import import_module

from shedbook.book.pages.data import LinkData
from shedbook.errors import RenderError

LONGEST_ADDRESS = 300
"""A longer address makes squares too small for a camera at the printed size (our own limit)."""


@lru_cache(maxsize=1024)
def qr_code(address: str) -> tuple[str, ...]:
    """Return the QR code of a web address, with medium error correction.

    Raises:
        RenderError: if the library that makes codes is not installed, or the address is too long.
    """
    try:
        segno = import_module("segno")  # only a book with links of phrases needs it
    except ImportError:
        raise RenderError(
            "QR codes need the Python package segno.", hint="Install it, or leave out the phrases' links."
        ) from None
    if len(address) > LONGEST_ADDRESS:
        raise RenderError(
            f"A link is {len(address)} characters long; a QR code of it could not be read from paper.",
            hint=f"Use an address of at most {LONGEST_ADDRESS} characters.",
        )
    code = segno.make_qr(address, error="m", boost_error=False)
    return tuple("".join("1" if module else "0" for module in row) for row in code.matrix)


def link_data(links: Iterable[tuple[str, str]]) -> tuple[LinkData, ...]:
    """Return what the page prints of links, pairs of a name and an address, with their codes."""
    return tuple(LinkData(name, address, qr_code(address)) for name, address in links)
