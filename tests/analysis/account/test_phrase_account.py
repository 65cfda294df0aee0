"""The account as a whole: no phrase without one, every note with a role, and what makes a line work."""

from __future__ import annotations

import importlib
import json
import pickle
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from analysis.helpers import TWELVE, in_all_keys, phrase, read
from shedbook.analysis.account import account, quarters_a_minute
from shedbook.analysis.account_json import account_json
from shedbook.analysis.proof import proof
from shedbook.analysis.roles.role_names import ROLES
from shedbook.analysis.telling import explain
from shedbook.editions.transpose import transpose
from shedbook.phrase.model import Phrase
from shedbook.theory.interval import Interval
from strategies import phrases, pitches

SCHEMA = json.loads((Path(__file__).parents[3] / "docs" / "account.schema.json").read_text(encoding="utf-8"))
jsonschema = importlib.import_module("jsonschema")
VALIDATOR = jsonschema.Draft202012Validator(SCHEMA)


@given(phrases(pitch=pitches))
@settings(max_examples=120, deadline=None)
def test_every_phrase_has_a_full_account(written: Phrase) -> None:
    found = account(written)
    for note in found.notes:
        assert note.role in ROLES
        assert note.target is None or 0 <= note.target < len(found.notes)
        assert note.target != note.index
        if note.role == "enclosure":
            assert note.target is not None
    heard = [note.span.index for note in found.notes]
    assert heard == sorted(heard)
    sentences = explain(found)
    assert len(sentences) <= 12
    assert not found.notes or len(sentences) >= 5
    document = [account_json(found, proof(found), sentences)]
    VALIDATOR.validate(json.loads(json.dumps(document)))


@given(phrases(most_bars=2, ornaments=False), st.sampled_from(TWELVE))
@settings(max_examples=60, deadline=None)
def test_the_account_is_the_same_in_every_key(written: Phrase, interval: object) -> None:
    here, there = account(written), account(transpose(written, interval))  # type: ignore[arg-type]
    for one, other in zip(here.notes, there.notes, strict=True):
        assert (one.degree, one.membership, one.role, one.detail, one.target) == (
            other.degree, other.membership, other.role, other.detail, other.target,
        )  # fmt: skip
    assert here.figures == there.figures
    assert here.landings == there.landings
    assert here.coverage == there.coverage
    assert here.contour == there.contour


def test_a_phrase_of_rests() -> None:
    found = read("Cmaj7 | G7", "1/1 - | -")
    assert found.notes == ()
    assert explain(found) == ("The phrase has no notes yet.",)


def test_no_chord() -> None:
    found = read("N.C. | Cmaj7", "1/4 c4 d4 eb4 f#4 | 1/1 g4", key="C major")
    assert [note.degree for note in found.notes[:4]] == [""] * 4
    assert [note.membership for note in found.notes[:4]] == ["scale", "scale", "outside", "outside"]


# What makes it work.


def test_descending_scale_line_into_the_third_of_a_minor_chord() -> None:
    """A smooth link and a strong landing: common practice."""
    line = "1/8 c5 eb5 f5 ab5 g5 f5 eb5 d5 | 1/1 db5"
    for found in in_all_keys("F7 | Bbm6", line, "half-whole diminished | melodic minor"):
        (link,) = [one for one in found.links if one.kind == "change"]
        assert link.by_step
        landing = next(one for one in found.landings if one.bar == 2)
        assert landing.strength == "minor third"
        assert landing.rank == 7


def test_a_bar_and_a_half_uses_all_of_the_altered_scale() -> None:
    """Common practice: seven notes of the altered scale within six beats."""
    line = "1/8 g4 ab4 bb4 b4 db5 eb5 f5 eb5 | db5 b4 bb4 ab4 1/2 g4"
    for found in in_all_keys("G7alt | G7alt Cm6", line, "altered | altered, melodic minor"):
        assert found.coverage[0].complete
        assert found.coverage[0].used == ("1", "b9", "#9", "3", "#11", "b13", "b7")
        assert any("All seven" in text or "every note of the scale" in text for text in explain(found))


def test_adjacent_bars_with_the_same_chord_and_scale_are_one_entry() -> None:
    found = read("Dm7 | % | G7", "1/1 d4 | f4 | g4", "dorian | % | mixolydian")
    assert [entry.used for entry in found.coverage] == [("1", "b3"), ("1",)]


def test_coverage_over_the_phrase_joins_what_stands_apart() -> None:
    found = read("Dm7 | G7 | Dm7", "1/1 d4 | g4 | f4", "dorian | mixolydian | dorian")
    assert [entry.used for entry in found.whole_coverage] == [("1", "b3"), ("1",)]
    assert len(found.coverage) == 3


@pytest.mark.parametrize(
    ("changes", "line", "strength"),
    [
        # Order of strength: the project's design, after common practice.
        ("Cm7", "1/1 eb4", "minor third"),
        ("Cmaj7", "1/1 e4", "third"),
        ("Cmaj7", "1/1 b4", "seventh"),
        ("C6", "1/1 a4", "seventh"),
        ("Cmaj7", "1/1 g4", "fifth"),
        ("Cmaj7", "1/1 c4", "root"),
        ("Cmaj7", "1/1 d4", "colour"),
        ("Cmaj7", "1/1 f4", "to pass through"),
        ("Cm7", "1/1 e4", "outside"),
    ],
)
def test_strength_of_a_landing(changes: str, line: str, strength: str) -> None:
    (landing,) = read(changes, line).landings
    assert landing.strength == strength


def test_guide_tone_link() -> None:
    found = read("Dm7 | G7", "1/4 d4 f4 a4 c5 | 1/1 b4", "dorian | mixolydian")
    (link,) = found.links
    assert (link.kind, link.semitones, link.by_step) == ("change", -1, True)
    assert link.guide == ("b7", "3")


def test_common_tone_link() -> None:
    found = read("Dm7 | G7", "1/2 d4 f4 | 1/1 f4", "dorian | mixolydian")
    assert found.links[0].held == 1
    assert found.links[0].kept == (2, 5)


def test_wrapped_link() -> None:
    found = read("Cm7b5 | F7b9", "1/4 eb4 gb4 c5 1/8 bb4 ab4 | 1/1 a4", "locrian | half-whole diminished")
    assert found.links[0].wrapped


def test_bar_lines_without_a_change_are_links_too() -> None:
    found = read("Dm7 | %", "1/1 d4 | f4", "dorian | %")
    assert [(link.kind, link.bar) for link in found.links] == [("bar line", 2)]


# Figures.


@pytest.mark.parametrize(
    ("line", "kind", "first", "last"),
    [
        ("1/8 c4 e4 g4 b4 a4 g4 f4 e4", "arpeggio", 0, 3),
        ("1/8 c4 e4 g4 b4 a4 g4 f4 e4", "run", 3, 7),
        ("1/8 c4 d4 e4 c4 d4 e4 f4 d4", "sequence", 0, 7),
        ("1/8 c4 g4 d4 b3 1/2 c4", "enclosure", 2, 3),
        ("1/8 c5 d#4 g4 e4 1/2 c4", "delayed resolution", 1, 3),
    ],
)
def test_figures(line: str, kind: str, first: int, last: int) -> None:
    found = read("Cmaj7", line, "ionian")
    assert (kind, first, last) in {(one.kind, one.first, one.last) for one in found.figures}


# Difficulty and tempo.


@pytest.mark.parametrize(
    ("metre", "line", "quarters"),
    [
        ("4/4", "1/1 c4", 120),
        ("6/8", "1/4. c4 e4", 180),  # the dotted quarter is tapped
        ("2/2", "1/1 c4", 240),  # the half is tapped
    ],
)
def test_tempo_in_quarters(metre: str, line: str, quarters: int) -> None:
    written = phrase("Cmaj7", line, "ionian", metre=metre, tempo=120)
    assert quarters_a_minute(written) == quarters


def test_difficulty_counts() -> None:
    found = read("Cmaj7", "1/8 c4 c5 d#5 e5 g4 e4 c4 g4", "ionian", tempo=120).difficulty
    assert (found.range, found.leaps, found.widest_leap) == (16, 3, 12)
    assert found.chromatic_density == Fraction(1, 8)
    assert found.fastest_rate == 4


# Scales from the notes.


@pytest.mark.parametrize(
    ("changes", "line", "scale"),
    [
        # Common practice: b13 tells altered, natural 13 half-whole.
        ("G7b9 | Cm6", "1/4 g4 bb4 eb5 db5 | 1/1 c5", "altered"),
        ("G7b9 | Cm6", "1/4 g4 bb4 e5 db5 | 1/1 c5", "half-whole diminished"),
        ("G7 | Cmaj7", "1/4 g4 a4 b4 d5 | 1/1 c5", "mixolydian"),
    ],
)
def test_the_notes_choose_the_scale(changes: str, line: str, scale: str) -> None:
    found = read(changes, line)
    assert found.fits[0].scale is not None
    assert found.fits[0].scale.name == scale
    assert not found.fits[0].stated


def test_a_scale_that_does_not_fit_is_said() -> None:
    found = read("G7", "1/4 g4 ab4 bb4 c#5", "mixolydian")
    assert found.fits[0].better is not None
    assert found.fits[0].stated
    assert "scale-does-not-fit" in {finding.rule for finding in proof(found)}


def test_written_pitches_for_the_reader() -> None:
    found = account(phrase("Cmaj7", "1/1 e4", "ionian"), reader=Interval(1, 2))
    assert str(found.notes[0].written) == "F#4"
    assert any("F sharp" in text and "Dmaj7" in text for text in explain(found))


# Where a note stands: strong beats after common practice, as the metre's table has them.


@pytest.mark.parametrize(
    ("metre", "line", "landings"),
    [
        ("3/4", "1/4 c4 d4 e4", [0]),
        ("6/8", "1/8 c4 d4 e4 f4 g4 a4", [0, 3]),
        ("5/4", "1/4 c4 d4 e4 f4 g4", [0, 3]),
        ("12/8", "1/8 c4 d4 e4 f4 g4 a4 b4 c5 d5 e5 f5 g5", [0, 3, 6, 9]),
        ("4/4", "1/4. c4 1/8 d4 1/4. e4 1/8 f4", [0, 2]),
        ("4/4", "1/4 c4 1/8 d4 1/4. e4 1/4 f4", [0, 2]),  # the and of 2, held over beat 3
        ("4/4", "1/4 c4 1/2 d4 1/4 f4", [0]),  # a whole beat early is no landing
        ("4/4", "1/4 c4 1/8t d4 e4 f4 1/2 g4", [0, 4]),
    ],
)
def test_landings_in_each_metre(metre: str, line: str, landings: list[int]) -> None:
    found = read("Cmaj7", line, "ionian", metre=metre)
    assert [note.index for note in found.notes if note.landing] == landings


def test_first_note_over_each_chord_is_a_landing() -> None:
    found = read("Dm7 G7", "1/4 d4 f4 1/8 - b4 1/4 g4", "dorian, mixolydian")
    assert [note.landing for note in found.notes] == [True, False, True, False]


def test_the_account_can_be_sent_to_another_process() -> None:
    found = read("Dm7 | G7", "1/4 d4 f4 a4 c5 | 1/1 b4", "dorian | mixolydian")
    assert pickle.loads(pickle.dumps(found)) == found


# The exact strings of the JSON form.


def test_json_of_a_note() -> None:
    found = read("Cmaj7", "1/8 d#5 | 1/4 e5 1/2. c5", "ionian", pickup="1/8")
    first, second, _ = json.loads(json.dumps(account_json(found, (), ())))["notes"]
    assert (first["bar"], first["beat"], first["duration"], first["pitch"]) == (0, "9/2", "1/2", "D#5")
    assert (first["chord"], first["scale"], first["degree"]) == ("Cmaj7", "ionian", "#9")
    assert (first["membership"], first["role"], first["target"]) == ("outside", "approach note", 1)
    assert first["detail"] == "chromatic, from below, single"
    assert (second["beat"], second["landing"]) == ("1", True)


def test_a_scale_on_another_root_is_named_with_it() -> None:
    found = read("F7", "1/1 f4", "C melodic minor")
    assert found.notes[0].span.scale_name == "C melodic minor"


def test_tied_notes_are_one_entry_and_rests_none() -> None:
    found = read("Dm7 | G7", "1/4 d4 - f4 a4 | + 1/4 1/2 - 1/4 b4", "dorian | mixolydian")
    assert [str(note.pitch) for note in found.notes] == ["D4", "F4", "A4", "B4"]
    assert found.notes[2].quarters == 2


def test_a_phrase_that_could_not_be_read_has_an_object_in_its_place() -> None:
    VALIDATOR.validate([{"input": "phrases/01-a.toml:3:13  bar 1", "error": "It could not be read."}])
    with pytest.raises(jsonschema.ValidationError):
        VALIDATOR.validate([{"input": "phrases/01-a.toml"}])
