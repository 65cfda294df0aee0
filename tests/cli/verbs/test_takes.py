from __future__ import annotations

import json
from pathlib import Path

import pytest

from book.verbs.test_takes import LOW_TONES, after_slate, book, recorded, with_session  # noqa: F401 - the fixture
from listen.tones import LOW_TIDE, tones_of
from shedbook.cli.main import main


def test_takes_are_told_and_pictured(
    book: Path,  # noqa: F811
    tmp_path: Path,
    capsys: pytest.CaptureFixture[str],
) -> None:
    file = recorded(tmp_path / "take.wav", tones_of(LOW_TIDE))
    assert main(["takes", str(book), str(file), "--pictures", str(tmp_path / "pictures")]) == 0
    assert "Every note is as written." in capsys.readouterr().out
    assert [one.name for one in (tmp_path / "pictures").iterdir()] == ["take-take-01.svg"]


def test_json_is_one_document(
    book: Path,  # noqa: F811
    tmp_path: Path,
    capsys: pytest.CaptureFixture[str],
) -> None:
    file = recorded(tmp_path / "take.wav", tones_of(LOW_TIDE))
    assert main(["takes", str(book), str(file), "--json"]) == 0
    (found,) = json.loads(capsys.readouterr().out)
    assert found["takes"][0]["title"] == "Low tide"


def test_keeping_says_where_the_file_is_and_reminds_of_consent(
    book: Path,  # noqa: F811
    tmp_path: Path,
    capsys: pytest.CaptureFixture[str],
) -> None:
    file = recorded(tmp_path / "take.wav", tones_of(LOW_TIDE))
    assert main(["takes", str(book), str(file), "--keep", "--format", ".flac"]) == 0
    told = capsys.readouterr()
    assert "01-low-tide-c-minor.flac" in told.out
    assert "ask them before" in told.err


@pytest.mark.parametrize("verb", ["takes", "transcribe"])
def test_a_text_file_ends_with_status_1_and_two_lines(
    verb: str,
    book: Path,  # noqa: F811
    tmp_path: Path,
    capsys: pytest.CaptureFixture[str],
) -> None:
    file = tmp_path / "take.wav"
    file.write_text("no sound")
    assert main([verb, *([str(book)] if verb == "takes" else []), str(file)]) == 1
    assert "no recording that can be read" in capsys.readouterr().err


@pytest.mark.parametrize("option", [("--a4", "12"), ("--click", "-1"), ("--click", "soon"), ("--a4", "nan")])
def test_figures_that_cannot_be_are_refused(
    option: tuple[str, str], capsys: pytest.CaptureFixture[str]
) -> None:
    with pytest.raises(SystemExit) as ended:
        main(["takes", "book", "take.wav", *option])
    assert ended.value.code == 2
    assert "write a number" in capsys.readouterr().err


def test_a_line_is_written_down_and_called_a_draft(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    file = recorded(tmp_path / "line.wav", tones_of(LOW_TIDE, start=1.0))
    assert main(["transcribe", str(file), "--tempo", "120", "--click", "1"]) == 0
    told = capsys.readouterr()
    assert "1/8 f4 ab c5 eb d f ab g" in told.out
    assert "This is a draft" in told.err


def test_the_folder_of_the_session_names_what_its_slates_mean(
    book: Path,  # noqa: F811
    tmp_path: Path,
    capsys: pytest.CaptureFixture[str],
) -> None:
    file = after_slate(tmp_path / "take.wav", 7, LOW_TONES)
    folder = with_session(tmp_path / "session")
    assert main(["takes", str(book), str(file), "--session", str(folder)]) == 0
    told = capsys.readouterr().out
    assert "slate 7 at 0:01.0: phrase 1, “Low tide”, in Bb minor at 96; 1 take after it." in told
    assert "in Bb minor, after slate 7" in told
    assert main(["takes", str(book), str(file), "--session", str(tmp_path / "nowhere")]) == 1
    assert "takes.json" in capsys.readouterr().err
