"""Slips are found, spelled by their chord, and told with odds; our own lines, expected by common practice."""

from __future__ import annotations

from dataclasses import replace

import pytest

from analysis.helpers import in_all_keys, phrase, read
from shedbook.analysis.account import account
from shedbook.analysis.proof import Finding, proof
from shedbook.analysis.proof.rules import SLIP_RULES
from shedbook.analysis.proof.slips import Suspicion
from shedbook.analysis.proof.slips.choosing import weighed
from shedbook.analysis.proof.slips.tables.chord_kinds import DOMINANT, MINOR_SEVENTH

CHANGES = "Ebm7 | Ab7 | Dbmaj7"
LINE = "1/8 eb4 gb bb db5 c bb4 ab f | 1/8 {first}4 f eb c db eb f ab | 1/2 f4 db4"


def found(changes: str, line: str, rule: str = "") -> list[Finding]:
    return [one for one in proof(read(changes, line)) if one.rule == rule or not rule]


def test_the_mend_is_spelled_by_the_letters_of_the_chord() -> None:
    (one,) = found(CHANGES, LINE.format(first="g"))
    assert (one.rule, one.bar, one.note) == ("accidental-slip", 2, 8)
    assert "G is the major seventh over A♭7; G♭, the seventh," in one.message
    assert one.mend == "Check the accidental: G♭?"
    assert "♯" not in one.message


def test_an_accidental_that_was_taken_to_carry() -> None:
    line = "1/8 a4 c5 e g f# e d c | f#5 e d c f a4 c5 e | 1/2 d5 b4"
    (one,) = found("Am7 | D7 | Gmaj7", line)
    assert (one.rule, one.note) == ("accidental-slip", 12)
    assert one.mend == "Check the accidental: F♯? An accidental belongs to its note alone."


def test_each_rule_tells_its_own_kind_wherever_that_stands() -> None:
    """In whatever order the suspicions come: a kind of another rule is passed over, and ends nothing."""
    seen = read("Dm7 | G7 | Cmaj7", "1/8 d4 f a c5 b4 a g e | f#4 g b d5 d f e d | 1/2 c5 g4")
    suspected = [
        Suspicion("octave", 3, 4, 12, 120), Suspicion("accidental", 8, 8, -1, 90),
        Suspicion("letter", 7, 7, 1, 50), Suspicion("doubled", 12, 12, 2, 20),
        Suspicion("quality", 8, 15, MINOR_SEVENTH, 10, 1), Suspicion("place", 0, 17, 1, 0),
    ]  # fmt: skip
    for rule in SLIP_RULES:
        there, back = list(rule(seen, suspected)), list(rule(seen, suspected[::-1]))
        assert there == back
        assert len(there) == 1, rule.name


def test_the_last_note_over_a_chord_may_speak_for_another_quality() -> None:
    seen = read("Dm7 | Gm7 | Cmaj7", "1/8 d4 f a c5 b4 a g f | d4 g d5 f e d g4 b4 | 1/2 c5 g4")
    suspected = [Suspicion("quality", 8, 15, DOMINANT, 50, 1)]
    (one,) = [finding for rule in SLIP_RULES for finding in rule(seen, suspected)]
    assert one.message.startswith("Over Gm7 the line has B and no B♭")


def test_the_odds_stand_in_words() -> None:
    (one,) = found(CHANGES, LINE.format(first="g"))
    assert "about" in one.message
    assert any(word in one.message for word in ("to one", "even odds", "one chance in"))


@pytest.mark.parametrize("number", range(12))
def test_an_accidental_is_found_in_every_key(number: int) -> None:
    seen = in_all_keys(CHANGES, LINE.format(first="g"))[number]
    slips = [one.note for one in proof(seen) if one.rule in ("accidental-slip", "letter-slip")]
    assert slips == [8]


def test_nothing_is_said_of_the_line_that_was_meant() -> None:
    assert found(CHANGES, LINE.format(first="gb")) == []


# An octave number left out: everything after it shifts, until the next number.
LEFT_OUT = [
    pytest.param("1/8 d4 f a c5 b4 a g f | e f g a b c d e | 1/2 f5 d5",
                 "1/8 d4 f a c5 b4 a g f | e f g a b c5 d e | 1/2 f5 d5", 13, "c5", id="up to the bar line"),
    pytest.param("1/8 a4 c5 e g f e d c | b c5 d f e d c b4 | 1/2 a4 c5",
                 "1/8 a4 c5 e g f e d c | b4 c5 d f e d c b4 | 1/2 a4 c5", 8, "b4", id="one note"),
]  # fmt: skip


@pytest.mark.parametrize(("typed", "meant", "note", "number"), LEFT_OUT)
def test_an_octave_number_left_out(typed: str, meant: str, note: int, number: str) -> None:
    changes = "Dm7 | % | Cmaj7" if note == 13 else "Am7 | % | %"
    one = next(one for one in found(changes, typed) if one.rule == "octave-slip")
    assert one.note == note
    assert f"Write {number}" in one.mend
    assert found(changes, meant, "octave-slip") == []


def test_a_wrong_quality_names_what_sounds() -> None:
    changes, line = "Dm7 | Gm7 | Cmaj7", "1/8 d4 f a c5 b4 a g f | 1/8 b4 d5 f e d b4 g b | 1/2 c5 g4"
    (one,) = found(changes, line)
    assert (one.rule, one.bar) == ("chord-quality-slip", 2)
    assert one.message.startswith("Over Gm7 the line has B and no B♭")
    assert one.mend == "Check the symbol: G7?"


def test_what_is_silenced_stays_silent_and_nothing_takes_its_place() -> None:
    written = phrase(CHANGES, LINE.format(first="g"))
    quiet = replace(written, silence=(("accidental-slip", "it is meant"),))
    assert proof(account(quiet)) == ()


def test_a_scale_that_the_author_names_speaks_for_its_notes() -> None:
    line = LINE.format(first="g")

    def odds(scales: str) -> int:
        suspected = weighed(read(CHANGES, line, scales))
        return next(one.log_odds for one in suspected if (one.first, one.shift) == (8, -1))

    holds_both, holds_the_other = "dorian | bebop dominant | ionian", "dorian | mixolydian | ionian"
    assert odds(holds_both) < odds("") < odds(holds_the_other)


def test_a_pedal_is_no_slip() -> None:
    rules = {one.rule for one in found("Cmaj7 | Ab7 | G7", "1/1 g4 | g | g")}
    assert rules.isdisjoint({"accidental-slip", "letter-slip", "doubled-note"})
