"""Coverage: which degrees of a scale are used over a chord, and over the phrase."""

from __future__ import annotations

from analysis.helpers import in_all_keys, read
from shedbook.analysis.telling import explain


def test_a_bar_and_a_half_uses_all_of_the_altered_scale() -> None:
    """Common practice: seven notes of the altered scale within six beats."""
    line = "1/8 g4 ab4 bb4 b4 db5 eb5 f5 eb5 | db5 b4 bb4 ab4 1/2 g4"
    for found in in_all_keys("G7alt | G7alt Cm6", line, "altered | altered, melodic minor"):
        assert found.coverage[0].complete
        assert found.coverage[0].used == ("1", "b9", "#9", "3", "#11", "b13", "b7")
        assert any("very note of the" in text for text in explain(found))


def test_adjacent_bars_with_the_same_chord_and_scale_are_one_entry() -> None:
    found = read("Dm7 | % | G7", "1/1 d4 | f4 | g4", "dorian | % | mixolydian")
    assert [entry.used for entry in found.coverage] == [("1", "b3"), ("1",)]


def test_coverage_over_the_phrase_joins_what_stands_apart() -> None:
    found = read("Dm7 | G7 | Dm7", "1/1 d4 | g4 | f4", "dorian | mixolydian | dorian")
    assert [entry.used for entry in found.whole_coverage] == [("1", "b3"), ("1",)]
    assert len(found.coverage) == 3
