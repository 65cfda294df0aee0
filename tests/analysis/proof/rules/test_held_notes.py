"""The rule on held notes, and lines to leave alone, all our own; what is expected is common practice."""

from __future__ import annotations

from fractions import Fraction

import pytest

from analysis.helpers import both_keys, read
from shedbook.analysis.proof import proof

HALF_WHOLE = "half-whole diminished"


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
    for found in both_keys(changes, scales, line):
        assert proof(found) == ()


HELD_INTO = [
    pytest.param("Dm7 | G7alt", "dorian | altered", "1/4 d4 f a d5 | + 1/2 1/2 b4", ["chord-contradicted"],
                 id="a fifth held into an altered chord"),
    pytest.param("Dm7 | G7alt", "dorian | altered", "1/4 d4 f a d5 | + 1/4 1/4 db5 1/2 b4", [],
                 id="the same, resolved by step"),
    pytest.param("Dm7 | Cmaj7", "dorian | ionian", "1/4 d4 f a d5 | + 1/2 1/2 g4", [], id="at home in both"),
    pytest.param("Cmaj7 | Ab7", "ionian | mixolydian", "1/4 c4 e g b | + 1/2 1/2 eb4", [],
                 id="held on and left by leap"),
]  # fmt: skip


@pytest.mark.parametrize(("changes", "scales", "line", "rules"), HELD_INTO)
def test_held_into_the_next_chord(changes: str, scales: str, line: str, rules: list[str]) -> None:
    for found in both_keys(changes, scales, line):
        findings = proof(found)
        assert [finding.rule for finding in findings] == rules
        assert all(finding.bar == 2 and finding.beat == 1 for finding in findings)


def test_natural_fifth_sustained_over_alt() -> None:
    found = proof(read("G7alt", "1/2 b4 d5", "altered"))
    assert "chord-contradicted" in {one.rule for one in found}


def test_the_wrong_third_over_a_major_chord() -> None:
    assert "chord-contradicted" in {one.rule for one in proof(read("Cmaj7", "1/2 eb4 g4", "ionian"))}
    assert "chord-contradicted" not in {one.rule for one in proof(read("C7", "1/2 eb4 g4", "mixolydian"))}


def test_findings_carry_a_place_and_a_mend() -> None:
    found = proof(read("Cm7 | Fm7", "1/2 eb4 g4 | 1/2 ab4 a4", "dorian | dorian"))
    contradiction = next(one for one in found if one.rule == "chord-contradicted")
    assert (contradiction.bar, contradiction.beat, contradiction.note) == (2, Fraction(3), 3)
    assert "A" in contradiction.message
    assert "Fm7" in contradiction.mend
