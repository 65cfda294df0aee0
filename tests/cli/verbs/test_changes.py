"""`shedbook changes`: what programs read and what people see."""

import io

import pytest

from cli.verbs.asked import as_json
from shedbook.cli.main import main


def test_json_of_a_ii_v_i(capsys: pytest.CaptureFixture[str]) -> None:
    """Common practice: D dorian, G mixolydian, C ionian."""
    assert main(["changes", "--json", "Dm7 G7 | CΔ7"]) == 0
    (found,) = as_json(capsys)
    assert found["key"] == "C major"
    first, second = found["bars"]
    assert [chord["symbol"] for chord in (*first, *second)] == ["Dm7", "G7", "CΔ7"]
    assert [chord["canonical"] for chord in (*first, *second)] == ["Dm7", "G7", "Cmaj7"]
    assert [chord["beat"] for chord in (*first, *second)] == ["1", "3", "1"]
    assert [chord["function"] for chord in (*first, *second)] == ["ii", "V", "I"]
    assert [chord["scale"] for chord in (*first, *second)] == ["D dorian", "G mixolydian", "C ionian"]
    assert found["progressions"] == [{"name": "ii–V–I", "key": "C major", "first_bar": 1, "last_bar": 2}]


def test_json_of_the_scales_of_a_chord(capsys: pytest.CaptureFixture[str]) -> None:
    """Common practice: half-whole diminished over G7b9, its degrees named over the chord."""
    main(["changes", "--json", "Dm7b5 | G7b9 | Cm6"])
    (found,) = as_json(capsys)
    chord = found["bars"][1][0]
    best = chord["scales"][0]
    assert chord["scale"] == "G half-whole diminished"
    assert set(best) == {"name", "root", "notes", "degrees", "reason"}
    assert (best["root"], best["name"]) == ("G", "half-whole diminished")
    assert best["notes"] == ["G", "Ab", "Bb", "B", "C#", "D", "E", "F"]
    assert best["degrees"] == ["1", "b9", "#9", "3", "#11", "5", "13", "b7"]
    assert best["reason"]


def test_a_beat_is_an_exact_string(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["changes", "--json", "--metre", "6/8", "Dm7 G7@4.5 | N.C."]) == 0
    (found,) = as_json(capsys)
    assert [chord["beat"] for chord in found["bars"][0]] == ["1", "9/2"]
    silent = found["bars"][1][0]
    assert (silent["function"], silent["scale"], silent["scales"]) == (None, None, [])


def test_rows_from_standard_input_and_one_that_cannot_be_read(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr("sys.stdin", io.StringIO("Dm7 | G7\n\n| Hm7 |\nCm6\n"))
    assert main(["changes", "--json", "-"]) == 1
    first, wrong, last = as_json(capsys)
    assert (first["key"], last["key"]) == ("C major", "C minor")
    assert set(wrong) == {"input", "error"}
    assert wrong["input"] == "| Hm7 |"
    assert "H" in wrong["error"]


def test_what_a_person_sees(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["changes", "Em7 A7 | Dm7 G7 | N.C."]) == 0
    out = capsys.readouterr().out
    lines = out.splitlines()
    assert "key: C major" in lines
    assert any(line.split()[:5] == ["1", "1", "Em7", "iii", "E"] for line in lines)
    assert any(line.split()[:4] == ["3", "A7", "VI", "A"] for line in lines)
    assert any(line.split() == ["3", "1", "N.C.", "–", "–"] for line in lines)
    assert "  iii–VI–ii–V in C major, bars 1–2" in lines


def test_accidentals_are_drawn_for_a_person(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["changes", "Abm7 Db7 | Cmaj7"]) == 0
    out = capsys.readouterr().out
    assert "tritone substitute ♭vi–♭II–I in C major" in out
    assert "A♭m7" in out


@pytest.mark.parametrize("text", ["", "%", "Dm7 | X7", "Dm7 G7 C", "Dm7 || G7", "Dm7@9"])
def test_what_cannot_be_read_is_said(text: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["changes", text]) == 1
    assert capsys.readouterr().err


def test_a_bar_line_may_stand_at_either_end(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["changes", "--json", "| Dm7 | G7 |"]) == 0
    assert len(as_json(capsys)[0]["bars"]) == 2


def test_a_metre_that_is_none(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["changes", "--metre", "4/5", "Dm7"]) == 1
    assert '"4/5" is not a metre' in capsys.readouterr().err
