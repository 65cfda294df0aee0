"""The pictures of a bundle: the cover in the sizes of shops, and a few pages to look into."""

from __future__ import annotations

import io
from collections.abc import Mapping
from pathlib import Path

from PIL import Image

from shedbook.book.bundle.pdfium_door import page_pictures
from shedbook.book.bundle.tables.cover_sizes import COVER_SIZES, CoverSize
from shedbook.book.pages.cover import CoverData
from shedbook.book.pages.data import About
from shedbook.book.pages.typst_door import pdf

_GROUND = (236, 234, 229)
"""What stands round a cover whose sides are not those of a size."""
_EDGE = 0.06
"""How much of the shorter side stays free round a cover that does not fill its size."""
_FILLS = 0.12
"""By how much the ratios of sides may differ for a cover to be cut to its size."""
_PAGE_HIGH = 1400
_QUALITY = 90


def covers(picture: Path | None, about: About, root: Path) -> Mapping[str, bytes]:
    """Return the cover in each size as a JPEG, by the names of their files.

    Args:
        picture: the author's cover; the front of our own design where there is none.
        about: what the pages of the book say of it.
        root: the folder in which its pictures lie.

    Raises:
        RenderError: if our own cover cannot be drawn.
    """
    if picture is None:
        front = _own_front(about, root)
    else:
        with Image.open(picture) as found:
            front = found.convert("RGB")
    return {f"cover-{row.name}-{row.wide}x{row.high}.jpg": _jpeg(_fitted(front, row)) for row in COVER_SIZES}


def _own_front(about: About, root: Path) -> Image.Image:
    """Return the front of the cover that a book has for the press, without back and spine."""
    cover = CoverData(about=about, blurb=(), front=None, back=None, code=None, leaf_mm=0.0)
    (whole,) = page_pictures(pdf("cover.typ", cover, root), [1], max(row.high for row in COVER_SIZES))
    return whole.crop((whole.width // 2, 0, whole.width, whole.height))


def _fitted(front: Image.Image, row: CoverSize) -> Image.Image:
    """Return a cover cut to a size it nearly has, else whole on a plain ground."""
    wide, high = row.wide, row.high
    ratio, wanted = front.width / front.height, wide / high
    if abs(ratio / wanted - 1) <= _FILLS:
        keep_wide = min(front.width, round(front.height * wanted))
        keep_high = min(front.height, round(front.width / wanted))
        left, top = (front.width - keep_wide) // 2, (front.height - keep_high) // 2
        box = (left, top, left + keep_wide, top + keep_high)
        return front.resize((wide, high), Image.Resampling.LANCZOS, box)
    edge = round(_EDGE * min(wide, high))
    scale = min((wide - 2 * edge) / front.width, (high - 2 * edge) / front.height)
    size = (round(front.width * scale), round(front.height * scale))
    ground = Image.new("RGB", (wide, high), _GROUND)
    ground.paste(front.resize(size, Image.Resampling.LANCZOS), ((wide - size[0]) // 2, (high - size[1]) // 2))
    return ground


def _jpeg(picture: Image.Image) -> bytes:
    out = io.BytesIO()
    picture.save(out, "JPEG", quality=_QUALITY, subsampling=0)
    return out.getvalue()


def page_previews(book: Path, pages: tuple[int, ...], slug: str) -> Mapping[str, bytes]:
    """Return pages of a book as PNG, by the names of their files."""
    found = {}
    for number, picture in zip(pages, page_pictures(book, pages, _PAGE_HIGH), strict=True):
        out = io.BytesIO()
        picture.save(out, "PNG", optimize=True)
        found[f"page-{slug}-{number:03d}.png"] = out.getvalue()
    return found
