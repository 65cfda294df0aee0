"""Phrases with what a teacher would expect of each: roles, landings, findings, words.

The lines are ours; what is expected of them is common practice. Each is read in its home key and in one
other.
"""

from __future__ import annotations

import re
from fractions import Fraction

import pytest
from hypothesis import given, settings

from analysis.helpers import TWELVE, phrase, read
from shedbook.analysis.account import Account, account
from shedbook.analysis.account.figures import DELAYED
from shedbook.analysis.proof import proof
from shedbook.analysis.telling.explanation import chosen_builds, explain
from shedbook.editions.transpose import transpose
from shedbook.phrase.model import Phrase
from strategies import phrases

HALF_WHOLE = "half-whole diminished"

# Changes, scales, line; then for some notes the role and the note it leads to (None: no matter).
ROLES = [
    pytest.param("Cmaj7 | Ab7 | G7", "ionian | mixolydian | mixolydian", "1/1 g4 | g | g",
                 {1: ("pedal", None)}, id="a note that stays under moving chords is a pedal"),
    pytest.param("Dm7 | Dbmaj7 | Dm7", "dorian | ionian | dorian", "1/4 d4 d d d | d d d d | 1/1 d",
                 {4: ("pedal", None), 7: ("pedal", None)}, id="struck again it is one too"),
    pytest.param("Cmaj7", "ionian", "1/8 c5 b4 c5 e5 d# e c5 g4", {4: ("leaning note", 5)},
                 id="an accented neighbour leans"),
    pytest.param("Cmaj7", "ionian", "1/8 c5 g4 e d# e g c5 b4", {3: ("neighbour", 4)},
                 id="a neighbour off the beat turns"),
    pytest.param("Cmaj7", "ionian", "1/8 e4 f e c e g c5 b4", {1: ("neighbour", 2)},
                 id="a scale tone that comes back is a neighbour"),
    pytest.param("Cmaj7", "ionian", "1/8 c4 d e f g a b c5",
                 {1: ("scale tone", None), 3: ("scale tone", None)},
                 id="in a run the scale is heard"),
    pytest.param("Dm7 | G7", "dorian | mixolydian", "1/8 d4 f a c5 a4 f c#5 c5 | b4 g f d 1/2 g",
                 {6: ("approach note", 8), 7: ("approach note", 8)}, id="two half steps into the third"),
    pytest.param("Dm7 | G7", "dorian | mixolydian", "1/8 d4 f a c5 e5 c a4 f | 1/8 g4 b d5 f c#5 a4 g f",
                 {12: ("unaccounted", None)}, id="a flat fifth between two leaps is no blue note"),
    pytest.param("C7", "mixolydian", "1/4 g4 eb5 1/2 c5",
                 {1: ("blue note", None)}, id="the lowered third is"),
    pytest.param("Dm7b5 | G7b9", f"locrian | {HALF_WHOLE}", "1/8 f5 ab f eb d ab4 c5 d | c# b4 ab f 1/2 d",
                 {6: ("enclosure", 8), 7: ("enclosure", 8)}, id="C D close in on C sharp over the bar line"),
    pytest.param("G7 | %", f"{HALF_WHOLE} | %", "1/8 g4 bb c#5 d e f ab g | eb5 c# d b4 1/2 g",
                 {8: ("enclosure", 10), 9: ("enclosure", 10)}, id="an enclosure that opens on beat one"),
    pytest.param("G7 | %", f"{HALF_WHOLE} | %", "1/8 g4 bb c#5 d f ab f e | eb d b4 ab 1/2 g",
                 {8: ("passing note", 9)}, id="E flat between E and D passes on beat one too"),
    pytest.param("G7b9", "phrygian dominant", "1/8 d5 c b4 bb a ab g f",
                 {3: ("passing note", 5), 4: ("passing note", 5)}, id="two passing notes in a row"),
    pytest.param("G7b9", "phrygian dominant", "1/8 f5 d a4 bb b g f d",
                 {2: ("approach note", 4), 3: ("approach note", 4)}, id="a double approach from below"),
    pytest.param("Cmaj7", "ionian", "1/8 a4 ab f f# g e d c", dict.fromkeys(range(4), ("enclosure", 4)),
                 id="four notes round the fifth"),
    pytest.param("Cmaj7", "ionian", "1/8 g4 f d# e c e g b", {1: ("enclosure", 3), 2: ("enclosure", 3)},
                 id="a target off the beat"),
    pytest.param("Dm7 | G7", "dorian | mixolydian", "1/8 d4 f a c5 a4 f c5 d | c# c b4 g 1/2 d",
                 {6: ("enclosure", 8), 7: ("enclosure", 8), 8: ("passing note", 9)}, id="a chromatic target"),
    pytest.param("Dm7 | G7", "dorian | mixolydian", "1/8 d4 f a c5 a4 f a b | 1/4 - f d g",
                 {7: ("anticipation", None)}, id="early and then a rest"),
    pytest.param("Dm7 | G7", "dorian | mixolydian", "1/8 d4 a c5 a4 c5 a4 d f | + 1/2 1/4 d b3",
                 {7: ("chord tone", None)}, id="of both chords: no anticipation"),
    pytest.param("Dm7 | G7", "dorian | mixolydian", "1/8 d4 f a c5 a4 f a b | c5 d 1/4 b4 1/2 g",
                 {7: ("scale tone", None)}, id="not held: no anticipation"),
    pytest.param("Dm7 | G7", "dorian | mixolydian", "1/4 d4 f a b | b g f d", {3: ("scale tone", None)},
                 id="a whole beat early: no anticipation"),
    pytest.param("Dm7 | G7", "dorian | mixolydian", "1/4 d4 f a c5 | + 1/4 1/4 b4 g f",
                 {3: ("suspension", 4)}, id="a tied suspension"),
    pytest.param("Cmaj7 | %", "ionian | %", "1/8 f4 d# | 1/8 e g c5 b4 1/2 g | 1/1 e",
                 {0: ("enclosure", 2), 1: ("enclosure", 2)}, id="from the pick-up"),
]  # fmt: skip


def _both_keys(changes: str, scales: str, line: str) -> list[Account]:
    more = {"pickup": "1/4"} if line.count("|") > changes.count("|") else {}
    written = phrase(changes, line, scales, **more)
    other = TWELVE[1 + len(line) % 11]
    return [account(written), account(transpose(written, other))]


@pytest.mark.parametrize(("changes", "scales", "line", "expected"), ROLES)
def test_roles(changes: str, scales: str, line: str, expected: dict[int, tuple[str, int | None]]) -> None:
    for found in _both_keys(changes, scales, line):
        for index, (role, target) in expected.items():
            note = found.notes[index]
            assert note.role == role, index
            assert target is None or note.target == target, index


# Lines in which a teacher finds nothing to mend.
CLEAN = [
    pytest.param("Cmaj7 | Ab7 | G7", "ionian | mixolydian | mixolydian", "1/1 g4 | g | g", id="a pedal"),
    pytest.param("Cmaj7", "ionian", "1/8 c5 b4 c5 e5 d# e c5 g4", id="an accented neighbour"),
    pytest.param("Cmaj7", "ionian", "1/8 b4 c5 d# e f# g a# b", id="a chain of half steps up an arpeggio"),
    pytest.param("Dm7", "dorian", "1/8 d4 e f f# g a b c5", id="a major third passes in minor"),
    pytest.param("G7alt", "altered", "1/8 f5 eb d db b4 bb ab g", id="a fifth passes in altered"),
    pytest.param("Dm7 | G7", "dorian | mixolydian", "1/4 d4 f a c5 | + 1/4 1/4 b4 g f", id="a suspension"),
    pytest.param("G7b9", HALF_WHOLE, "1/1 ab4", id="the flat 9 of a dominant may be held"),
    pytest.param("Gm7b5 | C7b9", f"locrian | {HALF_WHOLE}", "1/8 g4 bb db5 f db bb4 g e | + 1/2 1/2 g4",
                 id="outside when struck, at home when the chord comes"),
]  # fmt: skip


@pytest.mark.parametrize(("changes", "scales", "line"), CLEAN)
def test_nothing_to_mend(changes: str, scales: str, line: str) -> None:
    for found in _both_keys(changes, scales, line):
        assert proof(found) == ()


def test_a_slip_is_found_where_a_blue_note_would_leap_both_ways() -> None:
    found = read("Dm7 | G7", "1/8 d4 f a c5 e5 c a4 f | 1/8 g4 b d5 f c#5 a4 g f", "dorian | mixolydian")
    assert [finding.rule for finding in proof(found)] == ["likely-slip", "strong-beat-outside"]


def test_the_wrong_third_is_called_a_third() -> None:
    finding = proof(read("Cmaj7 | %", "1/8 c5 e g c g e c b4 | 1/2 eb5 g4", "ionian | %"))[0]
    assert finding.rule == "chord-contradicted"
    assert finding.message.startswith("E flat is a minor third over Cmaj7")


def test_a_tied_suspension_stands_on_the_beat_it_hangs_over() -> None:
    found = read("Dm7 | G7", "1/4 d4 f a c5 | + 1/4 1/4 b4 g f", "dorian | mixolydian")
    landing = next(one for one in found.landings if one.note == 3)
    assert (landing.bar, landing.beat, landing.excuse) == (2, Fraction(1), "suspension")
    assert found.spans[landing.span].chord.text == "G7"
    assert found.notes[3].landing
    assert any("hanging over" in sentence for sentence in explain(found))


def test_a_seventh_that_resolves_after_other_notes_is_a_delayed_resolution() -> None:
    found = read("Cm7 | F7", "1/8 c4 eb g bb 1/4 bb g | 1/8 c5 g4 a c5 1/2 f", "dorian | mixolydian")
    assert [(one.first, one.target) for one in found.figures if one.kind == DELAYED] == [(4, 8)]
    at_once = read("Cm7 | F7", "1/8 c4 eb g bb 1/4 g bb | 1/8 a4 c5 g4 a 1/2 f", "dorian | mixolydian")
    assert not [one for one in at_once.figures if one.kind == DELAYED]


HELD_INTO = [
    pytest.param("Dm7 | G7alt", "dorian | altered", "1/4 d4 f a d5 | + 1/2 1/2 b4", ["chord-contradicted"],
                 id="a fifth held into an altered chord"),
    pytest.param("Dm7 | G7alt", "dorian | altered", "1/4 d4 f a d5 | + 1/4 1/4 db5 1/2 b4", [],
                 id="the same, resolved by step"),
    pytest.param("Dm7 | Cmaj7", "dorian | ionian", "1/4 d4 f a d5 | + 1/2 1/2 g4", [], id="at home in both"),
    pytest.param("Cmaj7 | Ab7", "ionian | mixolydian", "1/4 c4 e g b | + 1/2 1/2 eb4", ["outside-unresolved"],
                 id="held on and left by leap"),
]  # fmt: skip


@pytest.mark.parametrize(("changes", "scales", "line", "rules"), HELD_INTO)
def test_held_into_the_next_chord(changes: str, scales: str, line: str, rules: list[str]) -> None:
    for found in _both_keys(changes, scales, line):
        findings = proof(found)
        assert [finding.rule for finding in findings] == rules
        assert all(finding.bar == 2 and finding.beat == 1 for finding in findings)


# What the explanation says, and what it leaves unsaid.


def test_a_note_explained_by_its_crossing_is_not_explained_again() -> None:
    found = read("Am7 | D7", "1/8 a4 c5 e g e c5 a4 g# | 1/4 g4 f# d f#", "dorian | mixolydian")
    text = " ".join(explain(found))
    assert text.count("G sharp leads") + text.count("G sharp, outside") + text.count("through G sharp") <= 1


def test_a_line_inside_its_scales_says_so_only_where_there_is_little_else() -> None:
    found = read("Dm7 | G7 | Cmaj7", "1/8 d4 f a c5 b4 g a c5 | b4 d5 c a4 g f e d | 1/2 e4 g",
                 "dorian | mixolydian | ionian")  # fmt: skip
    builds = chosen_builds(found)
    assert not any(re.search(r"[Ee]very note belongs|stays inside|No note lies", one.text) for one in builds)


@given(phrases(most_bars=3))
@settings(max_examples=80, deadline=None)
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


@given(phrases(most_bars=3, ornaments=False))
@settings(max_examples=60, deadline=None)
def test_no_sentence_has_a_hole(written: Phrase) -> None:
    """Also where no chord sounds, and a note has no degree."""
    for sentence in explain(account(written), with_commentary=False):
        assert not re.search(
            r",\s*,|\bits[ ,.]*[,.]|\s[,.;:]|  |[:;]\.|\bNone\b|to no chord|\band and\b", sentence
        )


@pytest.mark.parametrize("line", ["1/1 e4", "1/8 e4 f# g a 1/2 b4"])
def test_no_chord_at_all(line: str) -> None:
    sentences = explain(read("N.C.", line))
    assert 5 <= len(sentences) <= 12
    assert not any("its ." in sentence or ", ," in sentence for sentence in sentences)
