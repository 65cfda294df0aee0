"""The fixed words of the pages: a second language, the author's own words, advice, alternative texts."""

from pathlib import Path

import pytest

from shedbook.book.ground import words as words_module
from shedbook.book.ground.languages import LANGUAGES
from shedbook.book.ground.paper import paper_of
from shedbook.book.ground.tables.chord_styles import QUALITY_FORMS
from shedbook.book.ground.tables.papers import PAPERS
from shedbook.book.ground.tables.words import ENGLISH
from shedbook.book.ground.words import Words, refused_row, words_of
from shedbook.book.manuscript.settings.pages import MarkChoice, PageSettings
from shedbook.book.manuscript.settings.whole_book import Settings
from shedbook.book.pages.advice import Habits, advice
from shedbook.book.scores.spoken_text import score_text
from shedbook.editions.tables.instruments import INSTRUMENTS
from shedbook.phrase.fields import phrase_from_fields
from shedbook.theory.progression import progression_names

EN = words_of("en")
GERMAN = {
    "contents": "Inhalt",
    "note.B": "H",
    "note.Bb": "B",
    "note.flat": "{letter}es",
    "short note.B": "H",
    "short note.Bb": "B",
    "short note.flat": "{letter}es",
    "mode.minor": "Moll",
    "numbers": "null eins zwei drei vier fünf sechs sieben acht neun zehn elf zwölf",
    "tens": "- - zwanzig dreißig",
    "tens and ones": "{ones}und{tens}",
}
"""Enough of a second table to see that a book can be made with one."""


@pytest.mark.parametrize(
    ("number", "words"),
    [(0, "zero"), (12, "twelve"), (19, "nineteen"), (20, "twenty"), (36, "thirty-six"), (99, "ninety-nine"),
     (100, "100")],
)  # fmt: skip
def test_numbers_in_words(number: int, words: str) -> None:
    assert EN.number(number) == words


def test_an_instrument_is_called_by_its_whole_name() -> None:
    for row in INSTRUMENTS:
        assert EN(f"edition.name.{row.name.lower()}").lower() == row.name.lower()
    assert EN("edition.name.tenor saxophone") == "Tenor saxophone"


def test_every_table_fills_the_same_gaps_as_the_english_one() -> None:
    for table in LANGUAGES.values():
        assert table.keys() == ENGLISH.keys()
        for name, text in table.items():
            assert refused_row(name, text, ENGLISH[name]) == ("", ""), name


def test_a_second_language_is_another_table(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(words_module, "LANGUAGES", {**LANGUAGES, "de": GERMAN})
    german = words_of("de-AT")
    assert german("contents") == "Inhalt"
    assert german.whole_key("Bb minor") == "B Moll"
    assert german.note("B") == "H"
    assert german.note("D") == "D"
    assert german.number(22) == "zweiundzwanzig"
    assert german("imprint.music", author="X") == EN(
        "imprint.music", author="X"
    )  # what is missing stays English


def test_the_authors_own_words_win() -> None:
    assert words_of("en", {"contents": "What is in it"})("contents") == "What is in it"


def test_the_advice_fits_the_book() -> None:
    def text(habits: Habits) -> str:
        return " ".join(said for one in advice(EN, habits) for said in one.says)

    unmarked = Settings(pages=PageSettings(marks=MarkChoice(scales=False, degrees=False)))
    bare = text(Habits(unmarked, keys=3))
    signs = frozenset(("chord.ring", "ghost"))
    full = text(Habits(Settings(signatures=True), keys=12, order="chromatic", signs=signs))
    assert "two more keys" in bare
    assert "eleven more keys" in full
    # Exactly the signs that the book has.
    assert ("small circle" in full, "circle with a stroke" in full, "ghost note" in full) == (
        True,
        False,
        True,
    )
    assert "ghost note" not in bare
    assert "small circle" not in bare
    assert "half steps" not in bare
    assert "figures under the notes" not in bare
    assert "no key signature" in bare
    assert "They climb by half steps." in full
    assert "where the line lands" in full
    assert "wedge" in full
    assert "no key signature" not in full
    assert "doctor" in bare  # a reader who hurts is sent to somebody who can help


@pytest.mark.parametrize("word", ["Rest", "jaw", "wrists", "teacher", "doctor", "headphones"])
def test_the_usual_cautions_are_there(word: str) -> None:
    assert word in EN("advice.body.says")


def test_an_alternative_text_says_every_note_with_bar_and_chord() -> None:
    phrase = phrase_from_fields(
        {
            "title": "Low tide", "key": "C minor", "changes": "G7b9 | Cm6 | %", "pickup": "1/4", "tempo": 132,
            "line": "1/4 g4 | 1/8 b4 d5 1/8t (f ab g) 1/4. bb 1/8 - | 1/2 eb5 c | + 1/4 1/2. -",
        }
    )  # fmt: skip
    assert score_text(phrase, EN) == (
        "Low tide in C minor, 4/4, 132 beats a minute, swing. Pick-up: quarter G 4. "
        "Bar 1, G 7 flat 9: eighth B 4, D 5, eighth triplet F 5, A flat 5, G 5, "
        "dotted quarter B flat 5, eighth rest. "
        "Bar 2, C m6: half note E flat 5, C 5. Bar 3, C m6: tied quarter, dotted half note rest."
    )


def test_a_word_that_is_not_there_is_an_error() -> None:
    with pytest.raises(KeyError):
        Words({})("contents")


def test_the_page_on_pages_lists_every_paper_and_form() -> None:
    page = (Path(__file__).parents[3] / "docs/pages.md").read_text(encoding="utf-8")
    for row in PAPERS:
        paper = paper_of(row.name)
        assert (
            f"| `{row.name}` | {row.width:g} × {row.height:g} | {paper.staff_mm:g} | {paper.home_staff_mm:g} "
            f"| {row.text_pt:g} | {row.most_keys} |"
        ) in page
    for quality, forms in QUALITY_FORMS:
        assert f"| {quality} | {', '.join(f'`{form}`' for form in forms)} |" in page


@pytest.mark.parametrize("language", LANGUAGES)
def test_every_progression_has_a_name(language: str) -> None:
    """Those of the tables, lines inside a chord and the blues: each may stand under a title."""
    table = words_of(language).table
    assert [name for name in progression_names() if f"progression.{name}" not in table] == []
