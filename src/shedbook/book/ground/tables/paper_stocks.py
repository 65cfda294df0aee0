"""Paper that books are printed on, for the width of a spine. Row format: see `StockRow`.

Sources: caliper is weight times volume; the volumes are common practice of printers (from memory). A
printer's own figure is always better: `paper_stock` takes a number too.
"""

from __future__ import annotations

from typing import NamedTuple


class StockRow(NamedTuple):
    """A stock: its name, and the thickness of a leaf, which is two pages, in millimetres."""

    name: str
    leaf_mm: float
    source: str


STOCKS: tuple[StockRow, ...] = (
    StockRow("80 g offset", 0.104, "80 g/m², volume 1.3; common practice"),
    StockRow("90 g offset", 0.117, "90 g/m², volume 1.3; common practice"),
    StockRow("100 g offset", 0.13, "100 g/m², volume 1.3; common practice"),
    StockRow("120 g offset", 0.156, "120 g/m², volume 1.3; common practice"),
    StockRow("90 g cream", 0.135, "90 g/m², volume 1.5; common practice"),
    StockRow("115 g coated", 0.092, "115 g/m², volume 0.8; common practice"),
)

COVER_MM = 0.3
"""The thickness of a cover's board, of which a spine has two: 250 g/m² and more (common practice)."""
LEAST_SPINE_TEXT_MM = 6.0
"""The narrowest spine that bears words (common practice of printers on demand)."""
