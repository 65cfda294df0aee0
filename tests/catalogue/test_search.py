"""Phrases found by what they are."""

from __future__ import annotations

import pytest

from shedbook.catalogue.asked import Asked, read_chords, read_contour, read_melody, read_rhythm, read_words
from shedbook.catalogue.gaps import Gap, gaps
from shedbook.catalogue.index_file import IndexFile
from shedbook.catalogue.search import Searcher, known_name
from shedbook.errors import UnknownNameError

D_F_AB_C = read_melody("d5 f ab c6")
LONGER = read_melody("d5 f ab c6 bb5")

CASES = [
    pytest.param(Asked(melody=D_F_AB_C), ["Quay", "Pier"], id="a melody in any key"),
    pytest.param(Asked(melody=D_F_AB_C, in_its_key=True), ["Quay"], id="in its key"),
    pytest.param(Asked(melody=LONGER, wrong=1), ["Quay", "Pier"], id="one may be wrong"),
    pytest.param(Asked(melody=LONGER, wrong=2), ["Quay", "Pier", "Mole"], id="the best first"),
    pytest.param(Asked(melody=D_F_AB_C, levels=(9,)), [], id="but not of that level"),
    pytest.param(Asked(contour=read_contour("uuudddd")), ["Quay", "Mole", "Pier"], id="contour"),
    pytest.param(Asked(rhythm=read_rhythm("1/8t 1/8t 1/8t 1/4")), ["Mole"], id="rhythm"),
    pytest.param(Asked(chords=read_chords("Am7b5 | D7 | Gm")), ["Quay", "Pier"], id="changes in another key"),
    pytest.param(Asked(words=read_words("leans nine")), ["Quay"], id="words, in any order"),
    pytest.param(Asked(words=read_words("lea")), ["Quay"], id="the last may be a beginning"),
    pytest.param(Asked(words=read_words("quay flat")), ["Quay"], id="title and commentary together"),
    pytest.param(Asked(terms=(("progression", "ii–V–I"),)), ["Mole"], id="progression"),
]  # fmt: skip


@pytest.mark.parametrize(("asked", "titles"), CASES)
def test_found(asked: Asked, titles: list[str], index: IndexFile) -> None:
    assert [found.title for found in Searcher(index).search(asked)] == titles


def test_what_is_told_of_a_find(index: IndexFile) -> None:
    (first, second) = Searcher(index).search(Asked(melody=D_F_AB_C))
    assert (first.folder, first.book, first.file, first.number, first.id) == (
        "harbour", "Harbour", "phrases/01-quay.toml", 1, "quay",
    )  # fmt: skip
    assert (first.key, first.tempo, first.feel) == ("C minor", 132, "swing")
    assert second.spot is not None
    assert (second.spot.note, second.spot.bar, second.spot.semitones) == (0, 1, 2)


def test_each_phrase_once_and_no_more_than_wanted(index: IndexFile) -> None:
    everywhere = Asked(contour="dd")
    assert len({found.title for found in Searcher(index).search(everywhere)}) == 3
    assert len(Searcher(index).search(everywhere, most=2)) == 2


def test_names_are_found_as_people_type_them(index: IndexFile) -> None:
    assert known_name(index, "progression", "Minor II-V-i") == ("progression", "minor ii–V–i")
    with pytest.raises(UnknownNameError, match="No phrase has the scale"):
        known_name(index, "scale", "dorain")


def test_what_is_lacking(index: IndexFile) -> None:
    scales = {str(name) for (name,) in index.rows("SELECT DISTINCT name FROM term WHERE kind = 'scale'")}
    found = gaps(index)
    there = {
        (progression, scale, level)
        for progression, scale, level in index.rows(
            "SELECT p.name, s.name, level FROM term p JOIN term s USING (phrase) JOIN phrase USING (phrase)"
            " WHERE p.kind = 'progression' AND s.kind = 'scale'"
        )
    }
    levels = [gap for gap in found if gap.level]
    assert levels
    assert all((gap.progression, gap.scale, gap.level) not in there for gap in levels)
    assert {gap.scale for gap in levels} <= scales
    assert Gap("12-bar blues") in found or any("blues" in gap.progression for gap in found if not gap.level)
    assert not any(gap.progression == "minor ii–V–i" and not gap.level for gap in found)
