"""Every unreadable place of a phrase is found; the phrases are our own, the rules in docs/manuscript.md."""

from __future__ import annotations

from pathlib import Path

import pytest

from shedbook.book.manuscript.opening import open_manuscript
from shedbook.book.manuscript.unread_places import unread_places

GOOD = "1/8 d4 f a c5 b4 a g e | 1/8 f4 g a b d5 f e d | 1/4 c5 g4 c e"


def places(folder: Path, changes: str, line: str, more: str = "") -> list[str]:
    (folder / "phrases").mkdir()
    (folder / "manuscript.toml").write_text('title = "T"\nauthor = "A"\n', encoding="utf-8")
    text = f'title = "P"\nchanges = "{changes}"\n{more}\nline = """\n{line}\n"""\n'
    (folder / "phrases" / "01.toml").write_text(text, encoding="utf-8")
    (source,) = open_manuscript(folder).phrases
    found = []
    for error in unread_places(source):
        assert error.place is not None
        excerpt, column = error.place.excerpt, error.place.column
        assert column is not None
        found.append(excerpt[column - 1 : column - 1 + error.place.width])
    return found


@pytest.mark.parametrize(
    ("changes", "line", "more", "expected"),
    [
        ("Dm7 | G7 | Cmaj7", GOOD, "", []),
        ("Dm7 | Hm7 | Jm7", GOOD, "", ["H", "J"]),
        ("Dm7 | G7 | Cmaj7", GOOD.replace("a c5", "h c5").replace("f e d", "f q d"), "", ["h", "q"]),
        ("Dm7 | G7 | Cmaj7", GOOD.replace("a c5", "a a4 c5").replace("g4 c e", "g4 c"), "", ["e", "c"]),
        ("Dm7 | G7 | Cmaj7", GOOD.replace("1/8 f4", "8th f4"), "", ["8th"]),
        ("Dm7 | G7 | Cmaj7", GOOD.replace("a c5", "h c5"), 'scales = "dorin | mixolydan | ionian"',
         ["dorin", "h"]),
    ],
)  # fmt: skip
def test_all_places_are_found(
    tmp_path: Path, changes: str, line: str, more: str, expected: list[str]
) -> None:
    found = places(tmp_path, changes, line, more)
    assert [one for one in found if one in expected] == found
    assert sorted(found) == sorted(expected)
