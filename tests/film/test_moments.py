"""Times of a recording from what was heard in it. Source of the checks: our own arithmetic, beside each."""

from __future__ import annotations

import json
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shedbook.errors import ReadError
from shedbook.film.moments import BarAt, ChapterAt, Moments, moments_of_recording, read_offsets, titled
from shedbook.phrase.fields import phrase_from_fields
from shedbook.phrase.model import sounding_notes

PHRASE = phrase_from_fields(
    {"title": "A", "changes": "Dm7 | G7", "tempo": 120, "line": "1/4 d4 f 1/8 a c5 1/4 - | 1/4 b4 g 1/2 d"}
)


def text_of(times: list[tuple[int, object, float | None]]) -> str:
    notes = [{"bar": bar, "beat": beat, "at_s": at} for bar, beat, at in times]
    return json.dumps({"recording": "a.wav", "phrase": "1", "key": "C", "notes": notes})


def steady(start: float, quarter: float) -> list[tuple[int, object, float | None]]:
    return [
        (note.bar, float(note.beat), start + quarter * float(note.start)) for note in sounding_notes(PHRASE)
    ]


@pytest.mark.parametrize(
    ("beat", "meant"), [(2, 2), (2.5, Fraction(5, 2)), ("2½", Fraction(5, 2)), ("7/2", Fraction(7, 2)),
                        ("1⅓", Fraction(4, 3)), ("3", 3), ("2 5/7", Fraction(19, 7))],
)  # fmt: skip
def test_a_beat_is_a_number_or_a_text(beat: object, meant: Fraction) -> None:
    read = read_offsets(text_of([(1, beat, 1.0), (2, 1, 2.0)]), "a.json")
    assert read.notes[0] == (1, meant, 1.0)


def test_a_note_that_was_not_played_is_left_out() -> None:
    read = read_offsets(text_of([(1, 1, 1.0), (1, 2, None), (2, 1, 2.0)]), "a.json")
    assert [bar for bar, _, _ in read.notes] == [1, 2]


@pytest.mark.parametrize(
    "text",
    [
        "", "[]", "{}", '{"notes": []}', '{"phrase": "1", "notes": [{"bar": 1}]}',
        '{"phrase": 1, "notes": 3}',
        '{"phrase": "1", "notes": [{"bar": 1, "beat": "x", "at_s": 1}]}',
        '{"phrase": "1", "notes": [{"bar": 1, "beat": "1/0", "at_s": 1}]}',
        '{"phrase": "1", "notes": [{"bar": 1, "beat": 1, "at_s": -5}, {"bar": 2, "beat": 1, "at_s": 1}]}',
    ],
)  # fmt: skip
def test_what_is_no_such_text_is_refused_with_the_form(text: str) -> None:
    with pytest.raises(ReadError) as caught:
        read_offsets(text, "take.json")
    assert "take.json" in caught.value.message
    assert '"at_s"' in caught.value.hint


@given(st.floats(0.5, 30), st.floats(0.2, 1.5))
def test_a_steady_recording(start: float, quarter: float) -> None:
    """Each bar is four quarters long, each note as long as it is written."""
    seconds = start + 10 * quarter
    found = moments_of_recording(PHRASE, read_offsets(text_of(steady(start, quarter)), "a"), seconds)
    assert [note.note for note in found.notes] == list(range(7))
    for heard, note in zip(found.notes, sounding_notes(PHRASE), strict=True):
        assert heard.start_s == pytest.approx(start + quarter * float(note.start))
        assert heard.end_s == pytest.approx(start + quarter * float(note.start + note.quarters))
    assert [bar.number for bar in found.bars] == [1, 2, 0]
    starts = [start, start + 4 * quarter, start + 8 * quarter]
    assert [bar.start_s for bar in found.bars] == pytest.approx(starts)


def test_two_rounds_are_two_chapters() -> None:
    times = [*steady(2.0, 0.5), *steady(8.0, 0.5)]
    found = moments_of_recording(PHRASE, read_offsets(text_of(times), "a"), 14.0)
    assert [(one.start_s, one.title) for one in found.chapters] == [(2.0, "1"), (8.0, "2")]
    assert [note.note for note in found.notes] == [*range(7), *range(7)]
    assert found.bar_at(1.0) == 0
    assert found.bar_at(4.1) == 2
    assert found.bar_at(7.0) == 0
    assert found.bar_at(8.0) == 1


def test_a_bar_without_a_heard_note_is_put_between_those_about_it() -> None:
    times = [row for row in steady(1.0, 0.5) if row[:2] != (2, 1.0)]
    found = moments_of_recording(PHRASE, read_offsets(text_of(times), "a"), 9.0)
    assert [bar.start_s for bar in found.bars if bar.number == 2] == [pytest.approx(3.0)]


def test_offsets_of_another_phrase_are_refused() -> None:
    times = [(9, 1, 1.0), (9, 2, 2.0), (9, 3, 3.0), (1, 1, 4.0)]
    with pytest.raises(ReadError, match="1 of 4 notes"):
        moments_of_recording(PHRASE, read_offsets(text_of(times), "a"), 9.0)  # type: ignore[arg-type]


def test_chapters_get_their_titles() -> None:
    found = titled(
        Moments((), (BarAt(1, 0.0),), 2.0, (ChapterAt(0, "1"), ChapterAt(1, "x"))), {"1": "Round 1"}
    )
    assert [one.title for one in found.chapters] == ["Round 1", "x"]
