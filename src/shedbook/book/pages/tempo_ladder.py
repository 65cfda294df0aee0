"""The ladder of tempos on a phrase's first page: slow, medium, goal. Pure."""

from __future__ import annotations

from collections.abc import Sequence

from shedbook.phrase.feels import feel_row
from shedbook.phrase.fields import SLOWEST_BPM

_SHARES = ((0.5, "slow"), (0.75, "medium"))
"""Half and three quarters of the goal: common practice."""
_STEP_BPM = 4
"""The steps of a metronome in the middle of its range (Maelzel's scale, from memory)."""


def tempo_ladder(goal_bpm: int, feel: str, tempos: Sequence[int] = ()) -> tuple[tuple[int, str], ...]:
    """Return the tempos to practise at, slowest first, each with its name; nothing where time is free.

    Args:
        goal_bpm: the phrase's own tempo.
        feel: the phrase's feel.
        tempos: the author's own; those under the goal lead up to it.
    """
    if not feel_row(feel).steady:
        return ()
    if tempos:
        below = sorted({tempo for tempo in tempos if tempo < goal_bpm})
        named = [(tempo, "step" if place else "slow") for place, tempo in enumerate(below)]
        return (*named, (goal_bpm, "goal"))
    steps = {word: _rounded(goal_bpm * share) for share, word in _SHARES}
    below_goal = [(tempo, word) for word, tempo in steps.items() if tempo < goal_bpm]
    return (*below_goal, (goal_bpm, "goal"))


def _rounded(tempo: float) -> int:
    return max(SLOWEST_BPM, round(tempo / _STEP_BPM) * _STEP_BPM)
