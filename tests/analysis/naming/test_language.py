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


def test_a_name_beyond_double_accidentals_is_plain_text() -> None:
    assert ENGLISH.short_note(NoteName(-21)) == "Cbbb"
    assert ENGLISH.short_note(NoteName(21)) == "C###"


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


UNITS = (
    "zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen "
    "seventeen eighteen nineteen"
)
TENS = "- - twenty thirty forty fifty sixty seventy eighty ninety"


def test_numbers_up_to_a_hundred_in_words() -> None:  # English usage
    words = Words({"numbers": UNITS, "tens": TENS, "tens and ones": "{tens}-{ones}"})
    said = {0: "zero", 19: "nineteen", 20: "twenty", 21: "twenty-one", 39: "thirty-nine", 90: "ninety"}
    said |= {99: "ninety-nine", 100: "100", 121: "121"}
    assert {number: words.number(number) for number in said} == said


def test_a_row_may_have_forms_and_a_gap_a_small_letter() -> None:
    words = Words({**WORDING, "degree.1": "der Grundton | den Grundton", "chord.minor": "{lower root}-Moll"})
    assert [words.form("degree.1", form) for form in (1, 2, 3)] == [
        "der Grundton",
        "den Grundton",
        "den Grundton",
    ]
    assert words("chord.minor", root="Es") == "es-Moll"
    with pytest.raises(KeyError, match="upper root"):
        Words({"chord.minor": "{upper root}"})("chord.minor", root="Es")


# The rule of Polish [CLDR, plural rules, cardinal].
FEW = [str(number) for number in range(100) if number % 10 in (2, 3, 4) and number // 10 != 1]
POLISH = Words({
    "one": "fraza", "many": "fraz", "many.few": "frazy", "plural.one": "1",
    "plural.few": " ".join([*FEW, *(f"*{int(ending):02}" for ending in FEW)]),
})  # fmt: skip


@pytest.mark.parametrize(
    ("number", "noun"),
    [(1, "fraza"), (2, "frazy"), (5, "fraz"), (12, "fraz"), (21, "fraz"), (22, "frazy"), (36, "fraz"),
     (101, "fraz"), (102, "frazy"), (112, "fraz")],
)  # fmt: skip
def test_a_noun_with_two_plurals(number: int, noun: str) -> None:
    assert POLISH.of_number(number, "one", "many") == noun
