"""Triads laid over a chord, on lines of our own; what is expected is common practice."""

from __future__ import annotations

from analysis.helpers import both_keys, read

LAID_OVER = "1/8 d5 c a4 f f#4 a# c#5 a4"


def test_a_triad_that_is_mostly_outside_is_a_chord_of_its_own() -> None:
    for found in both_keys("Dm7", "dorian", LAID_OVER):
        assert [note.detail for note in found.notes[4:7]] == ["superimposed triad"] * 3
        assert len({note.group for note in found.notes[4:7]}) == 1


def test_a_note_of_such_a_triad_that_is_inside_keeps_its_own_role() -> None:
    """E flat major over Dm7 has its eleventh, F sharp minor its fifth."""
    for line, own in (("1/8 d5 c a4 f eb g bb d5", "scale tone"), ("1/8 d5 c a4 f f# a c#5 f", "chord tone")):
        for found in both_keys("Dm7", "dorian", line):
            assert [note.role for note in found.notes[4:7]] == ["escape note", own, "escape note"]


def test_one_outside_note_in_a_triad_is_a_slip_and_no_triad_of_its_own() -> None:
    found = read("Dm7", "1/8 d5 c a4 f a c#5 e a", "dorian")
    assert "superimposed triad" not in {note.detail for note in found.notes}
