"""How long a lesson takes."""

from __future__ import annotations

import pytest

from shedbook.lesson.script import cue, head, said
from shedbook.lesson.timing import clock, played_seconds, spoken_seconds
from shedbook.phrase.fields import phrase_from_fields


def test_only_what_is_said_takes_time() -> None:
    """140 words at 140 a minute are a minute, and a breath after the paragraph."""
    words = said("word " * 140)
    assert spoken_seconds([words]) == pytest.approx(60.6)
    assert spoken_seconds([words, head("a b c", 2), cue("d e f")]) == pytest.approx(60.6)
    assert spoken_seconds([words], 70) == pytest.approx(120.6)


@pytest.mark.parametrize(
    ("metre", "tempo", "seconds"),
    [("4/4", 120, 3 * 2.0), ("3/4", 90, 3 * 2.0), ("6/8", 60, 3 * 2.0), ("4/4", 60, 3 * 4.0)],
)
def test_a_demonstration_is_counted_in_by_a_bar(metre: str, tempo: int, seconds: float) -> None:
    """Two bars and one counted in; in 6/8 the dotted quarter is tapped (common practice)."""
    phrase = phrase_from_fields({
        "title": "A", "changes": "C | F", "metre": metre, "tempo": tempo,
        "line": {"4/4": "1/1 c4 | 1/1 f", "3/4": "1/2. c4 | 1/2. f", "6/8": "1/2. c4 | 1/2. f"}[metre],
    })  # fmt: skip
    assert played_seconds(phrase) == pytest.approx(seconds)
    assert played_seconds(phrase, share=0.5) == pytest.approx(2 * seconds)
    assert played_seconds(phrase, times=2) == pytest.approx(seconds * 5 / 3)


@pytest.mark.parametrize(
    ("seconds", "said_as"), [(0, "0:05"), (62, "1:00"), (63, "1:05"), (599, "10:00"), (3725, "62:05")]
)
def test_minutes_and_seconds(seconds: float, said_as: str) -> None:
    assert clock(seconds) == said_as
