"""`shedbook check`: where findings stand, and in which order. What is found is tested in its own rooms."""

from __future__ import annotations

from pathlib import Path

import pytest

from shedbook.book.verbs.check import check

SETTINGS = """\
title = "T"
author = "A"
editions = [{editions}]
phrases = ["02.toml", "01.toml"]
[silence]
no-such-rule = "x"
[tracks]
sound_font = "nowhere.sf2"
"""
ONE = """\
title = "One"
changes = "Cmaj7 | Dm7 | G7"
line = \"\"\"
1/4 c4 f4 f4 c#4 |
1/4 d4 eb5 g#4 f |
1/1 c7
\"\"\"
"""
TWO = """\
title = "Two"
changes = "Cmaj7 | Dm7"
line = \"\"\"
1/4 c4 f4 f4 c#4 |
1/4 d4 h g#4 q
\"\"\"
"""


def found(folder: Path, editions: str) -> list[tuple[str, int, str]]:
    """Return file, line and rule of what is found in a book with mistakes."""
    (folder / "phrases").mkdir()
    (folder / "manuscript.toml").write_text(SETTINGS.format(editions=editions), encoding="utf-8")
    for name, text in (("01", ONE), ("02", TWO)):
        (folder / "phrases" / f"{name}.toml").write_text(text, encoding="utf-8")
    return [
        (one.place.file, one.place.line or 0, one.finding.rule) for one in check(folder).found if one.place
    ]


def test_findings_stand_in_the_order_of_the_book_and_of_its_lines(tmp_path: Path) -> None:
    """Source: the lines of the files above; the book has its second file first."""
    told = found(tmp_path, '"concert", "trumpet"')
    assert told[:2] == [
        ("manuscript.toml", 6, "silence-names-no-rule"),
        ("manuscript.toml", 8, "unreadable"),
    ]
    assert told[2:4] == [("phrases/02.toml", 5, "unreadable")] * 2
    assert {file for file, _, _ in told[4:]} == {"phrases/01.toml"}
    lines = [line for _, line, _ in told[4:]]
    assert lines == sorted(lines)
    assert ("phrases/01.toml", 5, "octave-slip") in told
    assert ("phrases/01.toml", 6, "range") in told


@pytest.mark.parametrize(("editions", "reach"), [('"concert"', False), ('"concert", "trumpet"', True)])
def test_what_an_instrument_cannot_reach_is_found_in_its_edition(
    tmp_path: Path, editions: str, reach: bool
) -> None:
    """C7 lies above the trumpet (common practice); the concert edition has the author's own notes."""
    assert any(rule == "out-of-reach" for _, _, rule in found(tmp_path, editions)) is reach
