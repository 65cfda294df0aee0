"""The commands `chord` and `scale`: what they print, as text and as JSON."""

from __future__ import annotations

import argparse
import io
import json
from typing import Any

import pytest

from shedbook.cli.batch import read_items, run_items
from shedbook.cli.terminal_text import columns, pretty
from shedbook.cli.verbs import chord, scale
from shedbook.errors import ShedbookError


def run(module: Any, *arguments: str) -> int:
    parser = argparse.ArgumentParser()
    module.add_arguments(parser)
    status: int = module.run(parser.parse_args(arguments))
    return status


def as_json(capsys: pytest.CaptureFixture[str]) -> list[dict[str, Any]]:
    found = json.loads(capsys.readouterr().out)
    assert isinstance(found, list)
    return found


def type_in(monkeypatch: pytest.MonkeyPatch, text: str | bytes) -> None:
    raw = text if isinstance(text, bytes) else text.encode()
    monkeypatch.setattr("sys.stdin", io.TextIOWrapper(io.BytesIO(raw), encoding="utf-8"))


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


@pytest.mark.parametrize("words", [("half-whole", "diminished"), ("half-whole diminished",)])
def test_scale_as_json(words: tuple[str, ...], capsys: pytest.CaptureFixture[str]) -> None:
    assert run(scale, *words, "--root", "F", "--json") == 0

    (found,) = as_json(capsys)
    assert (found["name"], found["root"]) == ("half-whole diminished", "F")
    assert "dominant diminished" in found["aliases"]
    assert found["notes"] == ["F", "Gb", "Ab", "A", "B", "C", "D", "Eb"]
    assert found["degrees"] == ["1", "b9", "#9", "3", "#11", "5", "13", "b7"]
    assert {"F7b9", "F13b9"} <= {service["chord"] for service in found["serves"]}


def test_scale_from_standard_input(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    type_in(monkeypatch, "altered\n\nBb whole tone\nno such thing\nE dorian\n")

    assert run(scale, "-", "--json") == 1

    found = as_json(capsys)
    assert [(item.get("root"), item.get("name")) for item in found] == [
        ("C", "altered"), ("Bb", "whole tone"), (None, None), ("E", "dorian"),
    ]  # fmt: skip
    assert found[2]["input"] == "no such thing"


def test_a_root_in_the_name_wins(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(scale, "Eb", "altered", "--root", "G", "--json") == 0
    assert as_json(capsys)[0]["root"] == "Eb"


def test_scale_for_a_reader(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(scale, "lydian", "dominant", "--root", "B♭") == 0

    out = capsys.readouterr().out
    assert out.startswith("B♭ lydian dominant\n  B♭  C  D  E   F  G  A♭\n  1   2  3  ♯4  5  6  ♭7\n")
    assert "also called lydian ♭7, overtone, acoustic" in out
    assert "B♭7♯11  first choice" in out
    assert "as a tritone substitute" in out


@pytest.mark.parametrize(
    ("arguments", "says"),
    [(("dorian", "--root", "H"), '"H" is not a note'), (("dorain",), 'Did you mean "dorian"')],
)
def test_a_scale_that_is_not_known(
    arguments: tuple[str, ...], says: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run(scale, *arguments) == 1
    out, err = capsys.readouterr()
    assert out == ""
    assert says in err


def test_a_scale_that_serves_no_chord_and_has_no_heading_for_it(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(scale, "chromatic") == 0
    assert "goes with" not in capsys.readouterr().out


def test_items_go_on_after_one_that_cannot_be_read(capsys: pytest.CaptureFixture[str]) -> None:
    def describe(item: str) -> dict[str, object]:
        if item == "bad":
            raise ShedbookError("It is bad.", hint="Make it good.")
        return {"item": item}

    assert run_items(["a", "bad", "b"], describe, lambda found: str(found["item"]), True) == 1
    assert as_json(capsys) == [
        {"item": "a"},
        {"input": "bad", "error": "It is bad. Make it good."},
        {"item": "b"},
    ]
    assert run_items(["a", "bad", "b"], describe, lambda found: str(found["item"]), False) == 1
    out, err = capsys.readouterr()
    assert out == "a\n\nb\n\n"
    assert err == "shedbook: It is bad.\n  Make it good.\n"
    assert run_items([], describe, lambda found: "", True) == 0


def test_standard_input_may_be_text_already(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("sys.stdin", io.StringIO("a\n\n b \n"))

    assert list(read_items(["x", "-", "y"])) == ["x", "a", "b", "y"]


@pytest.mark.parametrize(
    ("plain", "set_"),
    [
        ("Bbm7b5", "B♭m7♭5"),
        ("Ebb", "E♭♭"),
        ("bb7", "♭♭7"),
        ("bVII7", "♭VII7"),
        ("C7(b9,#11)", "C7(♭9,♯11)"),
        ("Bbmaj7/Db", "B♭maj7/D♭"),
        ("Gb bebop major", "G♭ bebop major"),
        ("Cm(addb13)", "Cm(add♭13)"),
        ("keep its B flat short", "keep its B flat short"),
    ],
)
def test_accidental_signs(plain: str, set_: str) -> None:
    assert pretty(plain) == set_


def test_columns_stand_under_one_another() -> None:
    assert columns(["C", "Eb", "G"], ["1", "b3", "5"]) == ["C  E♭  G", "1  ♭3  5"]


def test_over_a_chord_a_scale_is_named_by_what_its_notes_do() -> None:
    """Source: common practice of chord-scale teaching: 9, 11 and 13 over a chord, 2, 4 and 6 in the scale."""
    (dorian, *_) = chord.describe("Dm7")["scales"]
    assert dorian["degrees"] == ["1", "9", "b3", "11", "5", "13", "b7"]
