"""Laws of the text form: what is printed is read again, and printing what was read is the normal form."""

from __future__ import annotations

from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

import strategies
from shedbook.phrase.changes_text import Changes, parse_changes, parse_scales, print_changes, print_scales
from shedbook.phrase.fields import fields_from_phrase, phrase_from_fields
from shedbook.phrase.line_text import parse_line, print_line
from shedbook.phrase.model import Phrase, Value, sounding_notes
from shedbook.phrase.value_text import print_length, print_values, read_length, read_values
from shedbook.theory.metre import Metre


@given(st.data(), strategies.metres, st.sampled_from([Fraction(0), Fraction(1, 2), Fraction(1)]))
def test_line_is_read_as_printed(data: st.DataObject, metre: Metre, pickup: Fraction) -> None:
    bars = data.draw(strategies.bars(metre, pickup=pickup))
    text = print_line(bars)
    assert parse_line(text, metre, pickup) == bars
    assert print_line(parse_line(text, metre, pickup)) == text


@given(st.data(), strategies.metres)
def test_white_space_and_outer_bar_lines_say_nothing(data: st.DataObject, metre: Metre) -> None:
    bars = data.draw(strategies.bars(metre))
    loose = "\n| " + print_line(bars).replace(" ", " \n\t") + "|\n"
    assert parse_line(loose, metre) == bars


@given(st.data(), strategies.metres, st.integers(1, 5))
def test_changes_are_read_as_printed(data: st.DataObject, metre: Metre, count: int) -> None:
    changes = data.draw(strategies.changes(metre, count))
    text = print_changes(changes, count, metre)
    assert parse_changes(text, metre) == Changes(changes, count)


@given(st.data(), strategies.metres, st.integers(1, 5))
def test_scales_are_read_as_printed(data: st.DataObject, metre: Metre, count: int) -> None:
    changes = data.draw(strategies.changes(metre, count))
    scales = tuple(data.draw(st.none() | strategies.scales) for _ in changes)
    text = print_scales(scales, changes, count)
    if any(scales):
        assert parse_scales(text, changes, count) == scales
    else:
        assert text == ""


@given(strategies.phrases())
def test_phrase_is_read_from_its_own_fields(phrase: Phrase) -> None:
    assert phrase_from_fields(fields_from_phrase(phrase)) == phrase


@given(strategies.phrases(ornaments=False))
def test_sounding_notes_fill_the_phrase_with_its_rests(phrase: Phrase) -> None:
    sounding = sum((note.quarters for note in sounding_notes(phrase)), Fraction(0))
    rests = [event.quarters for bar in phrase.bars for event in bar.events if event.pitch is None]
    assert sounding + sum(rests) == sum(bar.quarters for bar in phrase.bars)


@given(st.lists(strategies.values, min_size=1, max_size=4).map(tuple))
def test_values_are_read_as_printed(values: tuple[Value, ...]) -> None:
    assert read_values(print_values(values)) == values


@given(strategies.values)
def test_lengths_are_read_as_printed(value: Value) -> None:
    text = print_length(value.quarters)
    assert text == "" or read_length(text) == value.quarters
