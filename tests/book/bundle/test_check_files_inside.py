"""One damaged file of a zip hides no other."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import pytest

from shedbook.book.bundle import check_files
from shedbook.book.bundle.manifest import BOOK, MIDI

TEXT = {"title": "Low tide", "changes": "Dm7", "line": "1/1 d4"}


def row(name: str, role: str) -> Any:
    return SimpleNamespace(name=name, role=role, number=1, key="D minor", track=None, sha256="", pages=1)


def test_files_behind_one_that_is_missing_are_looked_at_too(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(check_files, "texts_by_key", lambda music: {(1, "D minor"): TEXT})
    files = (row("tides.pdf", BOOK), row("a.mid", MIDI), row("b.mid", MIDI))
    said: Any = SimpleNamespace(files=files, edition=SimpleNamespace(semitones=0), music=None)
    there: Any = None
    found = list(check_files._inside(said, {"b.mid": b""}, there))
    assert [(one.file, one.says) for one in found] == [("b.mid", "It is no MIDI file: EOFError.")]
