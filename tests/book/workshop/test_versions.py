"""What besides the manuscript renames what is built: our own files, wherever they lie, and the libraries."""

import shutil
from collections.abc import Callable
from importlib.metadata import version
from pathlib import Path

import pytest

import shedbook
from shedbook.book.workshop import versions

OURS = Path(shedbook.__file__).parent


@pytest.fixture
def copied(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A copy of our source files, which is taken for ours."""
    copy = tmp_path / "shedbook"
    shutil.copytree(OURS, copy, ignore=shutil.ignore_patterns("__pycache__"))
    monkeypatch.setattr(versions, "_OURS", copy)
    return copy


def asked_anew(function: Callable[[], str]) -> str:
    """Return what a function gives that usually remembers its answer."""
    function.cache_clear()  # type: ignore[attr-defined]
    found = function()
    function.cache_clear()  # type: ignore[attr-defined]
    return found


@pytest.mark.parametrize(
    ("file", "books", "scores"),
    [
        pytest.param("theory/pitch.py", True, True, id="a floor below the book"),
        pytest.param("book/ground/tables/words.py", True, True, id="a table"),
        pytest.param("book/pages/templates/book.typ", True, True, id="a template"),
        pytest.param("sound/bass.py", True, False, id="what plays"),
        pytest.param("exchange/midi_in.py", True, False, id="what exchanges files"),
        pytest.param("cli/main.py", False, False, id="what talks to people"),
    ],
)
def test_a_changed_file_of_ours_renames_what_hangs_on_it(
    copied: Path, file: str, books: bool, scores: bool
) -> None:
    before = asked_anew(versions.fingerprint), asked_anew(versions.score_fingerprint)
    with (copied / file).open("a", encoding="utf-8") as opened:
        opened.write("\n")
    after = asked_anew(versions.fingerprint), asked_anew(versions.score_fingerprint)
    assert (before[0] != after[0], before[1] != after[1]) == (books, scores)


def test_one_module_hangs_on_those_that_it_takes_from(copied: Path) -> None:
    def pitch() -> str:
        versions.fingerprint_of.cache_clear()
        return versions.fingerprint_of("shedbook.theory.pitch")

    before = pitch()
    for file, renamed in (("sound/track.py", False), ("theory/interval.py", True)):
        with (copied / file).open("a", encoding="utf-8") as opened:
            opened.write("\n")
        assert (pitch() != before) is renamed
    versions.fingerprint_of.cache_clear()


def test_our_files_are_those_of_every_floor() -> None:
    assert versions._OURS == OURS
    assert {"shedbook.theory", "shedbook.theory.interval"} <= set(versions.taken_in("shedbook.theory.pitch"))


@pytest.mark.parametrize("library", versions.LIBRARIES)
def test_the_version_of_a_library_is_that_of_its_metadata(library: str) -> None:
    """importlib.metadata is the standard library's own answer."""
    assert versions.library_version(library) == version(library)


def test_a_library_that_is_not_there_has_no_version() -> None:
    assert versions.library_version("no_such_library") == ""
