"""The words of a language: gaps, numbers and lists, and rows that are missing [the project's design]."""

from __future__ import annotations

import pytest

from shedbook.analysis.naming.language import ENGLISH, Words, joined, note_as_written, number_words
from shedbook.analysis.naming.tables.wording import WORDING
from shedbook.errors import MissingRowError
from shedbook.theory.pitch import NoteName


def test_a_missing_row_is_named_with_the_file_to_write_it_in() -> None:
    with pytest.raises(MissingRowError, match=r'no row "scale\.of the moon"') as caught:
        ENGLISH.named("scale", "of the moon")
    assert "analysis/naming/tables/wording.py" in caught.value.hint


def test_a_language_without_a_row_that_is_needed_is_refused() -> None:
    rows = {name: text for name, text in WORDING.items() if name != "tell.pedal"}
    with pytest.raises(MissingRowError, match=r'no row "tell\.pedal" \(a note can be a pedal\)'):
        Words(rows).must_have(["tell.pedal"], "a note can be a pedal")


# common practice
@pytest.mark.parametrize(
    ("name", "said"), [("Bb", "B flat"), ("Bbb", "B double flat"), ("F##", "F double sharp")]
)
def test_a_note_as_it_is_written(name: str, said: str) -> None:
    assert note_as_written(NoteName.parse(name), ENGLISH) == said


def test_a_triple_accidental_is_not_said_as_something_else() -> None:
    with pytest.raises(MissingRowError, match="3 half steps"):
        note_as_written(NoteName.of("C", 3), ENGLISH)


def test_names_for_the_eye_and_for_the_ear() -> None:
    assert [ENGLISH.short_note(NoteName.parse(name)) for name in ("Bb", "F#", "C", "Bbb")] == [
        "B♭",
        "F♯",
        "C",
        "B♭♭",
    ]
    words = Words({**WORDING, "mode.minor": "minor", "key": "{tonic} {mode}"})
    assert (words.whole_key("Bb minor"), words.voiced_key("Bb minor")) == ("B♭ minor", "B flat minor")


def test_numbers_and_lists() -> None:
    assert [number_words(number) for number in (0, 1, 12, 13)] == ["no", "one", "twelve", "13"]
    assert joined(["a", "b", "c"]) == "a, b and c"
    assert joined(["a", "b"]) == "a and b"
