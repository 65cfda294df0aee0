"""The verb that proves a bundle, on a file that is none and on one without a fault."""

from __future__ import annotations

from pathlib import Path

import pytest

from cli.verbs.asked import as_json, run
from shedbook.book.bundle.opened import Fault
from shedbook.book.verbs import verify as library
from shedbook.cli.verbs import verify
from shedbook.errors import UnknownNameError


def test_a_fault_is_printed_and_ends_with_status_1(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "x.zip").write_bytes(b"x")
    assert run(verify, str(tmp_path / "x.zip")) == 1
    told = capsys.readouterr()
    assert told.out.startswith("x.zip: it is no whole zip file")
    assert "One thing is wrong." in told.err
    assert run(verify, str(tmp_path / "x.zip"), "--json") == 1
    assert as_json(capsys)[0]["faults"][0]["file"] == "x.zip"


def test_what_is_whole_ends_with_status_0(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    found = library.Verified((), 2, 30, 32, 36, 24)
    monkeypatch.setattr(library, "verify", lambda path, against: found)
    assert run(verify, "bundle") == 0
    assert (
        "2 zips, 30 pages with 32 scores, 36 files for other programs, 24 tracks. All is as it should be."
        in (capsys.readouterr().err)
    )
    monkeypatch.setattr(
        library, "verify", lambda path, against: library.Verified((Fault("a", "b"),) * 2, 1, 0, 0, 0, 0)
    )
    assert run(verify, "bundle") == 1
    assert "2 things are wrong" in capsys.readouterr().err


def test_what_is_not_there() -> None:
    with pytest.raises(UnknownNameError, match="no file or folder"):
        run(verify, "nowhere.zip")
