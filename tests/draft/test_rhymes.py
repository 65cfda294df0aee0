"""Rhymes: what is kept returns, and rhythms that keep beats are counted and drawn as those of all that do.

Source of the expectations: the forms as they are said, and every rhythm of a bar tried one by one.
"""

from __future__ import annotations

from collections import Counter
from random import Random

import numpy as np
import pytest
from scipy.stats import chisquare

from shedbook.draft.ground import TICKS
from shedbook.draft.rhymes import Form, Rhyme, forms, rhyming, statement_cells, tells, worth
from shedbook.draft.rhythms import Rhythm, Rhythms, RhythmWishes

CELLS = (".", ".o", "oo", ".", ".", ".o", "oo", "o", ".")
ONE_BAR = RhythmWishes(beats=4, bar=4, name="swing", bpm=140, pickup=False)


def wishes(bars: int, **more: object) -> RhythmWishes:
    return RhythmWishes(beats=4 * bars, bar=4, name="swing", bpm=140, rests=False, **more)  # type: ignore[arg-type]


def test_rhythms_that_keep_beats_are_a_share_of_all() -> None:
    """What any cell may be on beat 2 adds up to all that there are."""
    space = Rhythms(ONE_BAR)
    cells = {choice.cell for choice in space._choices}
    by_cell = {cell: space.keeping({1: cell}).count for cell in cells}
    assert sum(by_cell.values()) == space.count
    assert min(by_cell["oo"], by_cell[".o"]) > 0
    two = space.keeping({0: ".o", 1: "oo"})
    assert all(one.cells[1:3] == (".o", "oo") for one in two.drawn(40, Random(1)))


def test_they_are_drawn_as_often_among_themselves_as_before() -> None:
    """Chi-square: of 60,000 rhythms of a bar those that keep two beats, against draws that keep them."""
    space = Rhythms(ONE_BAR)
    kept = {0: ".o", 1: "oo"}
    among = Counter(one.cells for one in space.drawn(60_000, Random(2)) if one.cells[1:3] == (".o", "oo"))
    drawn = Counter(one.cells for one in space.keeping(kept).drawn(20_000, Random(3)))
    whole = sum(among.values())
    common = [cells for cells, many in among.items() if many >= 30]
    assert len(common) > 5
    table = np.array([[among[one] for one in common], [drawn[one] for one in common]], dtype=float)
    share = table.sum(axis=0) / table.sum()
    expected = np.outer(table.sum(axis=1), share)
    assert whole > 500
    assert chisquare(table.ravel(), expected.ravel(), ddof=len(common)).pvalue > 0.001


@pytest.mark.parametrize("bars", [2, 3, 4, 8, 12])
def test_an_answer_strikes_what_its_statement_strikes(bars: int) -> None:
    found = rhyming(Rhythms(wishes(bars)), 12, Random(bars))
    assert len(found) >= 12
    for one in found:
        assert one.forms
        for form in one.forms:
            stated = statement_cells(one.rhythm, form)
            for first, beats in form.answers:
                assert one.rhythm.cells[first + 1 : first + 1 + beats] == stated[:beats]
        for pairs in one.answers:
            apart = {one.rhythm.onsets[there] - one.rhythm.onsets[here] for here, there in pairs}
            assert len(apart) <= 1
            assert all(away > 0 and away % (4 * TICKS) == 0 for away in apart)


def test_every_four_bars_have_a_statement() -> None:
    assert [len(forms(wishes(bars))) for bars in (1, 2, 4, 7, 8, 32)] == [0, 1, 1, 1, 2, 8]
    for some in forms(wishes(8)):
        for form in some:
            ends = [form.start + form.beats, *[first + beats for first, beats in form.answers]]
            assert max(ends) - form.start <= 16


def test_beats_that_must_have_notes_are_in_no_form() -> None:
    (four,) = forms(wishes(4, needs=((4, 8, 8),)))
    for form in four:
        spans = [(form.start, form.start + form.beats), *[(at, at + beats) for at, beats in form.answers]]
        assert all(last <= 4 or first >= 8 for first, last in spans)


@pytest.mark.parametrize(
    ("cells", "says"),
    [
        ((".o", "oo", "o.", "oo"), True),
        (("oo", "oo", "oo", "oo"), False),
        ((".", "-", ".", "o"), False),
        (("ooo", "ooo", "o", "."), False),
        (("oooo", "o", "oo", "."), False),
        (("o", ".", ".", "oo"), False),
    ],
)
def test_what_a_rhythm_is_known_by(cells: tuple[str, ...], says: bool) -> None:
    assert tells(cells, wishes(4)) is says


def test_a_rhythm_is_worth_more_that_returns_and_arrives() -> None:
    """Common practice: the same rhythm, once ending on beat 3, once on beat 2 and let go at once."""
    arrives = Rhythm((6, 12, 18, 54, 60, 66, 72), (12, 18, 24, 60, 66, 72, 84), CELLS)
    stops = Rhythm((6, 12, 18, 54, 60), (12, 18, 24, 60, 66), CELLS)
    form = (Form(0, 4, ((4, 2),)),)
    here = wishes(2)
    assert worth(Rhyme(arrives, form), here) > worth(Rhyme(arrives), here) > worth(Rhyme(stops), here)


def test_a_tail_is_worth_less_than_an_end_that_eighths_lead_to() -> None:
    """Last notes of two bars on beat 4: led to by eighths, or after a held note, or two after one."""
    starts = (0, 6, 12, 18, 24, 30, 36, 42)
    led = (*starts, 48, 54, 60, 66, 72, 78, 84)
    one, two = (*starts, 48, 54, 60, 66, 84), (*starts, 48, 54, 60, 78, 84)

    def valued(onsets: tuple[int, ...]) -> float:
        return worth(Rhyme(Rhythm(onsets, (*onsets[1:], 96), ())), wishes(2))

    assert valued(led) > valued(one) + 2
    assert valued(led) > valued(two) + 2
