"""The look of a score: what is refused."""

from __future__ import annotations

import pytest

from shedbook.engrave.notation.score_style import ScoreStyle
from shedbook.errors import RenderError


@pytest.mark.parametrize(
    ("style", "words"),
    [({"clef": "X9"}, "not a clef"), ({"prefix": "7 up"}, "cannot open the ids")],
)
def test_an_impossible_style_is_refused(style: dict[str, str], words: str) -> None:
    with pytest.raises(RenderError, match=words):
        ScoreStyle(**style)  # type: ignore[arg-type]
