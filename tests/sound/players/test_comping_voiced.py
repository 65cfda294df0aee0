"""Which voicing is taken for a strike, and how loud it is. Source: the docstrings of the tables."""

from __future__ import annotations

import random
from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

import pytest

from shedbook.sound.players.band_chart import LineNote
from shedbook.sound.players.comping import _calmed, _course, _notes, candidates, shaped, voiced
from shedbook.sound.players.comping_rhythm import Strike
from shedbook.sound.players.tables.voicings import COURSE
from shedbook.sound.players.usable_notes import usable_notes
from shedbook.sound.players.voicings import voicings
from shedbook.theory.chord_symbol import parse_chord
from sound.demo_scores import chart

OVER = usable_notes(parse_chord("G7"), None)
ONE, HALF = Fraction(1), Fraction(1, 2)
FIRST = voicings(OVER)[0][0]
"""F3 A3 B3 E4: 53 57 59 64, the cheapest."""


class Same(random.Random):
    """Dice that always fall alike."""

    def __init__(self, byte: int = 0) -> None:
        super().__init__(0)
        self.byte, self.drawn = byte, 0

    def randbytes(self, n: int) -> bytes:
        return bytes([self.byte]) * n

    def choice(self, seq: Sequence[int]) -> int:  # type: ignore[override]
        self.drawn += 1
        return seq[(0, -1)[self.drawn % 2]]


def line_note(start: object, end: object, midi: int) -> LineNote:
    return LineNote(Fraction(str(start)), Fraction(str(end)), midi, Fraction(str(start)), False, True)


def strike(**more: object) -> Strike:
    return replace(Strike(Fraction(0), ONE, OVER, False, (), False), **more)  # type: ignore[arg-type]


def cost(own: Strike, *, before: tuple[int, ...] | None = None, top: int = 64, byte: int = 0) -> int:
    """Return what the cheapest voicing costs on top of what it costs by itself."""
    return dict(candidates(own, Same(byte), before, top))[FIRST] - dict(voicings(OVER))[FIRST]


def test_what_a_voicing_costs_where_it_is_struck() -> None:
    assert FIRST == (53, 57, 59, 64)
    assert cost(strike()) == 0
    assert (cost(strike(), top=62), cost(strike(), top=67)) == (4, 6)
    assert (cost(strike(), byte=9), cost(strike(), byte=10), cost(strike(), byte=25)) == (9, 0, 5)
    assert (cost(strike(), before=FIRST), cost(strike(), before=FIRST[1:])) == (12, 0)
    assert [cost(strike(under=midi)) for midi in (67, 66, 65, 60)] == [0, 0, 3, 18]


@pytest.mark.parametrize(
    ("midi", "clashes"),
    [(65, 1), (66, 1), (52, 1), (58, 2), (60, 1), (63, 1), (78, 1), (61, 0), (76, 0), (77, 1)],
)
def test_a_half_step_or_a_flat_ninth_against_a_landing_costs_much(midi: int, clashes: int) -> None:
    """53 57 59 64: a half step away, an octave more, or two."""
    assert cost(strike(landings=(line_note(0, 1, midi),))) == 900 * clashes


def test_a_last_chord_has_four_notes_where_it_can() -> None:
    rows = dict(candidates(strike(last=True), Same(), None, 64))
    plain = dict(candidates(strike(), Same(), None, 64))
    assert {len(row): rows[row] - plain[row] for row in rows} == {3: 25, 4: 0}


def test_a_chord_is_let_go_before_the_line_lands_beside_it() -> None:
    for own, quarters in ((line_note(HALF, 1, 65), HALF), (line_note("1/4", 1, 65), Fraction(1, 4))):
        found = _calmed(strike(landings=(own,)), FIRST)
        assert found is not None
        assert (found[0].quarters, found[1]) == (quarters, FIRST)
    both = (line_note("3/4", 1, 65), line_note(HALF, 1, 60))
    first = _calmed(strike(landings=both), FIRST)
    assert first is not None
    assert first[0].quarters == HALF
    clear = strike(landings=(line_note(0, 1, 61),))
    assert _calmed(clear, FIRST) == (clear, FIRST)


def test_where_it_would_clash_at_once_the_pair_is_struck_alone() -> None:
    """The pair B and F nearest to the voicing, where it does not clash; else what of the voicing does not."""
    own = strike(landings=(line_note(0, 1, 60),))
    assert _calmed(own, (57, 59, 65)) == (own, (65, 71))
    own = strike(landings=(line_note(0, 1, 70),))
    assert _calmed(own, FIRST) == (own, (53, 59))
    assert _calmed(own, (57, 59, 64, 67)) == (own, (59, 65))
    assert _calmed(own, (53, 57, 59, 71)) == (own, (59, 65))
    own = strike(landings=(line_note(0, 1, 60), line_note(0, 1, 66)))
    assert _calmed(own, FIRST) == (own, (57, 64))
    assert _calmed(own, (53, 59, 64)) is None


def test_shapes_of_a_voicing() -> None:
    """The highest note in octaves, or the two below it."""
    assert shaped(FIRST, "") == FIRST
    assert shaped(FIRST, "octave") == (52, 64)
    assert shaped(FIRST, "inner") == (57, 59)
    assert shaped((53, 59), "inner") == (53,)


@pytest.mark.parametrize(
    ("more", "loud"),
    [
        ({}, 66), ({"behind": True}, 58), ({"ahead": True}, 70), ({"soft": True}, 54), ({"start": HALF}, 70),
        ({"behind": True, "ahead": True, "start": HALF}, 66),
    ],
)  # fmt: skip
def test_how_loud_a_chord_is(more: dict[str, object], loud: int) -> None:
    """Each note alike, the highest sings a little; nine tenths of its length."""
    passage = chart("G7").passages[0]
    found = _notes(strike(**more), FIRST, passage, 3)
    assert [note.velocity - 3 for note in found] == [loud, loud, loud, loud + 4]
    assert {note.quarters for note in found} == {Fraction(9, 10)}
    ending = replace(passage, kind="ending", held=True)
    last = _notes(strike(**more), FIRST, ending, 3)
    assert [note.velocity - 3 for note in last] == [70, 70, 70, 74]
    assert {note.quarters for note in last} == {1}
    assert _notes(strike(), FIRST, replace(ending, held=False), 3)[0].quarters == Fraction(9, 10)


def test_the_highest_voice_follows_a_course() -> None:
    """From one height to the next in four chords, then on to another."""
    assert _course(Same(), 9) == [72, 69, 67, 64, 62, 64, 67, 69, 72]
    assert set(_course(random.Random(2), 400)) <= set(range(min(COURSE), max(COURSE) + 1))


def test_voicings_are_chosen_together_and_go_on_from_the_last_one() -> None:
    strikes = (strike(), strike(start=ONE))
    free = [voicing for _, voicing in voiced(strikes, Same(), Fraction(0), {}, None)]
    assert len(free) == 2
    high = [voicing for _, voicing in voiced(strikes, Same(), Fraction(0), {}, None, higher=12)]
    assert high[0][-1] >= free[0][-1]
    on = voiced(strikes[:1], Same(), Fraction(0), {}, (65, 69, 71, 74))
    assert len(on) == 1
    assert on[0][1][-1] >= free[0][-1]
    again = voiced(strikes[:1], Same(), Fraction(-3), {Fraction(3): free[0]}, None)
    assert again[0][1] != free[0]
    assert voiced((), Same(), Fraction(0), {}, FIRST) == ()
