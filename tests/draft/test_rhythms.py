"""Rhythms: the limits hold in every one that is drawn, the count is that of all, and shares are as counted.

Source of the limits: `draft/tables/rhythm_rules.py`; of the shares, the table counted on real lines.
"""

from __future__ import annotations

from itertools import groupby, pairwise, product
from random import Random

import pytest

from shedbook.draft.ground import TICKS
from shedbook.draft.rhythms import LIMIT, Rhythm, Rhythms, RhythmWishes, follow_logs, table_name

ONE_BAR = RhythmWishes(beats=4, bar=4, name="swing", bpm=140, pickup=False)
FOUR_BARS = RhythmWishes(beats=16, bar=4, name="swing", bpm=140)


def drawn(wishes: RhythmWishes, many: int = 300) -> list[Rhythm]:
    return Rhythms(wishes).drawn(many, Random(4))


@pytest.mark.parametrize("beats", [8, 16, 24])
@pytest.mark.parametrize("name", ["slow", "swing", "fast", "even"])
def test_every_rhythm_keeps_the_limits(beats: int, name: str) -> None:
    for rhythm in drawn(RhythmWishes(beats, 4, name, 140), 60):
        assert all(start < end for start, end in zip(rhythm.onsets, rhythm.ends, strict=True))
        assert all(end <= after for end, after in zip(rhythm.ends[:-1], rhythm.onsets[1:], strict=True))
        assert rhythm.ends[-1] <= (beats - LIMIT["last rest"]) * TICKS
        assert rhythm.onsets[-1] >= (beats - LIMIT["earliest end"]) * TICKS
        inside = "".join(rhythm.cells)
        assert "." in inside
        silent = [len(list(run)) for cell, run in groupby(rhythm.cells[1:-4]) if cell == "."]
        start = next(at for at, cell in enumerate(rhythm.cells) if "o" in cell)
        assert start <= LIMIT["latest start"] + 1
        assert max([0, *silent]) <= max(LIMIT["longest silence"], LIMIT["latest start"])
        full = [len(list(run)) for breath, run in groupby("." in cell for cell in rhythm.cells) if not breath]
        assert max(full) <= LIMIT["longest without breath"] + LIMIT["longest held"] + 1


def test_the_count_is_that_of_all_rows_of_beats() -> None:
    """One bar without a pick-up: every row of four cells and the silent beat before, tried one by one."""
    space = Rhythms(ONE_BAR)
    cells = sorted(follow_logs("swing")[0])
    rows = {row for row in product(cells, repeat=4) if _one_bar(row)}
    assert space.count == len(rows)
    found = {tuple(one.cells[1:]) for one in space.drawn(3000, Random(1))}
    assert found <= rows
    assert len(found) > 500


def _one_bar(row: tuple[str, ...]) -> bool:
    """Say whether a row of beats may be a phrase of one bar."""
    before = "."
    for cell in row:
        if (cell[0] == "-" and before[-1] == ".") or (cell[0] == "." and before == "o."):
            return False
        before = cell
    struck = [at for at, cell in enumerate(row) if "o" in cell]
    if len(struck) < 2 or struck[0] > LIMIT["latest start"]:
        return False
    last = struck[-1]
    held = "".join(row[last + 1 :])
    inside = row[struck[0] : last]
    return (
        last >= 1
        and all(len(one) != 3 or other[0] != "-" for one, other in pairwise(row[: last + 1]))
        and row[last] in ("o", "oo", "-o", ".o", "ooo", "-oo")
        and (row[-1] in ("o", "-", "-o", ".o") or held.endswith("."))
        and set(row[last + 1 :]) <= {"-", "."}
        and all(len(list(run)) <= LIMIT["longest silence"] for cell, run in groupby(inside) if cell == ".")
    )


def test_a_stretch_that_needs_notes_gets_them() -> None:
    wishes = RhythmWishes(16, 4, "swing", 140, needs=((4, 8, 8),))
    found = drawn(wishes)
    assert len(found) > 100
    assert all(sum(48 <= onset < 96 for onset in one.onsets) >= 8 for one in found)


def test_eighths_are_the_commonest_and_lines_start_anywhere() -> None:
    """A music editor's reading of the demonstration book: lines breathe, and few of them begin on beat 1."""
    found = drawn(FOUR_BARS, 400)
    waits = [wait for one in found for wait in one.waits]
    assert sum(wait == 6 for wait in waits) > 0.4 * len(waits)
    on_one = sum(one.onsets[0] == 0 for one in found) / len(found)
    assert 0.03 < on_one < 0.4
    pickups = sum(one.pickup > 0 for one in found) / len(found)
    assert 0.05 < pickups < 0.45
    assert 0.1 < sum(one.onsets[-1] % TICKS > 0 for one in found) / len(found) < 0.7


def test_the_same_seed_draws_the_same() -> None:
    assert drawn(FOUR_BARS, 20) == drawn(FOUR_BARS, 20)


@pytest.mark.parametrize(
    ("feel", "bpm", "name"),
    [("swing", 80, "slow"), ("swing", 140, "swing"), ("swing", 240, "fast"), ("bossa", 240, "even"),
     ("fast swing", 100, "fast"), ("waltz", 150, "swing")],
)  # fmt: skip
def test_a_feel_has_its_table(feel: str, bpm: int, name: str) -> None:
    assert table_name(feel, bpm) == name


def test_waits_and_rests_are_what_lies_between() -> None:
    rhythm = Rhythm((-6, 0, 18, 24), (0, 12, 24, 36), ())
    assert (rhythm.waits, rhythm.rests, rhythm.pickup) == ((6, 18, 6), (0, 0, 6, 0), 6)
    assert all(after > before for before, after in pairwise(rhythm.onsets))
