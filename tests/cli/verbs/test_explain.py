"""`shedbook explain`: what it says, and what is said of a phrase that cannot be read."""

from pathlib import Path

import pytest

from cli.verbs.asked import GOOD, as_json
from shedbook.cli.main import main


def test_explain_puts_the_error_in_the_place_of_its_phrase(
    manuscript: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["explain", str(manuscript), "--json"]) == 1
    first, second, third = as_json(capsys)
    assert (first["title"], third["title"]) == ("One", "Three")
    assert set(second) == {"input", "error"}
    assert "bar 2" in second["input"]
    assert "missing" in second["error"], "the mend belongs to it"


@pytest.mark.parametrize("asked", [["nowhere.toml"], ["nowhere.toml", "--phrase", "2"]])
def test_explain_of_nothing_is_one_error_object(asked: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["explain", *asked, "--json"]) == 1
    (found,) = as_json(capsys)
    assert found["input"] == " ".join(asked)
    assert "nowhere.toml" in found["error"]


def test_a_phrase_that_is_not_there_is_one_error_object(
    manuscript: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["explain", str(manuscript), "--phrase", "Four", "--json"]) == 1
    (found,) = as_json(capsys)
    assert "Four" in found["error"]


def test_a_metre_that_is_none_is_one_error_object(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["changes", "Dm7 | G7", "--metre", "7/9", "--json"]) == 1
    (found,) = as_json(capsys)
    assert "7/9" in found["error"]


def test_explain_speaks_for_the_reader_of_an_edition(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "lone.toml").write_text(GOOD, encoding="utf-8")
    assert main(["explain", str(tmp_path / "lone.toml"), "--edition", "eflat"]) == 0
    said = capsys.readouterr().out
    assert "A major:  Bm7 | E7" in said
    assert "Dm7" not in said
    assert main(["explain", str(tmp_path / "lone.toml"), "--edition", "eflat", "--json"]) == 0
    notes = as_json(capsys)[0]["notes"]
    assert [(note["pitch"], note["written"], note["chord"]) for note in notes[:2]] == [
        ("D5", "B4", "Dm7"),
        ("E5", "C#5", "Dm7"),
    ]
    assert main(["explain", str(tmp_path / "lone.toml"), "--edition", "sharp"]) == 1
    assert 'no edition "sharp"' in capsys.readouterr().err
