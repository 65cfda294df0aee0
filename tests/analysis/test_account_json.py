"""The exact strings of the JSON form, and its schema."""

from __future__ import annotations

import importlib
import json

import pytest

from analysis.helpers import VALIDATOR, read
from shedbook.analysis.account_json import account_json

jsonschema = importlib.import_module("jsonschema")


def test_json_of_a_note() -> None:
    found = read("Cmaj7", "1/8 d#5 | 1/4 e5 1/2. c5", "ionian", pickup="1/8")
    first, second, _ = json.loads(json.dumps(account_json(found, (), ())))["notes"]
    assert (first["bar"], first["beat"], first["duration"], first["pitch"]) == (0, "9/2", "1/2", "D#5")
    assert (first["chord"], first["scale"], first["degree"]) == ("Cmaj7", "ionian", "#9")
    assert (first["membership"], first["role"], first["target"]) == ("outside", "approach note", 1)
    assert first["detail"] == "chromatic, from below, single"
    assert (second["beat"], second["landing"]) == ("1", True)


def test_json_of_a_crossing() -> None:
    found = read("Dm7 | G7 | Dm7", "1/2 f4 c5 | b4 f | d a", "dorian | mixolydian | dorian")
    first, second = json.loads(json.dumps(account_json(found, (), ())))["links"]
    assert (first["guide_tone"], first["semitones"]) == (["b7", "3"], -1)
    assert (second["guide_tone"], second["semitones"]) == (None, -3)


def test_a_phrase_that_could_not_be_read_has_an_object_in_its_place() -> None:
    VALIDATOR.validate([{"input": "phrases/01-a.toml:3:13  bar 1", "error": "It could not be read."}])
    with pytest.raises(jsonschema.ValidationError):
        VALIDATOR.validate([{"input": "phrases/01-a.toml"}])
