"""The page of changes. Sources: PDF/UA-1 by `pdfua`; its text by PDFium."""

from __future__ import annotations

from pathlib import Path

import pdfua
import pypdfium2
import pytest

from catalogue.books import PHRASES
from catalogue.bundles import CHANGED, bundle
from shedbook.catalogue.book_state import state_of_bundle
from shedbook.catalogue.errata import compared
from shedbook.catalogue.errata_page import write_page


@pytest.mark.parametrize(("language", "says"), [("en", "A flat 5 is now A5"), ("fr", "devient")])
def test_a_page_to_print(language: str, says: str, tmp_path: Path) -> None:
    old = bundle(tmp_path / "old", "1.0", language, **PHRASES)
    new = bundle(tmp_path / "new", "1.1", language, **CHANGED)
    out = tmp_path / "changes.pdf"
    write_page(compared(state_of_bundle(old), state_of_bundle(new)), out)
    document = pypdfium2.PdfDocument(out)
    try:
        text = document[0].get_textpage().get_text_range()
        size = document[0].get_size()
    finally:
        document.close()
    assert says in text
    assert "tides-bflat-1.1.zip" in text
    assert [round(side) for side in size] == [595, 842]  # A4 (ISO 216) in points
    assert [one.rule_id for one in pdfua.validate(str(out)).findings] == []
