"""Other pitches in the text of a line. The rule of octave numbers is the project's own text form."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shedbook.errors import NotationError
from shedbook.phrase.line_edits import edited, pitch_edits
from shedbook.phrase.line_text import parse_line, print_line
from shedbook.phrase.model import Phrase, sounding_notes
from shedbook.theory.metre import Metre
from shedbook.theory.pitch import Pitch, spellings
from strategies import phrases

CASES = [
    pytest.param("1/4 c5 d e f", {1: "Eb5"}, "1/4 c5 eb e f", id="its octave holds already"),
    pytest.param("1/4 c5 d e f", {1: "Bb4"}, "1/4 c5 bb4 e5 f", id="the next note gets its number"),
    pytest.param("1/4 c5 b4 c5 d", {1: "C5"}, "1/4 c5 c5 c5 d", id="a number that stood there stays"),
    pytest.param("1/4 (c5.accent d) e f", {0: "C6"}, "1/4 (c6.accent d5) e f", id="marks and brackets stay"),
    pytest.param("1/4  c5\n d e  f |", {3: "G5"}, "1/4  c5\n d e  g |", id="white space stays"),
    pytest.param(
        "1/4 c5 grace:d e f g", {1: "E4"}, "1/4 c5 grace:d e4 f5 g", id="a grace note keeps its octave"
    ),
    pytest.param(
        "1/4 c5 d e f | + 1/4 1/2. g", {3: "F4"}, "1/4 c5 d e f4 | + 1/4 1/2. g5", id="a tie is no note"
    ),
]


@pytest.mark.parametrize(("text", "pitches", "expected"), CASES)
def test_a_note_gets_another_pitch(text: str, pitches: dict[int, str], expected: str) -> None:
    new = {note: Pitch.parse(pitch) for note, pitch in pitches.items()}
    assert edited(text, pitch_edits(text, new)) == expected


@given(phrases(), st.data())
def test_only_the_pitches_asked_for_change(phrase: Phrase, data: st.DataObject) -> None:
    text = print_line(phrase.bars)
    notes = sounding_notes(phrase)
    if not notes:
        return
    midi = st.integers(40, 80)
    asked = data.draw(st.dictionaries(st.integers(0, len(notes) - 1), midi, min_size=1))
    new = {note: spellings(number)[0] for note, number in asked.items()}
    pickup = phrase.bars[0].quarters if phrase.bars[0].number == 0 else 0
    read = parse_line(edited(text, pitch_edits(text, new)), phrase.metre, pickup)  # type: ignore[arg-type]
    after = sounding_notes(Phrase("", phrase.key, phrase.metre, read, phrase.changes, phrase.scales))
    expected = [new.get(index, note.pitch) for index, note in enumerate(notes)]
    assert [note.pitch for note in after] == expected
    assert [(note.start, note.quarters, note.marks) for note in after] == [
        (note.start, note.quarters, note.marks) for note in notes
    ]


def test_a_line_without_an_octave_is_refused() -> None:
    with pytest.raises(NotationError):
        pitch_edits("1/4 c d e f", {0: Pitch.parse("D4")})
    assert parse_line("1/4 c4 d e f", Metre())
