"""Chapters as plain text files."""

from pathlib import Path

import pytest

from shedbook.book.manuscript.chapters import Chapter, at_place, chapter_in, chapters_of
from shedbook.errors import ManuscriptError


@pytest.mark.parametrize(
    ("file", "text", "expected"),
    [
        pytest.param("chapters/01-a-word.txt", "Hello\nthere.\n\nAnd\n \nagain.",
                     Chapter("A word", ("Hello\nthere.", "And", "again.")), id="prose alone"),
        pytest.param("chapters/x.txt", "name: Foreword\nplace: back\n\nHello.",
                     Chapter("Foreword", ("Hello.",), "back"), id="name and place"),
        pytest.param("chapters/x.txt", "place: phrase 07\nHello.",
                     Chapter("X", ("Hello.",), "phrase", "7"), id="before a phrase"),
        pytest.param("chapters/x.txt", "place: part minor ii–V–i\n\nname: is prose here",
                     Chapter("X", ("name: is prose here",), "part", "minor ii–V–i"), id="part"),
        pytest.param("chapters/2024.txt", "Hello.", Chapter("2024", ("Hello.",)), id="only numbers"),
    ],
)  # fmt: skip
def test_a_chapter_is_read(file: str, text: str, expected: Chapter) -> None:
    assert chapter_in(text, file)[1] == expected


@pytest.mark.parametrize(
    ("text", "message", "line"),
    [
        ("name: A\nname: B\n\nc", '"name:" stands twice', 2),
        ("name: A\nplace: top\n\nc", '"top" is no place', 2),
        ("order: first\n\nc", '"first" is no order', 1),
        ("order: -1\n\nc", '"-1" is no order', 1),
        ("order: 10000\n\nc", '"10000" is no order', 1),
        ("name: A\n\n  \n", "holds no prose", 1),
    ],
)
def test_what_cannot_be_read_is_said_with_its_line(text: str, message: str, line: int) -> None:
    with pytest.raises(ManuscriptError, match=message) as caught:
        chapter_in(text, "chapters/a.txt")
    assert caught.value.place is not None
    assert (caught.value.place.file, caught.value.place.line) == ("chapters/a.txt", line)


def test_order_comes_before_the_files_names(tmp_path: Path) -> None:
    assert chapters_of(tmp_path) == ()
    folder = tmp_path / "chapters"
    folder.mkdir()
    for name, text in (
        ("a.txt", "name: Third\n\nx"), ("b.txt", "name: Fourth\n\nx"),
        ("c.txt", "name: First\norder: 1\n\nx"), ("d.txt", "name: Second\norder: 2\n\nx"),
        ("e.md", "not read"), (".f.txt", "not read"),
    ):  # fmt: skip
        (folder / name).write_text(text, encoding="utf-8")
    chapters = chapters_of(tmp_path)
    assert [one.name for one in chapters] == ["First", "Second", "Third", "Fourth"]
    assert at_place(chapters, "front") == chapters


def test_a_chapter_stands_at_its_own_place_alone() -> None:
    places = ("back", "front", "part Blues", "phrase 7", "phrase 17")
    chapters = [
        chapter_in(f"name: {at}\nplace: {place}\norder: {at}\n\nx", "chapters/x.txt")
        for at, place in enumerate(places, 9995)
    ]
    assert [order for order, _ in chapters] == [9995, 9996, 9997, 9998, 9999]
    found = [
        [chapter.name for chapter in at_place([one for _, one in chapters], place, where)]
        for place, where in (("back", ""), ("front", ""), ("part", "BLUES"), ("phrase", "7"), ("phrase", ""))
    ]
    assert found == [["9995"], ["9996"], ["9997"], ["9998"], []]
