"""How long a lesson takes: words at the rate of speech, demonstrations at their tempos."""

from __future__ import annotations

from collections.abc import Sequence

from shedbook.analysis.account import quarters_a_minute
from shedbook.lesson.script import SAID, Block
from shedbook.phrase.model import Phrase

WORDS_A_MINUTE = 140
"""How many words a teacher says in a minute who lets them sink in (common practice: 130 to 160)."""
_BREATH_S = 0.6
"""The pause after a paragraph (the project's design)."""
COUNT_IN_BARS = 1


def spoken_seconds(blocks: Sequence[Block], words_a_minute: int = WORDS_A_MINUTE) -> float:
    """Return how long it takes to say what of some blocks is said."""
    told = [block for block in blocks if block.kind == SAID]
    words = sum(len(block.text.split()) for block in told)
    return 60 * words / words_a_minute + _BREATH_S * len(told)


def played_seconds(phrase: Phrase, *, share: float = 1.0, times: int = 1) -> float:
    """Return how long a phrase lasts, counted in by a bar, at a share of its tempo."""
    bars = COUNT_IN_BARS + times * phrase.full_bars
    return float(bars * phrase.metre.bar_quarters * 60 / quarters_a_minute(phrase)) / share


def clock(seconds: float) -> str:
    """Return a length as minutes and seconds, to the nearest five seconds: "3:25"."""
    whole = max(5, round(seconds / 5) * 5)
    return f"{whole // 60}:{whole % 60:02}"
