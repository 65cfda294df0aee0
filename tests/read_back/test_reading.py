"""Scores drawn by the engraver are read right; what they should say comes from the phrase alone."""

from fractions import Fraction

import pytest
from hypothesis import HealthCheck, given, seed, settings
from hypothesis import strategies as st

from read_back.printed import HARD, demo_scores, hard_phrase, printed
from shedbook.phrase.model import Phrase
from shedbook.read_back.ink import Ink
from shedbook.read_back.reading import ReadPitch, read_score
from shedbook.read_back.staves import UnreadableError
from strategies import phrases


@pytest.mark.parametrize("title", [row[0] for row in HARD])
@pytest.mark.parametrize("clef", ["G2", "G2-8", "F4", "F4-8", "C3", "C4"])
def test_hard_notation_is_read_in_every_clef(title: str, clef: str) -> None:
    assert printed(hard_phrase(title), clef=clef).wrong() == []


@pytest.mark.parametrize("signature", [False, True])
def test_demo_scores_are_read_right_with_and_without_key_signatures(signature: bool) -> None:
    scores = demo_scores((5, 21), ("C", "F", "F#", "Gb", "E"), signature=signature)
    assert len(scores) >= 8
    assert [one.wrong() for one in scores] == [[]] * len(scores)
    if signature:
        assert any(one.read().signature for one in scores)


@seed(5)
@settings(max_examples=25, deadline=None, suppress_health_check=list(HealthCheck), database=None)
@given(phrases(tuplets=False, ornaments=False, most_bars=3), st.booleans())
def test_any_plain_phrase_is_read_right(phrase: Phrase, signature: bool) -> None:
    assert printed(phrase, signature=signature).wrong() == []


def test_what_is_read_of_a_bar_with_a_tie_and_a_sign_in_force() -> None:
    """E flat holds through its bar; the tie adds (Gould 2011, Behind Bars, from memory)."""
    read = printed(hard_phrase("ties")).read()
    assert read.metre == (4, 4)
    assert [str(note.pitch) for note in read.bars[0].notes] == ["C4", "E4", "F4"]
    assert [note.quarters for note in read.bars[0].notes] == [2, 1, 2]  # a quarter, tied to one in bar 2
    assert [note.start for note in read.bars[1].notes] == [1, 2, 3]
    assert read.bars[6].notes == []
    assert read.bars[6].quarters == 4


def test_a_duplet_and_a_quadruplet_fill_a_bar_of_six_eighths() -> None:
    """Two, and four, in the time of three (common practice)."""
    (bar,) = printed(hard_phrase("duplets")).read().bars
    assert [note.quarters for note in bar.notes] == [Fraction(3, 4)] * 2 + [Fraction(3, 8)] * 4


def test_a_pitch_says_its_name_and_midi_number() -> None:
    """Scientific pitch notation: C4 is MIDI 60."""
    assert (str(ReadPitch(28, 0)), ReadPitch(28, 0).midi) == ("C4", 60)
    assert (str(ReadPitch(34, -1)), ReadPitch(34, -1).midi) == ("Bb4", 70)
    assert (str(ReadPitch(27, 2)), ReadPitch(27, 2).midi) == ("B##3", 61)


def test_a_picture_without_a_clef_cannot_be_read() -> None:
    with pytest.raises(UnreadableError, match="no clef"):
        read_score(Ink())
