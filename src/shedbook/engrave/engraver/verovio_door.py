"""The one door to Verovio: MEI goes in, Verovio's own picture comes out.

One toolkit serves a process; a lock keeps the loading and the drawing of a score together. Verovio may answer
True to input that it did not understand, and when it has no score it draws the one before. So its answers are
checked here, and `drawing.score_drawing` counts the notes that were drawn.
"""

from __future__ import annotations

import threading
from functools import cache
from importlib.resources import files
from typing import Any

import verovio

from shedbook.errors import RenderError

_LOCK = threading.Lock()
_CLOSE = 0.22
"""Verovio's measure of the room that a note takes for its length; with this one an eighth takes 400 units."""
_OPTIONS: dict[str, Any] = {
    "adjustPageHeight": True,
    "breaks": "encoded",
    "font": "Leipzig",
    "footer": "none",
    "header": "none",
    "mdivAll": True,
    "pageHeight": 60000,
    "pageMarginBottom": 0,
    "pageMarginLeft": 0,
    "pageMarginRight": 0,
    "pageMarginTop": 0,
    "smuflTextFont": "none",
    "svgFormatRaw": True,
    "xmlIdSeed": 1,
    # The look: long quiet beams, a light staff, even spacing.
    "barLineWidth": 0.25,
    "beamMaxSlope": 7,
    "harmDist": 1.8,
    "ledgerLineThickness": 0.22,
    "lyricSize": 3.0,
    "lyricTopMinMargin": 2.6,
    "lyricWordSpace": 0.6,
    "spacingLinear": _CLOSE,
    "spacingNonLinear": 0.6,
    "spacingSystem": 6,
    "staffLineWidth": 0.15,
    "stemWidth": 0.2,
    "thickBarlineThickness": 0.6,
}


@cache
def _toolkit() -> Any:
    """Return the toolkit of this process; its resource path is set by hand, because threads lack it."""
    verovio.enableLog(verovio.LOG_OFF)
    toolkit = verovio.toolkit(False)
    if not toolkit.setResourcePath(str(files("verovio") / "data")):
        raise RenderError("Verovio did not find its data folder.", hint="Install the verovio package again.")
    if not toolkit.setOptions(_OPTIONS):
        raise RenderError(
            "Verovio refused its options.", hint="Install the version of verovio in constraints.txt."
        )
    return toolkit


def version() -> str:
    """Return the version of Verovio, which is part of the names of artefacts."""
    return str(_toolkit().getVersion())


def svg(mei: str, *, width: int, stretch_last: bool = True, looseness: float = 1.0) -> str:
    """Return the page that Verovio draws, with every score of the document, as SVG.

    Args:
        mei: a document of scores with encoded system breaks, each score a movement.
        width: the width of a system in drawing units, 180 to a staff space.
        stretch_last: whether the last system is stretched to fill the width too.
        looseness: a factor for the distance between notes before a system is stretched; at 1.0 they stand as
            close as `_CLOSE` sets them.

    Raises:
        RenderError: if Verovio does not draw exactly one page of it.
    """
    with _LOCK:
        toolkit = _toolkit()
        toolkit.setOptions(
            {
                "pageWidth": round(width / 10),
                "minLastJustification": 0.0 if stretch_last else 1.0,
                "spacingLinear": _CLOSE * looseness,
            }
        )
        toolkit.resetXmlIdSeed(1)
        if not toolkit.loadData(mei):
            raise RenderError(
                "Verovio could not read the score.", hint="This is a fault of shedbook; please report it."
            )
        pages = toolkit.getPageCount()
        if pages != 1:
            raise RenderError(f"Verovio laid the scores out on {pages} pages instead of one.")
        picture = str(toolkit.renderToSVG(1))
    if "</svg>" not in picture:
        raise RenderError("Verovio drew nothing.")
    return picture
