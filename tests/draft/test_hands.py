"""Awkward fingerings in the lattice of lines, against every line weighed by hand.

Source of the expectation: the points of each two notes in a row, added up over the whole line.
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

from shedbook.draft.drafting import draft
from shedbook.draft.figures import weighing
from shedbook.draft.ground import TICKS, ground_of
from shedbook.draft.hands import awkward_pairs, hand_weights, haste, weights_of_pairs
from shedbook.draft.leaning import figures_of
from shedbook.draft.lines import LineRules, Lines
from shedbook.draft.moods import Habits
from shedbook.draft.order import Order
from shedbook.draft.places import Place, places_of
from shedbook.draft.rhythms import Rhythm
from shedbook.editions.instruments.awkward import awkward
from shedbook.editions.instruments.instrument import instrument_named

CLARINET = instrument_named("clarinet")
LOW, HIGH = 65, 72
"""The break of the clarinet: written G4 to D5."""
ONSETS = (0, 6, 12, 24)


def places(onsets: tuple[int, ...] = ONSETS) -> tuple[Place, ...]:
    rhythm = Rhythm(onsets, (*onsets[1:], onsets[-1] + TICKS), ())
    return places_of(rhythm, ground_of("Bbmaj7"))


def lines(point: float, tempo: int = 120) -> Lines:
    where = places()
    weights = weighing(figures_of("both", {}), where, LOW, HIGH, 68.0)
    pairs = hand_weights(point, CLARINET, where, LOW, HIGH, tempo) if point else None
    rules = LineRules(LOW, HIGH, Habits(), ending=False)
    return Lines(where, rules, replace(weights, pairs=pairs))


def points_by_hand(line: tuple[int, ...]) -> float:
    """Eighths at 120 count in full, the quarter after them half: it leaves half a second."""
    return sum(
        awkward(CLARINET, one, other) * share
        for (one, other), share in zip(pairwise(line), (1.0, 1.0, 0.5), strict=True)
    )


def every(lines: Lines) -> dict[tuple[int, ...], float]:
    """Return each line that the rules allow, tried one by one, with the logarithm of its weight."""
    found = {}
    for line in product(range(LOW, HIGH + 1), repeat=len(ONSETS)):
        try:
            found[line] = lines.weight_of(line)
        except ValueError:
            continue
    return found


def test_every_line_weighs_what_its_fingerings_take() -> None:
    plain, weighed = every(lines(0.0)), every(lines(-0.4))
    assert plain.keys() == weighed.keys()
    assert lines(-0.4).count == len(plain) > 30
    costs = {line: points_by_hand(line) for line in plain}
    assert len(set(costs.values())) > 4
    for line, weight in plain.items():
        assert weighed[line] == pytest.approx(weight - 0.4 * costs[line], abs=0.021)  # hundredths, rounded


def test_lines_are_drawn_in_proportion_and_the_best_is_the_heaviest() -> None:
    weighed = lines(-0.4)
    weights = {line: math.exp(weight) for line, weight in every(weighed).items()}
    whole = sum(weights.values())
    assert weighed.log_weight == pytest.approx(math.log(whole))
    best, line = weighed.best(1)[0]
    assert weights[line] == max(weights.values()) == pytest.approx(math.exp(best))
    seen = Counter(tuple(row) for row in weighed.drawn(20_000, Random(4)).tolist())
    common = [line for line, weight in weights.items() if weight / whole * 20_000 >= 8]
    observed = [seen[line] for line in common] + [20_000 - sum(seen[line] for line in common)]
    expected = [weights[line] / whole * 20_000 for line in common]
    expected.append(20_000 - sum(expected))
    keep = np.array(expected) > 0
    assert chisquare(np.array(observed)[keep], np.array(expected)[keep]).pvalue > 0.001


def test_time_eases_the_hands() -> None:
    """At 60 an eighth lasts half a second, and a quarter is time enough; after a rest there is time too."""
    assert haste(places(), 120)[1:].tolist() == [1.0, 1.0, 0.5]
    assert haste(places(), 60)[1:].tolist() == [0.5, 0.5, 0.0]
    assert haste(places(), 300)[1:].tolist() == [1.0, 1.0, 1.0]


def test_pairs_are_those_of_the_instrument() -> None:
    pairs = awkward_pairs(CLARINET, LOW, HIGH)
    assert pairs.shape == (8, 8)
    assert pairs[67 - LOW, 69 - LOW] == awkward(CLARINET, 67, 69) == 4  # written A4 to B4
    assert np.all(np.diag(pairs) == 0)


def awkwardness(order: Order, changes: str) -> float:
    """Return the points of a note of the drafts of an order, quick and slow alike."""
    found = [one.midi for one in draft(ground_of(changes), order).drafts]
    assert order.instrument is not None
    every_pair = [awkward(order.instrument, *pair) for midi in found for pair in pairwise(midi)]
    return sum(every_pair) / len(every_pair)


def test_drafts_for_a_clarinet_go_round_its_break() -> None:
    order = Order(count=4, low=53, high=82, instrument=CLARINET)
    against = replace(order, leans={"awkward fingerings": 30})
    assert awkwardness(order, "Dm7 G7 | Cmaj7") < 0.7 * awkwardness(against, "Dm7 G7 | Cmaj7")


def test_pairs_of_lines_are_summed_up() -> None:
    where = places()
    pairs = hand_weights(-0.4, CLARINET, where, LOW, HIGH, 120)
    some = list(every(lines(0.0)))[::7]
    summed = weights_of_pairs(pairs, np.array(some) - LOW)
    assert summed == pytest.approx([-0.4 * points_by_hand(line) for line in some])


def test_learnt_weights_know_nothing_of_hands() -> None:
    assert figures_of("learnt", {}).fingering.tolist() == [0.0]
    assert figures_of("author", {"awkward fingerings": -20}).fingering.tolist() == [pytest.approx(-0.4)]
