"""Repeats with jumps: D.C., D.S., segno, coda, Fine, and signs that stand for a bar or a beat.

The orders are common practice (after a jump repeats are passed over, "to coda" and Fine hold only then).
music21's `repeat.Expander` is asked too; where it plays otherwise, the row says what it does.
"""

from __future__ import annotations

import contextlib
import time
import warnings
from typing import NamedTuple

import pytest
from hypothesis import given
from hypothesis import strategies as st
from music21 import converter, repeat

from exchange.scores import chords, harmony, line, note, read, remarks, score
from shedbook.errors import ReadError
from shedbook.exchange.musicxml.repeat_signs import jump_words
from shedbook.exchange.musicxml.repeats import CAPO, CODA, FINE, MOST_BARS, SEGNO, RepeatSigns, unrolled

NAMES = ("C4", "D4", "E4", "F4", "G4", "A4", "B4", "C5", "D5", "E5")


def words(text: str, sound: str = "") -> str:
    ordered = f"<sound {sound}/>" if sound else ""
    return f"<direction><direction-type><words>{text}</words></direction-type>{ordered}</direction>"


def sign(name: str, sound: str = "") -> str:
    ordered = f"<sound {sound}/>" if sound else ""
    return f"<direction><direction-type><{name}/></direction-type>{ordered}</direction>"


def barline(location: str, inside: str) -> str:
    return f'<barline location="{location}">{inside}</barline>'


def forward() -> str:
    return barline("left", '<repeat direction="forward"/>')


def backward(more: str = "") -> str:
    return barline("right", f'<repeat direction="backward"{more}/>')


def first_ending() -> tuple[str, str]:
    return (
        barline("left", '<ending number="1" type="start"/>'),
        barline("right", '<ending number="1" type="stop"/><repeat direction="backward"/>'),
    )


def second_ending() -> tuple[str, str]:
    return (
        barline("left", '<ending number="2" type="start"/>'),
        barline("right", '<ending number="2" type="stop"/>'),
    )


class Row(NamedTuple):
    """Signs before and behind the note of each bar that has some, how many bars, and the order."""

    signs: dict[int, tuple[str, str]]
    bars: int
    order: str
    theirs: str = ""
    """What music21 plays, "" where it is the same; "refuses" where it plays nothing."""


ROWS = {
    "D.C.": Row({3: ("", words("D.C.", 'dacapo="yes"'))}, 3, "123123"),
    "D.C. by its words alone": Row({3: ("", words("Da Capo"))}, 3, "123123"),
    "D.C. al Fine": Row(
        {2: ("", words("Fine", 'fine="yes"')), 4: ("", words("D.C. al Fine", 'dacapo="yes"'))}, 4, "123412"),
    "D.C. al Fine, words alone": Row({2: ("", words("Fine")), 4: ("", words("D.C. al Fine"))}, 4, "123412"),
    "D.C. al Coda": Row(
        {2: ("", words("To Coda", 'tocoda="coda"')), 4: ("", words("D.C. al Coda", 'dacapo="yes"')),
         5: (sign("coda", 'coda="coda"'), "")}, 6, "12341256"),
    "D.S.": Row({2: (sign("segno", 'segno="s"'), ""), 4: ("", words("D.S.", 'dalsegno="s"'))}, 4, "1234234"),
    "D.S. by sign and words alone": Row({2: (sign("segno"), ""), 4: ("", words("Dal Segno"))}, 4, "1234234"),
    "D.S. al Fine": Row(
        {2: (sign("segno"), ""), 3: ("", words("Fine")), 5: ("", words("D.S. al Fine"))}, 5, "1234523"),
    "D.S. al Coda": Row(
        {2: (sign("segno"), ""), 3: ("", words("To Coda")), 5: ("", words("D.S. al Coda")),
         6: (words("Coda"), "")}, 7, "123452367"),
    "D.S. al Coda, two coda signs": Row(
        {2: (sign("segno"), ""), 3: ("", sign("coda")), 5: ("", words("D.S. al Coda")),
         6: (sign("coda"), "")}, 7, "123452367"),
    "repeats are passed over after D.C.": Row(
        {1: (forward(), ""), 2: ("", backward()), 3: ("", words("D.C.", 'dacapo="yes"'))}, 3, "12123123"),
    "after D.C. the last ending": Row(
        {2: first_ending(), 3: second_ending(), 4: ("", words("D.C.", 'dacapo="yes"'))}, 4, "12134134",
        "1212341234"),  # wrong: one ending right after the other
    "D.C. al Fine past endings": Row(
        {2: first_ending(), 3: (second_ending()[0], words("Fine") + second_ending()[1]),
         4: ("", words("D.C. al Fine", 'dacapo="yes"'))}, 4, "1213413",
        "121234123"),  # wrong: both endings again
    "a jump inside a repeat waits": Row(
        {2: (forward(), ""), 3: ("", words("D.C.", 'dacapo="yes"') + backward())}, 4, "123231234"),
    "repeats that are played after a jump too": Row(
        {1: (forward(), ""), 2: ("", backward(' after-jump="yes"')), 3: ("", words("D.C.", 'dacapo="yes"'))},
        3, "1212312123",
        "12123123"),  # does not know after-jump, which is newer
    "D.S. without a segno": Row({3: ("", words("D.S."))}, 4, "1234", "refuses"),
    "to coda without a coda": Row(
        {1: ("", words("To Coda")), 3: ("", words("D.C. al Coda"))}, 3, "123123", "refuses"),
    "Fine without a jump": Row({2: ("", words("Fine"))}, 3, "123"),
    "two segnos": Row(
        {1: (sign("segno", 'segno="a"'), ""), 2: ("", words("D.S.", 'dalsegno="a"')),
         3: (sign("segno", 'segno="b"'), ""), 4: ("", words("D.S.", 'dalsegno="b"'))},
        4, "12123434", "1234"),  # gives up without a word
    "a measure-level order": Row({3: ("", '<sound dacapo="yes"/>')}, 3, "123123",
        "123"),  # does not read orders outside directions
    "a segno behind the last note opens the next bar": Row(
        {1: ("", sign("segno", 'segno="s"')), 3: ("", words("D.S.", 'dalsegno="s"'))}, 3, "12323",
        "123123"),  # counts by whole bars
}  # fmt: skip


def measures(row: Row) -> list[str]:
    found = []
    for number in range(1, row.bars + 1):
        before, after = row.signs.get(number, ("", ""))
        found.append(before + note(NAMES[number - 1]) + after)
    return found


def numbers(names: list[str]) -> str:
    known = [name.lower() for name in NAMES]
    return "".join(str(known.index(name.lower()) + 1) for name in names)


def as_played(row: Row) -> str:
    read_bars = read(*measures(row), split="none").phrases[0].bars
    return numbers([str(bar.events[0].pitch) for bar in read_bars])


@pytest.mark.parametrize("row", ROWS.values(), ids=ROWS)
def test_jumps_are_followed(row: Row) -> None:
    assert as_played(row) == row.order


@pytest.mark.parametrize("row", ROWS.values(), ids=ROWS)
def test_music21_plays_so_too_where_it_is_not_said_otherwise(row: Row) -> None:
    assert theirs(row) == (row.theirs or row.order)


def theirs(row: Row) -> str:
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        part = converter.parse(score(*measures(row)).decode(), format="musicxml").parts[0]
        try:
            played = repeat.Expander(part).process()
        except repeat.ExpanderException:
            return "refuses"
    return numbers([one.nameWithOctave for one in played.recurse().notes])


def test_what_was_followed_is_said_and_what_leads_nowhere_too() -> None:
    assert any("jumps are written out" in one for one in remarks(read(*measures(ROWS["D.C."]))))
    assert any("no segno" in one for one in remarks(read(*measures(ROWS["D.S. without a segno"]))))
    assert any("no coda" in one for one in remarks(read(*measures(ROWS["to coda without a coda"]))))


def test_words_of_jumps_are_not_named_as_lost() -> None:
    assert not any("words" in one for one in remarks(read(*measures(ROWS["D.S. al Coda"]))))


@pytest.mark.parametrize(
    ("words_there", "jump", "until"),
    [
        ("D.C. al Fine", "D.C.", "fine"), ("DC al Coda", "D.C.", "coda"), ("Da capo", "D.C.", ""),
        ("D. S. al Coda", "D.S.", "coda"), ("dal segno al fine", "D.S.", "fine"), ("(D.S.)", "D.S.", ""),
    ],
)  # fmt: skip
def test_words_of_jumps(words_there: str, jump: str, until: str) -> None:
    found = jump_words(words_there)
    assert found is not None
    assert (found.jump, found.until) == (jump, until)


@pytest.mark.parametrize(
    "text", ["Dm7", "DCBA", "Coda brillante", "C", "fine and mellow", "Discover", "D.J."]
)
def test_other_words_are_no_jumps(text: str) -> None:
    assert jump_words(text) is None


marks = st.builds(
    RepeatSigns,
    forward=st.booleans(),
    times=st.integers(0, 3),
    ending=st.none() | st.sets(st.integers(1, 3), min_size=1).map(frozenset),
    ends=st.booleans(),
    after_jump=st.booleans(),
    segno=st.sampled_from(("", "", "a", "b")),
    coda=st.sampled_from(("", "", "a", "b")),
    coda_sign=st.booleans(),
    to_coda=st.sampled_from(("", "", "a", "b")),
    fine=st.booleans(),
    jump=st.sampled_from(("", "", CAPO, SEGNO)),
    to=st.sampled_from(("", "a", "c")),
    until=st.sampled_from(("", FINE, CODA)),
)


@given(st.lists(marks, max_size=10))
def test_any_signs_come_to_an_end(bars: list[RepeatSigns]) -> None:
    try:
        order = unrolled(bars, "test")
    except ReadError:
        return  # more bars than a line may have: that, too, is an end
    assert all(0 <= index < len(bars) for index in order)
    assert len(order) <= MOST_BARS


# Signs that stand for music already written


def style(inside: str) -> str:
    return f"<attributes><measure-style>{inside}</measure-style></attributes>"


START = style('<measure-repeat type="start">1</measure-repeat>')
STOP = style('<measure-repeat type="stop"/>')


def test_a_bar_sign_gives_the_bar_before_until_it_stops() -> None:
    found = read(note("C4"), START + note("-"), note("-"), STOP + note("-"), note("D4"))
    assert line(found) == "1/1 c4 | c4 | c4 | - | d4"


def test_a_bar_sign_brings_the_chords_along_unless_there_are_others() -> None:
    found = read(
        harmony("D", "minor-seventh") + note("C4"), START + note("-"), harmony("G", "dominant") + note("-")
    )
    assert chords(found) == "Dm7 | % | G7"


def test_a_sign_for_two_bars() -> None:
    start = style('<measure-repeat type="start" slashes="2">2</measure-repeat>')
    assert line(read(note("C4"), note("D4"), start + note("-"), note("-"))) == "1/1 c4 | d4 | c4 | d4"


def test_a_bar_sign_over_written_notes_says_nothing_new() -> None:
    assert line(read(note("C4"), START + note("D4"))) == "1/1 c4 | d4"


def test_a_bar_sign_with_nothing_before_it_is_named() -> None:
    found = read(START + note("-"), note("C4"))
    assert any("not there" in one for one in remarks(found))


def test_a_beat_sign_gives_the_beat_before() -> None:
    start, stop = style('<beat-repeat type="start"/>'), style('<beat-repeat type="stop"/>')
    found = read(note("C4", 1) + note("D4", 1) + start + note("-", 4) + stop + note("E4", 2))
    assert line(found) == "1/8 c4 d c d c d 1/4 e"


def test_a_beat_sign_goes_on_over_the_bar_line() -> None:
    start, stop = style('<beat-repeat type="start"/>'), style('<beat-repeat type="stop"/>')
    found = read(note("C4", 6) + note("D4", 2), start + note("-", 4) + stop + note("E4", 4))
    assert line(found) == "1/2. c4 1/4 d | d4 d 1/2 e"


def test_slashes_are_silent_and_named() -> None:
    found = read(note("C4"), style('<slash type="start"/>') + note("-"))
    assert any("slashes say no notes" in one for one in remarks(found))


def test_a_long_file_of_signs_is_ordered_quickly() -> None:
    bars = [
        RepeatSigns(ending=frozenset({1 + at % 2}), segno=f"s{at}", jump=SEGNO, to=f"s{at - 1}")
        for at in range(9000)
    ]
    start = time.process_time()
    with contextlib.suppress(ReadError):
        unrolled(bars, "test")
    assert time.process_time() - start < 1
