"""Tuplets by their numbers, ties by their ends."""

from fractions import Fraction

from read_back.printed import hard_phrase, printed
from shedbook.read_back.staves import systems_of
from shedbook.read_back.svg_ink import ink_of_svg
from shedbook.read_back.tuplets_and_ties import Tie, mark_tuplets, quarters_of, ties_of
from shedbook.read_back.written_notes import written_system


def test_lengths_follow_from_value_dots_and_ratio() -> None:
    """Common practice: a dot adds half, a second one a quarter; a triplet plays three in the time of two."""
    assert quarters_of(4, 0) == 1
    assert quarters_of(2, 2) == Fraction(7, 2)
    assert quarters_of(8, 0, 3, 2) == Fraction(1, 3)


def test_numbers_mark_the_notes_of_their_tuplets() -> None:
    system = systems_of(ink_of_svg(printed(hard_phrase("tuplets")).svg))[0]
    written = written_system(system)
    mark_tuplets(system, written)
    assert written.faults == []
    assert [note.tuplet for note in written.notes[8:17]] == [(5, 4)] * 5 + [None] + [(3, 2)] * 3


def test_a_tie_over_the_end_of_a_system_has_two_halves() -> None:
    first, second = systems_of(ink_of_svg(printed(hard_phrase("ties")).svg))
    written = written_system(first)
    assert ties_of(first, written)[0] == Tie(2, 3)
    halves = ties_of(second, written_system(second))
    assert all(tie.after is not None for tie in halves)
