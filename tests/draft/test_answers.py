"""Answers: a statement stands, its answers keep it where the chords let them, and guide tones pull.

Source of the expectations: what an answer is said to be, tried on lines by hand; thirds and sevenths of
chords are common practice.
"""

from __future__ import annotations

from random import Random

import numpy as np
import pytest

from shedbook.draft.answers import answering, guide_pull, kept, shifts, statements
from shedbook.draft.figures import weighing
from shedbook.draft.ground import ground_of
from shedbook.draft.leaning import figures_of
from shedbook.draft.lines import LineRules, Lines
from shedbook.draft.moods import Habits
from shedbook.draft.places import places_of
from shedbook.draft.rhymes import Form, Rhyme
from shedbook.draft.rhythms import Rhythm

ONSETS = (6, 12, 18, 24, 54, 60, 66, 72)
RHYTHM = Rhythm(ONSETS, (12, 18, 24, 36, 60, 66, 72, 84), ())
RHYME = Rhyme(RHYTHM, (Form(0, 4, ((4, 4),)),))
PLACES = places_of(RHYTHM, ground_of("Dm7 | Cmaj7"))
STATED = {0: 69, 1: 72, 2: 69, 3: 65}


def test_an_answer_stands_a_bar_later() -> None:
    assert RHYME.statements == ((0, 1, 2, 3),)
    assert RHYME.answers == (((0, 4), (1, 5), (2, 6), (3, 7)),)


def test_guide_tones_pull_where_a_chord_begins() -> None:
    """E and B are the third and the seventh of Cmaj7, whose first note is the fifth of the line."""
    pull = guide_pull(PLACES, 60, 72)
    pulled = {60 + at for at in np.flatnonzero(pull[4])}
    assert pulled == {64, 71}
    assert not pull[[0, 1, 2, 3, 5, 6, 7]].any()


def test_answers_keep_the_statement_and_the_rules() -> None:
    rules = LineRules(57, 79, Habits())
    weights = weighing(figures_of("both", {}), PLACES, 57, 79, 68.0)
    free = Lines(PLACES, rules, weights)
    ruled, pulled = answering(rules, weights, PLACES, RHYME, STATED, (-1,))
    lines = Lines(PLACES, ruled, pulled)
    drawn = lines.drawn(300, Random(1))
    assert (drawn[:, :4] == [69, 72, 69, 65]).all()
    assert all(free.weight_of(row) < 0 for row in drawn.tolist())
    near = np.abs(drawn[:, 4:] - np.array([68, 71, 68, 64])).mean()
    other = free.drawn(300, Random(1))
    assert near < 0.5 * np.abs(other[:, 4:] - np.array([68, 71, 68, 64])).mean()
    worth = kept(
        np.array([[69, 72, 69, 65, 68, 71, 68, 64], [69, 72, 69, 65, 67, 71, 69, 62]]), RHYME, STATED, (-1,)
    )
    assert worth[0] > worth[1]


def test_fixed_notes_go_before_the_statement() -> None:
    rules = LineRules(57, 79, Habits(), fixed={0: 69, 4: 67})
    ruled, _ = answering(
        rules, weighing(figures_of("both", {}), PLACES, 57, 79, 68.0), PLACES, RHYME, STATED, (0,)
    )
    assert dict(ruled.fixed) == {**STATED, 4: 67}


def test_an_answer_is_moved_to_where_it_fits() -> None:
    """F A C over Dm7 is E G B over Cmaj7 a step below; a half step up would be no note of its scale."""
    dice = Random(4)
    found = [shifts(STATED, RHYME, PLACES, LineRules(57, 79), None, dice)[0] for _ in range(60)]
    assert {1, 3, 4} & set(found) == set()
    assert len(set(found)) > 1


def test_statements_turn_and_differ() -> None:
    lines = np.array(
        [
            [62, 64, 65, 67, 69, 71, 72, 74],
            [69, 72, 69, 65, 67, 71, 69, 64],
            [69, 72, 69, 65, 69, 71, 69, 64],
            [74, 61, 73, 60, 67, 71, 69, 64],
        ]
    )
    found = statements(lines, RHYME, PLACES, 2)
    assert found[0] == STATED
    assert len(found) == 2
    assert found[1] != found[0]


@pytest.mark.parametrize(("moved", "more"), [(0, False), (-2, True)])
def test_a_mere_copy_is_worth_less(moved: int, more: bool) -> None:
    copy = np.array([[69, 72, 69, 65, *[one + moved for one in (69, 72, 69, 65)]]])
    plain = kept(copy, RHYME, STATED, (moved,))[0]
    exact = kept(np.array([[69, 72, 69, 65, 69, 72, 69, 65]]), RHYME, STATED, (0,))[0]
    assert bool(plain > exact) == more
