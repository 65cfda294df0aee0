"""The finished pages of one phrase. What stands on pages is tested in tests/book/pages."""

from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pypdf
import pytest

from shedbook.book.manuscript.request import Request
from shedbook.book.verbs import one_phrase as room
from shedbook.book.verbs.one_phrase import PagesOrder, pages_of

TEXT = 'title = "Low tide"\nchanges = "Dm7 | G7"\nline = "1/4 d5 f a c6 | b5 g d5 g"\n'


def test_pages_are_the_books_own_on_the_paper_asked_for(tmp_path: Path) -> None:
    root = tmp_path / "tides"
    (root / "phrases").mkdir(parents=True)
    settings = (
        'title = "A book of tides"\nphrases = ["gone.toml"]\n[tracks]\nkinds = ["line"]\nphrases = [7]\n'
    )
    (root / "manuscript.toml").write_text(settings)
    made = tmp_path / "made"
    made.mkdir()
    pdf = pages_of(root, TEXT, PagesOrder("bflat", "letter", ("C",)), made)
    read = pypdf.PdfReader(pdf)
    text = "".join(page.extract_text() for page in read.pages)
    assert "Low tide" in text
    assert "A book of tides" in text
    width, height = (float(number) / 72 * 25.4 for number in read.pages[0].mediabox[2:])
    assert (round(width, 1), round(height, 1)) == (215.9, 279.4)  # ANSI/ASME Y14.1
    assert (root / "manuscript.toml").read_text() == settings


def test_of_a_book_for_the_press_the_pages_to_read_are_given(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A build gives the book, then the same for the press, then its cover."""
    asked: list[Request] = []

    def built(request: Request) -> Any:
        asked.append(request)
        return SimpleNamespace(pdfs=tuple(tmp_path / name for name in ("book", "print", "cover")))

    (tmp_path / "manuscript.toml").write_text('title = "T"\nprint = true\n', encoding="utf-8")
    monkeypatch.setattr(room, "build", built)
    assert pages_of(tmp_path, TEXT, PagesOrder("bflat", "letter", ()), tmp_path / "made") == tmp_path / "book"
    (request,) = asked
    assert (request.editions, request.keys, request.tracks) == (("bflat",), (), ("none",))
    settings = (Path(request.manuscript) / "manuscript.toml").read_text(encoding="utf-8")
    assert 'page_size = "letter"' in settings
