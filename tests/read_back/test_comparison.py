"""What is said of a page that does not say what its phrase does."""

from dataclasses import replace

import pytest

from read_back.printed import hard_phrase, printed
from shedbook.phrase.model import Phrase
from shedbook.read_back.comparison import bar_lengths, mismatches, scale_mismatch, tab_mismatches
from shedbook.read_back.reading import ReadPitch
from shedbook.read_back.tablature import ReadFret
from shedbook.theory.chord_symbol import parse_chord
from shedbook.theory.pitch import Pitch


def _other(phrase: Phrase, bar: int, event: int, pitch: str) -> Phrase:
    events = list(phrase.bars[bar].events)
    events[event] = replace(events[event], pitch=Pitch.parse(pitch))
    bars = list(phrase.bars)
    bars[bar] = replace(bars[bar], events=tuple(events))
    return replace(phrase, bars=tuple(bars))


def test_a_mismatch_says_bar_beat_and_both_readings() -> None:
    phrase = hard_phrase("tuplets")
    read = printed(phrase).read()
    (found,) = mismatches(read, _other(phrase, 2, 0, "D4"))
    assert str(found) == "bar 3, beat 1: D4, but the page says Eb4"


def test_another_spelling_of_the_same_sound_is_a_mismatch() -> None:
    phrase = hard_phrase("tuplets")
    (found,) = mismatches(printed(phrase).read(), _other(phrase, 2, 0, "D#4"))
    assert (found.expected, found.read) == ("D#4", "Eb4")


@pytest.mark.parametrize(
    ("symbol", "right"),
    [("F7b9", True), ("F7(b9)", True), ("F7", False), ("F7#9", False), ("E#7b9", False), ("F7b9/A", False)],
)
def test_chord_symbols_are_compared_by_meaning_and_letters(symbol: str, right: bool) -> None:
    phrase = hard_phrase("compound")
    changes = (phrase.changes[0], replace(phrase.changes[1], chord=parse_chord("F7b9")), phrase.changes[2])
    wanted = replace(phrase, changes=changes)
    other = replace(phrase, changes=(changes[0], replace(changes[1], chord=parse_chord(symbol)), changes[2]))
    found = mismatches(printed(other).read(), wanted)
    assert (found == []) is right
    assert all(one.bar == 2 for one in found)


def test_metre_and_number_of_bars_are_compared() -> None:
    phrase = hard_phrase("compound")
    read = printed(phrase).read()
    shorter = replace(phrase, bars=phrase.bars[:2], changes=phrase.changes[:2])
    assert "2 bars" in {one.expected for one in mismatches(read, shorter)}
    assert mismatches(replace(read, metre=(3, 4)), phrase)[0].read == "3/4"


def test_a_missing_reminder_is_a_mismatch_only_where_one_is_due() -> None:
    phrase = hard_phrase("ties")
    read = printed(phrase).read()
    assert mismatches(read, phrase) == []
    (found,) = mismatches(read, phrase, reminders=frozenset({0}))
    assert str(found) == "bar 1, beat 1: C4 with its accidental, but the page says none"


def test_a_slur_too_few_is_a_mismatch() -> None:
    phrase = hard_phrase("grace notes")
    read = printed(phrase).read()
    assert read.slurs == 1
    assert [one.expected for one in mismatches(replace(read, slurs=0), phrase)] == ["1 arcs of slurs"]


def test_a_wrong_fret_is_named_with_its_string() -> None:
    phrase = hard_phrase("duplets")
    read = printed(phrase).read()
    for index, note in enumerate(read.bars[0].notes):
        read.bars[0].frets.append(ReadFret(note.x + 0.6, 2, index, False, False))
    stops = [(2, index) for index in range(6)]
    assert list(tab_mismatches(read, phrase, stops)) == []
    (found,) = tab_mismatches(read, phrase, [*stops[:5], (3, 5)])
    assert str(found).endswith("the tablature fret 5 on string 3, but the page says fret 5 on string 2")


def test_a_scale_is_compared_by_its_notes_and_its_chord() -> None:
    pitches, chord = (Pitch.parse("C4"), Pitch.parse("D4")), parse_chord("C7")
    read = (ReadPitch(28, 0), ReadPitch(29, 0))
    assert scale_mismatch(read, "C7", pitches, chord) == ""
    assert scale_mismatch((read[0], ReadPitch(29, -1)), "C7", pitches, chord) == (
        "C4 D4, but the page says C4 Db4"
    )
    assert scale_mismatch(read, "C6", pitches, chord) == "over C7, but the page says C6"


def test_a_pick_up_is_as_long_as_it_is() -> None:
    assert [int(one) for one in bar_lengths(hard_phrase("a pick-up"))] == [1, 4, 4, 4, 4]
