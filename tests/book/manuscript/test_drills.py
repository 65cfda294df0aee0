"""Drills of a manuscript: they stand after the phrases, and nothing is said of them but how to practise.

Source of the expectation: the design of the manuscript.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from shedbook.analysis.proof.rules import RULES
from shedbook.book.ground.tables.words import PAGES
from shedbook.book.manuscript import drills
from shedbook.book.manuscript.opening import open_manuscript
from shedbook.book.manuscript.source import read_phrase
from shedbook.book.scores.author_findings import AUTHOR_RULE_NAMES
from shedbook.book.verbs.check import check
from shedbook.draft.tables.drill_patterns import PATTERNS
from shedbook.errors import ManuscriptError

PHRASE = 'title = "One"\nchanges = "Dm7 | G7"\nline = "1/4 d5 e f a | 1/1 b4"\n'


def manuscript(tmp_path: Path, text: str) -> Path:
    (tmp_path / "phrases").mkdir()
    (tmp_path / "manuscript.toml").write_text(text, encoding="utf-8")
    (tmp_path / "phrases" / "01-one.toml").write_text(PHRASE, encoding="utf-8")
    return tmp_path


def test_drills_follow_the_phrases(tmp_path: Path) -> None:
    opened = open_manuscript(manuscript(tmp_path, 'drills = ["dorian in thirds", "1 2 3 5 through ii-V-I"]'))
    assert [source.number for source in opened.phrases] == [1, 2, 3]
    assert opened.last_phrase == 1
    assert [source.title for source in opened.phrases[1:]] == [
        "Dorian in thirds",
        "In the cell 1 2 3 5 through ii-V-I",
    ]
    phrase = read_phrase(opened.phrases[1])
    assert (str(phrase.key), phrase.full_bars) == ("C minor", 8)
    assert phrase.commentary == PAGES["drill.in thirds.says"]


def test_the_tempo_and_feel_of_the_book_hold(tmp_path: Path) -> None:
    opened = open_manuscript(manuscript(tmp_path, 'tempo = 88\nfeel = "bossa"\ndrills = ["altered 1 3 2 4"]'))
    phrase = read_phrase(opened.phrases[1])
    assert (phrase.tempo_bpm, phrase.feel) == (88, "bossa")
    assert phrase.title == "Altered in the cell 1 3 2 4"


def test_nothing_is_found_in_a_drill(tmp_path: Path) -> None:
    every = ", ".join(
        f'"{scale} {row.name}"'
        for scale in ("ionian", "altered")
        for row in PATTERNS[:17]
        if row.kind != "symmetric"
    )
    found = check(manuscript(tmp_path, f'editions = ["concert", "bass"]\ndrills = [{every}]'))
    assert [placed.finding.rule for placed in found.found if placed.place.file == "manuscript.toml"] == []


def test_every_rule_is_silent_for_a_drill() -> None:
    assert set(AUTHOR_RULE_NAMES) == set(drills._AUTHORS)
    assert RULES


def test_every_pattern_has_its_words() -> None:
    for row in PATTERNS:
        assert f"drill.{row.name}" in PAGES
        assert f"drill.{row.name}.says" in PAGES


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ('drills = ["dorian in elevenths"]', "no pattern"),
        ('drills = ["sweet in thirds"]', "does not begin with a scale"),
        ('drills = ["dorian symmetric cells"]', "symmetric scale"),
        ('drills = "dorian in thirds"', "must be a list"),
        ("drills = [7]", "drills"),
        (f"drills = {['dorian in thirds'] * 201}", "200 are the most"),
    ],
)
def test_drills_that_are_none_are_told_with_their_place(tmp_path: Path, text: str, said: str) -> None:
    with pytest.raises(ManuscriptError, match=said) as caught:
        open_manuscript(manuscript(tmp_path, text))
    assert caught.value.place is not None
    assert caught.value.place.line == 1
