"""The one door to Verovio: MEI in, Verovio's own picture out.

One toolkit serves a process; a lock keeps loading and drawing together. Verovio may answer True to
input that it did not understand, and draws the score before when it has none; so what comes back is
checked here, and `drawing` counts the notes.
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
"""Verovio's measure of how much room a note's length takes; at this one an eighth takes 400 drawing units."""
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
    """Make the toolkit of this process; the resource path is set by hand, for threads lack it."""
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
    """Return the version of Verovio, for the names of artefacts."""
    return str(_toolkit().getVersion())


def svg(mei: str, *, width: int, stretch_last: bool = True, looseness: float = 1.0) -> str:
    """Return a page as Verovio draws it, with every score of the document.

    Args:
        mei: scores with encoded system breaks, each a movement.
        width: the width of a system in drawing units, 180 to a staff space.
        stretch_last: let the last system fill the width too.
        looseness: how much further apart than close notes stand before a system is made to fill the width.

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
