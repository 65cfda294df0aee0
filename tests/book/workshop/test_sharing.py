"""A file in a second place. Sources: link(2); ioctl_ficlone(2) of Linux."""

from __future__ import annotations

import errno
import os
import stat
import sys
from pathlib import Path

import pytest

from shedbook.book.workshop.sharing import COPY, LINK, REFLINK, share

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="there it is always a copy")


def folders(tmp_path: Path) -> tuple[Path, Path, Path]:
    source, unfinished = tmp_path / "kept", tmp_path / "unfinished"
    source.write_bytes(b"sound")
    unfinished.mkdir()
    return source, tmp_path / "track.wav", unfinished


def no_clones(monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(*arguments: object) -> None:
        raise OSError(errno.EOPNOTSUPP, "no")

    monkeypatch.setattr("fcntl.ioctl", refuse)


def test_a_file_system_that_cannot_clone_links_read_only(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    no_clones(monkeypatch)
    source, target, unfinished = folders(tmp_path)
    target.write_bytes(b"what lay there")
    assert share(source, target, unfinished) == LINK
    assert source.samefile(target)
    assert not stat.S_IMODE(target.stat().st_mode) & 0o222
    assert share(source, target, unfinished) == LINK
    assert list(unfinished.iterdir()) == []
    assert target.read_bytes() == b"sound"


def test_a_clone_is_the_readers_own(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The call gets both files open; here it copies, as the file system would share."""

    def clone(to: int, request: int, of: int) -> None:
        assert request == 0x40049409
        os.write(to, os.pread(of, 100, 0))

    monkeypatch.setattr("fcntl.ioctl", clone)
    monkeypatch.setattr(sys, "platform", "linux")
    source, target, unfinished = folders(tmp_path)
    assert share(source, target, unfinished) == REFLINK
    assert not source.samefile(target)
    target.write_bytes(b"tagged by a player")
    assert source.read_bytes() == b"sound"


def test_a_disk_that_can_do_neither_copies(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    no_clones(monkeypatch)

    def refuse(*arguments: object) -> None:
        raise OSError(errno.EPERM, "no")

    monkeypatch.setattr(os, "link", refuse)
    source, target, unfinished = folders(tmp_path)
    assert share(source, target, unfinished) == COPY
    assert target.read_bytes() == b"sound"
    assert not source.samefile(target)


def test_a_failure_changes_nothing(tmp_path: Path) -> None:
    source, target, unfinished = folders(tmp_path)
    target.write_bytes(b"what lay there")
    source.unlink()
    with pytest.raises(OSError, match="kept"):
        share(source, target, unfinished)
    assert target.read_bytes() == b"what lay there"
    assert list(unfinished.iterdir()) == []
