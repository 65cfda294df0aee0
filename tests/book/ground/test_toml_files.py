"""Files that cannot be read, with their places. Where a text stands is counted by hand, from 1."""

from __future__ import annotations

from pathlib import Path

import pytest

from shedbook.book.ground.toml_files import LARGEST_BYTES, inside, place_of, read_text, read_toml
from shedbook.errors import ManuscriptError


@pytest.mark.parametrize(
    ("text", "line", "column", "said"),
    [
        ("a = 1\nb = \nc = 3\n", 2, 5, "not TOML: invalid value"),
        ("= 1\n", 1, 1, "not TOML: invalid"),
        ('a = 1\n\n# about b\nb = "x\nc = 2\n', 4, 7, "a text is not closed by its quotation mark"),
        ("[a\nb = 1\n", 1, 3, "not TOML"),
        ('a = 1\nb = """x\n\n', 2, 9, "a text is not closed by its quotation mark"),  # where the text ends
        ("a = 1\nb = “x”\n", 2, 5, "curly quotation marks"),
        ("a = 1\na = 2\n", 2, 6, "not TOML"),
    ],
)
def test_what_is_no_toml_is_shown_where_it_stands(text: str, line: int, column: int, said: str) -> None:
    with pytest.raises(ManuscriptError) as caught:
        read_toml(text, "a.toml")
    place = caught.value.place
    assert place is not None
    assert said in caught.value.message
    assert (place.file, place.line, place.column) == ("a.toml", line, column)
    assert place.excerpt == text.splitlines()[line - 1]


def test_straight_marks_are_shown_for_curly_ones() -> None:
    with pytest.raises(ManuscriptError) as caught:
        read_toml("title = „Ebbe“\n", "a.toml")
    assert caught.value.hint == 'Write straight ones: title = "Ebbe"'


@pytest.mark.parametrize(
    ("text", "said"), [("a = " + "[" * 9000, "nests too deeply"), (f"a = {'9' * 9000}", "too long")]
)
def test_what_is_too_much_is_refused(text: str, said: str) -> None:
    with pytest.raises(ManuscriptError, match=said):
        read_toml(text, "a.toml")


@pytest.mark.parametrize(
    ("start", "end", "place"),
    [
        (0, 2, (1, 1, 2, "one")),
        (4, 7, (2, 1, 3, "two")),
        (6, 11, (2, 3, 1, "two")),  # what goes over the line's end is shown to its end
        (8, 9, (3, 1, 1, "three")),
        (13, 99, (3, 6, 1, "three")),
        (99, 100, (3, 6, 1, "three")),
    ],
)
def test_a_place_is_on_its_first_line(start: int, end: int, place: tuple[int, int, int, str]) -> None:
    found = place_of("one\ntwo\nthree", "a.toml", start, end)
    assert (found.line, found.column, found.width, found.excerpt) == place


@pytest.mark.parametrize(
    "name", ["../a.toml", "b/../../a.toml", "/etc/hostname", "C:a.toml", "..", "b\\..\\..\\a.toml", "b/../a"]
)
def test_nothing_is_read_from_outside(tmp_path: Path, name: str) -> None:
    with pytest.raises(ManuscriptError, match="leads out of the manuscript folder") as caught:
        inside(tmp_path, name, "manuscript.toml", hint="Put it inside.")
    assert caught.value.hint == "Put it inside."


def test_a_path_inside_is_followed(tmp_path: Path) -> None:
    assert inside(tmp_path, "b\\a.toml", "m", hint="") == tmp_path / "b" / "a.toml"
    (tmp_path / "out").symlink_to(tmp_path.parent)
    with pytest.raises(ManuscriptError, match="leads out"):
        inside(tmp_path, "out/a.toml", "m", hint="")


@pytest.mark.parametrize(
    ("content", "said", "line"),
    [
        (b"\xff\xfea", "is written in UTF-16", None),
        (b"a\n\0", "is not text", 1),
        (b"a\nb\n\xe9", r"byte 5 \(0xe9\), on line 3", 3),
        (b"a" * (LARGEST_BYTES + 1), "at most 1 million", None),
    ],
)
def test_what_is_no_text_is_refused(tmp_path: Path, content: bytes, said: str, line: int | None) -> None:
    (tmp_path / "a.toml").write_bytes(content)
    with pytest.raises(ManuscriptError, match=said) as caught:
        read_text(tmp_path / "a.toml", "a.toml")
    assert caught.value.place is not None
    assert caught.value.place.line == line


def test_text_is_read_with_plain_line_ends(tmp_path: Path) -> None:
    (tmp_path / "a.toml").write_bytes(b"\xef\xbb\xbfa\r\nb" + b"c" * (LARGEST_BYTES - 7))
    assert read_text(tmp_path / "a.toml", "a.toml") == "a\nb" + "c" * (LARGEST_BYTES - 7)
