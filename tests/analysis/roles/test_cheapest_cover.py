"""The optimiser against brute force: every cover of short phrases is tried, and none is cheaper."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from analysis.helpers import phrase
from analysis.roles.generators import GENERATORS
from shedbook.analysis.account import felt_beat
from shedbook.analysis.hearing.chord_spans import spans_of
from shedbook.analysis.hearing.heard_notes import hear_notes
from shedbook.analysis.hearing.note_places import note_places
from shedbook.analysis.roles.cheapest_cover import candidates, leads_on, read
from shedbook.analysis.roles.nodes import Line, line_of
from shedbook.analysis.roles.reasons import Explanation
from shedbook.analysis.roles.repeated_cells import repeated_cells
from shedbook.analysis.roles.role_names import ROLES
from shedbook.analysis.roles.tables.role_costs import CLOSE, COSTS
from shedbook.phrase.model import Phrase
from shedbook.theory.pitch import spellings
from strategies import phrases


def line(written: Phrase) -> Line:
    spans = spans_of(written, written.scales)
    metre = written.metre
    return line_of(hear_notes(spans, note_places(written)), spans, metre.bar_quarters, felt_beat(metre))


def covers(
    offers: list[list[Explanation]], start: int = 0, *, firm: bool = False
) -> Iterator[list[Explanation]]:
    """Every way to take each node once, no explanation leading to a note that is unaccounted."""
    if start == len(offers):
        yield []
        return
    for offer in offers[start]:
        if firm and offer.lost:
            continue
        for rest in covers(offers, offer.last + 1, firm=leads_on(offer)):
            yield [offer, *rest]


def cost(cover: list[Explanation]) -> int:
    return sum(offer.cost for offer in cover)


def agree(written: Phrase) -> None:
    walked = line(written)
    if tuple(repeated_cells(walked)):
        return  # what repeats itself is weighed in a second round; `test_repeated_cells` has it
    offers = [list(candidates(walked, index)) for index in range(len(walked.nodes))]
    every = list(covers(offers))
    reading = read(walked)
    best = min(cost(cover) for cover in every)
    assert reading.cost == best
    assert cost(list(reading.chosen)) == best
    assert list(reading.chosen) in every
    roles = [offer.role for offer in reading.chosen for _ in range(offer.first, offer.last + 1)]
    for place, role in enumerate(roles):
        others = [
            cost(cover)
            for cover in every
            if next(one.role for one in cover if one.first <= place <= one.last) != role
        ]
        close = [other - best for other in others if other - best <= CLOSE]
        assert (reading.rivals[place] is not None) == bool(close)
        if close:
            assert reading.margins[place] == min(close)


@given(phrases())
@settings(max_examples=25, deadline=None)
def test_no_reason_is_left_unasked(written: Phrase) -> None:
    """Which reasons are asked depends on the note; those that are not asked have nothing to say."""
    walked = line(written)
    for index in range(len(walked.nodes)):
        every = [offer for generate in GENERATORS for offer in generate(walked, index)]
        assert sorted(candidates(walked, index), key=repr) == sorted(every, key=repr)


LETTERS = [str(spellings(midi)[0]).lower() for midi in range(67, 75)]


@pytest.mark.parametrize("first", range(8))
def test_all_phrases_of_five_eighths_over_one_chord(first: int) -> None:
    """One in nine of the 8 ** 4 lines from each first note, in a fifth's compass, over G7 half-whole."""
    for number, rest in enumerate(product(range(8), repeat=4)):
        if (number + first) % 9:
            continue
        names = " ".join(LETTERS[index] for index in (first, *rest))
        agree(phrase("G7", f"1/8 {names} - 1/4 -", "half-whole diminished"))


@given(phrases(most_bars=2, ornaments=False).filter(lambda one: len(one.bars[-1].events) <= 6))
@settings(max_examples=30, deadline=None)
def test_random_phrases(written: Phrase) -> None:
    walked = line(written)
    if len(walked.nodes) <= 9:
        agree(written)


@given(st.lists(st.integers(60, 66), min_size=6, max_size=8))
@settings(max_examples=60, deadline=None)
def test_crowded_lines_over_two_chords(midis: list[int]) -> None:
    names = [str(spellings(midi)[0]).lower() for midi in midis]
    names += ["c4"] * (8 - len(names))
    agree(phrase("Dm7 G7", "1/8 " + " ".join(names), "dorian, altered"))


def test_every_role_has_a_cost_and_every_cost_a_reason() -> None:
    names = {row.name for row in COSTS}
    assert len(names) == len(COSTS)
    assert all(row.cost > 0 and row.why and row.source for row in COSTS)
    assert set(ROLES) - names == {"enclosure"}  # enclosures of two, three and four have a row each
