"""Where a change reaches, and what a customer must have anew."""

from __future__ import annotations

from pathlib import Path

import pytest

from catalogue.books import PHRASES, book
from catalogue.bundles import CHANGED, bundle, without_id
from shedbook.book.manuscript.opening import open_manuscript
from shedbook.catalogue.book_state import state_of_bundle
from shedbook.catalogue.downloads import Reach, downloads, reach_of
from shedbook.catalogue.errata import compared, errata
from shedbook.errors import ManuscriptError


def test_a_note_between_two_bundles(tmp_path: Path) -> None:
    old, new = bundle(tmp_path / "old", "1.0", **PHRASES), bundle(tmp_path / "new", "1.1", **CHANGED)
    found = compared(state_of_bundle(old), state_of_bundle(new))
    (one,) = found.errata
    assert (one.number, one.goes_on, len(one.differences)) == (1, True, 1)
    tracks = ("tracks/001-0.mp3", "tracks/001-1.mp3")
    assert list(reach_of(one, found)) == [
        Reach("Concert edition", ("C minor", "F minor"), ("5", "6"), tracks),
        Reach("B♭ edition", ("D minor", "G minor"), ("5", "6"), tracks),
    ]
    first, second = downloads(found)
    assert (first.file, second.file) == ("tides-concert-1.1.zip", "tides-bflat-1.1.zip")
    assert len(first.changed) == 5  # the book, and two keys each as MusicXML and as a track
    assert (first.new, first.gone, first.changed_bytes) == ((), (), 1000 + 2 * 5100)


def test_one_zip_against_another(tmp_path: Path) -> None:
    old, new = bundle(tmp_path / "old", "1.0", **PHRASES), bundle(tmp_path / "new", "1.1", **CHANGED)
    states = (
        state_of_bundle(one / f"tides-bflat-{version}.zip") for one, version in ((old, "1.0"), (new, "1.1"))
    )
    assert [one.edition for one in downloads(compared(*states))] == ["B♭ edition"]


def test_a_phrase_more_and_one_less(tmp_path: Path) -> None:
    old = bundle(tmp_path / "old", "1.0", a=PHRASES["01-quay"])
    new = bundle(tmp_path / "new", "1.1", a=PHRASES["02-mole"])
    found = compared(state_of_bundle(old), state_of_bundle(new))
    assert [one.happened for one in found.errata] == ["new", "gone"]
    assert [list(reach_of(one, found)) != [] for one in found.errata] == [True, False]
    assert not any(one.goes_on for one in found.errata)


def test_the_same_bundle_needs_nothing(tmp_path: Path) -> None:
    state = state_of_bundle(bundle(tmp_path / "new", "1.1", **CHANGED))
    found = compared(state, state)
    assert (found.errata, found.settings, downloads(found)) == ((), (), ())


def test_two_manuscripts_name_keys_and_editions_but_no_pages(tmp_path: Path) -> None:
    old, new = book(tmp_path / "old", **PHRASES), book(tmp_path / "new", **CHANGED)
    (new / "manuscript.toml").write_text(
        'title = "Old"\neditions = "concert, bflat"\nkeys = "C F"\n', "utf-8"
    )
    found = errata(open_manuscript(old), open_manuscript(new))
    (one,) = found.errata
    assert [(each.edition, each.keys, each.pages) for each in reach_of(one, found)] == [
        ("Concert edition", ("C minor", "F minor"), ()), ("B♭ edition", ("D minor", "G minor"), ()),
    ]  # fmt: skip
    assert downloads(found) == ()


def test_ticks_do_not_go_on_under_another_name(tmp_path: Path) -> None:
    old, new = book(tmp_path / "old", **without_id(PHRASES)), book(tmp_path / "new", **PHRASES)
    (one,) = errata(open_manuscript(old), open_manuscript(new)).errata
    assert not one.goes_on


def test_what_is_no_bundle(tmp_path: Path) -> None:
    (tmp_path / "x.zip").write_bytes(b"x")
    with pytest.raises(ManuscriptError, match="no whole bundle"):
        state_of_bundle(tmp_path / "x.zip")
