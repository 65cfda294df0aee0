"""One phrase in one key, drawn into a picture file."""

from __future__ import annotations

import os
import tempfile
from pathlib import Path

from shedbook.book.choice import asked_key, chosen_phrase
from shedbook.book.manuscript import open_manuscript, read_phrase
from shedbook.book.plan import Look
from shedbook.book.store import put
from shedbook.book.study import marks_of, study
from shedbook.editions.in_key import in_key
from shedbook.engrave.drawing import Drawing, draw
from shedbook.engrave.style import Style
from shedbook.errors import OutputError

ENDINGS = (".png", ".svg")
PPI = 220
"""Pixels an inch in a PNG picture."""


def show(file: Path, out: Path, *, key: str = "", phrase: str = "") -> None:
    """Draw a phrase of a file, by number or title (the first for ""), in a key (its own for "").

    Raises:
        ReadError: if the phrase cannot be read.
        UnknownNameError: for a key or phrase that is not there.
        OutputError: if the picture's name has another ending, or it cannot be written.
    """
    ending = out.suffix.lower()
    if ending not in ENDINGS:
        raise OutputError(
            f"{out} is neither a .png nor a .svg.", hint="Name a picture such as --out low-tide.png"
        )
    drawing = drawn(file, key=key, phrase=phrase)
    if ending == ".svg":
        content = drawing.svg.encode()
    else:
        from shedbook.book.typst_door import png  # noqa: PLC0415 - an SVG needs no Typst

        content = png(drawing.svg, drawing.width_mm, drawing.height_mm, PPI)
    write_picture(out, content)


def drawn(file: Path, *, key: str = "", phrase: str = "") -> Drawing:
    """Return the drawing that `show` writes, with the study marks that the manuscript asks for."""
    manuscript = open_manuscript(file)
    source = chosen_phrase(manuscript.phrases, phrase or "1")
    read = read_phrase(source)
    wanted = asked_key(key, read.key.mode) if key else read.key
    look = Look(degrees=manuscript.settings.degrees, scale_names=manuscript.settings.scale_names)
    marks = marks_of(study(read), under=look.degrees, scales=look.scale_names)
    return draw(in_key(read, wanted), marks, Style(staff_mm=look.staff_mm, width_mm=look.width_mm))


def write_picture(out: Path, content: bytes) -> None:
    """Write a file whole or not at all, its folder made where it is missing.

    Raises:
        OutputError: if that is not possible.
    """
    try:
        out.parent.mkdir(parents=True, exist_ok=True)
        with tempfile.TemporaryDirectory(prefix=".shedbook-", dir=out.parent) as beside:
            put(out, content, Path(beside), lasting=True)
    except OSError as error:
        reason = error.strerror or os.fspath(out)
        raise OutputError(
            f"{out} cannot be written: {reason}.", hint="Name another file with --out."
        ) from error
