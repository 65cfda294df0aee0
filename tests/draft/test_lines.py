"""The lattice of lines against every row of pitches, tried one by one with the rules as they are said.

Source of the expectation: the rules in words (`draft/tables/hard_rules.py`), written again here without a
lattice.
"""

from __future__ import annotations

import math
from collections import Counter
from dataclasses import replace
from itertools import pairwise, product
from random import Random

import numpy as np
import pytest
from scipy.stats import chisquare

from shedbook.draft.figures import weighing
from shedbook.draft.ground import TICKS, ground_of
from shedbook.draft.leaning import figures_of
from shedbook.draft.lines import LineRules, Lines, Weighing
from shedbook.draft.moods import Habits
from shedbook.draft.places import Place, places_of
from shedbook.draft.rhythms import Rhythm

E = TICKS // 2


def places(changes: str, *onsets: int, last: int = TICKS) -> tuple[Place, ...]:
    """Return the places of notes at eighths counted from 0, each going on to the next."""
    starts = tuple(one * E for one in onsets)
    return places_of(Rhythm(starts, (*starts[1:], starts[-1] + last), ()), ground_of(changes))


def allowed(line: tuple[int, ...], where: tuple[Place, ...], rules: LineRules) -> bool:
    """Say whether a line keeps the rules: each rule by itself, on the whole line."""
    moves = [after - before for before, after in pairwise(line)]
    habits = rules.habits
    outside = [note % 12 not in place.chord.inside for note, place in zip(line, where, strict=True)]
    if any(abs(move) > habits.largest or (move == 0 and not habits.repeats) for move in moves):
        return False
    if rules.strong and any(
        place.strong and note % 12 not in place.chord.strong for note, place in zip(line, where, strict=True)
    ):
        return False
    if not moves_allowed(moves, where, rules):
        return False
    end = where[-1]
    firm = set(end.chord.firm)
    if end.chord.family in ("major", "minor"):
        firm |= {(end.chord.root + one) % 12 for one in (2, 9)} & end.chord.inside
    if rules.ending and line[-1] % 12 not in firm:
        return False
    return not habits.figures or figures_kept(line, moves, outside, where)


def moves_allowed(moves: list[int], where: tuple[Place, ...], rules: LineRules) -> bool:
    """Say whether links, leaps and runs keep the rules."""
    habits = rules.habits
    for place, move in zip(where[1:], moves, strict=True):
        if rules.links and place.enters and not place.breathed and abs(move) not in (1, 2):
            return False
    if habits.recover:
        for one, other in pairwise(moves):
            if abs(one) >= 5 and (one * other >= 0 or abs(other) > 4):
                return False
    run = 0
    for at, move in enumerate(moves):
        goes_on = at and move * moves[at - 1] > 0 and abs(moves[at - 1]) < 5
        run = run + 1 if goes_on else 1
        if at and move * moves[at - 1] > 0 and abs(moves[at - 1]) >= 5:
            run = 2
        if habits.run and run > habits.run:
            return False
    return True


def figures_kept(
    line: tuple[int, ...], moves: list[int], outside: list[bool], where: tuple[Place, ...]
) -> bool:
    """Say whether every outside note resolves: by half step, passing by step, or by an enclosure."""
    at = 0
    for at, out in enumerate(outside):
        if out and (where[at].strong or where[at].rest_after or where[at].length > E):
            return False
    at = 0
    while at < len(line):
        if not outside[at]:
            at += 1
            continue
        if at == len(line) - 1:
            return False
        step = moves[at]
        passing = at and abs(moves[at - 1]) in (1, 2) and moves[at - 1] * step > 0 and abs(step) == 2
        if not outside[at + 1] and (abs(step) == 1 or passing):
            at += 1
            continue
        # An enclosure: the next note lies beyond the target, which both of them are a step from.
        if abs(step) not in (2, 3, 4) or at + 2 >= len(line) or outside[at + 2]:
            return False
        if where[at + 1].rest_after:
            return False
        back = moves[at + 1]
        if back * step >= 0 or abs(back) > 2 or abs(step) - abs(back) not in (1, 2):
            return False
        at += 2
    return True


CASES = {
    "one chord": ("C7", (0, 1, 2, 3, 4), LineRules(60, 67, Habits())),
    "two chords, all rules": ("Dm7 G7", (0, 1, 2, 3, 4), LineRules(60, 67, Habits())),
    "no figures, repeats": ("G7", (0, 1, 2, 3), LineRules(59, 68, Habits(repeats=True, figures=False))),
    "short runs": ("Cmaj7", (0, 1, 2, 3, 4), LineRules(60, 67, Habits(run=2))),
    "leaps free": ("Cmaj7", (1, 2, 3, 5), LineRules(57, 69, Habits(recover=False, largest=12))),
    "free ending": ("Dm7b5 G7b9", (0, 2, 3, 4, 5), LineRules(60, 67, Habits(), ending=False, links=False)),
    "a rest inside": ("C7 F7", (0, 1, 6, 7), LineRules(60, 69, Habits(), strong=False)),
}


@pytest.mark.parametrize("name", CASES)
def test_as_many_lines_as_there_are(name: str) -> None:
    changes, onsets, rules = CASES[name]
    where = places(changes, *onsets)
    plain = {
        line
        for line in product(range(rules.low, rules.high + 1), repeat=len(where))
        if allowed(line, where, rules)
    }
    lines = Lines(where, rules)
    assert lines.count == len(plain) > 0
    drawn = {tuple(row) for row in lines.drawn(400, Random(1)).tolist()}
    assert drawn <= plain


def test_a_covered_scale_sounds_whole() -> None:
    """Eight notes over half-whole diminished, which has eight: every line is an order of them."""
    where = places("G7b9", *range(8))
    rules = LineRules(59, 71, Habits(), covered=frozenset({0}))
    lines = Lines(where, rules)
    scale = {one % 12 for one in where[0].chord.span.scale_classes}
    drawn = lines.drawn(300, Random(2))
    assert all({note % 12 for note in row} == scale for row in drawn.tolist())
    free = Lines(where, LineRules(59, 71, Habits()))
    wanted = sum({note % 12 for note in row} >= scale for row in free.drawn(4000, Random(3)).tolist())
    assert lines.count / free.count == pytest.approx(wanted / 4000, abs=0.01)


def weighted() -> tuple[Lines, dict[tuple[int, ...], float]]:
    where = places("Dm7 G7", 0, 1, 2, 4)
    rules = LineRules(60, 68, Habits())
    weights = weighing(figures_of("both", {}), where, 60, 68, 64.0)
    lines = Lines(where, rules, weights)
    plain = [line for line in product(range(60, 69), repeat=4) if allowed(line, where, rules)]
    return lines, {line: math.exp(lines.weight_of(line)) for line in plain}


def test_lines_are_drawn_in_proportion() -> None:
    """Chi-square of 30,000 draws against the weights of all lines, rare ones together."""
    lines, weights = weighted()
    whole = sum(weights.values())
    assert lines.log_weight == pytest.approx(math.log(whole))
    seen = Counter(tuple(row) for row in lines.drawn(30_000, Random(5)).tolist())
    common = [line for line, weight in weights.items() if weight / whole * 30_000 >= 8]
    observed = [seen[line] for line in common]
    expected = [weights[line] / whole * 30_000 for line in common]
    observed.append(30_000 - sum(observed))
    expected.append(30_000 - sum(expected))
    assert chisquare(observed, expected).pvalue > 0.001


def test_the_best_are_the_heaviest() -> None:
    lines, weights = weighted()
    heaviest = sorted(weights.values(), reverse=True)[:20]
    assert [math.exp(weight) for weight, _ in lines.best(20)] == pytest.approx(heaviest)


def test_a_pull_multiplies_what_a_line_weighs() -> None:
    """Every line under a pull weighs what it weighed, and the pull of each of its pitches."""
    plain, weights = weighted()
    pull = np.round(np.random.default_rng(3).normal(0, 1, (4, 9)), 2)
    pulled = Lines(plain.places, plain.rules, replace(plain._weights, pull=pull))
    expected = {
        line: weight * math.exp(sum(pull[at, pitch - 60] for at, pitch in enumerate(line)))
        for line, weight in weights.items()
    }
    whole = sum(expected.values())
    assert pulled.log_weight == pytest.approx(math.log(whole), abs=0.01)
    assert pulled.count == plain.count
    seen = Counter(tuple(row) for row in pulled.drawn(30_000, Random(6)).tolist())
    common = [line for line, weight in expected.items() if weight / whole * 30_000 >= 20]
    observed = [seen[line] for line in common]
    wanted = [expected[line] / whole * 30_000 for line in common]
    assert sum(observed) / sum(wanted) == pytest.approx(1, abs=0.02)
    assert chisquare(observed, np.array(wanted) * sum(observed) / sum(wanted)).pvalue > 0.001


def test_shares_of_all_moves_sum_to_one() -> None:
    """Without rules the second note of a line is one of 25 moves, whose shares make one."""
    where = places("C7", 0, 1)
    loose = Habits(largest=12, run=0, recover=False, repeats=True, figures=False)
    rules = LineRules(48, 84, loose, strong=False, links=False, ending=False, first=frozenset({66}))
    weights = weighing(figures_of("learnt", {}), where, 48, 84, 66.0)
    lines = Lines(where, rules, weights)
    assert lines.log_weight - weights.notes[0][66 - 48 + 12] == pytest.approx(0.0, abs=0.06)


def test_fixed_notes_and_neighbours_stand() -> None:
    where = places("Cmaj7", 0, 1, 2, 3)
    rules = LineRules(55, 80, Habits(), fixed={1: 66}, nearby=(72, 60), ending=False)
    for row in Lines(where, rules).drawn(50, Random(1)).tolist():
        assert row[1] == 66
        assert abs(row[0] - 72) <= 9
        assert abs(row[-1] - 60) <= 9


def test_weights_that_say_nothing_give_every_line_the_same_chance() -> None:
    where = places("C7", 0, 1, 2)
    lines = Lines(where, LineRules(60, 67, Habits()))
    assert lines.log_weight == pytest.approx(math.log(lines.count))
    assert isinstance(lines._weights, Weighing)
    assert np.all(lines._weights.notes == 0)


def test_lines_that_keep_notes_are_those_that_are_made_anew() -> None:
    plain, _ = weighted()
    rules = replace(plain.rules, fixed={1: 65})
    pull = np.round(np.random.default_rng(4).normal(0, 1, (4, 9)), 2)
    weights = replace(plain._weights, pull=pull)
    kept, anew = plain.keeping(rules, weights), Lines(plain.places, rules, weights)
    assert kept.count == anew.count < plain.count
    assert kept.log_weight == anew.log_weight
    assert kept.drawn(200, Random(8)).tolist() == anew.drawn(200, Random(8)).tolist()
    with pytest.raises(ValueError, match="only fixed notes"):
        plain.keeping(replace(rules, high=70), weights)
    with pytest.raises(ValueError, match="only fixed notes"):
        kept.keeping(plain.rules, weights)
