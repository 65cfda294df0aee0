"""Which folder may be written to."""

from pathlib import Path

import pytest

from shedbook.book.workshop.output_folder import MARKER, claim, default_output, examine, no_longer_asked_for
from shedbook.errors import OutputError


def test_a_missing_folder_is_made_with_its_parents(tmp_path: Path) -> None:
    folder = tmp_path / "a" / "b"
    assert not examine(folder)
    assert not folder.exists()
    claim(folder)
    assert examine(folder)


def test_an_empty_folder_is_taken(tmp_path: Path) -> None:
    claim(tmp_path)
    assert (tmp_path / MARKER).is_file()


def test_a_folder_of_ours_is_taken_again_with_what_it_holds(tmp_path: Path) -> None:
    claim(tmp_path)
    (tmp_path / "book-concert.pdf").write_bytes(b"old")
    claim(tmp_path)
    assert (tmp_path / "book-concert.pdf").read_bytes() == b"old"


@pytest.mark.parametrize("name", ["notes.txt", ".hidden", "book-concert.pdf", ".store"])
def test_a_folder_with_anything_else_is_refused_and_left_alone(tmp_path: Path, name: str) -> None:
    (tmp_path / name).write_bytes(b"mine")
    with pytest.raises(OutputError, match="did not put there"):
        claim(tmp_path)
    assert [path.name for path in tmp_path.iterdir()] == [name]
    assert (tmp_path / name).read_bytes() == b"mine"


def test_a_file_is_refused(tmp_path: Path) -> None:
    (tmp_path / "out").write_bytes(b"mine")
    with pytest.raises(OutputError, match="is a file"):
        claim(tmp_path / "out")


def test_a_folder_that_cannot_be_made_is_refused(tmp_path: Path) -> None:
    (tmp_path / "file").write_bytes(b"mine")
    with pytest.raises(OutputError):
        claim(tmp_path / "file" / "out")


def test_a_folder_that_cannot_be_written_is_refused(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(*_: object, **__: object) -> None:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(Path, "write_text", refuse)  # a test may run as the superuser, whom no mode stops
    with pytest.raises(OutputError, match="Permission denied"):
        claim(tmp_path)


def test_the_default_lies_beside_the_manuscript(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    book = tmp_path / "my-book"
    book.mkdir()
    monkeypatch.chdir(book)
    assert default_output(Path(), "my-book") == tmp_path / "my-book-build"


def test_books_that_are_no_longer_asked_for_are_put_apart_and_named(tmp_path: Path) -> None:
    """Copies and samples of editions of now stay; what manuscript.toml has given up must not be sold."""
    stay = [
        "tides-concert.pdf",
        "tides-concert-for-Ada.pdf",
        "tides-bflat-sample.pdf",
        "other-bass.pdf",
        "notes.pdf",
    ]
    go = ["tides-bass.pdf", "tides-bass-for-Ada.pdf", "tides-concert-print.pdf", "tides-concert-cover.pdf"]
    for name in (*stay, *go):
        (tmp_path / name).write_bytes(b"%PDF")
    told = no_longer_asked_for(tmp_path, "tides", ["concert", "bflat"], ["tides-concert.pdf"])
    assert [message.partition(" ")[0] for message, _ in told] == sorted(go)
    assert all("earlier/" in hint for _, hint in told)
    assert sorted(path.name for path in tmp_path.glob("*.pdf")) == sorted(stay)
    assert sorted(path.name for path in (tmp_path / "earlier").iterdir()) == sorted(go)
    assert no_longer_asked_for(tmp_path, "tides", ["concert", "bflat"], ["tides-concert.pdf"]) == []
