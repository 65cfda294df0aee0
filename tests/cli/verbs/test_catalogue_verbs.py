"""The verbs that ask a folder of books."""

from __future__ import annotations

from pathlib import Path

import pytest

from catalogue.books import PHRASES, book, shelf
from cli.verbs.asked import as_json, run
from shedbook.cli.verbs import errata, find, gaps, twins
from shedbook.errors import NotationError, ShedbookError, UnknownNameError


@pytest.fixture
def asked(tmp_path: Path) -> tuple[str, ...]:
    return (str(shelf(tmp_path / "books")), "--index", str(tmp_path / "index.sqlite"))


def test_find_tells_where(asked: tuple[str, ...], capsys: pytest.CaptureFixture[str]) -> None:
    assert run(find, *asked, "--melody", "d5 f ab c6") == 0
    told = capsys.readouterr()
    assert told.out == (
        "Quay  (C minor, level 2)\n  harbour/phrases/01-quay.toml, number 1 of Harbour\n"
        "  Dm7b5 | G7b9 | Cm6 | %\n  from bar 1\n\n"
        "Pier  (D minor, level 2)\n  more/pier/phrases/01-pier.toml, number 1 of Pier\n"
        "  Em7b5 | A7b9 | Dm6 | %\n  from bar 1, 2 half steps higher\n\n"
    )
    assert told.err.endswith("2 found.\n")


def test_find_as_json(asked: tuple[str, ...], capsys: pytest.CaptureFixture[str]) -> None:
    assert (
        run(find, *asked, "--melody", "d5 f ab c6 bb5 ab g f#", "--wrong", "1", "--level", "1-3", "--json")
        == 0
    )
    found = as_json(capsys)
    assert [(one["title"], one["spot"]["wrong"], one["spot"]["semitones"]) for one in found] == [
        ("Quay", 1, 0), ("Pier", 1, 2),
    ]  # fmt: skip


def test_nothing_found_is_status_1(asked: tuple[str, ...], capsys: pytest.CaptureFixture[str]) -> None:
    assert run(find, *asked, "--words", "anchor") == 1
    assert capsys.readouterr().err.endswith("Nothing found.\n")


REFUSED = [
    ((), ShedbookError, "Nothing is asked"),
    (("--melody", "d5 f"), NotationError, "has 2 notes"),
    (("--scale", "dorain"), UnknownNameError, "No phrase has the scale"),
    (("--level", "9"), NotationError, "no level"),
]


@pytest.mark.parametrize(("options", "error", "says"), REFUSED)
def test_find_refuses(
    options: tuple[str, ...], error: type[Exception], says: str, asked: tuple[str, ...]
) -> None:
    with pytest.raises(error, match=says):
        run(find, *asked, *options)


def test_twins(asked: tuple[str, ...], capsys: pytest.CaptureFixture[str]) -> None:
    assert run(twins, *asked) == 0
    assert capsys.readouterr().out == (
        "100 of 100 notes alike\n  Quay  harbour/phrases/01-quay.toml, number 1\n"
        "  Pier  more/pier/phrases/01-pier.toml, number 1\n\n"
    )
    run(twins, *asked, "--json")
    assert as_json(capsys)[0]["alike"] == 1.0


def test_gaps(asked: tuple[str, ...], capsys: pytest.CaptureFixture[str]) -> None:
    assert run(gaps, *asked, "--most", "500") == 0
    told = capsys.readouterr().out
    assert "No melodic minor over minor ii–V–i at level 5; 2 phrases at other levels.\n" in told
    assert "Nothing over " in told
    run(gaps, *asked, "--json")
    assert as_json(capsys)[0]["phrases"] == 2


def test_what_cannot_be_read_is_told_beside_the_answer(
    asked: tuple[str, ...], capsys: pytest.CaptureFixture[str]
) -> None:
    broken = Path(asked[0]) / "harbour" / "phrases" / "03-broken.toml"
    broken.write_text('title = "Broken"\nchanges = "C"\nline = "1/4 h5"\n', encoding="utf-8")
    assert run(twins, *asked) == 1
    assert "harbour: phrases/03-broken.toml:3" in capsys.readouterr().err


def test_errata(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    old = book(tmp_path / "old", **PHRASES)
    new = book(
        tmp_path / "new", **{**PHRASES, "01-quay": PHRASES["01-quay"].replace("d5 f ab", "d5 f a ", 1)}
    )
    assert run(errata, str(old), str(new)) == 0
    assert capsys.readouterr().out == (
        "1. Quay\n  bar 1, beat 2: note Ab5 is now A5\n  Made anew: scores in every key, tracks.\n"
        "  Concert edition: in C minor, F minor, Bb minor, Eb minor, Ab minor, C# minor, F# minor, B minor, "
        "E minor, A minor, D minor, G minor\n\n"
        "Settings of the book: title.\n\nEvery edition that holds one of these phrases must be had anew.\n"
    )
    run(errata, str(old), str(new), "--json")
    (found,) = as_json(capsys)
    assert found["phrases"][0]["differences"] == [
        {"what": "note", "bar": 1, "beat": "2", "was": "Ab5", "now": "A5"}
    ]
    run(errata, str(old), str(old))
    assert capsys.readouterr().out == "Nothing changed.\n"
