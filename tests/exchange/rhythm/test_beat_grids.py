"""The tables of rhythm: a forgotten row is named when the program starts, with the file to write it in."""

from __future__ import annotations

from fractions import Fraction

import pytest

from shedbook.errors import MissingRowError
from shedbook.exchange.rhythm.beat_grids import GRAINS, SLOTS, check_grids, divided_beat, grids_for
from shedbook.exchange.rhythm.costs import COST
from shedbook.exchange.rhythm.tables.quantise_costs import COMPOUND, GRIDS, SHORT, SIMPLE, SWING_RATIOS
from shedbook.theory.metre import Metre


@pytest.mark.parametrize("kind", [SIMPLE, COMPOUND, SHORT])
def test_a_beat_without_its_undivided_grid_is_named(kind: str) -> None:
    rows = [
        row._replace(kinds=tuple(one for one in row.kinds if one != kind)) if len(row.places) == 1 else row
        for row in GRIDS
    ]
    with pytest.raises(MissingRowError, match=f"the {kind} beat alone") as raised:
        check_grids(rows)
    assert "quantise_costs.py" in raised.value.hint


def test_a_cost_that_is_missing_is_named() -> None:
    with pytest.raises(MissingRowError, match="held by magic"):
        COST["held by magic"]


# Which beat a metre divides: common practice.
@pytest.mark.parametrize(
    ("metre", "quarters", "kind"),
    [
        ("4/4", Fraction(1), SIMPLE), ("3/4", Fraction(1), SIMPLE), ("6/8", Fraction(3, 2), COMPOUND),
        ("12/8", Fraction(3, 2), COMPOUND), ("7/8", Fraction(1, 2), SHORT), ("2/2", Fraction(1), SIMPLE),
    ],
)  # fmt: skip
def test_the_beat_that_is_divided(metre: str, quarters: Fraction, kind: str) -> None:
    beat = divided_beat(Metre.parse(metre), Fraction(120))
    assert (beat.quarters, beat.kind) == (quarters, kind)
    assert beat.in_bar * beat.quarters == Metre.parse(metre).bar_quarters


@pytest.mark.parametrize("ratio", SWING_RATIOS)
def test_the_off_beat_of_eighths_lies_where_the_ratio_puts_it(ratio: Fraction) -> None:
    beat = divided_beat(Metre(), Fraction(120))
    (eighths,) = [grid for grid in grids_for(beat, ratio) if grid.row.name == "eighths"]
    (first, second) = eighths.places
    assert first == (0, 0)
    assert second[0] == SLOTS // 2
    long, short = second[1], GRAINS - second[1]
    assert abs(Fraction(long, short) - ratio) < Fraction(1, 500)


def test_every_kind_of_beat_has_the_beat_alone_first() -> None:
    # The readers of the table rely on it.
    for kind in (SIMPLE, COMPOUND, SHORT):
        rows = [row for row in GRIDS if kind in row.kinds]
        assert len(rows[0].places) == 1
        assert rows[0].cost == 0
