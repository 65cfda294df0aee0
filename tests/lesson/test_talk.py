"""What is said of a phrase: it is so, and nothing is left out. Source: the account, and music21."""

from __future__ import annotations

import re
from functools import lru_cache
from pathlib import Path

import pytest
from music21 import pitch as pitches

from shedbook.analysis.account import Account, account
from shedbook.analysis.account.melodic_links import CHANGE
from shedbook.analysis.naming.spoken_names import name_words
from shedbook.book.ground.words import words_of
from shedbook.book.manuscript.opening import open_manuscript
from shedbook.book.manuscript.source import read_phrase
from shedbook.lesson.talk import degree_signs, line_of_notes, talk
from shedbook.phrase.fields import phrase_from_fields

EN = words_of("en")
DEMO = Path(__file__).parents[2] / "examples/tidewater"


@lru_cache(maxsize=1)
def demo() -> tuple[Account, ...]:
    return tuple(account(read_phrase(source)) for source in open_manuscript(DEMO).phrases)


def classes(text: str) -> list[int]:
    """Return the pitch classes of the names of notes in a text, as music21 reads them."""
    names = re.findall(r"(?<![A-Za-z])[A-G][♭♯♮]?(?![A-Za-z\d♭♯])", text)
    return [
        pitches.Pitch(one.replace("♭", "-").replace("♯", "#").replace("♮", "")).pitchClass for one in names
    ]


def test_every_chord_gets_its_scale_and_what_it_adds() -> None:
    for seen in demo():
        told = " ".join(talk(seen, EN).chords)
        for span in seen.spans:
            if span.scale is not None and span.chord.root is not None:
                assert EN.named("short scale", span.scale.name) in told


@pytest.mark.parametrize("place", range(0, 79, 6))
def test_the_notes_of_a_scale_are_those_that_music21_hears(place: int) -> None:
    """The names in "Over C7alt think C altered: …" have the pitch classes of the scale."""
    seen = demo()[place]
    scales = {(span.chord.meaning, span.scale): span for span in seen.spans if span.scale and span.chord.root}
    told = [text for text in talk(seen, EN).chords if text.startswith("Over ") and " think " in text]
    assert len(told) == len(scales)
    for text, span in zip(told, scales.values(), strict=True):
        assert span.scale is not None
        assert set(classes(text.partition(": ")[2])) == set(span.scale.pitch_classes)


def test_strong_beats_are_told_bar_by_bar() -> None:
    for seen in demo():
        told = talk(seen, EN).landings
        strong = [landing for landing in seen.landings if landing.on_strong_beat]
        assert len(told) == len({landing.bar for landing in strong})
        for landing in strong:
            note = seen.notes[landing.note]
            names = (name_words(note.written.name), f"{note.written.name.letter}♮")
            assert any(name in text for text in told for name in names), (seen.phrase.title, names)


def test_every_change_and_every_outside_note_is_told() -> None:
    for seen in demo():
        told = talk(seen, EN)
        changes = [link for link in seen.links if link.kind == CHANGE and link.after is not None]
        assert bool(told.crossings)
        for link in changes:
            goal = seen.notes[link.after or 0]
            assert any(name_words(goal.written.name) in text for text in told.crossings), seen.phrase.title
        for note in seen.notes:
            if not note.inside:
                name = name_words(note.written.name)
                assert any(name in text for text in told.outside), (seen.phrase.title, name)


def test_there_is_one_thing_to_practise() -> None:
    assert {len(talk(seen, EN).practice) for seen in demo()} == {1}


@pytest.mark.parametrize("tag", ["en", "de", "fr", "es", "pt"])
def test_every_language_says_it_without_a_gap(tag: str) -> None:
    words = words_of(tag)
    for seen in demo()[::5]:
        told = talk(seen, words)
        for sentences in (told.chords, told.landings, told.crossings, told.outside, told.practice):
            for text in sentences:
                assert "{" not in text
                assert text[:1] == text[:1].upper()
                assert text.endswith((".", "!"))
                assert "  " not in text


def test_a_phrase_without_notes() -> None:
    seen = account(phrase_from_fields({"title": "A", "changes": "C", "line": "1/1 -"}))
    assert talk(seen, EN).chords == ("The phrase has no notes yet.",)
    assert talk(seen, EN).landings == ()


def test_a_line_is_told_bar_by_bar() -> None:
    phrase = phrase_from_fields({
        "title": "A", "changes": "Cm7 | % | F7", "line": "1/4 eb4 d 1/2 c | 1/1 - | 1/2 a3 eb4"
    })  # fmt: skip
    assert line_of_notes(account(phrase), EN) == "E♭ D C | – | A E♭"
    assert line_of_notes(account(phrase), words_of("de")) == "Es D C | – | A Es"
    assert degree_signs("#11") == "♯11"
