"""Feel and tempo over the first system."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest

from shedbook.engrave.drawing.score_drawing import draw
from shedbook.engrave.notation.score_style import ScoreStyle
from shedbook.engrave.notation.study_marks import StudyMarks
from shedbook.phrase.fields import phrase_from_fields
from shedbook.phrase.model import Phrase

Make = Callable[..., Phrase]


@pytest.mark.parametrize(
    ("metre", "line", "sign"),
    [
        ("4/4", "1/1 c4", "smquarter"),
        ("6/8", "1/2. c4", "smdot"),
        ("2/2", "1/1 c4", "smhalf"),
        ("3/8", "1/4. c4", "smeighth"),
        ("5/8", "1/2 c4 1/8 d", "smquarter"),
    ],
)
def test_tempo_and_feel(make: Make, metre: str, line: str, sign: str) -> None:
    svg = draw(make(line, "C", metre=metre)).svg
    assert f'href="#{sign}"' in svg
    assert 'href="#ss53"' in svg  # the S of Swing
    assert sign not in draw(make(line, "C", metre=metre), StudyMarks(), ScoreStyle(tempo=False)).svg


def test_a_free_feel_has_no_tempo(make: Make) -> None:
    free = replace(make("1/1 c4", "C"), feel="free")
    assert "smquarter" not in draw(free).svg


def test_a_quiet_score_has_its_tempo_in_smaller_letters() -> None:
    phrase = phrase_from_fields({"changes": "G7", "line": "1/1 g4"})
    loud, quiet = draw(phrase, style=ScoreStyle()), draw(phrase, style=ScoreStyle(quiet=True))
    assert loud.svg != quiet.svg
    assert "#ss" in loud.svg  # a glyph of the semibold serif face
    assert "#ss" not in quiet.svg
