"""Files of the author's, written whole. The law is the project's design."""

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shedbook.book.editing import texts
from shedbook.book.editing.texts import FileText, read_file, write_file, write_files
from shedbook.errors import ManuscriptError, OutputError


@given(st.text("ab\n", max_size=9), st.booleans(), st.booleans())
def test_what_is_read_is_written_again_to_the_byte(
    tmp_path_factory: pytest.TempPathFactory, text: str, crlf: bool, bom: bool
) -> None:
    root = tmp_path_factory.getbasetemp()
    raw = (b"\xef\xbb\xbf" if bom else b"") + (text.replace("\n", "\r\n") if crlf else text).encode()
    (root / "a.toml").write_bytes(raw)
    write_file(read_file(root, "a.toml"))
    assert (root / "a.toml").read_bytes() == raw


def test_a_disk_that_refuses_leaves_the_file_as_it_was(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "a.toml").write_text("1")
    one = read_file(tmp_path, "a.toml").with_text("2")

    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("os.replace", full)
    with pytest.raises(OutputError, match="disk is full"):
        write_file(one)
    assert (tmp_path / "a.toml").read_text() == "1"
    assert [path.name for path in tmp_path.iterdir()] == ["a.toml"]


@pytest.mark.parametrize("back", [False, True])
def test_no_file_is_listed_that_is_not_there(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, back: bool
) -> None:
    """A phrase that comes is written before the list that names it; one that goes leaves after it."""
    (tmp_path / "list").write_text("a")
    (tmp_path / "a").write_text("1")
    old = [read_file(tmp_path, name) for name in ("list", "a", "b")]
    new = [one.with_text(text) for one, text in zip(old, ("b", None, "2"), strict=True)]
    if back:
        write_files(old, new)
        old, new = new, old
    write = texts.write_file

    def seen(one: FileText) -> None:
        write(one)
        assert (tmp_path / (tmp_path / "list").read_text()).exists()

    monkeypatch.setattr(texts, "write_file", seen)
    write_files(old, new)
    assert {path.name for path in tmp_path.iterdir()} == {"list", "a" if back else "b"}


def test_when_one_of_several_is_refused_all_are_as_they_were(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "a").write_text("1")
    old = [read_file(tmp_path, name) for name in ("a", "b")]
    new = [one.with_text(text) for one, text in zip(old, ("2", "3"), strict=True)]
    write = texts.write_file

    def refuses(one: FileText) -> None:
        if one.text == "2":
            raise OutputError("The disk is full.")
        write(one)

    monkeypatch.setattr(texts, "write_file", refuses)
    with pytest.raises(OutputError):
        write_files(old, new)
    assert [(path.name, path.read_text()) for path in tmp_path.iterdir()] == [("a", "1")]


def test_a_link_that_leads_outside_is_refused(tmp_path: Path) -> None:
    (tmp_path / "book").mkdir()
    (tmp_path / "book" / "a.toml").symlink_to(tmp_path / "secret")
    with pytest.raises(ManuscriptError, match="leads out"):
        read_file(tmp_path / "book", "a.toml")
    with pytest.raises(ManuscriptError):
        read_file(tmp_path / "book", "../secret")
