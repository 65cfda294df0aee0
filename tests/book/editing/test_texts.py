"""Files of the author's, written whole. The law is the project's design."""

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shedbook.book.editing.texts import read_file, write_file
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


def test_a_link_that_leads_outside_is_refused(tmp_path: Path) -> None:
    (tmp_path / "book").mkdir()
    (tmp_path / "book" / "a.toml").symlink_to(tmp_path / "secret")
    with pytest.raises(ManuscriptError, match="leads out"):
        read_file(tmp_path / "book", "a.toml")
    with pytest.raises(ManuscriptError):
        read_file(tmp_path / "book", "../secret")
