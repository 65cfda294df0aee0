"""The one module that runs PDFium: how many pages a PDF has, its text, and its pages as pictures."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import pypdfium2
from PIL import Image


@contextmanager
def _opened(pdf: Path | bytes) -> Iterator[Any]:
    """Open a PDF.

    Raises:
        ValueError: if PDFium cannot.
    """
    try:
        document = pypdfium2.PdfDocument(pdf)
    except pypdfium2.PdfiumError as error:
        raise ValueError(f"PDFium cannot open it: {error}") from None
    try:
        yield document
    finally:
        document.close()


def page_texts(pdf: Path | bytes) -> list[str]:
    """Return the text of each page.

    Raises:
        ValueError: if PDFium cannot open it.
    """
    with _opened(pdf) as document:
        return [str(page.get_textpage().get_text_range()) for page in document]


def page_pictures(pdf: Path | bytes, pages: Sequence[int], high: int) -> list[Image.Image]:
    """Return pages, counted from 1, as pictures so many pixels high; pages that are not there are left out.

    Raises:
        ValueError: if PDFium cannot open it.
    """
    with _opened(pdf) as document:
        found = []
        for number in pages:
            if 1 <= number <= len(document):
                page = document[number - 1]
                found.append(page.render(scale=high / page.get_height()).to_pil().convert("RGB"))
        return found
