"""Some bars of a phrase as a phrase of their own. Source of every check: our own design."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shedbook.errors import UnknownNameError
from shedbook.phrase.excerpt import bars_round_changes, excerpt
from shedbook.phrase.fields import phrase_from_fields
from shedbook.phrase.line_text import print_line
from shedbook.phrase.model import Phrase, sounding_notes
from strategies import phrases

HELD = phrase_from_fields({
    "title": "Held",
    "changes": "Dm7 | % | G7@1 Db7@3 | Cmaj7",
    "line": "1/4 d5 f 1/2 (a | + 1/4 g) f e | 1/4 d (c b4 d5 | 1/1 c)",
})  # fmt: skip


@given(phrases(), st.data())
def test_the_notes_of_its_bars_sound_where_they_stood(whole: Phrase, data: st.DataObject) -> None:
    first = data.draw(st.integers(1, whole.full_bars))
    last = data.draw(st.integers(first, whole.full_bars))
    cut = excerpt(whole, first, last)
    start, end = whole.bar_start(first), whole.bar_start(last) + whole.metre.bar_quarters
    expected = [
        (max(start, note.start) - start, min(end, note.end) - start, note.pitch)
        for note in sounding_notes(whole)
        if note.start < end and note.end > start
    ]
    assert [(note.start, note.end, note.pitch) for note in sounding_notes(cut)] == expected
    assert cut.full_bars == len(cut.bars) == last - first + 1
    assert cut.change_start(cut.changes[0]) == 0
    assert len(cut.changes) == len(cut.scales)


@given(phrases())
def test_all_bars_of_a_phrase_without_a_pick_up_are_the_phrase(whole: Phrase) -> None:
    if whole.bars[0].number == 1:
        assert excerpt(whole, 1, whole.full_bars) == whole


def test_what_crosses_its_bounds_ends_there() -> None:
    second = excerpt(HELD, 2, 2)
    assert print_line(second.bars) == "1/4 a5 g f e"
    assert [change.chord.text for change in second.changes] == ["Dm7"]
    assert print_line(excerpt(HELD, 3, 3).bars) == "1/4 d5 c b4 d5"


def test_crossings_into_bars_and_chords() -> None:
    assert bars_round_changes(HELD) == ((1, 2), (2, 3), (3, 3), (3, 4))


@pytest.mark.parametrize(("first", "last"), [(0, 1), (2, 1), (4, 5)])
def test_bars_that_are_not_there(first: int, last: int) -> None:
    with pytest.raises(UnknownNameError, match="has no bars"):
        excerpt(HELD, first, last)
