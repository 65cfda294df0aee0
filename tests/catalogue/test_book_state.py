"""A manuscript and a bundle as what can be compared."""

from __future__ import annotations

from pathlib import Path

from catalogue.books import PHRASES, book
from catalogue.bundles import bundle
from shedbook.book.manuscript.opening import open_manuscript
from shedbook.catalogue.book_state import is_bundle, state_of_bundle, state_of_manuscript
from shedbook.catalogue.errata import compared


def test_a_manuscript_and_its_bundle_hold_the_same_phrases(tmp_path: Path) -> None:
    state = state_of_manuscript(open_manuscript(book(tmp_path / "tides", **PHRASES)))
    folder = bundle(tmp_path / "bundle", "1", **PHRASES)
    assert (state.version, state.title) == ("1", "Tides")
    assert not is_bundle(tmp_path / "tides")
    assert is_bundle(folder)
    assert is_bundle(folder / "tides-bflat-1.zip")
    assert compared(state_of_bundle(folder), state).errata == ()


def test_every_key_of_a_manuscript_is_named(tmp_path: Path) -> None:
    (edition,) = state_of_manuscript(open_manuscript(book(tmp_path / "tides", **PHRASES))).editions
    assert sorted(edition.keys) == [1, 2]
    assert len(edition.keys[1]) == 12
