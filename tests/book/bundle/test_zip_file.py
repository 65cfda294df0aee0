"""Zip files. Sources: APPNOTE.TXT 6.3 (Zip64, times); the standard library and unzip read them."""

from __future__ import annotations

import shutil
import subprocess
import zipfile
from pathlib import Path

import pytest

from shedbook.book.bundle.zip_file import Member, check_room, most_bytes, write_zip
from shedbook.errors import OutputError

MEMBERS = [Member("b/z.txt", b"tide " * 500), Member("a.mp3", bytes(range(256)) * 20)]


def test_the_same_members_are_the_same_bytes_in_any_order(tmp_path: Path) -> None:
    write_zip(tmp_path / "one.zip", MEMBERS, tmp_path)
    write_zip(tmp_path / "two.zip", MEMBERS[::-1], tmp_path)
    assert (tmp_path / "one.zip").read_bytes() == (tmp_path / "two.zip").read_bytes()
    with zipfile.ZipFile(tmp_path / "one.zip") as made:
        assert made.testzip() is None
        assert made.namelist() == ["a.mp3", "b/z.txt"]
        assert {one.date_time for one in made.infolist()} == {(1980, 1, 1, 0, 0, 0)}
        assert [one.compress_type for one in made.infolist()] == [zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED]
        assert made.read("b/z.txt") == b"tide " * 500
    assert sorted(path.name for path in tmp_path.iterdir()) == ["one.zip", "two.zip"]


def test_its_size_is_known_before(tmp_path: Path) -> None:
    stored = [Member("a.mp3", b"x" * 5000), Member("ä/b.pdf", b"y" * 70)]
    write_zip(tmp_path / "one.zip", stored, tmp_path)
    assert (tmp_path / "one.zip").stat().st_size == most_bytes(stored)
    write_zip(tmp_path / "two.zip", MEMBERS, tmp_path)
    assert (tmp_path / "two.zip").stat().st_size < most_bytes(MEMBERS)


def test_a_file_goes_in_as_bytes_do(tmp_path: Path) -> None:
    (tmp_path / "track").write_bytes(MEMBERS[1].content)  # type: ignore[arg-type]
    file = Member("a.mp3", tmp_path / "track")
    assert (file.size, file.sha256()) == (MEMBERS[1].size, MEMBERS[1].sha256())
    write_zip(tmp_path / "one.zip", [file], tmp_path)
    write_zip(tmp_path / "two.zip", [MEMBERS[1]], tmp_path)
    assert (tmp_path / "one.zip").read_bytes() == (tmp_path / "two.zip").read_bytes()


def test_what_is_too_long_for_a_plain_zip_takes_the_longer_form(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The limit of four gigabytes is lowered; Zip64's extra field has number 1 (APPNOTE 4.5.3)."""
    monkeypatch.setattr(zipfile, "ZIP64_LIMIT", 4000)
    long = [Member("a.mp3", b"x" * 5000), Member("b.mp3", b"y" * 10)]
    write_zip(tmp_path / "long.zip", long, tmp_path)
    content = (tmp_path / "long.zip").read_bytes()
    assert b"PK\x06\x06" in content  # the end record of Zip64 (APPNOTE 4.3.14)
    with zipfile.ZipFile(tmp_path / "long.zip") as made:
        assert made.testzip() is None
        assert made.read("a.mp3") == b"x" * 5000
    program = shutil.which("unzip")
    if program:
        told = subprocess.run(
            [program, "-t", tmp_path / "long.zip"], capture_output=True, text=True, check=False
        )
        assert told.returncode == 0, told.stdout


def test_a_stop_leaves_nothing_half_written(tmp_path: Path) -> None:
    (tmp_path / "book.zip").write_bytes(b"the one before")
    with pytest.raises(OutputError):
        write_zip(tmp_path / "book.zip", [*MEMBERS, Member("c", tmp_path / "gone")], tmp_path)
    assert (tmp_path / "book.zip").read_bytes() == b"the one before"
    assert [path.name for path in tmp_path.iterdir()] == ["book.zip"]


def test_too_little_room_is_told_before(tmp_path: Path) -> None:
    check_room(tmp_path, 1)
    with pytest.raises(OutputError, match="takes up to"):
        check_room(tmp_path, 1 << 60)
