"""Mistakes planted in a finished bundle, with `tools/plant_mistakes.py`; docs/bundle.md has all figures.

Source of what is planted: the mistakes that a person or a disk makes (common practice).
"""

from __future__ import annotations

from pathlib import Path

import pytest

from plant_mistakes import MISTAKES, Books, build_books, found_in
from shedbook.book.bundle.check_files import check_zip
from shedbook.book.verbs.verify import verify
from shedbook.sound.audio.synthesiser import synth_for

_EVERY = 9
"""Every ninth mistake is planted here; the tool plants them all."""
_SOUND = ("track", "preview")


def _sounds() -> bool:
    try:
        synth_for(None)
    except Exception:
        return False
    return True


SOUNDS = _sounds()


@pytest.fixture(scope="module")
def books(tmp_path_factory: pytest.TempPathFactory) -> Books:
    return build_books(tmp_path_factory.mktemp("planted"))


def test_more_than_fifty_mistakes_are_known() -> None:
    assert len(MISTAKES) >= 50
    assert len({called for called, _ in MISTAKES}) == len(MISTAKES)


def test_the_bundle_itself_is_as_it_should_be(books: Books) -> None:
    found = verify(books.new, books.manuscript, jobs=1)
    assert found.faults == ()
    assert (found.zips, found.files) == (2, 16)
    assert found.scores >= 12


def test_the_version_before_is_whole_but_not_of_this_manuscript(books: Books) -> None:
    assert verify(books.old, jobs=1).faults == ()
    said = {fault.says for fault in verify(books.old, books.manuscript, jobs=1).faults}
    assert "It is version 1.0, the manuscript 1.1." in said
    assert "1. Low tide in C minor is not what the manuscript says." in said


@pytest.mark.parametrize("at", range(0, len(MISTAKES), _EVERY), ids=lambda at: MISTAKES[at][0])
def test_a_planted_mistake_is_found(books: Books, tmp_path: Path, at: int) -> None:
    called, plant = MISTAKES[at]
    if not SOUNDS and any(word in called for word in _SOUND):
        pytest.skip("no SoundFont is installed: the bundle has no sound")
    assert found_in(books, tmp_path, plant)


def test_something_else_is_no_bundle(tmp_path: Path) -> None:
    path = tmp_path / "song.zip"
    path.write_bytes(b"no zip")
    assert "no whole zip" in check_zip(path).faults[0].says
