"""The build of the page: what is made anew, and what is said where a phrase cannot be read."""

from dataclasses import replace
from pathlib import Path

from practice_opened import SETTINGS, manuscript
from shedbook.book.manuscript.opening import open_manuscript
from shedbook.book.manuscript.request import Request
from shedbook.book.practice.make import book_ids, phrase_id
from shedbook.book.verbs.build import build


def test_a_second_build_makes_nothing_and_a_change_one_phrase(practice_book: Path) -> None:
    request = Request(practice_book, practice_book.parent / "out")
    assert build(request).jobs_run == 0


def test_a_page_that_somebody_removed_is_made_again(tmp_path: Path) -> None:
    root = manuscript(tmp_path / "book")
    (root / "manuscript.toml").write_text(SETTINGS.replace("C F Bb", "C"), encoding="utf-8")
    for name in ("02-slip.toml", "03-pick-up.toml"):
        (root / "phrases" / name).unlink()
    request = Request(root, tmp_path / "out")
    first = build(request).practice_page
    assert first is not None
    first.unlink()
    assert build(request).practice_page == first
    assert first.is_file()


def test_a_page_is_made_where_it_is_asked_for_alone(tmp_path: Path) -> None:
    root = manuscript(tmp_path / "book")
    (root / "manuscript.toml").write_text('title = "Plain"\nkeys = "C"\n', encoding="utf-8")
    assert build(Request(root, tmp_path / "out", phrases=("1",))).practice_page is None
    asked = build(Request(root, tmp_path / "out", phrases=("1",), practice_page=True)).practice_page
    assert asked is not None
    assert asked.parent.name == "book-practice-phrases-1"
    assert not (asked.parent / "tracks.js").exists()


def test_the_tracks_of_the_same_build_are_named(tmp_path: Path) -> None:
    root = manuscript(tmp_path / "book")
    tracks = '[tracks]\nkinds = "line"\nformats = "wav"\nrounds = 1\nphrases = [2]\nkeys = "C"\n'
    (root / "manuscript.toml").write_text(f'title = "Plain"\nkeys = "C"\n{tracks}', encoding="utf-8")
    request = Request(root, tmp_path / "out", phrases=("2",), practice_page=True)
    made = build(request)
    assert made.practice_page is not None
    said = (made.practice_page.parent / "tracks.js").read_text(encoding="utf-8")
    (track,) = made.tracks
    assert f'"02-slip":[["C","line",100.0,"",["../tracks/{track.name}"],0]]' in said
    assert (made.practice_page.parent / f"../tracks/{track.name}").is_file()
    assert build(request).jobs_run == 0
    without = build(replace(request, tracks=("none",))).practice_page
    assert without is not None
    assert not (without.parent / "tracks.js").exists()


def test_a_page_that_is_no_longer_asked_for_is_named_and_put_apart(tmp_path: Path) -> None:
    root = manuscript(tmp_path / "book")
    (root / "manuscript.toml").write_text('title = "Plain"\nkeys = "C"\n', encoding="utf-8")
    for name in ("02-slip.toml", "03-pick-up.toml"):
        (root / "phrases" / name).unlink()
    out = tmp_path / "out"
    assert build(Request(root, out)).warnings == ()
    page = build(Request(root, out, practice_page=True)).practice_page
    assert page is not None
    (page.parent / "mine.txt").write_text("a student's", encoding="utf-8")
    assert build(Request(root, out, phrases=("1",))).warnings == ()
    assert page.is_file()
    for again in (False, True):
        (told,) = build(Request(root, out)).warnings  # its record knows nothing of the page
        assert told.message == "book-practice is a student's page that manuscript.toml no longer asks for."
        assert told.hint == "It was put into earlier/, so that it is not sold by mistake."
        assert not page.parent.exists()
        assert (out / "earlier/book-practice/mine.txt").is_file() is not again
        assert (out / "earlier/book-practice/index.html").is_file()
        build(Request(root, out, practice_page=True))
    (out / "book-practice/book.js").unlink()
    assert build(Request(root, out)).warnings == ()  # a folder of somebody else's by this name


def test_a_book_keeps_its_name_where_its_folder_is_renamed(tmp_path: Path) -> None:
    """Two teachers may call their folders alike; what a folder is called is remembered for pages of old."""
    root = manuscript(tmp_path / "book")
    assert book_ids(open_manuscript(root)) == ("small-water-invented", "book")
    assert book_ids(open_manuscript(root.rename(tmp_path / "tides"))) == ("small-water-invented", "tides")
    named = (tmp_path / "tides/manuscript.toml").read_text(encoding="utf-8") + 'id = "water.1"\n'
    (tmp_path / "tides/manuscript.toml").write_text(named, encoding="utf-8")
    assert book_ids(open_manuscript(tmp_path / "tides")) == ("water.1", "small-water-invented", "tides")


def test_the_name_of_a_phrase_stays_where_phrases_are_moved(tmp_path: Path) -> None:
    first, second, _ = open_manuscript(manuscript(tmp_path / "book")).phrases
    assert phrase_id(first, set()) == "low-tide"
    assert phrase_id(second, set()) == "02-slip"
    assert phrase_id(replace(second, number=7), set()) == "02-slip"
    assert phrase_id(replace(second, in_table=True, index=2), set()) == "02-slip-3"
    assert phrase_id(second, {"02-slip"}) == "02-slip-2"
    assert phrase_id(replace(first, in_table=True, index=2), set()) == "low-tide"  # the author's own
