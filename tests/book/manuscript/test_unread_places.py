"""Every unreadable place of a phrase is found; the phrases are our own, the rules in docs/manuscript.md."""

from __future__ import annotations

from pathlib import Path

import pytest

from shedbook.book.manuscript.opening import open_manuscript
from shedbook.book.manuscript.request import Request
from shedbook.book.manuscript.unread_places import read_every_place, unread_places
from shedbook.book.verbs.build import build
from shedbook.book.verbs.explain import explain_file
from shedbook.errors import BuildError, ReadError

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
        # the word of the line lies as far from its beginning as the symbol does among the changes
        ("Cmaj7 | Hmaj7 | C6", GOOD.replace("f a c5", "f h c5", 1), "", ["H", "h"]),
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


LONG = "1/8 d4 f a c5 b4 a g e | 1/8 f4 g a b d5 f e d | 1/4 c5 g4 c e | 1/2 c5 e"


@pytest.mark.parametrize(
    "wrong",
    [
        # The place of a word in the line, and what is put there: words that are none, a note too many or too
        # few (a bar that does not add up is told at its last event), each by itself and together.
        {4: "h"},
        {4: "h", 8: "q"},
        {2: "h", 14: "qqq", 17: "1/3x", 24: "k"},
        {1: "d4 e", 14: "h", 23: "z"},
        {11: "h4", 20: "hh", 27: "q"},
        {6: "a b", 16: "f g", 24: "c d", 28: "hop"},
    ],
)
def test_every_place_is_told_where_it_stands(tmp_path: Path, wrong: dict[int, str]) -> None:
    words = LONG.split(" ")
    words = [wrong.get(at, word) for at, word in enumerate(words)]
    places(tmp_path, "Dm7 | G7 | Cmaj7 | %", " ".join(words))
    (source,) = open_manuscript(tmp_path).phrases
    told = [(error.place.line, error.place.column) for error in unread_places(source) if error.place]
    expected = []
    for at, word in wrong.items():
        before = words[: at + 1]
        column = len(" ".join(before)) - len(word) + 1
        if " " in word:  # told at the last event of its bar
            bar = words[: words.index("|", at)]
            column = len(" ".join(bar)) - len(bar[-1].split(" ")[-1]) + 1
        expected.append(column)
    assert [column for _, column in told] == expected
    assert {line for line, _ in told} == {5}


def test_after_forty_places_reading_is_given_up(tmp_path: Path) -> None:
    for count, told in ((39, 39), (40, 40), (41, 40)):
        folder = tmp_path / str(count)
        folder.mkdir()
        found = places(folder, " | ".join(["Hm7"] * count), " | ".join(["1/1 c4"] * count))
        assert found == ["H"] * told


BROKEN = GOOD.replace("a c5", "h c5").replace("f e d", "f q d")


def test_verbs_that_read_one_phrase_tell_every_place(tmp_path: Path) -> None:
    places(tmp_path, "Dm7 | G7 | Cmaj7", BROKEN)
    (source,) = open_manuscript(tmp_path).phrases
    with pytest.raises(BuildError, match="2 places of “P” cannot be read") as raised:
        read_every_place(source)
    assert len(raised.value.errors) == 2
    assert len(explain_file(tmp_path)) == 2


def test_one_place_is_told_as_it_is(tmp_path: Path) -> None:
    places(tmp_path, "Dm7 | G7 | Cmaj7", GOOD.replace("a c5", "h c5"))
    (source,) = open_manuscript(tmp_path).phrases
    with pytest.raises(ReadError, match='"h"'):
        read_every_place(source)


def test_a_build_tells_every_place(tmp_path: Path) -> None:
    book = tmp_path / "book"
    book.mkdir()
    places(book, "Dm7 | G7 | Cmaj7", BROKEN)
    with pytest.raises(BuildError) as raised:
        build(Request(book, tmp_path / "out"))
    found = [error for error in raised.value.errors if isinstance(error, ReadError)]
    assert [error.place.bar for error in found if error.place] == [1, 2]
