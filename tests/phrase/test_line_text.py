from __future__ import annotations

from fractions import Fraction

import pytest

from shedbook.errors import NotationError
from shedbook.phrase.line_text import parse_line, print_line
from shedbook.phrase.model import Bar, Event, Value
from shedbook.theory.metre import Metre
from shedbook.theory.pitch import Pitch

COMMON = Metre(4, 4)
EIGHTH, QUARTER, HALF = Value(8), Value(4), Value(2)

# Every row follows from the rules of the line and its normal form in the design of the manuscript.
NORMAL_FORMS = [
    pytest.param("4/4", "1/4 C5 D E F", "1/4 c5 d e f", id="lower case"),
    pytest.param("4/4", "1/4 c5 1/4 d 1/4 e 1/4 f", "1/4 c5 d e f", id="value only where it changes"),
    pytest.param("4/4", "1/4 c5 d5 e6 f6", "1/4 c5 d e6 f", id="octave only where it changes"),
    pytest.param("4/4", "1/1 c5 | d | e", "1/1 c5 | d5 | e5", id="octave on each bar's first note"),
    pytest.param("4/4", "1/2 b4 c", "1/2 b4 c", id="the number changes at C: this c is an octave low"),
    pytest.param("4/4", " |1/2\tc5\n-|\n", "1/2 c5 -", id="white space and outer bar lines"),
    pytest.param("4/4", "1/2 - c5 | - d", "1/2 - c5 | - d5", id="first note after a rest has its octave"),
    pytest.param("4/4", "1/4. Bb4 1/8 b 1/2 ebb", "1/4. bb4 1/8 b 1/2 ebb", id="capital B flat, small b"),
    pytest.param("4/4", "1/2 c##5 f#", "1/2 c##5 f#", id="double sharp"),
    pytest.param("4/4", "1/2.. c5 1/8 d", "1/2.. c5 1/8 d", id="double dot"),
    pytest.param("4/4", "1/8(3:2) c5 d e 1/2. f", "1/8t c5 d e 1/2. f", id="triplet by its short name"),
    pytest.param("4/4", "1/16(5:4) c5 d e f g 1/2. a", "1/16(5:4) c5 d e f g 1/2. a", id="quintuplet"),
    pytest.param("6/8", "1/8(2:3) c5 d 1/8 e f g", "1/8(2:3) c5 d 1/8 e f g", id="duplet in 6/8"),
    pytest.param("4/4", "1/8+1/4 g4 a 1/4 b", "1/8+1/4 g4 a 1/4 b", id="a tied value holds"),
    pytest.param("4/4", "1/1 c5 | + 1/1 | +1/2 d", "1/1 c5 | + 1/1 | + 1/2 d5", id="held over three bars"),
    pytest.param("4/4", "1/2 c5 d | + 1/2 e", "1/2 c5 d | + 1/2 e5", id="a tie always says its value"),
    pytest.param("4/4", "(1/4 c5 d) ( e f )", "1/4 (c5 d) (e f)", id="slur brackets beside other words"),
    pytest.param("4/4", "1/4 (c5 (d) e) f", "1/4 (c5 (d) e) f", id="one slur ends where the next begins"),
    pytest.param("4/4", "1/4 ((c5 d) e) f", "1/4 ((c5 d) e) f", id="slur within a slur"),
    pytest.param("4/4", "1/1 (c5 | + 1/2) d", "1/1 (c5 | + 1/2) d5", id="slur that ends on a tied note"),
    pytest.param("4/4", "1/1 c5.fall.accent", "1/1 c5.accent.fall", id="marks in the table's order"),
    pytest.param("4/4", "1/1 grace:F#5 grace:e g", "1/1 grace:f#5 grace:e g", id="grace notes"),
    pytest.param("4/4", "grace:f#4 1/1 c5", "1/1 grace:f#4 c5", id="grace note before the value"),
    pytest.param("4/4", "1/2 (c5 grace:f# g.ghost)", "1/2 (c5 grace:f# g.ghost)", id="grace inside a slur"),
    pytest.param("5/4", "1/2. c5 1/2 d", "1/2. c5 1/2 d", id="five four"),
    pytest.param("7/8", "1/4 c5 1/8 d 1/2 e", "1/4 c5 1/8 d 1/2 e", id="seven eight"),
]


@pytest.mark.parametrize(("metre", "typed", "normal"), NORMAL_FORMS)
def test_normal_form(metre: str, typed: str, normal: str) -> None:
    bars = parse_line(typed, Metre.parse(metre))
    assert print_line(bars) == normal
    assert parse_line(normal, Metre.parse(metre)) == bars


def test_model_of_a_line() -> None:
    bars = parse_line("1/4 eb5 | 1/8+1/4 (g f.accent) 1/8 - grace:f#4 g5 | + 1/2 -", COMMON, Fraction(1))
    g5, eb5, f5 = Pitch.parse("G5"), Pitch.parse("Eb5"), Pitch.parse("F5")
    held = (EIGHTH, QUARTER)
    assert bars == (
        Bar(0, (Event(eb5, (QUARTER,)),)),
        Bar(
            1,
            (
                Event(g5, held, slurs_open=1),
                Event(f5, held, marks=("accent",), slurs_close=1),
                Event(None, (EIGHTH,)),
                Event(g5, (EIGHTH,), grace=(Pitch.parse("F#4"),)),
            ),
        ),
        Bar(2, (Event(g5, (HALF,), tie_in=True), Event(None, (HALF,)))),
    )


def test_an_accidental_belongs_to_its_note_alone() -> None:
    events = parse_line("1/4 f#5 f f f#", COMMON)[0].events
    assert [event.pitch and event.pitch.alteration for event in events] == [1, 0, 0, 1]


def test_the_outermost_notes_are_read() -> None:
    bars = parse_line("1/2 a0 c8", COMMON)
    assert [event.pitch and event.pitch.midi for event in bars[0].events] == [21, 108]


# text, what is underlined, bar, beat, part of the message, part of the hint
ERRORS = [
    pytest.param("1/8 d5 j5", "j5", 1, "1½", '"j5" is not a note', "letter a to g", id="not a note"),
    pytest.param("1/4 d5 c###", "c###", 1, "2", '"c###" is not a note', "# b ## bb", id="too many sharps"),
    pytest.param("1/4 d5 b♭♭♭", "b♭♭♭", 1, "2", "is not a note", "letter a to g", id="three flat signs"),
    pytest.param("1/4 d5 r", "r", 1, "2", '"r" is not a note', 'A rest is "-"', id="rest by another name"),
    pytest.param(
        "1/4 d5 (c).accent", "c).accent", 1, "2", "is not a note", "after the last", id="bracket inside"
    ),
    pytest.param("1/4 f", "f", 1, "1", "needs its octave number", '"f4" or "f5"', id="no octave"),
    pytest.param(
        "1/4 (bb.accent c", "(bb.accent", 1, "1", "needs its octave", '"bb4"', id="no octave, dressed"
    ),
    pytest.param("f5 g", "f5", 1, "1", "first note has no value", '"1/8"', id="no value"),
    pytest.param("- f5", "-", 1, "1", "first note has no value", '"1/8"', id="no value for a rest"),
    pytest.param("1/3 c5", "1/3", 1, "1", "not among the note values", "1/16", id="no such value"),
    pytest.param("1/4... c5", "1/4...", 1, "1", "not among the note values", "dotted", id="three dots"),
    pytest.param("1/4 c5 3/4 d", "3/4", 1, "2", '"3/4" is a dotted half', '"1/2."', id="not over one"),
    pytest.param("1/4 c5 1/8+x d", "x", 1, "2", '"x" is not a note value', "tied", id="broken tied value"),
    pytest.param(
        "1/8(1:1) c5", "1/8(1:1)", 1, "1", "not a tuplet", "five in the time of four", id="no tuplet"
    ),
    pytest.param("1/8(16:4) c5", "1/8(16:4)", 1, "1", "not a tuplet", "15", id="tuplet too large"),
    pytest.param("1/4 c5 8 d", "8", 1, "2", '"8" stands alone', "1/8", id="bare number"),
    pytest.param(
        "1/4 c5 d e | f g a b",
        "e",
        1,
        "4",
        "Bar 1 is 3 beats long; a bar of 4/4 has 4.",
        'pickup = "1/2."',
        id="first bar short",
    ),
    pytest.param(
        "1/4 c5 d e f | g a b", "b", 2, "4", "Bar 2 is 3 beats long", "1 beat is missing", id="short"
    ),
    pytest.param(
        "1/4 c5 d e f g. | a", ".", 1, "5", "A full stop has no mark", "accent", id="stray full stop"
    ),
    pytest.param(
        "1/4 c5 d 1/2. e 1/4 f", "e", 1, "3", "Bar 1 is 6 beats long", "2 beats too long", id="long"
    ),
    pytest.param(
        "1/8t c5 d 1/4 e f g",
        "g",
        1,
        "4⅔",
        "is 3⅔ beats long",
        "3 in the time of 2 is left unfinished",
        id="unfinished triplet",
    ),
    pytest.param("1/4 c5 d e f | | g", "|", 2, "1", "Bar 2 is empty", '"1/1 -"', id="empty bar"),
    pytest.param("+ 1/4 c5", "+", 1, "1", "no note before this", "Remove", id="tie with nothing before"),
    pytest.param("1/2 c5 - | + 1/2 d", "+", 2, "1", "ends with a rest", '"-"', id="tie after a rest"),
    pytest.param(
        "1/4 c5 + 1/4", "+", 1, "2", "stands at the start of a bar", '"1/8+1/4 g"', id="tie inside a bar"
    ),
    pytest.param(
        "1/1 c5 | + d", "d", 2, "1", "length that is added is missing", "+ 1/4", id="tie without value"
    ),
    pytest.param("1/1 c5 | +", "+", 2, "1", "length that is added is missing", "+ 1/4", id="tie at the end"),
    pytest.param(
        "1/1 c5 | +) 1/1", "+)", 2, "1", "A slur ends on a note", "+ 1/4)", id="bracket on the plus"
    ),
    pytest.param("1/4 c5 (d e f", "(d", 1, "2", "never ends", '")"', id="slur left open"),
    pytest.param(
        "1/4 c5 d) e f", "d)", 1, "2", "No slur is open", "before its first note", id="slur not begun"
    ),
    pytest.param("1/4 (c5) d e f", "(c5)", 1, "1", "at least two notes", "bracket", id="slur on one note"),
    pytest.param("1/4 c5 (- d) e", "(-", 1, "2", "not on a rest", "note", id="slur from a rest"),
    pytest.param("1/4) c5", "1/4)", 1, "1", "not on a value", "after a note", id="slur that ends on a value"),
    pytest.param(") 1/4 c5", ")", 1, "1", "A slur ends on a note", "right after a note", id="lone bracket"),
    pytest.param("1/1 c5 (", "(", 1, "5", "A note is missing", "Write the note", id="slur opens at the end"),
    pytest.param("1/4 c5.acent d", "acent", 1, "1", '"acent" is not a mark', '"accent"', id="mark, nearly"),
    pytest.param("1/4 c5.zzz d", "zzz", 1, "1", '"zzz" is not a mark', "staccato", id="mark, nowhere near"),
    pytest.param("1/4 c5.fall.fall", "fall", 1, "1", "stands twice", "once", id="mark twice"),
    pytest.param(
        "1/4 c5 g#0 c",
        "g#0",
        1,
        "2",
        "G#0 lies outside the notes that can be written, A0 to C8",
        "c4",
        id="too low",
    ),
    pytest.param("1/4 c5 c#8", "c#8", 1, "2", "C#8 lies outside", "c4 is middle C", id="too high"),
    pytest.param("1/4 c-1", "c-1", 1, "1", "C-1 lies outside", "c4 is middle C", id="octave below zero"),
    pytest.param(
        "1/4 c5 d grace:c9 e", "grace:c9", 1, "3", "C9 lies outside", "c4", id="grace note too high"
    ),
    pytest.param("1/4 c5 grace:j d", "j", 1, "2", '"j" is not a note', "letter", id="grace, not a note"),
    pytest.param(
        "1/4 c5 grace:d.fall e", "grace:d.fall", 1, "2", "carries no mark", "g.accent", id="grace, marked"
    ),
    pytest.param(
        "1/4 c5 grace:d - e", "-", 1, "2", "right before a note, not before a rest", "", id="grace, rest"
    ),
    pytest.param("1/2 c5 d grace:e | 1/1 f", "|", 1, "5", "right before its note", "", id="grace, bar line"),
    pytest.param("1/2 c5 d grace:e", "grace:e", 1, "5", "right before its note", "", id="grace at the end"),
    pytest.param("", "", 1, "1", "The line has no notes", "at least one bar", id="empty"),
    pytest.param("|", "|", 1, "1", "The line has no notes", "at least one bar", id="bar line only"),
]


@pytest.mark.parametrize(("text", "meant", "bar", "beat", "message", "hint"), ERRORS)
def test_error(text: str, meant: str, bar: int, beat: str, message: str, hint: str) -> None:
    with pytest.raises(NotationError) as caught:
        parse_line(text, COMMON)
    error = caught.value
    assert message in error.message
    assert hint in error.hint
    assert error.place is not None
    assert (error.place.bar, error.place.beat) == (bar, beat)
    assert text[error.start : error.end] == meant


def test_pickup_that_does_not_fill() -> None:
    with pytest.raises(NotationError, match=r'The pick-up is 1 beat long; "pickup" says 2') as caught:
        parse_line("1/4 c5 | 1/1 d", COMMON, Fraction(2))
    assert caught.value.place is not None
    assert (caught.value.place.bar, caught.value.place.beat) == (0, "4")


def test_beats_are_counted_in_the_metres_denominator() -> None:
    with pytest.raises(NotationError, match=r"Bar 1 is 7 beats long; a bar of 6/8 has 6"):
        parse_line("1/4. c5 d 1/8 e", Metre(6, 8))


UNPRINTABLE = [
    pytest.param(Event(Pitch.parse("D5"), (Value(1),), tie_in=True), id="tied to another pitch"),
    pytest.param(Event(None, (Value(1),), tie_in=True), id="tied rest"),
    pytest.param(Event(Pitch.parse("C5"), (Value(1),), True, ("accent",)), id="tied with a mark"),
    pytest.param(Event(Pitch.parse("C5"), (Value(1),), True, (), (Pitch.parse("B4"),)), id="tied with grace"),
]


@pytest.mark.parametrize("event", UNPRINTABLE)
def test_what_the_text_cannot_say_is_refused(event: Event) -> None:
    first = Bar(1, (Event(Pitch.parse("C5"), (Value(1),)),))
    with pytest.raises(ValueError, match=r"tied-in|struck"):
        print_line((first, Bar(2, (event,))))


def test_a_tie_inside_a_bar_is_refused() -> None:
    note = Event(Pitch.parse("C5"), (HALF,))
    with pytest.raises(ValueError, match="opens a bar"):
        print_line((Bar(1, (note, Event(note.pitch, (HALF,), tie_in=True))),))


@pytest.mark.parametrize(
    "word", ["h" * 10_000, "1/" + "4" * 10_000, "c5." + "x" * 10_000, "c" + ")" * 10_000 + "d"]
)
def test_an_overlong_word_is_quoted_in_part(word: str) -> None:
    with pytest.raises(NotationError) as caught:
        parse_line(f"1/4 {word}", COMMON)
    assert len(caught.value.message) < 100


@pytest.mark.parametrize(
    ("line", "said"),
    [("1/8t c4 d 1/4 e 1/2 f", "after 2 values"), ("1/4 c4 1/8t d 1/4 e 1/2 f", "after 1 value.")],
)
def test_an_unfinished_tuplet_counts_its_values(line: str, said: str) -> None:
    with pytest.raises(NotationError, match="beats long") as caught:
        parse_line(line, Metre(4, 4))
    assert said in f"{caught.value.message} {caught.value.hint}"


def test_a_bar_line_before_any_note_is_passed_over_only_at_the_very_start() -> None:
    with pytest.raises(NotationError, match="Bar 1 is empty"):
        parse_line("1/4 | c5 d e f", COMMON)


def test_a_missing_bar_line_is_named_only_where_whole_bars_stand_in_one() -> None:
    with pytest.raises(NotationError) as two:
        parse_line("1/4 c5 d e f g a b c6", COMMON)
    assert 'as long as 2 bars, and a bar line is missing: write "|" before "g"' in two.value.hint
    with pytest.raises(NotationError) as more:
        parse_line("1/4 c5 d e f g a b c6 d", COMMON)
    assert "bar line is missing" not in more.value.hint
