"""The cover in one piece, back, spine and front, as the template prints it; the bars of an ISBN. Pure."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from importlib import import_module

from shedbook.book.ground.isbn import isbn_digits
from shedbook.book.ground.tables.paper_stocks import COVER_MM, LEAST_SPINE_TEXT_MM
from shedbook.book.pages.data import About
from shedbook.book.pages.prose import Block
from shedbook.book.pages.shop_pictures import ShopPicture
from shedbook.errors import RenderError

_BAR = re.compile(r"M(\d+) 0h(\d+)v(\d+)h-\d+Z")


@dataclass(frozen=True, slots=True)
class Bars:
    """A barcode: each bar's place, width and height in modules, and the digits that stand under it."""

    bars: tuple[tuple[int, int, int], ...]
    digits: str


@dataclass(frozen=True, slots=True, kw_only=True)
class CoverData:
    """Everything that the template of the cover prints.

    `pages` and `spine_mm` are known after the book is laid out; `spine_words` says whether the spine is wide
    enough for words.
    """

    about: About
    blurb: tuple[Block, ...]
    front: ShopPicture | None
    back: ShopPicture | None
    code: Bars | None
    leaf_mm: float
    pages: int = 0
    spine_mm: float = 0.0
    spine_words: bool = False

    def with_pages(self, pages: int) -> CoverData:
        """Return the cover of a book that has so many pages."""
        spine = round((pages + pages % 2) / 2 * self.leaf_mm + 2 * COVER_MM, 2)
        return replace(self, pages=pages, spine_mm=spine, spine_words=spine >= LEAST_SPINE_TEXT_MM)


def bars_of(isbn: str) -> Bars | None:
    """Return the bars of an ISBN, an EAN-13 (ISO/IEC 15420); None where there is no number.

    Raises:
        RenderError: if the library that makes codes is not installed, or refuses the number.
    """
    if not isbn:
        return None
    digits = isbn_digits(isbn)
    try:
        library = import_module("zxingcpp")  # only a cover with a number needs it
        drawn = library.create_barcode(digits, library.BarcodeFormat.EAN13).to_svg(add_hrt=False)
    except ImportError:
        raise RenderError("A barcode needs the Python package zxing-cpp.", hint="Install it.") from None
    except (ValueError, RuntimeError, TypeError) as error:
        raise RenderError(f"The barcode of {isbn} could not be made: {error}") from error
    found = tuple((int(x), int(wide), int(high)) for x, wide, high in _BAR.findall(str(drawn)))
    return Bars(found, digits)
