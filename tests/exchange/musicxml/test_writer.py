"""Manuscript to MusicXML and back is the identity, and every file is valid MusicXML 4.0."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from exchange.musicxml_schema import assert_valid
from exchange.scores import remarks
from shedbook.book.manuscript.opening import open_manuscript
from shedbook.book.manuscript.source import read_phrase
from shedbook.exchange.ground.mxl_container import packed
from shedbook.exchange.musicxml.reader import read_musicxml
from shedbook.exchange.musicxml.study_marks import StudyMarks
from shedbook.exchange.musicxml.writer import CONCERT, Setting, musicxml, musicxml_book
from shedbook.phrase.fields import phrase_from_fields
from shedbook.phrase.model import Phrase
from shedbook.theory.interval import Interval
from strategies import phrases

TENOR = Setting("Tenor saxophone", Interval(8, 14), signature=True)
BARITONE = Setting("Baritone saxophone", Interval(12, 21))
BASS = Setting("Double bass", Interval(7, 12), clef=("F", 4, 0), signature=True)
DEMO = open_manuscript(Path(__file__).parents[3] / "examples" / "tidewater")


def there_and_back(phrase: Phrase, setting: Setting = CONCERT, *, compressed: bool = False) -> None:
    text = musicxml(phrase, setting, book="A book", author="Nobody & Co", rights="None <of them>")
    data = packed(text.encode()) if compressed else text.encode()
    imported = read_musicxml(data, "test")
    assert remarks(imported) == []
    assert imported.phrases == (phrase,)


@given(phrases(), st.sampled_from([CONCERT, CONCERT, TENOR, BARITONE, BASS]))
@settings(deadline=None)
def test_there_and_back_is_the_same_phrase(phrase: Phrase, setting: Setting) -> None:
    there_and_back(phrase, setting)


@given(phrases(), st.sampled_from([CONCERT, TENOR]))
@settings(deadline=None, max_examples=60)
def test_every_file_is_valid(phrase: Phrase, setting: Setting) -> None:
    assert_valid(musicxml(phrase, setting, book="A book", author="Nobody"))


@pytest.mark.parametrize("source", DEMO.phrases, ids=lambda source: source.title)
def test_demo_phrases(source: object) -> None:
    phrase = read_phrase(source)  # type: ignore[arg-type]
    for setting in (CONCERT, TENOR):
        there_and_back(phrase, setting, compressed=True)
        assert_valid(musicxml(phrase, setting))


def test_silenced_rules_and_an_inferred_key_come_back() -> None:
    phrase = replace(
        read_phrase(DEMO.phrases[0]), silence=(("leap", "meant so"), ("range", "a & b")), key_inferred=True
    )
    there_and_back(phrase)


def test_a_file_that_another_program_has_changed_is_read_by_its_notes() -> None:
    """Scales and home key belong to the changes; where those are others now, they no longer hold."""
    phrase = read_phrase(DEMO.phrases[0])
    text = musicxml(phrase).replace('<kind text="7">dominant</kind>', '<kind text="m7">minor-seventh</kind>')
    imported = read_musicxml(text.encode(), "test")
    assert imported.phrases[0].changes[0].chord.text.endswith("m7")
    assert set(imported.phrases[0].scales) == {None}
    assert imported.phrases[0].commentary == phrase.commentary
    assert any("scales and home key are left out" in remark for remark in remarks(imported))


def test_a_rest_of_several_values_is_one_rest_again() -> None:
    fields = {"changes": "C | C", "line": "1/8+1/4 - 1/8 c4 1/4+1/4 - | 1/4+1/8 - 1/8 - 1/2 c4"}
    phrase = phrase_from_fields(fields)
    there_and_back(phrase)
    text = musicxml(phrase)
    assert '"shedbook-rests">1@0:2 1@2:2 2@0:2<' in text
    # Where another program has written a note there, what it wrote holds.
    moved = text.replace("1@2:2", "1@2:2 1@1:2 2@7:9 x")
    assert read_musicxml(moved.encode(), "test").phrases == (phrase,)


@pytest.mark.parametrize("fold", [None, True, False])
def test_the_say_on_octaves_comes_back(fold: bool | None) -> None:
    there_and_back(replace(read_phrase(DEMO.phrases[0]), fold=fold))


def test_the_same_phrase_gives_the_same_bytes() -> None:
    phrase = read_phrase(DEMO.phrases[0])
    assert packed(musicxml(phrase).encode()) == packed(musicxml(phrase).encode())


# Beams, the home key, words for study, and a book in one file


def test_beams_are_those_of_our_pages() -> None:
    # Common practice: eighths by half bars in 4/4; a dotted eighth with its sixteenth has a hook backward.
    phrase = phrase_from_fields({"title": "x", "changes": "C7", "line": "1/8 c4 d e f 1/8. g 1/16 a 1/4 b"})
    found = re.findall(r'<beam number="(\d)">([a-z ]+)<', musicxml(phrase))
    assert found == [
        ("1", "begin"), ("1", "continue"), ("1", "continue"), ("1", "end"),
        ("1", "begin"), ("1", "end"), ("2", "backward hook"),
    ]  # fmt: skip


def test_the_home_key_is_shown_by_other_programs() -> None:
    phrase = phrase_from_fields({"title": "x", "changes": "Cm7", "key": "C minor", "line": "1/1 c4"})
    assert "<credit-type>home key</credit-type><credit-words>C minor</credit-words>" in musicxml(phrase)
    tenor = Setting(transposed=Interval(8, 14))
    assert "<credit-words>D minor</credit-words>" in musicxml(phrase, tenor)


MARKED = phrase_from_fields(
    {"title": "Marked", "changes": "Dm7 G7 | Cmaj7", "line": "1/4 d4 f 1/2 b | 1/2 c5 1/8t e d c 1/4 -"}
)
MARKS = StudyMarks(("D dorian", "G mixolydian", "C major"), ("1", "b3", "3", "1", "3", "9", "1"))


def test_words_for_study_are_valid_and_say_nothing_new() -> None:
    text = musicxml(MARKED, marks=MARKS)
    assert_valid(text)
    assert re.findall(r">([A-G] [a-z]+)</words>", text) == list(MARKS.scales)
    assert tuple(re.findall(r'id="study-note-\d+".*?>([b#0-9]+)</words>', text)) == MARKS.degrees
    imported = read_musicxml(text.encode(), "x")
    assert imported.phrases == (MARKED,)
    assert imported.report.remarks == ()


def test_a_book_is_one_file_with_a_section_a_phrase() -> None:
    other = replace(MARKED, title="Other")
    text = musicxml_book([(MARKED, MARKS), (other, None)], book="Both")
    assert_valid(text)
    found = read_musicxml(text.encode(), "x").phrases
    assert [phrase.title for phrase in found] == ["Both Marked", "Both Other"]
    assert [phrase.bars for phrase in found] == [MARKED.bars, other.bars]
