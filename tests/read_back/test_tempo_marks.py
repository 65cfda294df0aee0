"""Feel and tempo over a score. Source: our own design of the page; the beats are common practice."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from read_back.printed import hard_phrase
from shedbook.engrave.drawing.score_drawing import draw
from shedbook.engrave.notation.score_style import ScoreStyle
from shedbook.phrase.fields import phrase_from_fields
from shedbook.phrase.model import Phrase
from shedbook.read_back.comparison import tempo_mismatches
from shedbook.read_back.reading import ReadScore, read_score
from shedbook.read_back.svg_ink import ink_of_svg
from shedbook.read_back.tempo_marks import ReadTempo


def read(phrase: Phrase, style: ScoreStyle | None = None) -> ReadScore:
    return read_score(ink_of_svg(draw(phrase, style=style or ScoreStyle()).svg))


def phrase(metre: str, line: str, feel: str = "swing", tempo: int = 132) -> Phrase:
    return phrase_from_fields({"changes": "C", "metre": metre, "line": line, "feel": feel, "tempo": tempo})


@pytest.mark.parametrize(
    ("metre", "line", "beat"),
    [
        ("4/4", "1/1 c4", 1), ("2/2", "1/1 c4", 2), ("6/8", "1/2. c4", Fraction(3, 2)),
        ("3/8", "1/4. c4", Fraction(1, 2)), ("7/8", "1/2 c4 1/4. d", 1),
    ],
)  # fmt: skip
@pytest.mark.parametrize("quiet", [False, True])
def test_the_note_is_the_beat_that_players_tap(metre: str, line: str, beat: Fraction, quiet: bool) -> None:
    written = phrase(metre, line)
    score = read(written, ScoreStyle(quiet=quiet))
    assert score.tempo == ReadTempo("Swing", beat, "132")
    assert list(tempo_mismatches(score, written, "Swing")) == []


def test_words_with_a_space_and_letters_with_accents_are_read() -> None:
    written = phrase("4/4", "1/1 c6", "fast swing", 240)
    score = read(written, ScoreStyle(feel="Gerade, später"))
    assert score.tempo == ReadTempo("Gerade,später", Fraction(1), "240")
    assert list(tempo_mismatches(score, written, "Gerade, später")) == []


def test_a_feel_without_a_steady_beat_has_no_tempo() -> None:
    written = phrase("4/4", "1/1 c4", "free")
    score = read(written)
    assert score.tempo == ReadTempo("Free")
    assert list(tempo_mismatches(score, written, "Free")) == []


def test_only_the_first_system_of_a_long_score_is_asked_and_its_bar_numbers_are_no_tempo() -> None:
    score = read(hard_phrase("ties"), ScoreStyle(tempo=False))
    assert {bar.system for bar in score.bars} != {0}
    assert score.tempo is None
    assert list(tempo_mismatches(score, hard_phrase("ties"), "")) == []


@pytest.mark.parametrize(
    ("change", "feel", "said"),
    [
        ({"tempo_bpm": 138}, "Swing", "Swing, 1 quarter = 138, but the page says Swing, 1 quarter = 132"),
        ({"feel": "free"}, "Swing", "Swing and no tempo, but the page says Swing, 1 quarter = 132"),
        ({}, "Shuffle", "Shuffle, 1 quarter = 132, but the page says Swing, 1 quarter = 132"),
        ({}, "Swung", "Swung, 1 quarter = 132, but the page says Swing, 1 quarter = 132"),
        ({}, "", "no feel and no tempo over the score, but the page says Swing, 1 quarter = 132"),
    ],
)
def test_another_feel_tempo_or_none_is_a_mismatch(change: dict[str, object], feel: str, said: str) -> None:
    score = read(phrase("4/4", "1/1 c4"))
    wanted = replace(phrase("4/4", "1/1 c4"), **change)  # type: ignore[arg-type]
    assert [str(one) for one in tempo_mismatches(score, wanted, feel)] == [f"bar 1, beat 1: {said}"]


def test_a_missing_mark_is_a_mismatch_and_a_letter_that_no_table_knows_is_none() -> None:
    written = phrase("4/4", "1/1 c4")
    (said,) = tempo_mismatches(read(written, ScoreStyle(tempo=False)), written, "Swing")
    assert said.read == "no feel and no tempo over the score"
    unknown = replace(read(written), tempo=ReadTempo("Sw?ng", Fraction(1), "132"))
    assert list(tempo_mismatches(unknown, written, "Swing")) == []
    assert list(tempo_mismatches(unknown, written, "Swings")) != []
