"""What the band hears of the line where a pick-up finds no room. Source of every check: our own design."""

from __future__ import annotations

from fractions import Fraction

from shedbook.sound.arranging.line_rounds import _has_room, with_line
from shedbook.sound.arranging.order import Order
from shedbook.sound.arranging.passages import lay_out
from shedbook.sound.score.written_score import PartNote
from sound.demo_scores import phrase

HELD_IN = phrase(
    "Cmaj7 | % | % | F7", "1/8 e4 g | + 1/2 1/2 c5 | 1/1 d | e | 1/8 c d e f g a b c6", pickup="1/4"
)
"""A pick-up that is held into bar 1, and a last bar that leaves it no room."""


def test_a_pick_up_without_room_is_heard_before_the_first_round_only() -> None:
    first, second = with_line(
        lay_out([HELD_IN], Order(rounds=2, loop=False, parts="line"), Fraction(4), False), Order(rounds=2)
    )
    heard = [(float(note.start), float(note.end), note.midi) for note in first.passage.line]
    assert heard[:3] == [(3, 3.5, 64), (3.5, 6, 67), (6, 8, 72)]
    again = second.passage.line
    assert [(float(note.start), float(note.end), note.midi) for note in again[:2]] == [
        (20, 22, 67),
        (22, 24, 72),
    ]
    assert not again[0].early
    assert [note.early for note in first.passage.line[1:2]] == [True]
    assert [note.start for note in second.notes[:2]] == [20, 22]
    assert first.passage.coming == ()


def test_room_is_half_of_every_note_before() -> None:
    notes = [PartNote(Fraction(0), Fraction(2), 60, 80), PartNote(Fraction(2), Fraction(2), 62, 80)]
    assert _has_room(notes, Fraction(3))
    assert not _has_room(notes, Fraction(11, 4))
    assert not _has_room(notes, Fraction(2))
    assert _has_room((), Fraction(0))
