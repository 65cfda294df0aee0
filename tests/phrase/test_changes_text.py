from __future__ import annotations

from fractions import Fraction

import pytest

from shedbook.errors import ChordSymbolError, NotationError, ReadError
from shedbook.phrase.changes_text import (
    parse_changes,
    parse_scales,
    print_beat,
    print_changes,
    print_scales,
)
from shedbook.phrase.model import ChangeAt
from shedbook.theory.chord_symbol import parse_chord
from shedbook.theory.metre import Metre

COMMON = Metre(4, 4)

# metre, typed, "symbol bar beat" of each change, normal form; the rules are the design's
CHANGES = [
    pytest.param(
        "4/4", "Dm7 | G7 | C6 | %", "Dm7 1 1, G7 2 1, C6 3 1, C6 4 1", "Dm7 | G7 | C6 | %", id="repeat"
    ),
    pytest.param("4/4", "|Dm7 G7|C6|", "Dm7 1 1, G7 1 3, C6 2 1", "Dm7 G7 | C6", id="outer bar lines"),
    pytest.param("4/4", "C F G C", "C 1 1, F 1 2, G 1 3, C 1 4", "C F G C", id="four share a bar"),
    pytest.param("3/4", "C F G", "C 1 1, F 1 2, G 1 3", "C F G", id="three in 3/4"),
    pytest.param("6/8", "C F", "C 1 1, F 1 4", "C F", id="two in 6/8"),
    pytest.param("4/4", "C F@3", "C 1 1, F 1 3", "C F", id="said where it falls anyway"),
    pytest.param("4/4", "C@1 F@4", "C 1 1, F 1 4", "C F@4", id="on beat 4"),
    pytest.param("4/4", "C F@4.5", "C 1 1, F 1 9/2", "C F@4.5", id="off-beat"),
    pytest.param("4/4", "C F@3+2/3", "C 1 1, F 1 11/3", "C F@3+2/3", id="triplet place"),
    pytest.param("4/4", "C F@2.250", "C 1 1, F 1 9/4", "C F@2.25", id="sixteenth place"),
    pytest.param("5/4", "C F@4", "C 1 1, F 1 4", "C F@4", id="five four"),
    pytest.param("4/4", "C | F@3", "C 1 1, F 2 3", "C | F@3", id="the chord before goes on"),
    pytest.param("4/4", "C F@4 | %", "C 1 1, F 1 4, C 2 1, F 2 4", "C F@4 | %", id="repeat of two"),
    pytest.param("4/4", "C | C", "C 1 1, C 2 1", "C | %", id="a bar like the one before"),
    pytest.param("4/4", "N.C.\n| C", "N.C. 1 1, C 2 1", "N.C. | C", id="no chord"),
    pytest.param(
        "4/4", "C7(b9,b13) F/A", "C7(b9,b13) 1 1, F/A 1 3", "C7(b9,b13) F/A", id="the author's own text"
    ),
]


@pytest.mark.parametrize(("metre", "typed", "expected", "normal"), CHANGES)
def test_changes(metre: str, typed: str, expected: str, normal: str) -> None:
    found = parse_changes(typed, Metre.parse(metre))
    said = [f"{change.chord.text} {change.bar} {change.beat}" for change in found.changes]
    assert said == expected.split(", ")
    assert print_changes(found.changes, found.bars, Metre.parse(metre)) == normal


# text, what is underlined, bar, part of the message, part of the hint
CHANGES_ERRORS = [
    pytest.param("", "", None, "changes are empty", "a chord for each bar", id="empty"),
    pytest.param("|", "|", None, "changes are empty", "a chord for each bar", id="a bar line alone"),
    pytest.param("% | C", "%", 1, "none", "repeats the whole bar", id="nothing to repeat"),
    pytest.param("C | | F", " ", 2, "Bar 2 has no chord", "N.C.", id="empty bar"),
    pytest.param("C % | F", "%", 1, "stands alone", "Write out", id="repeat beside a chord"),
    pytest.param(
        "C F G", "C F G", 1, "3 chords do not share the 4 beats of 4/4", "C F@2 G@3", id="three in 4/4"
    ),
    pytest.param(
        "C F G@4", "F", 1, "F does not say on which beat", "Beats count from 1 to 4", id="half said"
    ),
    pytest.param("C F@5", "F@5", 1, "4/4 has no beat 5", "1 to 4", id="past the bar"),
    pytest.param("C F@0", "F@0", 1, "4/4 has no beat 0", "1 to 4", id="before the bar"),
    pytest.param("C F@3 G@2", "G@2", 1, "no later than", "in order", id="backwards"),
    pytest.param("C | F@2 G@2", "G@2", 2, "no later than", "in order", id="two at one place"),
    pytest.param("C F@x", "@x", 1, '"x" is not a beat', "G7@4.5", id="not a beat"),
    pytest.param("C7 F@x", "@x", 1, '"x" is not a beat', "G7@4.5", id="not a beat, farther on"),
    pytest.param("F@3 G@4", "F@3", 1, "F starts on beat 3.", "N.C.", id="the first chord is named"),
    pytest.param("C F@", "@", 1, "beat is missing", "G7@4", id="no beat"),
    pytest.param("F@3 | C", "F@3", 1, "no chord on beat 1", "N.C.", id="nothing sounds at first"),
]


@pytest.mark.parametrize(("text", "meant", "bar", "message", "hint"), CHANGES_ERRORS)
def test_changes_error(text: str, meant: str, bar: int | None, message: str, hint: str) -> None:
    with pytest.raises(NotationError) as caught:
        parse_changes(text, COMMON)
    _check(caught.value, text, meant, bar, message, hint)


def test_an_example_divides_the_bar_as_far_as_beats_go() -> None:
    with pytest.raises(NotationError) as caught:
        parse_changes("C F G", Metre(5, 4))
    assert '"C F@2 G@3"' in caught.value.hint


def test_the_offset_of_a_chord_symbol_that_cannot_be_read() -> None:
    text = "Dm7 | G7 Hm7"
    with pytest.raises(ChordSymbolError) as caught:
        parse_changes(text, COMMON)
    _check(caught.value, text, "H", 2, "", "")


def _check(error: ReadError, text: str, meant: str, bar: int | None, message: str, hint: str) -> None:
    assert message in error.message
    assert hint in error.hint
    assert text[error.start : error.end] == meant
    assert (error.place.bar if error.place else None) == bar


def test_a_bar_in_which_no_chord_starts_is_written_with_the_one_that_goes_on() -> None:
    changes = (
        ChangeAt(1, Fraction(1), parse_chord("Dm7")),
        ChangeAt(1, Fraction(3), parse_chord("G7")),
        ChangeAt(3, Fraction(1), parse_chord("C")),
    )
    assert print_changes(changes, 3, COMMON) == "Dm7 G7 | G7 | C"


BEATS = [
    ("4", "4"),
    ("9/2", "4.5"),
    ("17/4", "4.25"),
    ("9/8", "1.125"),
    ("14/3", "4+2/3"),
    ("65/16", "4.0625"),
    ("33/32", "1+1/32"),
]


@pytest.mark.parametrize(("beat", "text"), BEATS)
def test_beats_in_the_text(beat: str, text: str) -> None:
    assert print_beat(Fraction(beat)) == text


# over "Dm7 G7 | C6 | %": typed, the scales, normal form
SCALES = [
    pytest.param(
        "dorian, altered | ionian | %",
        "D dorian, G altered, C ionian, C ionian",
        "dorian, altered | ionian | %",
        id="by the chord's root",
    ),
    pytest.param(
        "|dorian,altered|ionian|%|",
        "D dorian, G altered, C ionian, C ionian",
        "dorian, altered | ionian | %",
        id="outer bar lines",
    ),
    pytest.param(", altered | |", "-, G altered, -, -", ", altered | |", id="empty places and bars"),
    pytest.param(
        "C ionian, half whole | |",
        "C ionian, G half-whole diminished, -, -",
        "C ionian, half-whole diminished | |",
        id="a root of its own, an alias",
    ),
    pytest.param(
        "| D dorian | C ionian", "-, -, D dorian, C ionian", "| D dorian | ionian", id="chord's root dropped"
    ),
    pytest.param("||", "-, -, -, -", "", id="nothing said"),
]


@pytest.mark.parametrize(("typed", "expected", "normal"), SCALES)
def test_scales(typed: str, expected: str, normal: str) -> None:
    changes, bars = parse_changes("Dm7 G7 | C6 | %", COMMON)
    found = parse_scales(typed, changes, bars)
    assert ", ".join("-" if scale is None else str(scale) for scale in found) == expected
    assert print_scales(found, changes, bars) == normal


def test_repeated_scales_stand_on_the_chords_of_their_own_bar() -> None:
    changes, bars = parse_changes("Dm7 | Em7", COMMON)
    assert [str(scale) for scale in parse_scales("dorian | %", changes, bars)] == ["D dorian", "E dorian"]


SCALES_ERRORS = [
    pytest.param("dorian, altred | |", "altred", 1, '"altred" is not a scale', "altered", id="unknown"),
    pytest.param("dorian | |", "dorian ", 1, "Bar 1 has 2 chords, but scales for 1", "commas", id="too few"),
    pytest.param(
        "| ionian, dorian |", " ionian, dorian ", 2, "Bar 2 has 1 chord, but scales for 2", "", id="many"
    ),
    pytest.param(
        "| ionian", "| ionian", 3, "scales have 2 bars, the changes 3", "each bar", id="bars missing"
    ),
    pytest.param("|a|b|c|d", "|a|b|c|d", 4, "scales have 4 bars", "", id="bars too many"),
    pytest.param("% | |", "%", 1, "none", "", id="nothing to repeat"),
]


@pytest.mark.parametrize(("text", "meant", "bar", "message", "hint"), SCALES_ERRORS)
def test_scales_error(text: str, meant: str, bar: int, message: str, hint: str) -> None:
    changes, bars = parse_changes("Dm7 G7 | C6 | %", COMMON)
    with pytest.raises(NotationError) as caught:
        parse_scales(text, changes, bars)
    _check(caught.value, text, meant, bar, message, hint)


def test_scales_where_no_chord_starts_are_refused() -> None:
    changes, _ = parse_changes("C", COMMON)
    with pytest.raises(NotationError, match="Bar 2 has 0 chords, but scales for 1"):
        parse_scales("ionian | ionian", changes, 2)


def test_a_scale_over_no_chord_needs_its_own_root() -> None:
    changes, bars = parse_changes("N.C. | C", COMMON)
    with pytest.raises(NotationError, match="does not say the root"):
        parse_scales("dorian |", changes, bars)
    assert str(parse_scales("D dorian |", changes, bars)[0]) == "D dorian"
