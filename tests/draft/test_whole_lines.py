"""What is seen of whole lines, against a walk over one line; lines drawn in two steps, against all lines.

Source of the expectations: what each feature is said to be, counted by hand; plain enumeration.
"""

from __future__ import annotations

import math
from itertools import product
from random import Random

import numpy as np
import pytest

from shedbook.draft.figures import weighing
from shedbook.draft.ground import TICKS, ground_of
from shedbook.draft.leaning import figures_of
from shedbook.draft.lines import LineRules, Lines
from shedbook.draft.moods import Habits
from shedbook.draft.places import Place, places_of
from shedbook.draft.rhythms import Rhythm
from shedbook.draft.whole_lines import drawn_by_whole, features, whole_figures, whole_worth

E = TICKS // 2


def places(changes: str, notes: int) -> tuple[Place, ...]:
    onsets = tuple(at * E for at in range(notes))
    return places_of(Rhythm(onsets, (*onsets[1:], onsets[-1] + TICKS), ()), ground_of(changes))


def test_features_are_counted_by_hand() -> None:
    """D F A C B G E C sharp | D over Dm7 and G7, nine eighths: they count as nine of twenty notes."""
    line = np.array([[62, 65, 69, 72, 71, 67, 64, 61, 62]])
    found = {
        name: float(one[0]) * 20 / 9 for name, one in features(line, places("Dm7 G7 | Cmaj7", 9)).items()
    }
    told = {
        "repeated notes": 0, "half steps": 2 / 8, "whole steps": 0, "minor thirds": 4 / 8,
        "major thirds": 2 / 8, "fourths": 0, "pitches": 8 / 9, "span": 11 / 12, "turns": 2 / 7,
        "longest run": 4 / 4, "mean run": 8 / 3 / 2, "back again": 0, "peak": 3 / 9, "up": 4 / 8,
        "leaps turned back": 0.5, "chord strong": 2 / 3, "outside off the beat": 1 / 4,
        "outside by half step": 1, "outside twice": 0, "links by step": 1, "guides at links": 1 / 2,
        "last in chord": 0, "last root": 0, "cells of three again": 0, "no cells of three again": 1,
        "no repeated notes": 1,
    }  # fmt: skip
    assert {name: found[name] for name in told} == pytest.approx(told)
    assert found["turns squared"] == pytest.approx((2 / 7) ** 2)
    assert set(found) == set(whole_figures())
    again = features(np.array([[60, 62, 64, 60, 62, 64]]), places("Cmaj7", 6))
    assert again["cells of three again"][0] * 20 / 6 == pytest.approx(1 / 4)  # up a step twice, twice
    assert again["no cells of three again"][0] == 0


def test_many_lines_are_read_as_each_by_itself() -> None:
    where = places("Dm7 | G7", 7)
    lines = np.array(
        [[60, 62, 64, 65, 64, 62, 60], [72, 60, 61, 61, 66, 70, 67], [69, 65, 62, 69, 65, 62, 59]]
    )
    together = features(lines, where)
    for at, line in enumerate(lines):
        alone = features(line[None, :], where)
        assert {name: one[at] for name, one in together.items()} == pytest.approx(
            {name: one[0] for name, one in alone.items()}
        )


def test_lines_are_drawn_by_their_notes_and_as_wholes() -> None:
    """What drawn lines are worth on the average, against all lines, tried one by one with their weights."""
    where = places("Dm7", 8)[:4]
    free = Habits(largest=12, run=0, recover=False, repeats=True, figures=False)
    rules = LineRules(62, 67, free, strong=False, links=False, ending=False)
    lines = Lines(where, rules, weighing(figures_of("learnt", {}), where, 62, 67, 64.0))
    every = np.array(list(product(range(62, 68), repeat=4)))
    by_notes = np.exp([lines.weight_of(line) for line in every.tolist()])
    worth = whole_worth(every, where)
    by_whole = by_notes * np.exp(worth)
    expected, plain = (float((one * worth).sum() / one.sum()) for one in (by_whole, by_notes))
    scatter = math.sqrt(float((by_whole * (worth - expected) ** 2).sum() / by_whole.sum()) / 200)
    dice = Random(5)
    drawn = np.array([drawn_by_whole(lines, dice, 80) for _ in range(200)])
    seen = float(whole_worth(drawn, where).mean())
    assert abs(seen - expected) < 3 * scatter
    assert abs(seen - plain) > 4 * scatter
