"""`shedbook scale`: its JSON, and what a person sees."""

from __future__ import annotations

import pytest

from cli.verbs.asked import as_json, run, type_in
from shedbook.cli.verbs import scale


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
