"""What lies beside the zips is held against them. Whole bundles are tested in test_check_files.py."""

from __future__ import annotations

import json
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest

from shedbook.book.bundle.check_together import _listing
from shedbook.book.bundle.manifest import BOOK, TRACK

RIGHT = {"pages": {"concert": 40, "bflat": 41}, "contents": [[1, "Low tide"], [2, "Ebb"]]}


def made(name: str, pages: int) -> Any:
    rows = (SimpleNamespace(role=TRACK, pages=0), SimpleNamespace(role=BOOK, pages=pages))
    phrases = tuple(SimpleNamespace(number=one, title=title) for one, title in ((1, "Low tide"), (2, "Ebb")))
    edition = SimpleNamespace(name=name, title=f"{name} edition")
    return SimpleNamespace(edition=edition, files=rows, phrases=phrases)


@pytest.mark.parametrize(
    ("other", "said"),
    [
        ({}, []),
        ({"pages": {"concert": 40, "bflat": 40}}, ["It does not say that the bflat edition has 41 pages."]),
        ({"pages": {}}, [f"It does not say that the {one}" for one in ("concert", "bflat")]),
        ({"contents": [[1, "Low tide"]]}, ["Its contents are not those of the book."] * 2),
        ({"contents": [[2, "Low tide"], [1, "Ebb"]]}, ["Its contents are not those of the book."] * 2),
    ],
)
def test_a_listing_is_held_against_every_zip(
    tmp_path: Path, other: dict[str, object], said: list[str]
) -> None:
    (tmp_path / "listing.json").write_text(json.dumps({**RIGHT, **other}), encoding="utf-8")
    found = list(_listing(tmp_path, [made("concert", 40), made("bflat", 41)]))
    assert len(found) == len(said)
    for fault, words in zip(found, said, strict=True):
        assert fault.file == "listing.json"
        assert fault.says.startswith(words)


def test_a_listing_that_is_not_there_is_told_elsewhere(tmp_path: Path) -> None:
    assert list(_listing(tmp_path, [made("concert", 40)])) == []
