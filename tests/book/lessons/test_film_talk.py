"""What is said while a phrase is seen. What there is to say is tested in tests/analysis."""

from __future__ import annotations

from itertools import pairwise
from pathlib import Path

import pytest

from shedbook.analysis.telling.explanation import told_remarks
from shedbook.analysis.telling.remark import ALONG
from shedbook.book.lessons.film_talk import points_of
from shedbook.book.lessons.reader_scores import reader_score
from shedbook.book.manuscript.opening import open_manuscript

DEMO = open_manuscript(Path(__file__).parents[3] / "examples/tidewater")


@pytest.mark.parametrize("number", [39, 59])
def test_what_is_said_along_the_line_goes_by_its_bars_and_the_rest_follows(number: int) -> None:
    score = reader_score(DEMO.phrases[number - 1], DEMO)
    along = sum(one.part == ALONG for one in told_remarks(score.account))
    points = points_of(score.account, score.words)
    assert along > 1
    assert len(points) == len(told_remarks(score.account))
    assert all(one.bar <= two.bar for one, two in pairwise(points[:along]))
