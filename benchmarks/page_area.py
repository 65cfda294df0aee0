"""How full the pages of a finished book are, and a contact sheet of it.

    python -m benchmarks.page_area BOOK.pdf [--sheet OUT.png] [--pages FIRST-LAST] [--columns N]

The area used is that of the rectangle round all ink between head and foot, without what a gap has over 12 mm,
held against the area between the margins. The highest gap inside is told apart, in millimetres. Measured on
the picture of each page at 50 dots an inch, by pypdfium2 and NumPy.
"""

from __future__ import annotations

import argparse
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

import numpy as np
import pypdfium2
from PIL import Image

_DPI = 50
_MM = _DPI / 25.4
_TOP_MM, _BOTTOM_MM, _SIDE_MM = 19.0, 17.0, 14.0
_INK = 200
_LEAST_GAP_MM = 3.0


class PageArea(NamedTuple):
    """One page: the share of the text area that is used, and the highest gap inside, in millimetres."""

    number: int
    used: float
    gap_mm: float


def areas(path: Path) -> Iterator[PageArea]:
    """Yield the area that each page of a book uses; an empty page uses none."""
    document = pypdfium2.PdfDocument(path)
    try:
        for number, page in enumerate(document, 1):
            picture = np.asarray(page.render(scale=_DPI / 72, grayscale=True).to_pil())
            top, low = round(_TOP_MM * _MM), picture.shape[0] - round(_BOTTOM_MM * _MM)
            side = round(_SIDE_MM * _MM)
            body = picture[top:low, side:-side] < _INK
            rows, columns = np.flatnonzero(body.any(axis=1)), np.flatnonzero(body.any(axis=0))
            if not rows.size:
                yield PageArea(number, 0.0, 0.0)
                continue
            gaps = np.diff(rows) / _MM
            inside = float(gaps.max(initial=0.0))
            # A gap that separates two scores is no area lost; what is more than a usual gap is.
            lost = float(np.maximum(gaps - 12.0, 0).sum())
            high = (rows[-1] - rows[0] + 1) / _MM - lost
            wide = (columns[-1] - columns[0] + 1) / body.shape[1]
            yield PageArea(
                number, high * _MM / body.shape[0] * wide, inside if inside > _LEAST_GAP_MM else 0.0
            )
    finally:
        document.close()


def contact_sheet(path: Path, pages: range, columns: int, scale: float) -> Image.Image:
    """Return small pictures of pages side by side."""
    document = pypdfium2.PdfDocument(path)
    try:
        pictures = [
            document[number].render(scale=scale).to_pil() for number in pages if number < len(document)
        ]
    finally:
        document.close()
    wide, high = pictures[0].size
    rows = -(-len(pictures) // columns)
    sheet = Image.new("RGB", (columns * (wide + 4) + 4, rows * (high + 4) + 4), "#9a948c")
    for place, picture in enumerate(pictures):
        sheet.paste(picture, (4 + place % columns * (wide + 4), 4 + place // columns * (high + 4)))
    return sheet


def main() -> None:
    """Print the figures, and write the sheet if one is asked for."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("book", type=Path)
    parser.add_argument("--sheet", type=Path)
    parser.add_argument("--pages", default="1-9999", help="first and last sheet of the contact sheet")
    parser.add_argument("--columns", type=int, default=8)
    parser.add_argument("--scale", type=float, default=0.24)
    options = parser.parse_args()
    found = list(areas(options.book))
    full = [one for one in found if one.used > 0.02]
    print(f"{options.book.name}: {len(found)} pages, {len(found) - len(full)} empty or with a line alone")
    print(f"area used on the others: {sum(one.used for one in full) / len(full):.0%} on average")
    for limit in (0.35, 0.5, 0.7):
        print(f"  under {limit:.0%}: {sum(one.used < limit for one in full)} pages")
    print(f"  with a gap of more than 25 mm inside: {sum(one.gap_mm > 25 for one in full)} pages")
    if options.sheet:
        first, _, last = options.pages.partition("-")
        pages = range(int(first) - 1, int(last or first))
        sheet = contact_sheet(options.book, pages, options.columns, options.scale)
        sheet.quantize(24).save(options.sheet, optimize=True)
        print(f"{options.sheet}: {options.sheet.stat().st_size / 1000:.0f} kB")


if __name__ == "__main__":
    main()
