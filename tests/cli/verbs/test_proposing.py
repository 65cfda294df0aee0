"""The verbs that propose: what they print, what they write and where, what is told of bad input.

Source of the expectation: the design of the verbs: nothing is written but into the folder of --into.
"""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from cli.verbs.asked import as_json
from shedbook.book.manuscript.opening import open_manuscript
from shedbook.book.manuscript.source import read_phrase
from shedbook.cli.main import main

PHRASE = (
    'title = "Low tide"\nchanges = "Dm7b5 | G7b9 | Cm6 | %"\n'
    'line = "1/8 - f5 d c ab4 c5 eb d | f5 d b4 g# 1/4 b 1/8 d5 b4 | c5 eb g f 1/4 eb 1/8 d b4 | 1/2 c5 -"\n'
)
CHANGES = "Dm7 | G7 | Cmaj7 | %"


@pytest.fixture
def book(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A manuscript of one phrase, which stands where one works."""
    folder = tmp_path / "book"
    (folder / "phrases").mkdir(parents=True)
    (folder / "manuscript.toml").write_text('title = "Tides"\n', encoding="utf-8")
    (folder / "phrases" / "01-low-tide.toml").write_text(PHRASE, encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    return folder


def files(folder: Path) -> dict[str, bytes]:
    return {str(path): path.read_bytes() for path in sorted(folder.rglob("*")) if path.is_file()}


ASKED = {
    "draft": ["draft", "--changes", CHANGES, "--count", "2", "--unlike", "book"],
    "vary": ["vary", "book", "--do", "invert, easier"],
    "drill": ["drill", "dorian in thirds", "1 2 3 5 through ii-V-I"],
    "etude": ["etude", "--changes", "minor blues", "--from", "book"],
}


@pytest.mark.parametrize("verb", ASKED)
def test_it_prints_and_writes_nothing(verb: str, book: Path, capsys: pytest.CaptureFixture[str]) -> None:
    before = files(book.parent)
    assert main(ASKED[verb]) == 0
    assert " | " in capsys.readouterr().out
    assert files(book.parent) == before


@pytest.mark.parametrize("verb", ASKED)
def test_into_a_folder_it_writes_phrases_that_can_be_read(
    verb: str, book: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    before = files(book)
    into = book.parent / "new"
    assert main([*ASKED[verb], "--into", str(into)]) == 0
    capsys.readouterr()
    written = sorted(into.iterdir())
    assert written
    for path in written:
        (source,) = open_manuscript(path).phrases
        assert read_phrase(source).title
    assert files(book) == before
    first = files(into)
    assert main([*ASKED[verb], "--into", str(into)]) == 0
    assert first.items() <= files(into).items(), "nothing is written over"
    assert len(files(into)) == 2 * len(first)


@pytest.mark.parametrize("verb", ASKED)
def test_json_is_one_document(verb: str, book: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main([*ASKED[verb], "--json"]) == 0
    (first, *_) = as_json(capsys)
    one = first["drafts"][0] if verb == "draft" else first
    assert {"changes", "line"} <= one.keys()
    if verb == "draft":
        assert int(first["rhythms"]) > 10**6
        assert int(one["lines_over_its_rhythm"]) > 10**6
        assert one["reasons"]
    if verb == "etude":
        assert sum(piece["bars"] for piece in first["pieces"]) == 12


def test_fits_names_the_places(book: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["fits", str(book), "--changes", "minor ii-V-i in A"]) == 0
    assert "bars 1-4: Low tide, from C to A (as it stands)" in capsys.readouterr().out
    assert main(["fits", str(book), "--changes", "Bbmaj7 | %"]) == 1
    assert "None of the phrases" in capsys.readouterr().err


def test_what_nothing_satisfies_is_told_in_words(book: Path, capsys: pytest.CaptureFixture[str]) -> None:
    asked = ["draft", "--changes", "C7 | %", "--to", "F#", "--low", "C4", "--high", "C5"]
    assert main(asked) == 1
    assert "No line satisfies all of this. To get one, " in capsys.readouterr().err
    assert main([*asked, "--json"]) == 1
    (found,) = as_json(capsys)
    assert len(found["relax"]) == 1


@pytest.mark.parametrize(
    ("asked", "said"),
    [
        (["draft", "--changes", " | ".join(["C7"] * 1000)], "more than 64 bars"),
        (["etude", "--changes", " | ".join(["C7"] * 1000), "--from", "book"], "more than 64 bars"),
        (["fits", "book", "--changes", " | ".join(["C7"] * 1000)], "more than 64 bars"),
        (["draft", "--changes", CHANGES, "--low", "C5", "--high", "D5"], "no room for a line"),
        (["draft", "--changes", CHANGES, "--low", "H5"], "not a pitch"),
        (["draft", "--changes", CHANGES, "--from", "X"], "not a note"),
        (["draft", "--changes", CHANGES, "--fix", "nowhere"], "not a fixed note"),
        (["draft", "--changes", CHANGES, "--lean", "thirds"], "no leaning"),
        (["draft", "--changes", CHANGES, "--key", "H"], "not a key"),
        (["draft", "--changes", CHANGES, "--instrument", "kazoola"], "no edition"),
        (["draft", "--changes", "Dm7 | H7"], "H7"),
        (["draft", "--changes", CHANGES, "--unlike", "nowhere"], "nowhere"),
        (["vary", "book", "--do", "melt"], "no transformation"),
        (["vary", "book", "--keep", "9:9"], "No note is struck"),
        (["drill", "dorian in elevenths"], "no pattern"),
        (["drill", "dorian in thirds", "--root", "H"], "no root"),
        (["drill"], "Name a drill"),
        (["etude", "--changes", "blues in H", "--from", "book"], "no key"),
    ],
)
def test_bad_input_is_told(
    asked: list[str], said: str, book: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(asked) == 1
    assert said in capsys.readouterr().err


def test_the_patterns_are_listed(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["drill", "--list"]) == 0
    listed = capsys.readouterr().out
    assert "in thirds" in listed
    assert len(listed.splitlines()) == 19


def test_a_file_where_a_folder_should_be_is_refused(book: Path, capsys: pytest.CaptureFixture[str]) -> None:
    taken = book.parent / "taken"
    taken.write_text("here", encoding="utf-8")
    assert main([*ASKED["drill"], "--into", str(taken)]) == 1
    assert "Name another folder with --into." in capsys.readouterr().err
    assert json.dumps(taken.read_text(encoding="utf-8")) == '"here"'
