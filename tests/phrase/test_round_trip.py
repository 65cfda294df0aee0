"""Laws of the text form: what is printed is read again, and printing what was read is the normal form."""

from __future__ import annotations

import contextlib
from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

import strategies
from shedbook.errors import NotationError, ReadError
from shedbook.phrase.changes_text import Changes, parse_changes, parse_scales, print_changes, print_scales
from shedbook.phrase.fields import fields_from_phrase, phrase_from_fields
from shedbook.phrase.line_text import event_spans, parse_line, print_line
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


@given(st.data(), strategies.metres)
def test_every_event_has_its_place_in_the_text(data: st.DataObject, metre: Metre) -> None:
    bars = data.draw(strategies.bars(metre))
    text = "| " + print_line(bars) + " |"
    spans = event_spans(text)
    assert [len(bar) for bar in spans] == [len(bar.events) for bar in bars]
    words = [[text[start:end].strip("()") for start, end in bar] for bar in spans]
    for bar, row in zip(bars, words, strict=True):
        for event, word in zip(bar.events, row, strict=True):
            assert (word == "+") == event.tie_in
            assert (word == "-") == (event.pitch is None)


@given(strategies.phrases(), st.integers(-8, 200))
def test_the_change_at_a_place_is_the_last_that_has_started(phrase: Phrase, eighths: int) -> None:
    place = Fraction(eighths, 2)
    started = [at for at, change in enumerate(phrase.changes) if phrase.change_start(change) <= place]
    assert phrase.change_index_at(place) == (started[-1] if started else 0)


# Nearly right text: words that mean something, and pieces of them, in any order.
WORDS = st.sampled_from(
    [
        "1/4",
        "c5",
        "c5",
        "1/8t",
        "1/8+1/8",
        "1/16(5:4)",
        "1/2..",
        "bb4",
        "(f#",
        "d)",
        "-",
        "+",
        "|",
        "|",
        "(",
        ")",
        "((",
        "+1/4",
        "grace:e",
        "g.accent",
        "1/",
        "1/8+",
        "c5.",
        ".fall",
        "grace:",
        "8",
        "(1/4",
        "1/4)",
        "h",
        "%",
        "é",
        "1/4(",
        "-)",
    ]
)
CHANGES = st.sampled_from(
    ["C", "G7", "Dm7b5", "|", "%", "@", "C@3", "@2", "F@4.5", "G@", "N.C.", "H", "C@9", "C@2+1/3"]
)
SCALES = st.sampled_from(["dorian", "C ionian", ",", "|", "%", "C", "locrian natural", "é"])


@given(st.lists(WORDS, max_size=12))
def test_nearly_right_lines_are_read_or_refused(words: list[str]) -> None:
    text = " ".join(words)
    with contextlib.suppress(NotationError):
        bars = parse_line(text, Metre(1, 4))
        assert parse_line(print_line(bars), Metre(1, 4)) == bars


@given(st.lists(CHANGES, max_size=10), st.lists(SCALES, max_size=8))
def test_nearly_right_changes_and_scales_are_read_or_refused(words: list[str], names: list[str]) -> None:
    with contextlib.suppress(ReadError):
        found = parse_changes(" ".join(words), Metre())
        assert parse_changes(print_changes(*found, Metre()), Metre()) == found
        scales = parse_scales(" ".join(names), *found)
        text = print_scales(scales, *found)
        assert not text or parse_scales(text, *found) == scales


@given(st.text(max_size=30))
def test_any_text_is_read_or_refused(text: str) -> None:
    with contextlib.suppress(ReadError):
        parse_line(text, Metre())
    with contextlib.suppress(ReadError):
        parse_changes(text, Metre())
