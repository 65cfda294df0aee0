"""Names in sentences: found by the language of the book, and put into another key. The sentences are ours."""

from __future__ import annotations

import pytest

from analysis.naming.prose_sentences import IN_PORTUGUESE, SENTENCES, THIRTY_MORE
from shedbook.analysis.naming.language import ENGLISH
from shedbook.analysis.naming.prose_names import (
    NameInProse,
    names_in_prose,
    prose_language,
    renamed_prose,
    without_marks,
)
from shedbook.analysis.naming.spoken_names import name_words
from shedbook.theory.interval import Interval
from shedbook.theory.pitch import NoteName

TONE_UP = Interval(1, 2)


def marked(text: str, language: str) -> str:
    """Return a text with its names in angle quotes."""
    said, at = "", 0
    for name in names_in_prose(text, language):
        said += f"{text[at : name.start]}‹{text[name.start : name.end]}›"
        at = name.end
    return said + text[at:]


@pytest.mark.parametrize(("language", "sentence"), [*SENTENCES, *THIRTY_MORE, *IN_PORTUGUESE])
def test_every_name_is_found_and_nothing_else(language: str, sentence: str) -> None:
    plain = sentence.replace("‹", "").replace("›", "")
    assert marked(plain, language) == sentence


@pytest.mark.parametrize(
    ("language", "sentence"),
    [
        ("en", "On the Eb string play ‹G›, over ‹Eb›7 too."),
        ("fr", "Puis ‹la›, ‹do dièse›."), ("fr", "Puis la, puis rien."),  # certain beside a certain one
    ],
)  # fmt: skip
def test_what_stands_beside_a_name_decides(language: str, sentence: str) -> None:
    plain = sentence.replace("‹", "").replace("›", "")
    assert marked(plain, language) == sentence


def test_double_accidentals_in_words() -> None:
    names = names_in_prose("From B double flat to F double sharp.", "en")
    assert [str(found.name) for found in names] == ["Bbb", "F##"]


def test_there_are_eighty_sentences() -> None:
    assert (len(SENTENCES), len(THIRTY_MORE)) == (50, 30)


def up(text: str, by: Interval = TONE_UP) -> str:
    """Return a text a whole step up, as for a reader in B flat."""

    def call(found: NameInProse) -> NoteName:
        return found.name + by

    def spoken(name: NoteName, natural: bool) -> str:
        return name_words(name, ENGLISH) + "♮" * natural

    return renamed_prose(text, call, spoken)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("B flat falls to A.", "C falls to B."),
        ("An A, then a G.", "A B, then an A."),
        ("The F minor chord over Bbm7 and E♭7.", "The G minor chord over Cm7 and F7."),
        ("E natural, the third of C.", "F♯, the third of D."),
        ("A natural, the #11.", "B♮, the #11."),
        ("F7/A, then G7.", "G7/B, then A7."),
        ("C7/Ab falls to B♭.", "D7/Bb falls to C."),
        ("On the {G} string play G.", "On the G string play A."),
        ("Both Ds.", "Both Es."),
        ("B♭ and E.", "C and F♯."),
        ("All the B flats are short.", "All the Cs are short."),
    ],
)
def test_names_move_and_words_stay(text: str, expected: str) -> None:
    assert up(text) == expected


def test_braces_are_not_printed() -> None:
    assert without_marks("the {G} string") == "the G string"


def test_a_chord_at_the_start_of_a_sentence_needs_the_phrase() -> None:
    text = "A flat 7 stands in for D7."
    known = frozenset((NoteName.parse("Ab"),))
    assert [str(found.name) for found in names_in_prose(text, "en", known)] == ["Ab", "D"]
    assert [str(found.name) for found in names_in_prose(text, "en")] == ["D"]


def test_the_language_is_the_first_part_of_the_tag() -> None:
    assert prose_language("nl-BE") == ""
    assert prose_language("pt-BR") == "pt"
    assert prose_language("de-AT") == "de"
    assert names_in_prose("Das Es fällt.", "xx") == ()
    assert [str(found.name) for found in names_in_prose("Bbm7, dann Es.", "xx")] == ["Bb"]


@pytest.mark.parametrize(
    ("text", "chords", "names"),
    [
        ("A diminished is F7b9 without its root.", ("A",), ["A", "F"]),
        ("A minor third up.", ("A",), []),
        ("A minor ii-V.", ("A",), []),
        ("A diminished chord.", (), []),
        ("A7 stands in for Eb7.", (), ["A", "Eb"]),
    ],
)
def test_an_opening_a_with_a_mode_needs_the_chord(
    text: str, chords: tuple[str, ...], names: list[str]
) -> None:
    known = frozenset(NoteName.parse(chord) for chord in chords)
    assert [str(found.name) for found in names_in_prose(text, "en", known)] == names


@pytest.mark.parametrize(
    "text", ["C" + "1" * 5000 + "x", "C" + "m" * 5000 + "x", "A " * 3000, "b" * 5000, "la, " * 2000]
)
def test_long_texts_are_read_at_once(text: str) -> None:
    for language in ("en", "de", "it"):
        names_in_prose(text, language)
