"""A score without a time signature, and bars that a file pads or divides oddly."""

from __future__ import annotations

import pytest

from exchange.scores import DOUBLE_BAR, FOUR_FOUR, harmony, line, note, read, remarks
from shedbook.exchange.musicxml.repeats import CAPO, RepeatSigns, unrolled
from shedbook.theory.metre import Metre

NO_TIME = "<attributes><divisions>2</divisions></attributes>"
CHORD = harmony("C", "dominant")
HIDDEN = '<note print-object="no"><rest/><duration>{}</duration></note>'

METRES = [
    # Common practice: the usual metre for bars of that length.
    ("waltz", [note("C4", 2) * 3] * 4, "3/4"),
    ("in four", [note("C4", 4) * 2] * 4, "4/4"),
    ("in two", [note("C4", 4)] * 4, "2/4"),
    ("two dotted quarters", [note("C4", 3) * 2] * 4, "6/8"),
    ("a pick-up before a waltz", [note("C4", 2), *[note("C4", 6)] * 4], "3/4"),
]


@pytest.mark.parametrize(("bars", "metre"), [row[1:] for row in METRES], ids=[row[0] for row in METRES])
def test_the_metre_of_steady_bars(bars: list[str], metre: str) -> None:
    imported = read(CHORD + bars[0], *bars[1:], first=NO_TIME)
    assert {str(phrase.metre) for phrase in imported.phrases} == {metre}
    assert f"the file gives no metre: {metre} is taken from the lengths of its bars." in remarks(imported)


def test_bars_that_keep_no_metre() -> None:
    imported = read(CHORD + note("C4", 3), note("C4", 5), note("C4", 7), first=NO_TIME)
    assert any("4/4 is assumed" in str(remark) for remark in imported.report.remarks)


def test_the_authors_metre_serves_where_the_file_gives_none() -> None:
    imported = read(CHORD + note("C4", 6), note("C4", 6), first=NO_TIME, metre=Metre(6, 8))
    assert imported.phrases[0].metre == Metre(6, 8)
    given = read(CHORD + note("C4"), note("C4"), metre=Metre(3, 4))
    assert given.phrases[0].metre == Metre(4, 4)


def test_a_double_bar_after_a_pickup_does_not_divide() -> None:
    imported = read(note("G4", 2) + DOUBLE_BAR, CHORD + note("C4"), note("D4"))
    assert line(imported) == "1/4 g4 | 1/1 c4 | d4"


def test_hidden_rests_before_a_pickup_are_no_music() -> None:
    imported = read(HIDDEN.format(6) + note("G4", 2), CHORD + note("C4"), note("D4"))
    assert line(imported) == "1/4 g4 | 1/1 c4 | d4"
    assert any("hidden rests" in remark for remark in remarks(imported))


def test_hidden_rests_behind_a_full_bar_are_no_music() -> None:
    imported = read(CHORD + note("C4") + HIDDEN.format(4), note("D4"), first=FOUR_FOUR)
    assert line(imported) == "1/1 c4 | d4"


def test_hidden_rests_inside_the_line_are_rests() -> None:
    imported = read(CHORD + note("C4"), HIDDEN.format(4) + note("D4", 4))
    assert line(imported) == "1/1 c4 | 1/2 - d4"


def test_fine_in_a_first_ending_ends_the_piece_after_da_capo() -> None:
    # Common practice: D.C. al Fine goes to the Fine, wherever it stands.
    signs = [
        RepeatSigns(),
        RepeatSigns(ending=frozenset({1}), ends=True, times=2, fine=True),
        RepeatSigns(ending=frozenset({2}), ends=True),
        RepeatSigns(jump=CAPO, until="fine"),
    ]
    assert unrolled(signs, "x") == [0, 1, 0, 2, 3, 0, 1]
