"""What the pages show of the analysis: study marks, written-out scales, what indexes list."""

from dataclasses import replace
from functools import cache

import pytest

from shedbook.book.ground.words import EN, words_of
from shedbook.book.manuscript.settings.pages import SPARSE_MARKS, MarkChoice
from shedbook.book.scores.spoken_text import scale_text
from shedbook.book.scores.study import Studied, marks_of, spoken_of, study, terms_of
from shedbook.book.scores.written_scales import written_scales
from shedbook.editions.transpose import transpose
from shedbook.phrase.fields import phrase_from_fields
from shedbook.theory.interval import Interval

UNDERTOW = {
    "title": "Rope", "key": "C minor", "changes": "Dm7b5 | G7b9 | Cm6",
    "scales": "locrian | half-whole diminished | melodic minor",
    "line": "1/8 f4 ab c5 eb d f ab g | ab f d b4 c5 db d f | 1/2 eb5 g",
}  # fmt: skip


@cache
def studied() -> Studied:
    return study(phrase_from_fields(UNDERTOW))


LANDINGS = frozenset((0, 4, 8, 12, 16, 17))
"""Beats 1 and 3 of each bar in 4/4, which the first note over each chord is among here."""


def test_no_marks() -> None:
    marks = marks_of(studied(), MarkChoice(scales=False, degrees=False), EN, home=True)
    assert (marks.under, marks.scales, marks.landings, marks.links) == ({}, {}, frozenset(), ())


def test_sparse_marks_stand_under_landings_and_under_what_the_text_speaks_of() -> None:
    marks = marks_of(studied(), SPARSE_MARKS, EN)
    assert set(marks.under) == LANDINGS | spoken_of(studied())
    assert set(marks.under) < set(range(18))
    assert {note: marks.under[note] for note in (0, 8, 16)} == {0: "b3", 8: "b9", 16: "b3"}


def test_all_marks_stand_under_every_note() -> None:
    assert set(marks_of(studied(), MarkChoice(sparse=False), EN).under) == set(range(18))


def test_a_spoken_note_is_named_with_its_degree_in_one_sentence() -> None:
    for note in spoken_of(studied()):
        assert studied().account.notes[note].degree


def test_landings_and_links_are_for_the_first_page_only() -> None:
    home, key = (marks_of(studied(), SPARSE_MARKS, EN, home=first) for first in (True, False))
    assert home.landings == LANDINGS
    assert home.links == ((7, 8), (15, 16))  # g to a flat and f to e flat: a step across each bar line
    assert (key.landings, key.links) == (frozenset(), ())
    assert key.under == home.under


def test_the_name_of_a_scale_stands_once_until_it_changes() -> None:
    two = phrase_from_fields(
        {**UNDERTOW, "changes": "G7b9 | % | Cm6", "scales": "altered | % | melodic minor"}
    )
    assert marks_of(study(two), SPARSE_MARKS, EN).scales == {0: "altered", 2: "melodic minor"}


@pytest.mark.parametrize(
    ("clef", "move", "first", "notes"),
    [
        pytest.param("G2", Interval(0, 0), "D4", "D Eb F G Ab Bb C D", id="as it sounds"),
        pytest.param("G2", Interval(1, 2), "E4", "E F G A Bb C D E", id="B flat reader"),
        pytest.param("G2", Interval(5, 9), "B4", "B C D E F G A B", id="E flat reader"),
        pytest.param("F4", Interval(0, 0), "D3", "D Eb F G Ab Bb C D", id="bass clef"),
        pytest.param("G2-8", Interval(0, 0), "D3", "D Eb F G Ab Bb C D", id="tenor voice"),
        pytest.param("F4-8", Interval(0, 0), "D2", "D Eb F G Ab Bb C D", id="bass an octave lower"),
        pytest.param("C3", Interval(0, 0), "D3", "D Eb F G Ab Bb C D", id="alto clef"),
        pytest.param("C4", Interval(0, 0), "D3", "D Eb F G Ab Bb C D", id="tenor clef"),
        pytest.param("G2", Interval(-1, -1), "C#4", "C# D E F# G A B C#", id="one ledger line"),
    ],
)
def test_scales_are_written_for_the_reader(clef: str, move: Interval, first: str, notes: str) -> None:
    scales = written_scales(studied(), transpose(studied().phrase, move), clef)
    assert [scale.name for scale in scales] == ["locrian", "half-whole diminished", "melodic minor"]
    locrian = scales[0]
    assert str(locrian.pitches[0]) == first
    assert " ".join(str(pitch.name) for pitch in locrian.pitches) == notes
    assert locrian.degrees == ("1", "b9", "b3", "11", "b5", "b13", "b7", "1")
    for scale in scales:
        midis = [pitch.midi for pitch in scale.pitches]
        assert midis == sorted(set(midis))
        assert midis[-1] - midis[0] == 12


def test_a_scale_that_comes_again_is_written_once() -> None:
    again = phrase_from_fields(
        {**UNDERTOW, "changes": "G7b9 | Cm6 | G7b9", "scales": "altered | dorian | altered"}
    )
    names = [scale.name for scale in written_scales(study(again), again, "G2")]
    assert names == ["altered", "dorian"]


def test_what_the_indexes_list() -> None:
    found = terms_of(studied())
    assert found.progressions == ("minor ii–V–i",)
    assert found.scale_names == ("locrian", "half-whole diminished", "melodic minor")
    assert found.scale == "locrian"
    assert {"arpeggio"} <= set(found.devices)
    assert not {"chord tone", "scale tone", "unaccounted"} & set(found.devices)
    assert found.level in range(1, 6)


def test_the_scale_in_mind_longest_is_weighed_by_time() -> None:
    phrase = phrase_from_fields({**UNDERTOW, "changes": "G7b9 | Cm6 | %", "scales": "altered | dorian | %"})
    assert terms_of(study(replace(phrase))).scale == "dorian"


WICK = {
    "title": "Wick", "key": "Db major", "changes": "Ebm7 Ab7 | Dbmaj7",
    "line": "1/8 gb4 bb db5 f eb c gb4 a | 1/4. ab4 1/8 f 1/2 eb",
}  # fmt: skip


def test_a_scale_is_written_where_it_has_the_fewest_ledger_lines() -> None:
    """D flat 4 hangs under the staff and needs none; A flat 5 needs one, A flat 3 five."""
    wick = study(phrase_from_fields(WICK))
    scales = written_scales(wick, wick.phrase, "G2")
    assert [str(scale.pitches[0]) for scale in scales] == ["Eb4", "Ab4", "Db4"]
    assert str(scales[2].pitches[-1]) == "Db5"


def test_a_scale_in_words_names_its_chord() -> None:
    wick = study(phrase_from_fields(WICK))
    said = [
        scale_text(scale.name, scale.chord, scale.pitches, words_of("en"))
        for scale in written_scales(wick, wick.phrase, "G2")
    ]
    assert said[0] == (
        "dorian over E flat m7: E flat 4, F 4, G flat 4, A flat 4, B flat 4, C 5, D flat 5, E flat 5."
    )
    assert said[2].startswith("ionian over D flat maj7: D flat 4, E flat 4")
