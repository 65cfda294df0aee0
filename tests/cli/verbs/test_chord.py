"""The commands `chord` and `scale`: what they print, as text and as JSON."""

from __future__ import annotations

import pytest

from cli.verbs.asked import as_json, run, type_in
from shedbook.cli.verbs import chord


def test_chord_as_json(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(chord, "C13", "E7alt/D", "--json") == 0

    thirteen, altered = as_json(capsys)
    assert thirteen["symbol"] == thirteen["canonical"] == "C13"
    assert (thirteen["root"], thirteen["bass"]) == ("C", None)
    assert thirteen["tones"] == ["C", "E", "G", "Bb", "D", "A"]
    assert thirteen["degrees"] == ["1", "3", "5", "b7", "9", "13"]
    assert altered["bass"] == "D"
    assert altered["degrees"] == ["1", "3", "b7", "b9", "#9", "#11", "b13"]
    only = altered["scales"][0]
    assert (only["name"], only["notes"][:4], only["degrees"][:4]) == (
        "altered", ["E", "F", "G", "G#"], ["1", "b9", "#9", "3"],
    )  # fmt: skip
    assert only["reason"]


def test_no_chord_has_a_null_root_and_empty_lists(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(chord, "N.C.", "--json") == 0

    assert as_json(capsys) == [
        {
            "symbol": "N.C.",
            "canonical": "N.C.",
            "root": None,
            "bass": None,
            "tones": [],
            "degrees": [],
            "scales": [],
        }
    ]


def test_chords_from_standard_input(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    type_in(monkeypatch, "\ufeffDm7\n\n  G7b9  \r\nnonsense\n\nC△7")

    assert run(chord, "-", "--json") == 1

    found = as_json(capsys)
    assert [item.get("symbol", item.get("input")) for item in found] == ["Dm7", "G7b9", "nonsense", "C△7"]
    assert set(found[2]) == {"input", "error"}
    assert "capital letter" in found[2]["error"]


def test_bytes_that_are_no_text_are_an_error_of_their_item(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    type_in(monkeypatch, b"C7\n\xff\xfe\nF7\n")

    assert run(chord, "-", "--json") == 1
    assert ["error" in item for item in as_json(capsys)] == [False, True, False]


def test_an_argument_that_no_encoding_can_print(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(chord, "C\udcff", "--json") == 1
    assert as_json(capsys)[0]["input"] == "C?"


def test_chord_for_a_reader(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(chord, "B♭-7♭5", "Cq", "F/A", "NC") == 1

    out, err = capsys.readouterr()
    assert "B♭-7♭5   (in one form: B♭m7♭5)" in out
    assert "  B♭  D♭  F♭  A♭\n  1   ♭3  ♭5  ♭7" in out
    assert "1  B♭ locrian" in out
    assert "over A in the bass" in out
    assert "no chord sounds here" in out
    assert "    Cq\n     ^\n" in err
    assert '"q" in "Cq" was not understood' in err


def test_over_a_chord_a_scale_is_named_by_what_its_notes_do() -> None:
    """Source: common practice of chord-scale teaching: 9, 11 and 13 over a chord, 2, 4 and 6 in the scale."""
    (dorian, *_) = chord.describe("Dm7")["scales"]
    assert dorian["degrees"] == ["1", "9", "b3", "11", "5", "13", "b7"]
