"""A catalogue brought up to date is what a catalogue made anew would be."""

from __future__ import annotations

import os
import shutil
from collections.abc import Callable
from pathlib import Path

import pytest

from catalogue.books import UP_A_STEP, book
from shedbook.book.ground.progress import Step
from shedbook.book.manuscript.source import PhraseSource
from shedbook.catalogue import keeping
from shedbook.catalogue.entry import Entry, entry_of
from shedbook.catalogue.index_file import IndexFile, default_index
from shedbook.catalogue.keeping import bring_up_to_date, open_catalogue
from shedbook.errors import ManuscriptError, OutputError
from shedbook.phrase.model import Phrase


def everything(index: IndexFile) -> list[tuple[object, ...]]:
    """Return all that an index says, without the numbers of its rows and the times of files."""
    phrases = index.rows(
        "SELECT folder, book.title, ordinal, content, file, place, number, id, phrase.title, key, metre,"
        " tempo, feel, full_bars, changes, chords, level, words.text, pitches, steps, gaps, bars, beats,"
        " (SELECT group_concat(kind || name, '|') FROM (SELECT kind, name FROM term WHERE"
        " term.phrase = phrase.phrase ORDER BY kind, name))"
        " FROM phrase JOIN book USING (book) JOIN words ON words.rowid = phrase.phrase"
    )
    return sorted(phrases, key=str)


def add_a_phrase(root: Path) -> None:
    (root / "harbour" / "phrases" / "00-new.toml").write_text(UP_A_STEP, encoding="utf-8")


def edit_a_phrase(root: Path) -> None:
    file = root / "harbour" / "phrases" / "01-quay.toml"
    file.write_text(file.read_text(encoding="utf-8").replace("d5 f ab", "d5 f a "), encoding="utf-8")


def edit_settings(root: Path) -> None:
    (root / "harbour" / "manuscript.toml").write_text('title = "Other"\ntempo = 90\n', encoding="utf-8")


def remove_a_phrase(root: Path) -> None:
    (root / "harbour" / "phrases" / "02-mole.toml").unlink()


def remove_a_book(root: Path) -> None:
    shutil.rmtree(root / "more")


def add_a_book(root: Path) -> None:
    book(root / "another", one=UP_A_STEP)


def move_a_book(root: Path) -> None:
    (root / "more").rename(root / "elsewhere")


EDITS = [add_a_phrase, edit_a_phrase, edit_settings, remove_a_phrase, remove_a_book, add_a_book, move_a_book]


@pytest.mark.parametrize("edit", EDITS, ids=lambda edit: edit.__name__)
def test_after_a_change_it_is_as_if_made_anew(
    edit: Callable[[Path], None], root: Path, index: IndexFile, tmp_path: Path
) -> None:
    before = everything(index)
    edit(root)
    assert bring_up_to_date(index, root).read + bring_up_to_date(index, root).gone <= 2
    with IndexFile(tmp_path / "anew.sqlite") as anew:
        bring_up_to_date(anew, root)
        assert everything(index) == everything(anew)
    assert everything(index) != before


def test_nothing_is_read_where_nothing_changed(
    root: Path, index: IndexFile, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(keeping, "open_manuscript", None)  # would fail if it were called
    assert (bring_up_to_date(index, root).read, bring_up_to_date(index, root).gone) == (0, 0)


def test_only_what_changed_is_accounted_for_again(
    root: Path, index: IndexFile, monkeypatch: pytest.MonkeyPatch
) -> None:
    seen = []

    def noticed(source: PhraseSource, phrase: Phrase, content: str, *, accounted: bool) -> Entry:
        seen.append(source.title)
        return entry_of(source, phrase, content, accounted=accounted)

    monkeypatch.setattr(keeping, "entry_of", noticed)
    edit_a_phrase(root)
    bring_up_to_date(index, root, only=root / "harbour" / "phrases" / "01-quay.toml")
    assert seen == ["Quay"]


def test_a_file_that_the_caller_names_belongs_to_the_catalogue(
    index: IndexFile, root: Path, tmp_path: Path
) -> None:
    with pytest.raises(ManuscriptError, match="belongs to no manuscript"):
        bring_up_to_date(index, root, only=tmp_path)


def test_what_cannot_be_read_is_told_and_the_rest_is_there(root: Path, index: IndexFile) -> None:
    (root / "harbour" / "phrases" / "01-quay.toml").write_text(
        'title = "Quay"\nline = "1/4 h5"\n', encoding="utf-8"
    )
    news = bring_up_to_date(index, root)
    assert [one.folder for one in news.unread] == ["harbour"]
    assert index.rows("SELECT title, number FROM phrase ORDER BY title") == [("Mole", 2), ("Pier", 1)]


def test_what_was_built_is_not_looked_through(root: Path, index: IndexFile) -> None:
    built = root / "harbour" / "built"
    built.mkdir()
    (built / ".shedbook-output").write_text("", encoding="utf-8")
    (built / "copy.toml").write_text(UP_A_STEP, encoding="utf-8")
    assert bring_up_to_date(index, root).read == 0


def test_without_the_account_there_are_no_terms_and_it_is_made_later(root: Path, tmp_path: Path) -> None:
    with IndexFile(tmp_path / "quick.sqlite") as index:
        bring_up_to_date(index, root, accounted=False)
        assert index.rows("SELECT count(*) FROM term") == [(0,)]
        assert index.rows("SELECT DISTINCT level FROM phrase") == [(0,)]
        assert bring_up_to_date(index, root).read == 2
        assert index.rows("SELECT count(*) FROM term") != [(0,)]


def test_a_phrase_that_is_shared_stands_in_its_own_book_alone(root: Path, index: IndexFile) -> None:
    bring_up_to_date(index, root)
    before = len(everything(index))
    book(root / "borrower", one='from = "../harbour#wall"\n')
    (unread,) = bring_up_to_date(index, root).unread
    assert 'No phrase of ../harbour has the id "wall".' in str(unread)
    (root / "borrower" / "phrases" / "one.toml").write_text('from = "../harbour#quay"\n', encoding="utf-8")
    assert not bring_up_to_date(index, root).unread
    assert len(everything(index)) == before


def test_two_processes_read_what_one_reads(root: Path, index: IndexFile, tmp_path: Path) -> None:
    with IndexFile(tmp_path / "two.sqlite") as two:
        steps: list[Step] = []
        bring_up_to_date(two, root, processes=2, tell=steps.append)
        assert everything(two) == everything(index)
    assert [(step.done, step.of) for step in steps] == [(2, 2)]


@pytest.mark.parametrize(
    "content", [b"not a database at all, though long enough to be read as one" * 20, b""]
)
def test_a_damaged_index_is_made_anew(content: bytes, root: Path, tmp_path: Path) -> None:
    file = tmp_path / "index.sqlite"
    file.write_bytes(content)
    with open_catalogue(root, file) as (index, news):
        assert news.read == 2
        assert index.rows("SELECT count(*) FROM phrase") == [(3,)]


def test_an_index_of_another_version_is_made_anew(root: Path, tmp_path: Path) -> None:
    file = tmp_path / "index.sqlite"
    with open_catalogue(root, file) as (index, _):
        index.rows("PRAGMA user_version = 99")
    with open_catalogue(root, file) as (_, news):
        assert news.read == 2


def test_folders_that_are_not_there_or_empty_are_told(tmp_path: Path) -> None:
    with pytest.raises(ManuscriptError, match="no folder"), open_catalogue(tmp_path / "gone", tmp_path / "i"):
        pass
    (tmp_path / "empty").mkdir()
    with (
        pytest.raises(ManuscriptError, match="no manuscript"),
        open_catalogue(tmp_path / "empty", tmp_path / "i"),
    ):
        pass


@pytest.mark.skipif(os.geteuid() == 0, reason="root may write everywhere")
def test_an_index_that_cannot_be_written_is_told(root: Path, tmp_path: Path) -> None:
    (tmp_path / "closed").mkdir(mode=0o500)
    with (
        pytest.raises(OutputError, match="cannot be opened"),
        open_catalogue(root, tmp_path / "closed" / "i"),
    ):
        pass


def test_an_index_in_place_of_a_folder_is_told(root: Path, tmp_path: Path) -> None:
    with pytest.raises(OutputError, match="cannot be opened"), open_catalogue(root, tmp_path):
        pass


def test_each_folder_has_an_index_of_its_own(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    one, other = default_index(tmp_path / "one"), default_index(tmp_path / "other")
    assert one != other
    assert one.parent == tmp_path / "cache" / "shedbook"
