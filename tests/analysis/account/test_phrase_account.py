"""The account as a whole: no phrase without one, every note with a role, and what makes a line work."""

from __future__ import annotations

import json
import pickle

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from analysis.helpers import TWELVE, VALIDATOR, phrase, read
from shedbook.analysis.account import account, quarters_a_minute
from shedbook.analysis.account_json import account_json
from shedbook.analysis.proof import proof
from shedbook.analysis.roles.role_names import ROLES
from shedbook.analysis.telling import explain
from shedbook.editions.transpose import transpose
from shedbook.phrase.model import Phrase
from shedbook.theory.interval import Interval
from strategies import phrases, pitches


@given(phrases(pitch=pitches))
@settings(max_examples=50, deadline=None)
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
    assert 1 <= len(sentences) <= 7
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


def test_written_pitches_for_the_reader() -> None:
    found = account(phrase("Cmaj7", "1/1 e4", "ionian"), reader=Interval(1, 2))
    assert str(found.notes[0].written) == "F#4"
    assert any("F♯" in text and "Dmaj7" in text for text in explain(found))


def test_the_account_can_be_sent_to_another_process() -> None:
    found = read("Dm7 | G7", "1/4 d4 f4 a4 c5 | 1/1 b4", "dorian | mixolydian")
    assert pickle.loads(pickle.dumps(found)) == found


def test_tied_notes_are_one_entry_and_rests_none() -> None:
    found = read("Dm7 | G7", "1/4 d4 - f4 a4 | + 1/4 1/2 - 1/4 b4", "dorian | mixolydian")
    assert [str(note.pitch) for note in found.notes] == ["D4", "F4", "A4", "B4"]
    assert found.notes[2].quarters == 2


@given(phrases(most_bars=3))
@settings(max_examples=40, deadline=None)
def test_what_a_note_does_agrees_with_what_it_is(written: Phrase) -> None:
    found = account(written)
    stands = {landing.note for landing in found.landings}
    for note in found.notes:
        what = {"chord tone": "chord", "scale tone": "scale", "unaccounted": "outside", "pedal": "outside"}
        assert note.membership == what.get(note.role, note.membership)
        assert note.landing == (note.index in stands)
        if note.target is not None:
            goal = found.notes[note.target]
            assert note.index < note.target
            assert goal.role != "unaccounted"
            if note.role in ("approach note", "enclosure", "neighbour", "leaning note", "suspension"):
                assert 1 <= abs(note.midi - goal.midi) <= 2


def test_repeated_notes_before_a_change_are_not_all_early() -> None:
    found = read("G7alt Cm6 | Cmaj7", "1/8 bb3 f# e f - f# e e | e4 f# ab eb 1/2 g", "")
    assert all(note.role != "chord tone" or note.membership == "chord" for note in found.notes)
