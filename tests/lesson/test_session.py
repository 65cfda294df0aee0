"""The order of takes and the rests between them. Sources beside the checks."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st

from shedbook.lesson.session import TRIES, Rest, Take, effort_of, session
from shedbook.phrase.fields import phrase_from_fields

PHRASE = phrase_from_fields({
    "title": "A", "changes": "Dm7 | G7", "tempo": 120, "line": "1/8 d4 f a c5 e d c a4 | g b d5 f a g f d"
})  # fmt: skip
TAKES = st.lists(
    st.builds(
        Take, st.just(0), st.integers(1, 90), st.just("A"), st.just("C major"), st.just("D major"),
        st.sampled_from([80, 120, 200]), st.floats(1, 10), st.floats(3, 200), st.integers(0, 11),
    ),
    max_size=60,
)  # fmt: skip


@given(TAKES)
def test_takes_are_ordered_by_tempo_key_and_effort_and_none_is_lost(takes: list[Take]) -> None:
    found = session(takes).takes
    order = [(take.tempo_bpm, take.order, take.effort) for take in found]
    assert order == sorted(order)
    assert [take.number for take in found] == list(range(1, len(takes) + 1))
    plain = [replace(take, number=0) for take in found]
    assert sorted(plain, key=repr) == sorted(takes, key=repr)


@given(TAKES)
def test_five_minutes_rest_in_every_half_hour(takes: list[Take]) -> None:
    """The advice of the book itself; one take that alone lasts longer is the one exception."""
    played = 0.0
    steps = session(takes).steps
    for step in steps:
        if isinstance(step, Rest):
            assert step.minutes == (5 if step.long else 2)
            played = 0.0 if step.long else played + step.minutes
        else:
            length = TRIES * (step.seconds + 20) / 60
            assert played + length <= 27 or played == 0 or length > 25
            played += length
    assert not steps or not isinstance(steps[-1], Rest)


def test_hard_playing_brings_a_rest_sooner() -> None:
    def first_rest(effort: float) -> int:
        takes = [Take(0, one, "A", "C major", "C major", 120, effort, 20.0) for one in range(40)]
        return next(place for place, step in enumerate(session(takes).steps) if isinstance(step, Rest))

    assert first_rest(8.0) < first_rest(3.0)


def test_what_makes_a_take_hard() -> None:
    """Faster, higher and longer is harder (common practice)."""
    usual = effort_of(PHRASE, 100, 90)
    assert 1 <= usual <= 10
    assert effort_of(PHRASE, 240, 90) > usual
    assert effort_of(PHRASE, 100, 60) > usual
    assert effort_of(PHRASE, 100, 90, times=12) > usual
