"""`shedbook check` and `explain`: what programs read where something cannot be read."""

from pathlib import Path

import pytest

from cli.verbs.asked import GOOD, SHORT, as_json
from shedbook.cli.main import main


def test_check_goes_on_after_a_phrase_that_cannot_be_read(
    manuscript: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (manuscript / "phrases" / "01-three.toml").write_text(
        f'[[phrase]]\ntitle = "Two"\n{SHORT}'
        '[[phrase]]\ntitle = "Three"\nchanges = "Dm7 | Cmaj7"\nline = "1/4 d5 e f a | 1/1 c#5"\n',
        encoding="utf-8",
    )
    assert main(["check", str(manuscript), "--json"]) == 1
    found = as_json(capsys)
    assert {item["phrase"] for item in found} == {"Two", "Three"}
    unread = next(item for item in found if item["rule"] == "unreadable")
    assert (unread["severity"], unread["file"], unread["line"]) == ("error", "phrases/01-three.toml", 4)
    assert (unread["bar"], unread["beat"]) == (2, "9/2"), "the half beat that is missing, exactly"


def test_check_of_one_phrase_speaks_of_one_phrase(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "lone.toml").write_text(GOOD, encoding="utf-8")
    assert main(["check", str(tmp_path / "lone.toml")]) == 0
    assert capsys.readouterr().err.startswith("1 phrase read")


def test_check_reports_a_manuscript_that_cannot_be_read_as_one_finding(
    manuscript: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (manuscript / "manuscript.toml").write_text('titel = "Tides"\n', encoding="utf-8")
    assert main(["check", str(manuscript), "--json"]) == 1
    (finding,) = as_json(capsys)
    assert (finding["rule"], finding["severity"]) == ("unreadable", "error")
    assert (finding["file"], finding["line"]) == ("manuscript.toml", 1)
    assert "titel" in finding["message"]


def test_check_of_nothing_is_one_finding(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    missing = str(tmp_path / "nowhere")
    assert main(["check", missing, "--json"]) == 1
    (finding,) = as_json(capsys)
    assert finding["file"] == missing
