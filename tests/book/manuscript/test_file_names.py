"""What the files of phrases are called [the project's design]."""

from pathlib import Path

import pytest

from shedbook.book.manuscript.file_names import file_words, next_number


@pytest.mark.parametrize(
    ("title", "words"),
    [
        ("Low tide", "low-tide"),
        ("Über die Brücke", "uber-die-brucke"),
        ("C# & Db!", "c-sharp-db"),
        ("…", "phrase"),
        ("../../etc/passwd", "etc-passwd"),
        ("The pilot's warning", "the-pilots-warning"),
        ("x" * 99, "x" * 60),
    ],
)
def test_file_names(title: str, words: str) -> None:
    assert file_words(title) == words


def test_the_next_free_number(tmp_path: Path) -> None:
    assert next_number(tmp_path / "missing") == (1, 2)
    for name in ("07-a.toml", "112-b.toml", "notes.txt"):
        (tmp_path / name).write_text("")
    assert next_number(tmp_path) == (113, 3)
