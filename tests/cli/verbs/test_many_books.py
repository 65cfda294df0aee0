"""Several books in one command, and phrases that they share: what is printed, and what fails alone."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from cli.verbs.asked import as_json
from shedbook.cli.main import main

PHRASE = 'title = "{}"\nid = "{}"\nchanges = "Cm6"\nline = "1/4 c4 eb g a"\n'


@pytest.fixture
def shelf(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Three books, of which the second cannot be read."""
    for name in ("harbour", "lake", "river"):
        (tmp_path / name / "phrases").mkdir(parents=True)
        (tmp_path / name / "manuscript.toml").write_text(
            f'title = "{name}"\nkeys = "C"\neditions = ["concert"]\n'
        )
        (tmp_path / name / "phrases" / "01.toml").write_text(PHRASE.format(name.title(), name))
    (tmp_path / "lake" / "phrases" / "01.toml").write_text('changes = "Cm6"\nline = "1/4 h4"\n')
    monkeypatch.chdir(tmp_path)
    return tmp_path


def test_a_book_that_cannot_be_read_stops_no_other(shelf: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["build", "harbour", "lake", "river", "--out", "made"]) == 1
    said = capsys.readouterr()
    assert sorted(path.parent.name for path in (shelf / "made").rglob("*.pdf")) == ["harbour", "river"]
    assert "German name" in said.err
    assert said.err.rstrip().endswith("2 books made; not made: lake.")
    assert not (shelf / "made" / "lake").exists()


def test_each_of_several_books_is_an_object(shelf: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["build", "harbour", "nowhere", "river", "--out", "made", "--json"]) == 1
    one, two, three = json.loads(capsys.readouterr().out)
    assert [Path(found["books"][0]).name for found in (one, three)] == [
        "harbour-concert.pdf",
        "river-concert.pdf",
    ]
    assert "nowhere" in two["error"]


def test_two_books_of_one_name_are_not_laid_into_one_folder(
    shelf: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["build", "harbour", "./harbour", "--out", "made"]) == 1
    assert 'Two of the books are called "harbour"' in capsys.readouterr().err
    assert not (shelf / "made").exists()


def test_what_is_shared_is_listed_pinned_and_let_go(shelf: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["share", "river"]) == 0
    assert capsys.readouterr().out == "This book takes no phrase from another.\n"
    (shelf / "river" / "phrases" / "02.toml").write_text('from = "../harbour#harbour"\n')
    assert main(["share", "river", "--pin"]) == 0
    assert "../harbour#harbour, pinned, version " in capsys.readouterr().out
    assert len(list((shelf / "river" / "shared").iterdir())) == 1
    assert main(["share", "river", "--follow", "2", "--json"]) == 0
    (found,) = as_json(capsys)
    assert (found["state"], found["pinned"], found["number"]) == ("in step", "", 2)


def test_what_a_store_holds_is_told_and_thrown_away_only_when_asked(
    shelf: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["tidy", "harbour"]) == 1
    assert "no folder that a build has made" in capsys.readouterr().err
    assert main(["build", "harbour", "--quiet"]) == 0
    capsys.readouterr()
    assert main(["tidy", "harbour"]) == 0
    assert "pictures of scores: 4 files, " in capsys.readouterr().out
    assert main(["tidy", "harbour", "--keep", "-1"]) == 1
    capsys.readouterr()
    book = (shelf / "harbour-build" / "harbour-concert.pdf").read_bytes()
    assert main(["tidy", "harbour", "--keep", "0", "--json"]) == 0
    (found,) = as_json(capsys)
    assert found["freed_bytes"] > 1000
    assert sum(one["bytes"] for one in found["store"]) == 0
    assert main(["build", "harbour", "--quiet"]) == 0
    assert (shelf / "harbour-build" / "harbour-concert.pdf").read_bytes() == book
